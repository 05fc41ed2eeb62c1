package pages_test

// A bundle that was unpacked into a folder of a web server, below a path of its own.

import (
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/bundle"
	"trundle/site"
)

// TestAnUnpackedBundleOpensByItsFolderAndIsKept opens the address of the folder alone, stops the server, and opens the
// page to start with, its list of files, a lesson and a worksheet that nobody has opened before.
func TestAnUnpackedBundleOpensByItsFolderAndIsKept(t *testing.T) {
	t.Parallel()
	for _, e := range site.Editions {
		t.Run(string(e), func(t *testing.T) {
			folder, lessons := unzipped(t, e)
			server := httptest.NewServer(http.FileServer(http.Dir(filepath.Dir(folder))))
			root := strings.Replace(server.URL, "127.0.0.1", "localhost", 1) + "/" + filepath.Base(folder) + "/"
			tab := browser.Open(t)
			tab.Open(t, root, "")
			if got := browser.Ask[string](t, tab, `document.querySelector("h1").textContent`); got != "Start here" {
				t.Fatalf("the folder's own page is %q", got)
			}
			tab.Report(t)
			browser.Ask[chromedp.Void](t, tab, `navigator.serviceWorker.ready`)
			browser.Wait(t, tab, `navigator.serviceWorker.controller`)
			browser.Ask[chromedp.Void](t, tab, `new Promise((done) => {
				const look = async () => {
					const all = await navigator.serviceWorker.getRegistrations();
					if (all.filter((r) => r.active).length === 2) done();
					else setTimeout(look, 20);
				};
				look();
			})`)
			server.Close()
			// The pages' policy lets no script fetch, so the store itself is asked.
			sheet := "students/" + site.SheetName(lessons[3].Slug, "a4")
			for _, name := range []string{bundle.Start, bundle.Index, bundle.Contents, sheet} {
				if !browser.Ask[bool](t, tab, "caches.match(`"+root+name+"`).then((found) => !!found)") {
					t.Errorf("%q is not on the device", name)
				}
			}
			for _, name := range []string{bundle.Start, "", string(e) + "/" + lessons[3].Slug + ".html"} {
				tab.Open(t, root, name)
				if got := browser.Ask[string](t, tab, `document.querySelector("h1")?.textContent ?? ""`); got == "" {
					t.Errorf("%q does not open without the server", name)
				}
				if !browser.Ask[bool](t, tab, `document.styleSheets.length > 0`) {
					t.Errorf("%q opens without its style sheet", name)
				}
			}
		})
	}
}
