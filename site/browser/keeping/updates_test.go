package keeping_test

// A device has a pack, and the club publishes a new version: the device gets it, no page mixes the two, and nothing
// typed is lost.

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"trundle/site/words"
	"trundle/testdata/browser"
)

// open gives a tab whose browser caches as it does for everybody.
func open(t *testing.T) *browser.Tab {
	t.Helper()
	tab := browser.Open(t)
	browser.Order(t, tab, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: false})
	return tab
}

func says(t *testing.T, name string) string {
	t.Helper()
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	return w.Say(name)
}

const news = `document.querySelector("#_news p").textContent`

// hears waits for what the page says of versions.
func hears(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	browser.Wait(t, tab, fmt.Sprintf(`%s === %q`, news, says(t, name)))
}

// reload presses the button beside it, and waits for the next page.
func reload(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab,
		`void (document.body.dataset.old = "", document.querySelector("#_news button").click())`)
	for end := time.Now().Add(browser.Patience); ; time.Sleep(10 * time.Millisecond) {
		// Between two pages there is no answer.
		ready, err := chromedp.Run(tab.Context, chromedp.Evaluate[bool](
			`!("old" in document.body.dataset) && "ready" in document.body.dataset`))
		if err == nil && ready {
			return
		}
		if time.Now().After(end) {
			t.Fatalf("the page does not come anew: %v", err)
		}
	}
}

func given(t *testing.T, tab *browser.Tab) string {
	t.Helper()
	return browser.Ask[string](t, tab, `document.querySelector(".given .amount").textContent.trim()`)
}

// answers types the wheel and what the team makes of it, and gives what it is told.
func answers(t *testing.T, tab *browser.Tab, answer string) browser.Said {
	t.Helper()
	return browser.Fill(t, tab, [][2]string{{"d", "64"}, {"x", answer}})[1]
}

// TestANewVersionReachesADevice is the whole story, by several servers and ways of publishing.
func TestANewVersionReachesADevice(t *testing.T) {
	for name, c := range map[string]struct {
		server  server
		publish publishing
	}{
		"nginx, unzip": {nginx, byUnzip}, "nginx, rsync": {nginx, byRsync}, "a plain server, unzip": {plain, byUnzip},
	} {
		t.Run(name, func(t *testing.T) {
			web := filepath.Join(t.TempDir(), "season")
			byUnzip(t, unpacked(t, 0), web)
			root := c.server(t, web)
			tab := open(t)
			tab.Open(t, root, other)
			browser.Ready(t, tab)
			hears(t, tab, "news-all-here")
			browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters")`)
			browser.Fill(t, tab, [][2]string{{"d", "65"}, {"n", "5.88"}})
			browser.Wait(t, tab, `document.getElementById("in_n").dataset.kept === "5.88"`)

			c.publish(t, unpacked(t, 1), web)
			tab.Open(t, root, lesson)
			browser.Ready(t, tab)
			hears(t, tab, "news-new-version")
			if got := given(t, tab); got != "3.5 rotations" {
				t.Fatalf("the first visit shows %q", got)
			}
			// Only now the page asks for what checks answers.
			if got := answers(t, tab, "70.4"); got.State != "right" {
				t.Errorf("the old page judges 70.4 cm by another key than its own: %q", got.Text)
			}
			browser.Wait(t, tab, `document.getElementById("in_x").dataset.kept === "70.4"`)

			reload(t, tab)
			if got := given(t, tab); got != "4.5 rotations" {
				t.Fatalf("after the reload the page shows %q", got)
			}
			typed := `[_name, in_d, in_x].map((box) => box.value).join(" ")`
			if got := browser.Ask[string](t, tab, typed); got != "Otters 64 70.4" {
				t.Errorf("of the team's work there is %q", got)
			}
			if got := answers(t, tab, "90.5"); got.State != "right" {
				t.Errorf("the new page judges 90.5 cm by another key than its own: %q", got.Text)
			}
			if got := browser.Ask[string](t, tab, news); got != "" {
				t.Errorf("the new page says %q", got)
			}
			work := `JSON.stringify(Object.fromEntries(Object.entries((await ` +
				`trundle.sheet.store.whole()).lessons["02-u"]).filter(([field]) => field[0] !== "#")))`
			if got := browser.Ask[string](t, tab, `(async () => `+work+`)()`); got != `{"d":"65","n":"5.88"}` {
				t.Errorf("of the team's work in the other lesson there is %s", got)
			}
			// Nobody asks for the old version any more.
			browser.Ask[chromedp.Void](t, tab, `(async () => {
				while ((await caches.keys()).length > 1) await new Promise((soon) => setTimeout(soon, 10));
			})()`)
			tab.Report(t)
		})
	}
}

