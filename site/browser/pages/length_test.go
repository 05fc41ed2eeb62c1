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
	mostPages    = 6    // of A4, and of Letter
	mostGrowth   = 54   // pixels: two lines of text
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
		first, top := browser.Ask[int](t, tab, height), topOf(t, tab)
		if first > mostScreens*tabletScreen {
			t.Errorf("%s: %d px are more than %d screens of a tablet", l.Slug, first, mostScreens)
		}
		if top.Lines > tabletScreen || top.Do == 0 || top.Do > tabletScreen {
			t.Errorf("%s: on the first screen are not the first lines and the first thing to do, whole: %+v", l.Slug, top)
		}
		pages := 0
		for _, paper := range [][2]float64{browser.A4, browser.Letter} {
			var last string
			if pages, last = paperOf(t, browser.PrintedOn(t, tab, paper)); pages > mostPages {
				t.Errorf("%s: printed by the browser it takes %d pages of %v", l.Slug, pages, paper)
			}
			if pages > 1 && len(last) < 100 {
				t.Errorf("%s: the last page of %v has nothing but %q", l.Slug, paper, last)
			}
		}
		browser.Ready(t, tab)
		t.Logf("%s: %d px, %d with all parts open; %+v; %d pages of Letter", l.Slug, first,
			browser.Ask[int](t, tab, height), top, pages)
	}
}

// A lessonTop is where things at the top of a lesson end, in pixels of CSS from the top of the page: what is needed and
// to take care of, the first lines of the first part, the first thing to do in it, whole: the questions asked
// aloud, all of them, or the first box with its frame, whichever comes first (0 if it has neither).
type lessonTop struct{ Care, Lines, Do int }

func topOf(t *testing.T, tab *browser.Tab) lessonTop {
	t.Helper()
	return browser.Ask[lessonTop](t, tab, `(() => {
		const end = (e) => e ? Math.ceil(e.getBoundingClientRect().bottom + scrollY) : 0;
		const all = [...document.querySelectorAll(".part > ol, .part :is(input, textarea)")];
		const todo = all.find((e) => e.checkVisibility());
		return {
			care: end(document.querySelector(".needs")), lines: end(document.querySelector(".part > summary + *")),
			do: end(todo?.closest(".box") ?? todo),
		};
	})()`)
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

// TestLessonsStandStillWhileTheyAreLoaded adds up what moves in each lesson until it can be filled in, with the
// typeface and without; and in each of the mentors' pages. That it may come late has a test of its own.
func TestLessonsStandStillWhileTheyAreLoaded(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for _, screen := range [][2]int64{{browser.Tablet, tabletScreen}, {360, 740}} {
		for _, blocked := range []bool{false, true} {
			tab, most := browser.Open(t), 0.0
			onScreen(t, tab, screen[0], screen[1])
			browser.Order(t, tab, network.SetBlockedURLs, network.SetBlockedURLsParams{
				URLPatterns: []*network.BlockPattern{{URLPattern: "file:///*.woff2", Block: blocked}},
			})
			var names []string
			for _, l := range built.Lessons {
				names = append(names, "students/"+l.Slug+".html", "mentors/"+l.Slug+".html")
			}
			for _, name := range names {
				tab.Open(t, built.Root(), name)
				if strings.HasPrefix(name, "students/") {
					browser.Filled(t, tab)
				}
				moved := browser.Ask[float64](t, tab, `new Promise((done) => {
					let sum = 0;
					new PerformanceObserver((list) => list.getEntries().forEach((e) => (sum += e.value)))
						.observe({ type: "layout-shift", buffered: true });
					setTimeout(() => done(sum), 100);
				})`)
				most = max(most, moved)
				if moved > mostShift {
					t.Errorf("%s moves by %.3f at %d px, typeface blocked: %v", name, moved, screen[0], blocked)
				}
			}
			t.Logf("at %d px, typeface blocked: %v, lessons move by %.3f at most", screen[0], blocked, most)
		}
	}
}

// TestARightAnswerMovesLittleBelowItself fills one lesson in, and measures by how much each row that is found right
// grows: what stands below it moves down by that much. A line is kept free for it.
func TestARightAnswerMovesLittleBelowItself(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for _, width := range []int64{browser.Tablet, 360} {
		tab := browser.Open(t)
		onScreen(t, tab, width, tabletScreen)
		tab.Open(t, built.Root(), browser.Lesson3)
		browser.Ready(t, tab)
		const heights = `Object.fromEntries([...document.querySelectorAll(".row.find")].map((row) =>
			[row.querySelector("input").id.slice(3), row.offsetHeight]))`
		before := browser.Ask[map[string]int](t, tab, heights)
		browser.Fill(t, tab, [][2]string{{"d", "64.5"}, {"C", "20.3"}, {"n", "6.02"}, {"x", "70.9"}})
		for _, name := range []string{"C", "n", "x"} {
			browser.Wait(t, tab, `document.getElementById("told_`+name+`").dataset.state === "right"`)
		}
		after := browser.Ask[map[string]int](t, tab, heights)
		for _, name := range []string{"C", "n", "x"} {
			grown := after[name] - before[name]
			t.Logf("at %d px the row of %s grows by %d px", width, name, grown)
			if width == browser.Tablet && grown > mostGrowth {
				t.Errorf("at %d px the row of %s grows by %d px", width, name, grown)
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
