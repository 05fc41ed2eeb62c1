package pages_test

// How long a lesson is, on a tablet and on paper, and that it stands still while it is loaded.

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"

	"trundle/generator/work"
)

const (
	tabletScreen = 1180 // pixels of CSS, upright
	phoneWidth   = 360
	phoneScreen  = 740
	mostScreens  = 6
	mostPages    = 6    // of A4, and of Letter
	mostGrowth   = 54   // pixels: two lines of text
	mostShift    = 0.05 // half of what is called good for a whole visit (Web Vitals: layout shift)
)

// testIsShort looks at the lesson that is open on a tablet, as somebody does who has answered nothing, and prints it.
func testIsShort(t *testing.T, tab *browser.Tab, l *work.Lesson, isStudents bool) {
	t.Helper()
	const height = `document.documentElement.scrollHeight`
	first := browser.Ask[int](t, tab, height)
	if first > mostScreens*tabletScreen {
		t.Errorf("%s: %d px are more than %d screens of a tablet", l.Slug, first, mostScreens)
	}
	t.Logf("%s: %d px", l.Slug, first)
	paper := browser.A4
	if isStudents { // on A4 it is printed from the disk
		paper = browser.Letter
		if top := topOf(t, tab); top.Lines > tabletScreen || top.Do == 0 || top.Do > tabletScreen {
			t.Errorf("%s: on the first screen are not the first lines and the first thing to do, whole: %+v", l.Slug, top)
		}
	}
	testPrintedPages(t, l, isStudents, paper, browser.PrintedOn(t, tab, paper))
}

// testPrintedPages looks at how many pages a lesson takes that the browser has printed, and at what is on the last.
func testPrintedPages(t *testing.T, l *work.Lesson, isStudents bool, paper [2]float64, printed []byte) {
	t.Helper()
	pages, last := paperOf(t, printed)
	if pages > mostPages || pages == 0 {
		t.Errorf("%s: printed by the browser it takes %d pages of %v", l.Slug, pages, paper)
	}
	if pages > 1 && len(last) < 100 && isStudents {
		t.Errorf("%s: the last page of %v has nothing but %q", l.Slug, paper, last)
	}
	t.Logf("%s: %d pages of %v", l.Slug, pages, paper)
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
	text, err := exec.Command("pdftotext", file, "-").Output()
	if err != nil {
		t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
	}
	all := strings.Split(string(text), "\f") // each page ends with one
	if len(all) < 2 {
		return 0, ""
	}
	return len(all) - 1, strings.Join(strings.Fields(all[len(all)-2]), " ")
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

// TestLessonsStandStillWithoutTheTypeface opens each lesson with its typeface blocked, the students' page on a tablet
// and the mentors' on a phone, or the other way round, by turns. TestEveryPage has them with it on both; that it may
// come late has a test of its own. What is laid out before the typeface is all in style sheets that pages share: a page
// of an edition on a screen has nothing that six others have not.
func TestLessonsStandStillWithoutTheTypeface(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	browser.Order(t, tab, network.SetBlockedURLs, network.SetBlockedURLsParams{
		URLPatterns: []*network.BlockPattern{{URLPattern: "file:///*.woff2", Block: true}},
	})
	screens := [][2]int64{{browser.Tablet, tabletScreen}, {phoneWidth, phoneScreen}}
	for turn, screen := range screens {
		onScreen(t, tab, screen[0], screen[1])
		for i, l := range built.Lessons {
			name := []string{"students/", "mentors/"}[(i+turn)%2] + l.Slug + ".html"
			tab.Open(t, built.Root(), name)
			testStandsStill(t, tab, name, true)
		}
	}
}

// testStandsStill adds up what has moved in the lesson that is open until it can be filled in.
func testStandsStill(t *testing.T, tab *browser.Tab, name string, blocked bool) {
	t.Helper()
	if strings.HasPrefix(name, "students/") {
		browser.Filled(t, tab)
	}
	moved := browser.Ask[float64](t, tab, `new Promise((done) => {
		let sum = 0;
		new PerformanceObserver((list) => list.getEntries().forEach((e) => (sum += e.value)))
			.observe({ type: "layout-shift", buffered: true });
		setTimeout(() => done(sum), 100);
	})`)
	if moved > mostShift {
		width := browser.Ask[int](t, tab, `innerWidth`)
		t.Errorf("%s moves by %.3f at %d px, typeface blocked: %v", name, moved, width, blocked)
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
