// Package browser opens pages in a real Chromium for tests: one browser a test binary, a fresh profile in
// memory for each test, and a note of everything that the browser finds wrong. Only tests import it.
//
// Every wait is for a condition and lasts at most Patience, which a machine many times slower than ours has
// use for; nothing is decided by how fast something is.
package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"os/exec"
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
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Patience is how long one thing may take before a test gives up on it.
const Patience = 2 * time.Minute

// Widths of a screen. The narrowest is what WCAG 2 asks pages to fit into (1.4.10).
const (
	Narrowest = 320
	Phone     = 375
	Tablet    = 820
	Desktop   = 1280
)

// Scheme is a colour scheme, as CSS calls it.
type Scheme string

const (
	Light Scheme = "light"
	Dark  Scheme = "dark"
)

// A Tab is where pages are opened.
type Tab struct {
	Context context.Context
	seen    faults
}

// shared is the Chromium that Open opens tabs in. Main starts none; the first test that needs it does.
var shared struct {
	once sync.Once
	tab  *Tab
	end  func() error
	err  error
}

// Main runs the tests of a package, and then ends the browser and clears away what they shared.
func Main(m *testing.M) {
	code := m.Run()
	if shared.end != nil {
		if err := shared.end(); err != nil {
			fmt.Fprintln(os.Stderr, "Chromium:", err)
		}
	}
	if demo.dir != "" {
		_ = os.RemoveAll(demo.dir)
	}
	os.Exit(code)
}

// Open gives a tab with nothing kept from before, in the Chromium that the tests of a package share.
func Open(t testing.TB) *Tab {
	t.Helper()
	shared.once.Do(func() {
		var profile string
		if profile, shared.err = os.MkdirTemp("", "chromium"); shared.err != nil {
			return
		}
		ctx, stop := Start(t, profile)
		shared.tab = &Tab{Context: ctx}
		shared.end = func() error {
			err := chromedp.Cancel(ctx)
			stop()
			_ = os.RemoveAll(profile)
			return err
		}
		shared.err = chromedp.Do(ctx)
	})
	if shared.err != nil || shared.tab == nil {
		t.Fatalf("Chromium does not start: %v", shared.err)
	}
	return Another(t, shared.tab, chromedp.WithNewBrowserContext())
}

// Two gives two tabs of which neither hears what is written in the other, to take from and put back.
func Two(t testing.TB) chan *Tab {
	t.Helper()
	tabs := make(chan *Tab, 2)
	for range cap(tabs) {
		tabs <- Open(t)
	}
	return tabs
}

// Own gives the tab of a Chromium of its own, with a profile on the disk.
func Own(t testing.TB) *Tab {
	t.Helper()
	ctx, stop := Start(t, t.TempDir())
	t.Cleanup(func() {
		if err := chromedp.Cancel(ctx); err != nil {
			t.Error(err)
		}
		stop()
	})
	return listening(t, ctx)
}

// Another gives one more tab of a tab's browser.
func Another(t testing.TB, first *Tab, options ...chromedp.ContextOption) *Tab {
	t.Helper()
	ctx, _ := chromedp.NewContext(first.Context, options...) // Cancel ends it and waits
	t.Cleanup(func() {
		if err := chromedp.Cancel(ctx); err != nil {
			t.Error(err)
		}
	})
	return listening(t, ctx)
}

// listening has a tab note what goes wrong in it. It counts as the one in front, whatever else is open.
func listening(t testing.TB, ctx context.Context) *Tab {
	t.Helper()
	tab := &Tab{Context: ctx}
	if err := chromedp.Listen(ctx, tab.seen.note); err != nil {
		t.Fatal(err)
	}
	Order(t, tab, audits.Enable, cdp.Empty{})
	Order(t, tab, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true})
	Order(t, tab, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	return tab
}

