package answers_test

// Awkward moments: slow storage, scripts that fail, another tab, a file that is turned down.

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Nothing that was typed may be lost, whatever else happens at that moment.

func TestWhatIsTypedBeforeTheStorageHasAnsweredIsKept(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	slow := `(() => {
		const open = IDBFactory.prototype.open;
		IDBFactory.prototype.open = function (...args) {
			const request = open.apply(this, args);
			let heard;
			Object.defineProperty(request, "onsuccess", { set: (f) => (heard = f) });
			request.addEventListener("success", (event) => setTimeout(() => heard.call(request, event), 700));
			return request;
		};
	})()`
	browser.Order(t, tab, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: slow})
	tab.Open(t, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("in_d"); e.focus(); e.value = "65"; `+
		`e.dispatchEvent(new Event("change")); })()`)
	if browser.Ask[bool](t, tab, `"ready" in document.body.dataset`) {
		t.Fatal("the storage was not slow; this then shows nothing")
	}
	browser.Ready(t, tab)
	browser.Wait(t, tab,
		`document.getElementById("in_d").value === "65" && document.getElementById("in_d").dataset.kept === "65"`)
	tab.Report(t)
}

func TestAHalfTypedBoxOutlivesTheNamingOfTheTeamInAnotherTab(t *testing.T) {
	t.Parallel()
	_, first, root := opened(t)
	browser.StartOver(t, first, root, browser.Lesson3)
	second := browser.Another(t, first)
	second.Open(t, root, browser.Lesson3)
	browser.Ready(t, second)
	browser.Ask[chromedp.Void](t, second,
		`(() => { const e = document.getElementById("in_d"); e.focus(); e.value = "65"; })()`)
	browser.Ask[chromedp.Void](t, first,
		`(() => { const n = document.getElementById("_name"); n.value = "Otters"; n.dispatchEvent(new Event("change")); })()`)
	browser.Wait(t, second, `document.getElementById("_name").value === "Otters"`)
	browser.Wait(t, second,
		`document.getElementById("in_d").value === "65" && document.getElementById("in_d").dataset.kept === "65"`)
	browser.Wait(t, first, `document.getElementById("in_d").value === "65"`)
	first.Report(t)
	second.Report(t)
}

func TestAScriptThatFailedIsAskedForAgain(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	var refused atomic.Bool
	files := http.FileServer(http.Dir(built.Dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "check.js") && refused.CompareAndSwap(false, true) {
			http.Error(w, "busy", http.StatusServiceUnavailable)
			return
		}
		if strings.HasSuffix(r.URL.Path, "offline.js") { // it would keep all files at once
			http.NotFound(w, r)
			return
		}
		files.ServeHTTP(w, r)
	}))
	defer server.Close()
	tab := browser.Open(t)
	tab.Open(t, server.URL+"/", browser.Lesson3)
	browser.Ready(t, tab)
	// The storage answers after the script has failed, and must not talk that away.
	browser.Ask[chromedp.Void](t, tab, `(() => {
		const store = trundle.sheet.store, put = store.put;
		store.put = async (...all) => {
			const done = await put(...all);
			await new Promise((later) => setTimeout(later, 500));
			return done;
		};
		const e = document.getElementById("in_d"); e.value = "65"; e.dispatchEvent(new Event("change"));
	})()`)
	browser.Wait(t, tab, `document.getElementById("in_d").dataset.kept === "65"`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("could not be loaded")`)
	browser.Fill(t, tab, [][2]string{{"guess", "6"}, {"C", "20.4"}})
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("stays on this device")`)
}

func TestAMessageGoesWhenItsReasonHasGone(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("in_d"); e.value = "7".repeat(300); `+
		`e.dispatchEvent(new Event("change")); })()`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("too long")`)
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("stays on this device")`)
}

