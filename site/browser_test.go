package site_test

import (
	"context"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/work"
	"trundle/site"
)

// The demo pack in a real browser: go test ./site. With -shots DIR it also leaves
// pictures for a person to look at: go test ./site -run Browser -shots /tmp/shots.
var shots = flag.String("shots", "", "a `folder` for screenshots of the demo pack")

// Widths of a screen. The narrowest is what WCAG 2 asks pages to fit into (1.4.10).
const (
	narrowest = 320
	phone     = 375
	tablet    = 820
	desktop   = 1280
)

// patience is how long the browser may take for one thing.
const patience = 30 * time.Second

func TestBrowser(t *testing.T) {
	t.Parallel()
	built := demoSite(t)
	server := httptest.NewServer(http.FileServer(http.Dir(built.dir)))
	defer server.Close()
	tab := openBrowser(t)
	folder := "file://" + filepath.ToSlash(built.dir) + "/"

	for _, root := range []string{folder, server.URL + "/"} {
		how, _, _ := strings.Cut(root, ":")
		for _, name := range built.pages {
			t.Run(how+"/"+name, func(t *testing.T) { testPage(t, tab, built, root, name) })
		}
	}
	for _, name := range built.both(t, "03-") {
		t.Run("tape/"+name, func(t *testing.T) { testTape(t, tab, folder, name) })
	}
	for _, name := range append(built.both(t, "03-"), built.both(t, "care")...) {
		t.Run("contrast/"+name, func(t *testing.T) { testContrast(t, tab, folder, name) })
	}
	if *shots != "" {
		for _, name := range append(built.both(t, "03-"), built.both(t, "index")...) {
			takeShots(t, tab, folder, name)
		}
	}
}

// testPage opens a page and asks what holds for all of them.
func testPage(t *testing.T, tab *tab, built demo, root, name string) {
	tab.open(t, root, name)
	tab.view(t, narrowest, light)
	defer tab.report(t)
	p := ask[struct {
		Headings, Twice []string
		Lang, Title     string
		Links, Parts    []string
	}](t, tab, `({
		headings: [...document.querySelectorAll("h1")].map((h) => h.textContent.trim()),
		twice: [...document.querySelectorAll("[id]")].map((e) => e.id).filter((id, i, all) => all.indexOf(id) !== i),
		lang: document.documentElement.lang,
		title: document.title,
		links: [...document.querySelectorAll("a[href]")].map((a) => a.getAttribute("href")),
		parts: [...document.querySelectorAll("[src], link[href]")].map((e) => e.getAttribute("src") ?? e.getAttribute("href")),
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
		if why := built.broken(name, to); why != "" {
			t.Errorf("the link %q leads nowhere: %s", to, why)
		}
	}
	for _, wide := range overflowing(t, tab) {
		t.Errorf("the page scrolls sideways at %d px because of %s", narrowest, wide)
	}
	testDarkMode(t, tab)
}

// overflowing names what sticks out on the right of a page that scrolls sideways, the
// outermost elements only.
func overflowing(t *testing.T, tab *tab) []string {
	t.Helper()
	return ask[[]string](t, tab, `(() => {
		const width = document.documentElement.clientWidth;
		if (document.documentElement.scrollWidth <= width) return [];
		const sticksOut = (e) => e.getBoundingClientRect().right > width + .5;
		const scrolls = (e) => e.scrollWidth > e.clientWidth && getComputedStyle(e).overflowX !== "visible";
		const out = [...document.body.querySelectorAll("*")].filter((e) => sticksOut(e) && !sticksOut(e.parentElement) && !scrolls(e.parentElement));
		return [document.documentElement.scrollWidth + " px of content", ...out.map((e) => e.outerHTML.slice(0, 120))];
	})()`)
}

func testDarkMode(t *testing.T, tab *tab) {
	t.Helper()
	const paper = `getComputedStyle(document.body).backgroundColor`
	tab.view(t, tablet, light)
	day := ask[string](t, tab, paper)
	tab.view(t, tablet, dark)
	if night := ask[string](t, tab, paper); day == night {
		t.Errorf("the page is on %s by day and by night", day)
	}
}

// testTape scrolls a lesson to its last part and looks where the hook is.
func testTape(t *testing.T, tab *tab, root, name string) {
	tab.open(t, root, name)
	tab.view(t, phone, light)
	defer tab.report(t)
	const marked = `[...document.querySelectorAll(".tape a")].map((a) => a.hasAttribute("aria-current"))`
	first := ask[[]bool](t, tab, marked)
	if len(first) < 2 || !first[0] || count(first) != 1 {
		t.Fatalf("at the top of the page the marks are %v; just the first must be set", first)
	}
	ask[chromedp.Void](t, tab, `document.getElementById(decodeURIComponent([...document.querySelectorAll(".tape a")].at(-1).hash.slice(1))).scrollIntoView()`)
	ask[chromedp.Void](t, tab, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done))))`)
	last := ask[[]bool](t, tab, marked)
	if count(last) != 1 || !last[len(last)-1] {
		t.Errorf("at the last part the marks are %v; just the last must be set", last)
	}
}

