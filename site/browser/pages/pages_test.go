package pages_test

// What holds for every page, in a real browser: its links, headings, width, colours, and how it prints.

import (
	_ "embed"
	"flag"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/work"
	"trundle/site"
)

// With -shots DIR the tests also leave pictures for a person to look at.
var shots = flag.String("shots", "", "a `folder` for screenshots of the demo pack")

// TestEveryPage opens every page of both editions once, several side by side, since a visit is what costs: all that can
// be asked of a page as it comes, and then of a sheet in use. What pages are made of comes alike in both editions, so
// that of two pages one comes from the disk onto a phone, and the other from a server onto a tablet, by turns.
func TestEveryPage(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	server := httptest.NewServer(http.FileServer(http.Dir(built.Dir)))
	t.Cleanup(server.Close)
	roots := [...]string{built.Root(), browser.OnALAN(server.URL) + "/"}
	script := string(axeCore.file(t, "package/axe.min.js")) + plainPaper + oneOfALook
	lessons := map[string]*work.Lesson{} // by their pages
	turns := map[string]int{}            // of the two pages of a lesson one has an even turn
	for i, l := range built.Lessons {
		for e, edition := range site.Editions {
			name := string(edition) + "/" + l.Slug + ".html"
			lessons[name], turns[name] = l, i+e
		}
	}
	tabs := browser.Two(t)
	t.Run("pages", func(t *testing.T) {
		for i, name := range built.Pages {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				tab := <-tabs
				defer func() { tabs <- tab }()
				v := visit{tab, built, name, lessons[name], i}
				if v.lesson != nil {
					v.turn = turns[name]
				}
				v.open(t, roots[v.turn%2])
				v.look(t)
				browser.Ask[chromedp.Void](t, tab, script)
				v.judge(t)
				tab.Report(t)
			})
		}
	})
}

// A visit is a page that is open; its turn decides on which screen, and where it came from.
type visit struct {
	tab    *browser.Tab
	built  browser.Built
	name   string
	lesson *work.Lesson // nil for a page that is not a lesson's
	turn   int
}

func (v visit) isStudents() bool { return strings.HasPrefix(v.name, "students/") }

// open opens the page on a phone or a tablet.
func (v visit) open(t *testing.T, root string) {
	t.Helper()
	width, height := int64(phoneWidth), int64(phoneScreen)
	if v.turn%2 == 1 {
		width, height = browser.Tablet, tabletScreen
	}
	onScreen(t, v.tab, width, height)
	v.tab.Open(t, root, v.name)
	if v.lesson != nil {
		testStandsStill(t, v.tab, v.name, false)
	}
}

// look asks of the page what holds for it as it comes, on screens and on paper.
func (v visit) look(t *testing.T) {
	t.Helper()
	testPage(t, v.tab, v.built, v.name)
	if l := v.lesson; l != nil {
		testScaleOfTape(t, v.tab)
		onScreen(t, v.tab, browser.Tablet, tabletScreen)
		testIsShort(t, v.tab, l, v.isStudents())
		if v.isStudents() { // printed once for both
			printed := browser.Printed(t, v.tab)
			testAgreesWithItsSheet(t, v.built, l, printed)
			testPrintedPages(t, l, true, browser.A4, printed)
		}
	}
	testNothingIsCutOff(t, v.tab) // at a width that no view below has: what is too long for one is looked at anew
}

// judge holds the page against axe-core by day and by night, narrow and wide. Lessons, which are made alike, take turns
// at these four views: a sheet in use has one of them, and every other sheet its opposite as it comes, when nothing is
// on it that is not there in use.
func (v visit) judge(t *testing.T) {
	t.Helper()
	views := [...]axeView{narrowDay, wideDay, wideNight, narrowNight}
	sheet := v.lesson != nil && v.isStudents()
	switch {
	case v.lesson == nil:
		testAxe(t, v.tab, "as it comes", narrowNight, wideDay)
	case !sheet || v.turn%2 == 0:
		testAxe(t, v.tab, "as it comes", views[v.turn%len(views)])
	}
	if sheet { // at the other width, by the other light
		browser.OpenParts(t, v.tab)
		useSheet(t, v.tab, v.lesson)
		testAxe(t, v.tab, "in use", views[(v.turn+2)%len(views)])
	}
	if v.name == "mentors/class.html" {
		dropWork(t, v.tab)
		testAxe(t, v.tab, "with a class on it", wideNight, narrowDay)
	}
	if !sheet {
		return
	}
	if v.lesson == v.built.Lessons[0] {
		browser.Ask[chromedp.Void](t, v.tab, `document.querySelector("[data-act=clear]").click()`)
		testAxe(t, v.tab, "with a question in front", narrowDay, wideNight, wideDay, narrowNight)
	}
	browser.Ask[chromedp.Void](t, v.tab, `trundle.sheet.store.clear(true)`) // for the sheet that comes next
}

// TestTapeAndContrast looks at the pages of one lesson and at the care cards.
func TestTapeAndContrast(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	for _, name := range built.Both(t, "03-") {
		t.Run("tape/"+name, func(t *testing.T) { testTape(t, tab, built.Root(), name) })
	}
	for _, name := range append(built.Both(t, "03-"), built.Both(t, "care")...) {
		t.Run("contrast/"+name, func(t *testing.T) { testContrast(t, tab, built.Root(), name) })
	}
	if *shots != "" {
		for _, name := range append(built.Both(t, "03-"), built.Both(t, "index")...) {
			takeShots(t, tab, built.Root(), name)
		}
	}
}

