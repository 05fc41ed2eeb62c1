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
			`[...document.querySelectorAll(".plan [data-from], .onset [data-from]")].map((e) => e.textContent)`), " ")
	}
	before := cells()
	if before != strings.Repeat(" 0:00 0:10 0:23 0:47 0:51 0:57", 2)[1:] { // in the plan, and at each part
		t.Errorf("without a start the plan reads %s", before)
	}
	set := func(value string) {
		browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("_start"); e.value = "`+value+
			`"; e.dispatchEvent(new Event("input")); })()`)
	}
	set("23:55")
	if got := cells(); !strings.HasPrefix(got, "23:55 00:05 ") || !strings.HasSuffix(got, "00:18 00:42 00:46 00:52") {
		t.Errorf("from five to twelve the plan reads %s", got)
	}
	if tape := browser.Ask[string](t, tab, `document.querySelectorAll(".tape .n")[1].textContent`); tape != "00:05" {
		t.Errorf("the second numeral of the tape is %s", tape)
	}
	tab.Open(t, root, page)
	browser.Wait(t, tab, `document.querySelector(".plan [data-from]").textContent === "23:55"`)
	set("")
	if got := cells(); got != before {
		t.Errorf("without a start again it reads %s", got)
	}
	tab.Report(t)
}

// TestTheBarSaysWhatIsNowAndNext looks at the bar before, in and after an evening, which goes past midnight.
func TestTheBarSaysWhatIsNowAndNext(t *testing.T) {
	t.Parallel()
	tab, root := browser.Open(t), browser.Demo(t).Root()
	tab.Open(t, root, "mentors/03-rotations-for-a-distance.html")
	tab.View(t, browser.Tablet, browser.Light)
	bar := func(start, now string) string {
		return oneLine(browser.Ask[string](t, tab, `(() => {
			const { Date: Real } = globalThis;
			globalThis.Date = function () { return new Real("2026-01-01T`+now+`:30"); };
			const e = document.getElementById("_start");
			e.value = "`+start+`";
			e.dispatchEvent(new Event("input"));
			globalThis.Date = Real;
			const seen = [...document.querySelectorAll("#_bar > :not(p, .to), .now > b, .now a, .now small")]
				.filter((e) => e.getClientRects().length);
			const pointer = document.querySelector(".tape .now");
			const at = pointer ? Math.round(parseFloat(pointer.style.left)) + " %" : "";
			return [...seen.map((e) => e.textContent), at].join(" ¦ ");
		})()`))
	}
	for _, c := range [][3]string{
		{"", "17:23", "Start now ¦"},
		{"17:00", "16:48", "16:48 ¦ Warm-up ¦ starts in 12 min ¦"},
		{"17:00", "17:20", "17:20 ¦ Work it out ¦ 3 of 13 min left ¦ 17:23 Try it on the floor › ¦ 33 %"},
		{"17:00", "17:48", "17:48 ¦ Exit ticket ¦ 3 of 4 min left ¦ 17:51 Going further › ¦ 80 %"},
		{"17:00", "17:58", "17:58 ¦ Pack away ¦ 2 of 3 min left ¦ 97 %"},
		{"17:00", "18:10", "18:10 ¦ Pack away ¦ ended at 18:00 ¦"},
		{"23:50", "00:02", "00:02 ¦ Work it out ¦ 11 of 13 min left ¦ 00:13 Try it on the floor › ¦ 20 %"},
	} {
		if got := bar(c[0], c[1]); got != c[2] {
			t.Errorf("with a start at %q the bar reads at %s %q, not %q", c[0], c[1], got, c[2])
		}
	}
	browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("_start"); e.value = "";
		e.dispatchEvent(new Event("input")); document.querySelector("#_bar .begin").click(); })()`)
	if browser.Ask[string](t, tab, `document.getElementById("_start").value`) == "" {
		t.Error("Start now sets no start")
	}
	const live = `document.querySelectorAll("#_bar [aria-live], #_bar [role=status]").length`
	if browser.Ask[int](t, tab, live) > 0 {
		t.Error("the bar is read out whenever it changes")
	}
	tab.Report(t)
}

// TestTicksStayForTheEvening ticks off what is to be done before, by its text.
func TestTicksStayForTheEvening(t *testing.T) {
	t.Parallel()
	tab, root := browser.Open(t), browser.Demo(t).Root()
	const page, ticked = "mentors/03-rotations-for-a-distance.html", `document.querySelectorAll(".ticks :checked").length`
	tab.Open(t, root, page)
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".ticks div")[1].click()`)
	tab.Open(t, root, page)
	browser.Wait(t, tab, ticked+` === 1`)
	if kept := browser.Ask[string](t, tab, `Object.keys(localStorage).join()`); kept != "" {
		t.Errorf("for longer than the evening is kept: %s", kept)
	}
	tab.Report(t)
}

// TestTheSeasonIsAddedUp looks for what mentors have to bring and to know.
func TestTheSeasonIsAddedUp(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	for name, want := range map[string][]string{
		"mentors/materials.html": {"Materials for the season", "driving base, charged",
			`paper cups</th><td class="right">2</td><td class="right">8</td>`, "Standards covered", "CCSS 6.NS.C.7",
			"Care cards needed", "Wheels and a damp cloth"},
		"mentors/index.html":  {`href="materials.html"`, "Take care each week: <a"},
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
