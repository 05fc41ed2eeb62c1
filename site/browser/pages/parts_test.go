package pages_test

// Parts of a lesson that fold, and the bar of the team above them.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// open are the titles of the parts that are open.
const open = `[...document.querySelectorAll(".part[open] > summary h2")].map((h) => h.firstChild.data.trim()).join()`

// TestPartsOpenWhenSomethingLeadsIntoThem follows the link below a part, the tape, an address, and comes back.
func TestPartsOpenWhenSomethingLeadsIntoThem(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	start := func(name string) {
		tab.Open(t, "about:blank", "")
		tab.Open(t, built.Root(), name)
		browser.Filled(t, tab)
	}
	is := func(want string) {
		t.Helper()
		browser.Wait(t, tab, open+` === "`+want+`"`)
	}
	start(browser.Lesson3)
	is("Warm-up")
	browser.Ask[chromedp.Void](t, tab, `document.querySelector(".part[open] .on a").click()`)
	is("Warm-up,Work it out")
	browser.Wait(t, tab, `document.getElementById("in_d").checkVisibility()`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".part > summary")[1].click()`)
	is("Warm-up")
	// The same address once more.
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".tape a")[1].click()`)
	is("Warm-up,Work it out")
	start(browser.Lesson3 + "#%E2") // cut off within a letter: it leads nowhere, and must not stop the page's scripts
	is("Warm-up")
	start(browser.Lesson3 + "#in_avg")
	is("Warm-up,Try it on the floor")
	top := browser.Ask[float64](t, tab, `document.getElementById("in_avg").getBoundingClientRect().top`)
	if top < 0 || top > 800 {
		t.Errorf("the box that the address names is at %g", top)
	}
	browser.Fill(t, tab, [][2]string{{"w", "4.4"}})
	browser.Wait(t, tab, `document.getElementById("in_w").dataset.kept === "4.4"`)
	start(browser.Lesson3)
	is("Warm-up,Exit ticket")
	tab.Report(t)
}

// TestWithoutScriptsALessonSaysSoAndOpens presses a part, and looks for what cannot work.
func TestWithoutScriptsALessonSaysSoAndOpens(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	browser.Order(t, tab, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	tab.Open(t, built.Root(), browser.Lesson3)
	bar := browser.Ask[string](t, tab, `document.getElementById("_team").innerText`)
	if strings.TrimSpace(bar) != "Without scripts nothing is checked or kept; use the worksheet." {
		t.Errorf("the bar of the team says %q", bar)
	}
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".part > summary")[1].click()`)
	browser.Wait(t, tab, `document.getElementById("in_d").checkVisibility()`)
	tab.Report(t)
}

// TestTheBarHasRoomForEverything looks at the bar on three screens: nothing lies over anything else, and on a tablet it
// is one line.
func TestTheBarHasRoomForEverything(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), browser.Lesson3)
	browser.Filled(t, tab)
	for _, width := range []int64{browser.Narrowest, 360, 600, 710, browser.Tablet, browser.Desktop} {
		tab.View(t, width, browser.Light)
		over := browser.Ask[[]string](t, tab, `(() => {
			const all = [...document.querySelectorAll("#_team > label, #_kept, #_files > summary")];
			const box = (e) => e.getBoundingClientRect();
			const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
			return all.flatMap((e, i) => all.slice(i + 1).filter((f) => meet(box(e), box(f)))
				.map((f) => e.textContent.trim().slice(0, 20) + " / " + f.textContent.trim().slice(0, 20)));
		})()`)
		if len(over) > 0 {
			t.Errorf("at %d px these lie over each other: %q", width, over)
		}
		high := browser.Ask[float64](t, tab, `document.getElementById("_team").offsetHeight`)
		if width >= browser.Tablet && high > 70 {
			t.Errorf("at %d px the bar is %g px high", width, high)
		}
	}
}

// TestClearingIsApartFromKeeping opens the question, and measures the way between its two buttons.
func TestClearingIsApartFromKeeping(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), browser.Lesson3)
	browser.Filled(t, tab)
	tab.View(t, browser.Phone, browser.Light)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `document.querySelector("#_files [data-act=clear-all]")`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("#_files [data-act=clear-all]").click()`)
	browser.Wait(t, tab, `document.querySelector("dialog[open]")`)
	got := browser.Ask[struct {
		Apart  float64
		Colour bool
		Text   string
		Focus  string
	}](t, tab, `(() => {
		const [yes, no] = document.querySelectorAll("dialog button");
		const [a, b] = [yes, no].map((e) => e.getBoundingClientRect());
		return {
			apart: Math.max(b.left - a.right, b.top - a.bottom),
			colour: getComputedStyle(yes).backgroundColor !== getComputedStyle(no).backgroundColor,
			text: yes.textContent, focus: document.activeElement.textContent,
		};
	})()`)
	if got.Apart < 12 || !got.Colour || got.Text != "Clear the work of all teams" || got.Focus != "Keep it" {
		t.Errorf("the two buttons: %+v", got)
	}
	tab.Report(t)
}
