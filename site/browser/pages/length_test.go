package pages_test

// How long a lesson is, on a tablet and on paper, and that it stands still while it is loaded.

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
)

const (
	tabletScreen = 1180 // pixels of CSS, upright
	mostScreens  = 6
	mostPages    = 6    // of A4
	mostShift    = 0.05 // half of what is called good for a whole visit (Web Vitals: layout shift)
)

// TestLessonsAreShort opens each lesson of the students' as somebody does who has answered nothing.
func TestLessonsAreShort(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for _, l := range built.Lessons {
		tab := browser.Open(t)
		onScreen(t, tab, browser.Tablet, tabletScreen)
		tab.Open(t, built.Root(), "students/"+l.Slug+".html")
		browser.Filled(t, tab)
		const height = `document.documentElement.scrollHeight`
		first, box := browser.Ask[int](t, tab, height), browser.Ask[int](t, tab, `(() => {
			const box = [...document.querySelectorAll("article input")].find((e) => e.checkVisibility());
			return box ? Math.round(box.getBoundingClientRect().bottom + scrollY) : 0;
		})()`)
		if first > mostScreens*tabletScreen {
			t.Errorf("%s: %d px are more than %d screens of a tablet", l.Slug, first, mostScreens)
		}
		care := browser.Ask[int](t, tab, `Math.round(document.querySelector(".needs").getBoundingClientRect().bottom)`)
		if care > tabletScreen {
			t.Errorf("%s: what is needed and to take care of ends at %d px, below the first screen", l.Slug, care)
		}
		pages, last := paperOf(t, browser.Printed(t, tab))
		if pages > mostPages {
			t.Errorf("%s: printed by the browser it takes %d pages", l.Slug, pages)
		}
		if pages > 1 && len(last) < 100 {
			t.Errorf("%s: the last page has nothing but %q", l.Slug, last)
		}
		browser.Ready(t, tab)
		t.Logf("%s: %d px, %d with all parts open; first box ends at %d; care at %d; %d pages", l.Slug, first,
			browser.Ask[int](t, tab, height), box, care, pages)
	}
}

// paperOf gives how many pages a PDF has, and what is on the last.
func paperOf(t *testing.T, pdf []byte) (pages int, last string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	info, err := exec.Command("pdfinfo", file).Output()
	if err != nil {
		t.Fatalf("this test needs pdfinfo, of poppler-utils: %v", err)
	}
	pages, _ = strconv.Atoi(string(regexp.MustCompile(`Pages:\s+(\d+)`).FindSubmatch(info)[1]))
	text, err := exec.Command("pdftotext", "-f", strconv.Itoa(pages), file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return pages, strings.Join(strings.Fields(string(text)), " ")
}

// TestAPrintedLessonLeavesOutWhatIsForTheScreen reads the pages of one lesson.
func TestAPrintedLessonLeavesOutWhatIsForTheScreen(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), browser.Lesson3)
	browser.Filled(t, tab)
	text := lettersOf(t, browser.Printed(t, tab))
	const want = "Aworksheetprintsbetterthanthispage:sheets/03-rotations-for-a-distance-a4.pdf"
	if !strings.Contains(text[:200], want) {
		t.Errorf("it begins with %.200q", text)
	}
	for _, wrong := range []string{"Alllessons", "version1.0.0", "Save,print,clear", "staysonthisdevice", "Next:", "▸",
		"▾", "›"} {
		if strings.Contains(text, wrong) {
			t.Errorf("on paper stands %q", wrong)
		}
	}
	// Parts that are shut on the screen are printed all the same.
	for _, want := range []string{"Exitticket", "Packaway", "Wheredidthepointerstop"} {
		if !strings.Contains(text, want) {
			t.Errorf("on paper is no %q", want)
		}
	}
}

// TestLessonsStandStillWhileTheyAreLoaded adds up what moves in each lesson until it can be filled in. The typeface has
// a test of its own; here it never comes.
func TestLessonsStandStillWhileTheyAreLoaded(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for _, screen := range [][2]int64{{browser.Tablet, tabletScreen}, {360, 740}} {
		tab := browser.Open(t)
		onScreen(t, tab, screen[0], screen[1])
		browser.Order(t, tab, network.SetBlockedURLs, network.SetBlockedURLsParams{
			URLPatterns: []*network.BlockPattern{{URLPattern: "file:///*.woff2", Block: true}},
		})
		for _, l := range built.Lessons {
			tab.Open(t, built.Root(), "students/"+l.Slug+".html")
			browser.Filled(t, tab)
			moved := browser.Ask[float64](t, tab, `new Promise((done) => {
				let sum = 0;
				new PerformanceObserver((list) => list.getEntries().forEach((e) => (sum += e.value)))
					.observe({ type: "layout-shift", buffered: true });
				setTimeout(() => done(sum), 100);
			})`)
			if moved > mostShift {
				t.Errorf("%s moves by %.3f at %d px", l.Slug, moved, screen[0])
			}
		}
	}
}

func onScreen(t *testing.T, tab *browser.Tab, width, height int64) {
	t.Helper()
	browser.Order(t, tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: width, Height: height, DeviceScaleFactor: 1,
	})
}
