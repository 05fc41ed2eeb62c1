package pages_test

// The mentors' plan as a clock, and what the season adds up to.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// TestThePlanIsAClockFromAnyStart sets the start of an evening that goes past midnight.
func TestThePlanIsAClockFromAnyStart(t *testing.T) {
	t.Parallel()
	tab, root := browser.Open(t), browser.Demo(t).Root()
	const page = "mentors/03-rotations-for-a-distance.html"
	tab.Open(t, root, page)
	cells := func() string {
		return strings.Join(browser.Ask[[]string](t, tab,
			`[...document.querySelectorAll(".plan [data-from]")].map((e) => e.textContent)`), " ")
	}
	before := cells()
	if !strings.HasPrefix(before, "0–8 8–") {
		t.Errorf("without a start the plan reads %s", before)
	}
	set := func(value string) {
		browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("_start"); e.value = "`+value+
			`"; e.dispatchEvent(new Event("input")); })()`)
	}
	set("23:55")
	if got := cells(); !strings.HasPrefix(got, "23:55 00:03 ") {
		t.Errorf("from five to twelve the plan reads %s", got)
	}
	if tape := browser.Ask[string](t, tab, `document.querySelectorAll(".tape .n")[1].textContent`); tape != "00:03" {
		t.Errorf("the second numeral of the tape is %s", tape)
	}
	tab.Open(t, root, page)
	browser.Wait(t, tab, `document.querySelector("[data-from]").textContent === "23:55"`)
	set("")
	if got := cells(); got != before {
		t.Errorf("without a start again it reads %s", got)
	}
	tab.Report(t)
}

// TestTheSeasonIsAddedUp looks for what mentors have to bring and to know.
func TestTheSeasonIsAddedUp(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for name, want := range map[string][]string{
		"mentors/index.html": {"Materials for the season", "driving base, charged",
			`paper cups</th><td class="right">2</td><td class="right">8</td>`, "Standards covered", "CCSS 6.NS.C.7",
			"Care cards needed", "Wheels and a damp cloth"},
		"students/index.html": nil,
	} {
		page := string(built.Files[name])
		for _, text := range want {
			if !strings.Contains(page, text) {
				t.Errorf("%s lacks %q", name, text)
			}
		}
		if want == nil && strings.Contains(page, "Standards covered") {
			t.Errorf("%s holds the mentors' season", name)
		}
	}
}
