package pages_test

// Mentors search all lessons: from the disk, by keyboard, without capitals and accents.

import (
	"fmt"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// foundFor types into the box and gives what is listed, once the count says that the search is done.
func foundFor(t *testing.T, tab *browser.Tab, sought string) (count string, addresses []string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
		const field = document.querySelector("#_search input");
		document.querySelector("#_search [role=status]").textContent = "";
		field.value = %q;
		field.dispatchEvent(new Event("input", { bubbles: true }));
	})()`, sought))
	browser.Wait(t, tab, `document.querySelector("#_search [role=status]").textContent`)
	return browser.Ask[string](t, tab, `document.querySelector("#_search [role=status]").textContent`),
		browser.Ask[[]string](t, tab, `[...document.querySelectorAll("#_search li a")].map((a) => a.getAttribute("href"))`)
}

func TestMentorsFindAWordInALesson(t *testing.T) {
	t.Parallel()
	pack := browser.PackOf("Roll it.\n\n```work\ngiven L = 1 m \"From the Café to the quay\"\n```\n\n" +
		"> Mentor: Mind the gap of 20.4 cm.\n\n### Straße <b>one</b>\n\n" + strings.Repeat("Many words. ", 20) +
		"Ein Łódź, Cœur, Räder, and a crossroad.\n\n#### Many\n\n" + strings.Repeat("### Lot\n\nLots of places.\n\n", 60))
	pack["01-t.md"].Data = []byte(strings.Replace(string(pack["01-t.md"].Data), "week: 1",
		"week: 1\nmaterials: [1 spirit level]", 1))
	built, tab := browser.Build(t, pack), browser.Open(t)
	tab.Open(t, built.Root(), "mentors/index.html")
	if browser.Ask[bool](t, tab, `document.querySelector("#_search").hidden || !!globalThis.trundle?.texts`) {
		t.Error("the box is hidden, or the texts are loaded before anybody types")
	}
	for sought, want := range map[string]string{
		"cafe QUAY": "01-t.html#part", "gap 20.4": "01-t.html#part", "strasse": "01-t.html#straße",
		"<b>one": "01-t.html#straße", "lodz": "01-t.html#straße", "coeur": "01-t.html#straße",
		"raeder": "01-t.html#straße", "rader": "01-t.html#straße", "räder": "01-t.html#straße",
		"spirit": "01-t.html", "tidy": "care.html#cloth-after",
	} {
		count, addresses := foundFor(t, tab, sought)
		unescaped := browser.Ask[[]string](t, tab, fmt.Sprintf(`%s.map(decodeURI)`, inScript(addresses)))
		if count != "1 place" || len(unescaped) != 1 || !strings.HasPrefix(unescaped[0], want) {
			t.Errorf("%q: %s, %q, want %s", sought, count, unescaped, want)
		}
		for _, to := range addresses {
			if why := built.Broken("mentors/index.html", to); why != "" {
				t.Errorf("%s leads nowhere: %s", to, why)
			}
		}
	}
	// A word is found by how it begins, not by what is inside it.
	if count, addresses := foundFor(t, tab, "road"); len(addresses) > 0 || !strings.Contains(count, "Nothing") {
		t.Errorf("road is found: %s, %q", count, addresses)
	}
	if count, addresses := foundFor(t, tab, "lots"); len(addresses) != 50 || !strings.HasPrefix(count, "60 places; ") {
		t.Errorf("lots: %s, %d are listed", count, len(addresses))
	}
	if _, addresses := foundFor(t, tab, "many"); len(addresses) != 2 || !strings.Contains(addresses[0], "#many") {
		t.Errorf("the heading does not come first: %q", addresses)
	}
	foundFor(t, tab, "lodz")
	if got := browser.Ask[string](t, tab, `document.querySelector("#_search mark").textContent`); got != "Łódź" {
		t.Errorf("what was sought is marked as %q", got)
	}
	press := func(key string) {
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("#_search input").dispatchEvent(
			new KeyboardEvent("keydown", { key: "`+key+`", cancelable: true }))`)
	}
	press("Enter")
	if !browser.Ask[bool](t, tab, `document.activeElement.matches("#_search li a")`) {
		t.Error("Enter does not lead to the first place")
	}
	press("Escape")
	browser.Wait(t, tab, `!document.querySelector("#_search li") && !document.querySelector("#_search input").value`)
	tab.Report(t)
}

func TestOnlyMentorsWithScriptsSeeTheSearch(t *testing.T) {
	t.Parallel()
	built, tab := browser.Build(t, browser.PackOf("Roll it.\n")), browser.Open(t)
	tab.Open(t, built.Root(), "students/index.html")
	if browser.Ask[bool](t, tab, `!!document.querySelector("#_search")`) {
		t.Error("students can search, and would find mentors' notes")
	}
	browser.Order(t, tab, emulation.SetScriptExecutionDisabled,
		emulation.SetScriptExecutionDisabledParams{Value: true})
	tab.Open(t, built.Root(), "mentors/index.html")
	if !browser.Ask[bool](t, tab, `document.querySelector("#_search").hidden`) {
		t.Error("without scripts there is a box that does nothing")
	}
}

// inScript writes texts as a script has them.
func inScript(texts []string) string {
	return strings.ReplaceAll(fmt.Sprintf("%q", texts), `" "`, `","`)
}
