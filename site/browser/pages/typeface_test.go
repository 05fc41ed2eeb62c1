package pages_test

// The typeface in a browser: it is used, from a folder and over HTTP, and nothing moves when it comes late.

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// wide measures letters that differ most between the typeface and what stands in for it: in the page's own face, and in
// the other.
const wide = `document.fonts.ready.then(() => ["Sheet, system-ui", "system-ui"].map((family) => {
	const text = document.createElement("span");
	text.textContent = "illITtfrjMW";
	text.style.cssText = "position: absolute; font-size: 100px; font-family: " + family;
	document.body.append(text);
	const width = text.offsetWidth;
	text.remove();
	return width;
}))`

func TestPagesAreSetInTheTypeface(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	server := httptest.NewServer(http.FileServer(http.Dir(built.Dir)))
	t.Cleanup(server.Close)
	for _, root := range []string{built.Root(), server.URL + "/"} {
		for _, name := range []string{browser.Lesson3, "mentors/05-out-and-back.html", "students/care.html",
			"START-students.html"} {
			// A processor that many share may be too late with it, which is no fault: see type.js.
			var widths []float64
			for try := 0; try < 5 && (try == 0 || widths[0] == widths[1]); try++ {
				tab.Open(t, root, name)
				family := browser.Ask[string](t, tab, `getComputedStyle(document.querySelector("h1")).fontFamily`)
				if !strings.HasPrefix(family, "Sheet, system-ui,") {
					t.Errorf("%s is set in %s", name, family)
				}
				widths = browser.Ask[[]float64](t, tab, wide)
			}
			if widths[0] == widths[1] {
				t.Errorf("%s%s is never set in the typeface", root, name)
			}
			tab.Report(t)
		}
	}
}

// TestNothingMovesWhenTheTypefaceComesLate holds the fonts back until a page is there, and adds up by how much it
// moves afterwards. 0.05 is half of what is called good for a whole visit (Web Vitals: layout shift).
func TestNothingMovesWhenTheTypefaceComesLate(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	files := http.FileServer(http.Dir(built.Dir))
	for _, width := range []int64{360, 820} {
		for _, name := range []string{browser.Lesson3, "students/care.html", "mentors/05-out-and-back.html"} {
			come := make(chan struct{})
			let := sync.OnceFunc(func() { close(come) })
			server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				if strings.HasSuffix(r.URL.Path, ".woff2") {
					<-come
				}
				w.Header().Set("Cache-Control", "no-store")
				files.ServeHTTP(w, r)
			}))
			// The load event waits for fonts, and would hold the test up.
			browser.Ask[chromedp.Void](t, tab, `void (location.href = "`+server.URL+"/"+name+`")`)
			browser.Arrived(t, tab, name)
			tab.View(t, width, browser.Light)
			if strings.HasPrefix(name, "students/0") {
				browser.Wait(t, tab, `"ready" in document.body.dataset`)
			}
			browser.Ask[chromedp.Void](t, tab, `new Promise((done) => {
				window.moved = 0;
				const watch = new PerformanceObserver((list) => list.getEntries().forEach((e) => window.moved += e.value));
				setTimeout(() => done(watch.observe({ type: "layout-shift" })), 300);
			})`)
			if browser.Ask[bool](t, tab, `[...document.fonts].some((f) => f.family === "Sheet" && f.status === "loaded")`) {
				t.Error("the fonts were there before they were sent")
			}
			let()
			moved := browser.Ask[float64](t, tab, `document.fonts.ready.then(() =>
				new Promise((done) => setTimeout(() => done(window.moved), 300)))`)
			if moved > 0.05 {
				t.Errorf("%s at %d px moves by %.3f when the typeface comes", name, width, moved)
			}
			server.Close()
		}
	}
}