// testPage asks of the page that is open what holds for all of them.
func testPage(t *testing.T, tab *browser.Tab, built browser.Built, name string) {
	t.Helper()
	tab.View(t, browser.Narrowest, browser.Light)
	p := browser.Ask[struct {
		Headings, Twice []string
		Lang, Title     string
		Links, Parts    []string
	}](t, tab, `({
		headings: [...document.querySelectorAll("h1")].map((h) => h.textContent.trim()),
		twice: [...document.querySelectorAll("[id]")].map((e) => e.id).filter((id, i, all) => all.indexOf(id) !== i),
		lang: document.documentElement.lang,
		title: document.title,
		links: [...document.querySelectorAll("a[href]")].map((a) => a.getAttribute("href")),
		parts: [...document.querySelectorAll("[src], link[href]")]
			.map((e) => e.getAttribute("src") ?? e.getAttribute("href")),
	})`)
	if len(p.Headings) != 1 || p.Headings[0] == "" {
		t.Errorf("the page has the main headings %q, not just one", p.Headings)
	}
	if p.Lang == "" || p.Title == "" {
		t.Errorf("the page has language %q and title %q; both are needed", p.Lang, p.Title)
	}
	if len(p.Twice) > 0 {
		t.Errorf("the page has more than one element of the names %q", p.Twice)
	}
	for _, to := range append(p.Links, p.Parts...) {
		if why := built.Broken(name, to); why != "" {
			t.Errorf("the link %q leads nowhere: %s", to, why)
		}
	}
	for _, wide := range overflowing(t, tab) {
		t.Errorf("the page scrolls sideways at %d px because of %s", browser.Narrowest, wide)
	}
	const longest = `globalThis.longest = document.querySelector("#_kit")?.appendChild(document.createElement("option"));
		if (longest) longest.text = "Heron with the big wheels and the new battery";`
	browser.Ask[chromedp.Void](t, tab, longest)
	for _, wide := range overflowing(t, tab) {
		t.Errorf("with a robot of a long name the page scrolls sideways because of %s", wide)
	}
	browser.Ask[chromedp.Void](t, tab, `longest?.remove()`)
	testDarkMode(t, tab)
}

// overflowing names what sticks out on the right of a page that scrolls sideways, the
// outermost elements only.
func overflowing(t *testing.T, tab *browser.Tab) []string {
	t.Helper()
	return browser.Ask[[]string](t, tab, `(() => {
		const width = document.documentElement.clientWidth;
		if (document.documentElement.scrollWidth <= width) return [];
		const sticksOut = (e) => e.getBoundingClientRect().right > width + .5;
		const scrolls = (e) => e.scrollWidth > e.clientWidth && getComputedStyle(e).overflowX !== "visible";
		const out = [...document.body.querySelectorAll("*")]
			.filter((e) => sticksOut(e) && !sticksOut(e.parentElement) && !scrolls(e.parentElement));
		return [document.documentElement.scrollWidth + " px of content", ...out.map((e) => e.outerHTML.slice(0, 120))];
	})()`)
}

// testDarkMode looks at a page that is open by day on the narrowest screen.
func testDarkMode(t *testing.T, tab *browser.Tab) {
	t.Helper()
	const paper = `getComputedStyle(document.body).backgroundColor`
	day := browser.Ask[string](t, tab, paper)
	tab.View(t, browser.Narrowest, browser.Dark)
	if night := browser.Ask[string](t, tab, paper); day == night {
		t.Errorf("the page is on %s by day and by night", day)
	}
}

// contrastScript gives the texts whose contrast with what is behind them falls short.
//
//go:embed testdata/contrast.js
var contrastScript string

// testContrast holds the colour of every text against what is behind it.
func testContrast(t *testing.T, tab *browser.Tab, root, name string) {
	tab.Open(t, root, name)
	for _, width := range []int64{browser.Phone, browser.Desktop} {
		for _, s := range []browser.Scheme{browser.Light, browser.Dark} {
			tab.View(t, width, s)
			found := browser.Ask[struct {
				Texts int
				Faint []string
			}](t, tab, contrastScript)
			if found.Texts < 20 {
				t.Errorf("only %d texts were looked at", found.Texts)
			}
			for _, faint := range found.Faint {
				t.Errorf("%s, %d px: too little contrast: %s", s, width, faint)
			}
		}
	}
}

func takeShots(t *testing.T, tab *browser.Tab, root, name string) {
	t.Helper()
	if err := os.MkdirAll(*shots, 0o755); err != nil {
		t.Fatal(err)
	}
	tab.Open(t, root, name)
	screens := map[string]int64{"phone": browser.Phone, "tablet": browser.Tablet, "desktop": browser.Desktop}
	for screen, width := range screens {
		for _, s := range []browser.Scheme{browser.Light, browser.Dark} {
			tab.View(t, width, s)
			file := strings.ReplaceAll(strings.TrimSuffix(name, ".html"), "/", "-") + "-" + screen + "-" + string(s) + ".png"
			shot := browser.Run(t, tab, chromedp.FullScreenshot(100))
			if err := os.WriteFile(filepath.Join(*shots, file), shot, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