func count(marks []bool) int {
	n := 0
	for _, m := range marks {
		if m {
			n++
		}
	}
	return n
}

// contrastScript gives the texts whose contrast with what is behind them falls short.
//
//go:embed testdata/contrast.js
var contrastScript string

// testContrast holds the colour of every text against what is behind it.
func testContrast(t *testing.T, tab *tab, root, name string) {
	tab.open(t, root, name)
	for _, width := range []int64{phone, desktop} {
		for _, s := range []scheme{light, dark} {
			tab.view(t, width, s)
			found := ask[struct {
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

func takeShots(t *testing.T, tab *tab, root, name string) {
	t.Helper()
	if err := os.MkdirAll(*shots, 0o755); err != nil {
		t.Fatal(err)
	}
	tab.open(t, root, name)
	for screen, width := range map[string]int64{"phone": phone, "tablet": tablet, "desktop": desktop} {
		for _, s := range []scheme{light, dark} {
			tab.view(t, width, s)
			file := strings.ReplaceAll(strings.TrimSuffix(name, ".html"), "/", "-") + "-" + screen + "-" + string(s) + ".png"
			if err := os.WriteFile(filepath.Join(*shots, file), run(t, tab, chromedp.FullScreenshot(100)), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// demo is the demo pack's site on the disk.
type demo struct {
	dir     string
	files   map[string][]byte
	pages   []string // names of the HTML files, sorted
	lessons []*work.Lesson
}

func demoSite(t *testing.T) demo { return builtSite(t, os.DirFS("../lessons")) }

// builtSite builds a pack into a folder of the test.
func builtSite(t *testing.T, pack fs.FS) demo {
	t.Helper()
	proved, err := generator.Prove(context.Background(), pack)
	if err != nil {
		t.Fatal(err)
	}
	if proved.HasErrors() {
		t.Fatal(proved.Problems)
	}
	files, err := generator.Draw(context.Background(), proved)
	if err != nil {
		t.Fatal(err)
	}
	starts(t, proved, files)
	d := demo{dir: t.TempDir(), files: files, lessons: proved.Lessons}
	for name, data := range files {
		to := filepath.Join(d.dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, ".html") {
			d.pages = append(d.pages, name)
		}
	}
	slices.Sort(d.pages)
	return d
}

// starts puts the pages that the bundles start with above the editions, where they look for them.
func starts(t *testing.T, p *generator.Proved, files map[string][]byte) {
	t.Helper()
	s, err := site.New(p.Pack.Language)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range site.Editions {
		if files["START-"+string(e)+".html"], err = s.StartHere(p.Pack, e); err != nil {
			t.Fatal(err)
		}
	}
	files[bundle.Contents] = nil
}

// both gives the page of each edition whose name starts with prefix.
func (d demo) both(t *testing.T, prefix string) []string {
	t.Helper()
	var found []string
	for _, name := range d.pages {
		if strings.HasPrefix(path.Base(name), prefix) {
			found = append(found, name)
		}
	}
	if len(found) != 2 {
		t.Fatalf("%q is the start of %v; one page an edition was expected", prefix, found)
	}
	return found
}

var named = regexp.MustCompile(`\sid="([^"]*)"`)

// broken tells why a link of a page leads nowhere, "" if it does lead somewhere. Web
// and mail addresses are the author's affair.
func (d demo) broken(from, to string) string {
	u, err := url.Parse(to)
	switch {
	case err != nil:
		return err.Error()
	case u.Scheme == "https" || u.Scheme == "http" || u.Scheme == "mailto" || u.Scheme == "data":
		return ""
	case u.Scheme != "" || u.Host != "" || strings.HasPrefix(u.Path, "/"):
		return "it is not relative"
	}
	target := from
	if u.Path != "" {
		target = path.Join(path.Dir(from), u.Path)
	}
	if edition, _, inside := strings.Cut(from, "/"); inside && !strings.HasPrefix(target, edition+"/") {
		return "it leaves its edition"
	}
	page, ok := d.files[target]
	if !ok {
		return "there is no file " + target
	}
	if u.Fragment == "" {
		if strings.HasSuffix(to, "#") {
			return "it has no target"
		}
		return ""
	}
	for _, id := range named.FindAllSubmatch(page, -1) {
		if html.UnescapeString(string(id[1])) == u.Fragment {
			return ""
		}
	}
	return target + " has nothing of the name " + u.Fragment
}

// scheme is a colour scheme, as CSS calls it.
type scheme string

const (
	light scheme = "light"
	dark  scheme = "dark"
)

// A tab is the one tab of the one Chromium that all pages are opened in.
type tab struct {
	context context.Context
	seen    faults
}

func openBrowser(t testing.TB) *tab {
	t.Helper()
	allocator, stop := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(chromium(t)), chromedp.UserDataDir(t.TempDir()),
		chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("hide-scrollbars", true))
	browser, _ := chromedp.NewContext(allocator) // Cancel below ends it and waits
	t.Cleanup(func() {
		if err := chromedp.Cancel(browser); err != nil {
			t.Error(err)
		}
		stop()
	})
	tab := &tab{context: browser}
	if err := chromedp.Listen(browser, tab.seen.note); err != nil {
		t.Fatal(err)
	}
	order(t, tab, audits.Enable, cdp.Empty{})
	order(t, tab, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true})
	return tab
}

func chromium(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser"} {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	t.Fatal("this test needs Chromium in the PATH, as chromium or chromium-browser")
	return ""
}

// open goes to a page below root, and notes from now on what goes wrong.
func (tab *tab) open(t *testing.T, root, name string) {
	t.Helper()
	tab.seen.startOver(root)
	run(t, tab, chromedp.Navigate(root+name))
}

// view shows the page on a screen of a width in a colour scheme, and waits for it.
func (tab *tab) view(t *testing.T, width int64, s scheme) {
	t.Helper()
	order(t, tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 800, DeviceScaleFactor: 1})
	order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: string(s)}},
	})
	ask[chromedp.Void](t, tab, fmt.Sprintf(`new Promise((done) => {
		const look = () => innerWidth === %d && matchMedia("(prefers-color-scheme: %s)").matches ? done() : requestAnimationFrame(look);
		look();
	})`, width, s))
}

// report fails the test for everything that the browser found wrong with the page.
func (tab *tab) report(t *testing.T) {
	t.Helper()
	for _, fault := range tab.seen.all() {
		t.Error(fault)
	}
}

// ask gives what a script in the page comes to, promises kept.
func ask[T any](t testing.TB, tab *tab, script string) T {
	t.Helper()
	return run(t, tab, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
}

// order has the browser do something.
func order[P, R any](t testing.TB, tab *tab, command cdp.Command[P, R], with P) {
	t.Helper()
	run(t, tab, func(ctx context.Context, target *chromedp.Target) (R, error) {
		return cdp.Call(ctx, target, command, with)
	})
}

func run[T any](t testing.TB, tab *tab, action chromedp.Action[T]) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(tab.context, patience)
	defer cancel()
	out, err := chromedp.Run(ctx, action)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// faults are what a browser reports of a page, each once. Reports come while the test
// goes on, hence the lock.
type faults struct {
	lock sync.Mutex
	root string // what every request must lie below
	told []string
}

func (f *faults) startOver(root string) {
	f.lock.Lock()
	defer f.lock.Unlock()
	f.root, f.told = root, nil
}

func (f *faults) all() []string {
	f.lock.Lock()
	defer f.lock.Unlock()
	return slices.Clone(f.told)
}

func (f *faults) leaves(address string) bool {
	f.lock.Lock()
	defer f.lock.Unlock()
	return !strings.HasPrefix(address, f.root) && !strings.HasPrefix(address, "data:")
}

func (f *faults) add(format string, args ...any) {
	f.lock.Lock()
	defer f.lock.Unlock()
	if fault := fmt.Sprintf(format, args...); !slices.Contains(f.told, fault) {
		f.told = append(f.told, fault)
	}
}

func (f *faults) note(event any) {
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		switch e.Type {
		case runtime.ConsoleAPICalledTypeError, runtime.ConsoleAPICalledTypeWarning, runtime.ConsoleAPICalledTypeAssert:
			said, _ := json.Marshal(e.Args)
			f.add("console %s: %s", e.Type, said)
		}
	case *runtime.EventExceptionThrown:
		f.add("exception: %s", e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError || e.Entry.Level == log.EntryLevelWarning {
			f.add("browser's %s: %s (%s)", e.Entry.Level, e.Entry.Text, e.Entry.URL)
		}
	case *audits.EventIssueAdded:
		if e.Issue.Code != audits.InspectorIssueCodeContentSecurityPolicyIssue { // the log tells these
			details, _ := json.Marshal(e.Issue.Details)
			f.add("browser's issue %s: %s", e.Issue.Code, details)
		}
	case *network.EventRequestWillBeSent:
		if f.leaves(e.Request.URL) {
			f.add("a request for %s leaves the site", e.Request.URL)
		}
	case *network.EventResponseReceived:
		if strings.HasPrefix(e.Response.URL, "http") && e.Response.Status != http.StatusOK {
			f.add("%s came with status %d", e.Response.URL, e.Response.Status)
		}
	case *network.EventLoadingFailed:
		f.add("a %s failed to load: %s %s", e.Type, e.ErrorText, e.BlockedReason)
	}
}
