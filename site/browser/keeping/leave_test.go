package keeping_test

// A page that is left from a box: what was typed there is found on the next visit.

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// served gives the addresses of a site: from a folder and from a server. The worker that keeps pages for
// use without a network is left out, since it would fetch all of them while they are tested.
func served(t *testing.T, built browser.Built) map[string]string {
	t.Helper()
	files := http.FileServer(http.Dir(built.Dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "offline.js") {
			w.Header().Set("Content-Type", "text/javascript")
			return
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return map[string]string{"file": built.Root(), "http": server.URL + "/"}
}

// A wayOut takes a tab away from the page in it, and gives the tab in which the next page is opened; first is
// a tab of the same browser that stays.
type wayOut func(t *testing.T, first, tab *browser.Tab, root string) *browser.Tab

// waysOut are what people do without leaving the box first.
var waysOut = map[string]wayOut{
	"reload": func(t *testing.T, _, tab *browser.Tab, _ string) *browser.Tab {
		browser.Run(t, tab, chromedp.Reload())
		return tab
	},
	"another address": func(t *testing.T, _, tab *browser.Tab, root string) *browser.Tab {
		browser.Run(t, tab, chromedp.Navigate(root+"students/index.html"))
		return tab
	},
	"back": func(t *testing.T, _, tab *browser.Tab, _ string) *browser.Tab {
		history, err := chromedp.Call(tab.Context, page.GetNavigationHistory, cdp.Empty{})
		if err != nil {
			t.Fatal(err)
		}
		before := history.Entries[history.CurrentIndex-1]
		browser.Order(t, tab, page.NavigateToHistoryEntry, page.NavigateToHistoryEntryParams{EntryID: before.ID})
		browser.Arrived(t, tab, before.URL)
		return tab
	},
	"tap on next": func(t *testing.T, _, tab *browser.Tab, _ string) *browser.Tab {
		// Nobody's finger is there before what was loaded when the typing began.
		browser.Wait(t, tab, `globalThis.trundle.update && document.querySelector("#_log a")`)
		x, y := browser.Middle(t, tab, "a[rel=next]")
		browser.Tap(t, tab, x, y)
		browser.Arrived(t, tab, "/04-")
		return tab
	},
	"close": func(t *testing.T, first, tab *browser.Tab, _ string) *browser.Tab {
		next := browser.Another(t, first)
		if err := chromedp.Cancel(tab.Context); err != nil {
			t.Fatal(err)
		}
		return next
	},
	"killed after a second": func(t *testing.T, first, tab *browser.Tab, _ string) *browser.Tab {
		next := browser.Another(t, first)
		time.Sleep(time.Second)
		// A page that is killed gives no answer.
		ctx, cancel := context.WithTimeout(tab.Context, 200*time.Millisecond)
		defer cancel()
		_, _ = chromedp.Call(ctx, page.Crash, cdp.Empty{})
		return next
	},
}

// TestNothingTypedIsLostWhenThePageIsLeft types into a box, leaves the page from there in ever other ways,
// some times each, and looks into the box on the next visit.
func TestNothingTypedIsLostWhenThePageIsLeft(t *testing.T) {
	t.Parallel()
	for from, root := range served(t, browser.Demo(t)) {
		for how, leave := range waysOut {
			if from == "http" && how != "reload" && how != "tap on next" && how != "close" {
				continue // where the page comes from makes no difference to these
			}
			t.Run(from+"/"+how, func(t *testing.T) {
				t.Parallel()
				if kept := leaveOften(t, root, leave); kept < leaves {
					t.Errorf("only %d of %d are kept", kept, leaves)
				}
			})
		}
	}
}

// leaves is how often a page is left in each way; where entries could be lost, most were.
const leaves = 2

// leaveOften tells how often the text was there.
func leaveOften(t *testing.T, root string, leave wayOut) (kept int) {
	t.Helper()
	first := browser.Open(t)
	tab := browser.Another(t, first)
	tab.Open(t, root, "students/index.html")
	for n := range leaves + 1 {
		if n == 0 || !strings.Contains(browser.Ask[string](t, tab, `location.href`), "/03-") {
			tab.View(t, browser.Phone, browser.Light)
			tab.Open(t, root, browser.Lesson3)
		}
		browser.Ready(t, tab)
		if browser.Ask[string](t, tab, `document.getElementById("in_w").value`) == fmt.Sprintf("5.%d1", n-1) {
			kept++
		}
		if n < leaves {
			browser.Type(t, tab, "in_w", fmt.Sprintf("5.%d1", n))
			tab = leave(t, first, tab, root)
		}
	}
	tab.Report(t)
	return kept
}

// TestANameTypedLastIsTheTeamOfTheNextPage types a box and then the name, and leaves from there.
func TestANameTypedLastIsTheTeamOfTheNextPage(t *testing.T) {
	t.Parallel()
	root := browser.Demo(t).Root()
	for _, how := range []string{"reload", "close"} {
		t.Run(how, func(t *testing.T) {
			first := browser.Open(t)
			tab := browser.Another(t, first)
			for n := range 2 {
				browser.StartOver(t, tab, root, browser.Lesson3)
				text, team := fmt.Sprint(60+n), fmt.Sprint("Otters ", n)
				browser.Type(t, tab, "in_d", text)
				browser.Type(t, tab, "_name", team)
				tab = waysOut[how](t, first, tab, root)
				tab.Open(t, root, browser.Lesson3)
				browser.Ready(t, tab)
				got := browser.Ask[[]string](t, tab, `["_name", "in_d"].map((id) => document.getElementById(id).value)`)
				if got[0] != team || got[1] != text {
					t.Errorf("the next page has the team %q and %q", got[0], got[1])
				}
			}
			tab.Report(t)
		})
	}
}

// TestNothingTypedQuicklyVanishesFromView types a name and then boxes, with pauses as short as a quick hand makes
// them, before the storage has answered for the name.
func TestNothingTypedQuicklyVanishesFromView(t *testing.T) {
	t.Parallel()
	root := browser.Demo(t).Root()
	for _, pause := range []int{0, 20, 60, 120} {
		t.Run(fmt.Sprint(pause, " ms"), func(t *testing.T) {
			tab := browser.Open(t)
			browser.StartOver(t, tab, root, browser.Lesson3)
			browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(async () => {
				for (const [id, text] of [["_name", "Otters"], ["in_guess", "7"], ["in_d", "65"], ["in_C", "20.4"]]) {
					const e = document.getElementById(id);
					e.focus();
					document.execCommand("insertText", false, text);
					e.blur();
					await new Promise((soon) => setTimeout(soon, %d));
				}
			})()`, pause))
			browser.Wait(t, tab, `trundle.sheet.store.team === "Otters"`)
			browser.Wait(t, tab, `document.getElementById("in_C").dataset.kept === "20.4"`)
			browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.whole()`) // all that was asked before is done
			for look := range 2 {
				got := browser.Ask[[]string](t, tab, `["in_guess", "in_d", "in_C"].map((id) => document.getElementById(id).value)`)
				if strings.Join(got, " ") != "7 65 20.4" {
					t.Errorf("look %d: the boxes hold %q", look+1, got)
				}
				if look == 0 {
					tab.Open(t, root, browser.Lesson3)
					browser.Ready(t, tab)
				}
			}
			tab.Report(t)
		})
	}
}