func TestAFileOfAnotherTeamThatIsTurnedDownChangesNothing(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Fill(t, tab, [][2]string{{"guess", "6"}})
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.enter("Otters")`+
		`.then(() => trundle.sheet.store.put("d", "48")).then(() => trundle.sheet.enter(""))`)
	// Naming took the nameless entries along; the nameless team now starts anew.
	browser.Fill(t, tab, [][2]string{{"guess", "7"}})
	browser.Wait(t, tab, `document.getElementById("in_guess").dataset.kept === "7"`)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `document.querySelector("#_files input[type=file]")`)
	browser.Ask[chromedp.Void](t, tab, `(() => {
		const lessons = { "03-rotations-for-a-distance": { d: "65" } };
		const work = JSON.stringify({ trundle: "work", form: 1, pack: trundle.sheet.page.pack, team: "Otters", lessons });
		const list = new DataTransfer();
		list.items.add(new File([work], "work.json"));
		const picker = document.querySelector("#_files input[type=file]");
		picker.files = list.files;
		picker.dispatchEvent(new Event("change"));
	})()`)
	browser.Wait(t, tab, `document.querySelector("dialog[open]")`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll("dialog button")[1].click()`)
	browser.Wait(t, tab, `document.querySelector("#_files [role=status]").textContent.includes("Nothing was changed")`)
	browser.Wait(t, tab,
		`document.getElementById("_name").value === "" && document.getElementById("in_guess").value === "7"`)
	tab.Report(t)
}

func TestTheNamesOfTeamsAreOffered(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab,
		`trundle.sheet.store.enter("Otters").then(() => trundle.sheet.store.put("d", "48"))`)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_name").dispatchEvent(new Event("focus"))`)
	browser.Wait(t, tab, `document.querySelector("#_teams option[value=Otters]")`)
}

// TestAFactOfOurKitThatIsMissingIsAskedFor picks "ours" and leaves its wheel empty; then the
// order of statements: a find above the measure of the same fact.
func TestAFactOfOurKitThatIsMissingIsAskedFor(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\nfind n in rot to 0.01 = rotations(1 m, kit.wheel) \"Turns\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	browser.Ask[chromedp.Void](t, tab,
		`(() => { const k = document.getElementById("_kit"); k.value = "ours"; k.dispatchEvent(new Event("change")); })()`)
	if got := browser.Fill(t, tab, [][2]string{{"n", "6"}})[0]; got.Text != "Measure wheel first." {
		t.Errorf("without a wheel the answer is told %q", got.Text)
	}
	built = browser.BuildOf(t,
		"```work\nfind first in cm to 0.1 = circumference(kit.wheel) \"Round\"\nmeasure d = kit.wheel \"Wheel\"\n```\n")
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	if got := browser.Fill(t, tab, [][2]string{{"d", "3 in"}, {"first", "23.9"}})[1]; got.State != "right" {
		t.Errorf("a find above its measure is told %q", got.Text)
	}
	tab.Report(t)
}

func TestTooFewPlacesAreToldWithTheUnitToo(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	for _, text := range []string{"20", "20 cm"} {
		if got := browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", text}})[1]; !strings.Contains(got.Text, "0.1") {
			t.Errorf("%s is told %q", text, got.Text)
		}
	}
}

func TestWhatKeepsEntriesIsAskedForAgain(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	var refused atomic.Bool
	files := http.FileServer(http.Dir(built.Dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "offline.js") {
			http.NotFound(w, r)
			return
		}
		if strings.HasSuffix(r.URL.Path, "keep.js") && refused.CompareAndSwap(false, true) {
			http.Error(w, "busy", http.StatusServiceUnavailable)
			return
		}
		files.ServeHTTP(w, r)
	}))
	defer server.Close()
	tab := browser.Open(t)
	tab.Open(t, server.URL+"/", browser.Lesson3)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("could not be loaded")`)
	browser.Type(t, tab, "in_guess", "65")
	browser.Type(t, tab, "_name", "Otters")
	browser.Ready(t, tab)
	browser.Wait(t, tab, `document.getElementById("in_guess").dataset.kept === "65"`)
	browser.Wait(t, tab, `trundle.sheet.store.team === "Otters"`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("stays on this device")`)
	browser.Wait(t, tab, `document.getElementById("in_guess").value === "65"`)
}