// TestABoxThatGetsAnotherNameIsLostOnNoOpenPage types into pages of the version before, with the new one there.
func TestABoxThatGetsAnotherNameIsLostOnNoOpenPage(t *testing.T) {
	web := filepath.Join(t.TempDir(), "season")
	byUnzip(t, unpacked(t, 0), web)
	root := plain(t, web)
	tab := open(t)
	tab.Open(t, root, lesson)
	hears(t, tab, "news-all-here")
	beside := browser.Another(t, tab)
	beside.Open(t, root, lesson)
	browser.Ready(t, beside)

	byUnzip(t, unpacked(t, 1), web)
	tab.Open(t, root, other)
	browser.Ready(t, tab)
	browser.Type(t, tab, "in_d", "6")
	controlled := `new Promise((done) => {
		const look = (e) => e.data.version !== document.documentElement.dataset.version && done(true);
		navigator.serviceWorker.addEventListener("message", look);
		navigator.serviceWorker.controller.postMessage("");
	})`
	browser.Ask[bool](t, tab, controlled)
	if got := browser.Ask[string](t, tab, news+` + document.activeElement.id`); got != "in_d" {
		t.Errorf("while somebody types the page says %q", got)
	}
	said := browser.Fill(t, tab, [][2]string{{"d", "65"}, {"n", "5.88"}})
	if said[1].State != "right" {
		t.Errorf("the old page says %q", said[1].Text)
	}
	browser.Ask[chromedp.Void](t, tab, `document.activeElement.blur()`)
	hears(t, tab, "news-new-version")
	browser.Wait(t, tab, `document.getElementById("in_n").dataset.kept === "5.88"`)
	reload(t, tab)
	if got := browser.Ask[bool](t, tab, `!!document.getElementById("in_turns")`); !got {
		t.Error("the page is not the new one")
	}
	old := browser.Ask[string](t, tab, `trundle.sheet.store.whole().then((all) => all.lessons["02-u"].n)`)
	if old != "5.88" {
		t.Errorf("in the old box there is %q", old)
	}
	// The page beside it was open all the time, and asks only now for what checks answers. It may hear of the other
	// page's work between two boxes: what it comes to counts.
	answers(t, beside, "70.4")
	browser.Wait(t, beside, `document.getElementById("told_x").dataset.state === "right"`)
	tab.Report(t)
	beside.Report(t)
}

// TestAPageFromACacheOnTheWayKnowsThatItIsOld is about plain http, where no worker keeps pages and a browser may show
// an old one for as long as it likes, and about a server that calls a file unchanged because its time is earlier.
func TestAPageFromACacheOnTheWayKnowsThatItIsOld(t *testing.T) {
	web := filepath.Join(t.TempDir(), "season")
	byUnzip(t, unpacked(t, 0), web)
	root := plain(t, web)
	tab := open(t)
	browser.Order(t, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `Object.defineProperty(navigator, "serviceWorker", { value: undefined })`,
	})
	tab.Open(t, root, lesson)
	browser.Ready(t, tab)

	byUnzip(t, unpacked(t, 1), web)
	long := time.Date(1979, time.January, 1, 0, 0, 0, 0, time.UTC)
	if err := os.Chtimes(filepath.Join(web, lesson), long, long); err != nil {
		t.Fatal(err)
	}
	tab.Open(t, root, other) // the browser fetches the lesson by itself, from its cache
	tab.Open(t, root, lesson)
	browser.Ready(t, tab)
	if got := given(t, tab); got != "3.5 rotations" {
		t.Fatalf("the page does not come from the browser's cache: %q", got)
	}
	hears(t, tab, "news-new-version")
	browser.Type(t, tab, "in_d", "64")
	browser.Type(t, tab, "in_x", "70.4")
	browser.Ask[chromedp.Void](t, tab, `document.activeElement.blur()`)
	browser.Wait(t, tab, fmt.Sprintf(`_kept.textContent === %q`, says(t, "sheet-other-version")))
	if got := browser.Ask[string](t, tab, `told_x.textContent`); got != "" {
		t.Errorf("the old page judges by the new key: %q", got)
	}
	reload(t, tab)
	if given(t, tab) == "3.5 rotations" { // the server said that nothing has changed
		hears(t, tab, "news-new-version")
		reload(t, tab)
	}
	if got := given(t, tab); got != "4.5 rotations" {
		t.Errorf("after the reload the page shows %q", got)
	}
	browser.Wait(t, tab, `in_d.value === "64" && in_x.value === "70.4" && told_x.textContent !== ""`)
	if got := browser.Ask[string](t, tab, `told_x.dataset.state`); got == "right" {
		t.Error("the new page judges by the old key")
	}
}