// Start gives the context of a Chromium that keeps its profile in a folder, and what ends it. It runs from
// the first thing that is asked of it.
func Start(t testing.TB, profile string, options ...chromedp.ExecAllocatorOption) (ctx context.Context, stop func()) {
	t.Helper()
	allocator, stop := chromedp.NewExecAllocator(context.Background(), append([]chromedp.ExecAllocatorOption{
		chromedp.ExecPath(chromium(t)), chromedp.UserDataDir(profile),
		chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.WSURLReadTimeout(Patience),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("host-resolver-rules", "MAP "+lan+" 127.0.0.1"),
		chromedp.Flag("js-flags", compiling(t)),
	}, options...)...)
	ctx, _ = chromedp.NewContext(allocator)
	return ctx, stop
}

// lan is the name of this machine to Chromium as another machine would be called.
const lan = "club.test" // the domain is for tests (RFC 6761, 6.2)

// OnALAN is the address of a server of ours as tablets of a LAN know it. It is not a secure context, and no worker
// keeps the edition.
func OnALAN(server string) string { return strings.Replace(server, "127.0.0.1", lan, 1) }

// compiling is how V8 goes about scripts: no page of a test is open for long, so they are compiled once and roughly,
// and no thread looks for garbage beside them. What a benchmark measures is compiled as everybody's is.
func compiling(t testing.TB) string {
	if _, measures := t.(*testing.B); measures {
		return ""
	}
	return "--always-sparkplug,--no-maglev,--no-opt,--single-threaded-gc"
}

func chromium(t testing.TB) string {
	t.Helper()
	// The first is Chromium without its windows: the same engine, a third less work.
	for _, name := range []string{"chromium-headless-shell", "chromium", "chromium-browser"} {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	t.Fatal("this test needs Chromium in the PATH, as chromium or chromium-browser")
	return ""
}

// Open goes to a page below root, and notes from now on what goes wrong.
func (tab *Tab) Open(t testing.TB, root, name string) {
	t.Helper()
	tab.seen.startOver(root)
	Run(t, tab, chromedp.Navigate(root+name))
}

// View shows the page on a screen of a width in a colour scheme, and waits for it.
func (tab *Tab) View(t testing.TB, width int64, s Scheme) {
	t.Helper()
	Order(t, tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: width, Height: 800, DeviceScaleFactor: 1,
	})
	Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: string(s)}},
	})
	Ask[chromedp.Void](t, tab, fmt.Sprintf(`new Promise((done) => {
		const there = () => innerWidth === %d && matchMedia("(prefers-color-scheme: %s)").matches;
		const look = () => there() ? done() : requestAnimationFrame(look);
		look();
	})`, width, s))
}

// Report fails the test for everything that the browser found wrong with the page.
func (tab *Tab) Report(t testing.TB) {
	t.Helper()
	for _, fault := range tab.seen.all() {
		t.Error(fault)
	}
}

// Ask gives what a script in the page comes to, promises kept.
func Ask[T any](t testing.TB, tab *Tab, script string) T {
	t.Helper()
	return Run(t, tab, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
}

// Order has the browser do something.
func Order[P, R any](t testing.TB, tab *Tab, command cdp.Command[P, R], with P) {
	t.Helper()
	Run(t, tab, func(ctx context.Context, target *chromedp.Target) (R, error) {
		return cdp.Call(ctx, target, command, with)
	})
}

// Run has the tab do something, and fails the test if it does not.
func Run[T any](t testing.TB, tab *Tab, action chromedp.Action[T]) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(tab.Context, Patience)
	defer cancel()
	out, err := chromedp.Run(ctx, action)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A4 and Letter are sizes of paper in inches, width and height (ISO 216, ANSI/ASME Y14.1).
var (
	A4     = [2]float64{8.27, 11.69}
	Letter = [2]float64{8.5, 11}
)

// Printed prints the page that is open on A4, as a PDF.
func Printed(t testing.TB, tab *Tab) []byte {
	t.Helper()
	return PrintedOn(t, tab, A4)
}

// PrintedOn prints the page that is open on a size of paper.
func PrintedOn(t testing.TB, tab *Tab, paper [2]float64) []byte {
	t.Helper()
	yes := true
	return Run(t, tab, func(ctx context.Context, target *chromedp.Target) (page.PrintToPDFResult, error) {
		return cdp.Call(ctx, target, page.PrintToPDF, page.PrintToPDFParams{
			PreferCSSPageSize: &yes, PaperWidth: paper[0], PaperHeight: paper[1],
		})
	}).Data
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
