package keeping_test

// What is typed before the storage of the page is there.

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"

	"trundle/testdata/browser"
)

// TestWhatIsTypedBeforeTheStorageIsThereIsFoundOnTheNextVisit has a server that does not give what keeps entries until
// the page has been left twice.
func TestWhatIsTypedBeforeTheStorageIsThereIsFoundOnTheNextVisit(t *testing.T) {
	t.Parallel()
	var refuses atomic.Bool
	files := http.FileServer(http.Dir(browser.Demo(t).Dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case strings.HasSuffix(r.URL.Path, "offline.js"), refuses.Load() && strings.HasSuffix(r.URL.Path, "keep.js"):
			http.Error(w, "busy", http.StatusServiceUnavailable)
		default:
			files.ServeHTTP(w, r)
		}
	}))
	defer server.Close()
	first := browser.Open(t)
	for _, how := range []string{"reload", "close"} {
		t.Run(how, func(t *testing.T) {
			tab := browser.Another(t, first)
			browser.StartOver(t, tab, server.URL+"/", browser.Lesson3)
			refuses.Store(true)
			tab.Open(t, server.URL+"/", browser.Lesson3)
			browser.Type(t, tab, "_name", "Otters")
			browser.OpenParts(t, tab)
			browser.Type(t, tab, "in_d", "64")
			tab = waysOut[how](t, first, tab, server.URL+"/")
			tab.Open(t, server.URL+"/", browser.Lesson3)
			browser.OpenParts(t, tab)
			browser.Type(t, tab, "in_C", "20.1")
			tab = waysOut[how](t, first, tab, server.URL+"/")
			refuses.Store(false)
			tab.Open(t, server.URL+"/", browser.Lesson3)
			browser.Ready(t, tab)
			browser.Wait(t, tab, `in_d.value + " " + in_C.value + " " + trundle.sheet.store.team === "64 20.1 Otters"`)
			browser.Wait(t, tab, `in_d.dataset.kept === "64" && in_C.dataset.kept === "20.1"`)
			// It is not brought back once more when it has been cleared.
			browser.StartOver(t, tab, server.URL+"/", browser.Lesson3)
			tab.Open(t, server.URL+"/", browser.Lesson3)
			browser.Ready(t, tab)
			browser.Wait(t, tab, `in_d.value + in_C.value + trundle.sheet.store.team === ""`)
		})
	}
}