// TestOneMissingFileCostsNothingElse has a server without one file, which is there on the next visit.
func TestOneMissingFileCostsNothingElse(t *testing.T) {
	web := unpacked(t, 0)
	files, missing, down := http.FileServer(http.Dir(web)), "care.html", false
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case down:
			panic(http.ErrAbortHandler)
		case missing != "" && strings.HasSuffix(r.URL.Path, missing):
			http.NotFound(w, r)
		default:
			files.ServeHTTP(w, r)
		}
	}))
	defer s.Close()
	tab, root := open(t), local(s.URL)
	complete := func() bool {
		return browser.Ask[bool](t, tab, `new Promise((done) => {
			navigator.serviceWorker.addEventListener("message", ({ data }) => done(data.complete));
			navigator.serviceWorker.controller.postMessage("");
		})`)
	}
	tab.Open(t, root, "students/index.html")
	browser.Wait(t, tab, `navigator.serviceWorker.controller`)
	if complete() {
		t.Error("all is here, says the worker, and one file is not")
	}
	down = true
	for _, name := range []string{lesson, "students/index.html", "students/sheets/02-u-letter.pdf"} {
		if got := browser.Ask[bool](t, tab, fmt.Sprintf(`caches.match(%q).then(Boolean)`, "/"+name)); !got {
			t.Errorf("%s is not on the device", name)
		}
	}
	tab.Open(t, root, lesson)
	browser.Ready(t, tab)
	said := browser.Ask[string](t, tab, news+` + document.querySelector("footer").textContent`)
	if strings.Contains(said, says(t, "news-all-here")) {
		t.Error("the page says that all is here")
	}

	down, missing = false, ""
	tab.Open(t, root, lesson)
	hears(t, tab, "news-all-here")
	tab.Open(t, root, other)
	browser.Wait(t, tab,
		fmt.Sprintf(`document.querySelector("footer").textContent.includes(%q)`, says(t, "news-all-here")))
	if got := browser.Ask[string](t, tab, news); got != "" {
		t.Errorf("it is said a second time: %q", got)
	}
	tab.Report(t)
}

// TestAFileOfAnotherVersionIsNotKept visits while somebody is still copying a version over the one before.
func TestAFileOfAnotherVersionIsNotKept(t *testing.T) {
	web, newer := unpacked(t, 0), unpacked(t, 1)
	copies := func(name string) {
		data, err := os.ReadFile(filepath.Join(newer, name))
		if err == nil {
			err = os.WriteFile(filepath.Join(web, name), data, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	tab, root := open(t), plain(t, web)
	tab.Open(t, root, other)
	hears(t, tab, "news-all-here")
	for _, name := range []string{"students/version.js", "students/offline.js", other} {
		copies(name)
	}
	tab.Open(t, root, other)
	hears(t, tab, "news-new-version")
	tab.Open(t, root, lesson)
	browser.Ready(t, tab)
	if got := answers(t, tab, "70.4"); given(t, tab) != "3.5 rotations" || got.State != "right" {
		t.Errorf("%s: %q", given(t, tab), got.Text)
	}
	rest, err := fs.Glob(os.DirFS(newer), "students/*")
	for _, folder := range []string{"assets", "steps"} {
		more, globbed := fs.Glob(os.DirFS(newer), "students/"+folder+"/*")
		rest, err = append(rest, more...), errors.Join(err, globbed)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range rest {
		if path.Ext(name) != "" {
			copies(name)
		}
	}
	tab.Open(t, root, other) // looks once more for what is missing
	hears(t, tab, "news-all-here")
	tab.Open(t, root, lesson)
	browser.Ready(t, tab)
	if got := answers(t, tab, "90.5"); given(t, tab) != "4.5 rotations" || got.State != "right" {
		t.Errorf("%s: %q", given(t, tab), got.Text)
	}
	tab.Report(t)
}

// TestAPageThatNamesNoVersionHasTheEditionKept is about pages that were made before they named one.
func TestAPageThatNamesNoVersionHasTheEditionKept(t *testing.T) {
	web := unpacked(t, 0)
	if err := os.WriteFile(filepath.Join(web, "students", "old.html"), []byte("<!DOCTYPE html><title>Old</title>"),
		0o600); err != nil {
		t.Fatal(err)
	}
	tab, root := open(t), plain(t, web)
	tab.Open(t, root, "students/old.html")
	browser.Ask[chromedp.Void](t, tab, `void navigator.serviceWorker.register("offline.js")`)
	browser.Wait(t, tab, `navigator.serviceWorker.controller`)
	if !browser.Ask[bool](t, tab, fmt.Sprintf(`caches.match(%q).then(Boolean)`, "/"+lesson)) {
		t.Errorf("%s is not on the device", lesson)
	}
}
