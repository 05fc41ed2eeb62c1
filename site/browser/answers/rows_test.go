package answers_test

// Fewer runs than the lesson asks for, and more.

import (
	"fmt"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

const rowsOf = `document.getElementById("rows_stop")`

// pressMore presses the first button below the record.
func pressMore(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, rowsOf+`.querySelector("button").click()`)
}

func below(t *testing.T, tab *browser.Tab) string {
	t.Helper()
	return browser.Ask[string](t, tab, rowsOf+`?.textContent.trim() ?? ""`)
}

// TestFourRunsOfFiveCanBeUsed fills four, says so, comes back, changes its mind, and fills the fifth.
func TestFourRunsOfFiveCanBeUsed(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	fill := func(id, text string) browser.Said { return browser.Fill(t, tab, [][2]string{{id, text}})[0] }
	fill("stop-1", "119.8")
	if got := fill("stop-2", "121.6"); below(t, tab) != "" {
		t.Errorf("two of five are offered: %q, %q", got.Text, below(t, tab))
	}
	fill("stop-4", "120.4")
	fill("stop-5", "121.3")
	// (119.8 + 121.6 + 120.4 + 121.3) ÷ 4 = 120.775
	if got := fill("avg", "120.8"); got.Text != "Fill in all the runs of stop first." {
		t.Errorf("before the team says so, it is told %q", got.Text)
	}
	if got := below(t, tab); got != "Use what we have: 4 runs" {
		t.Errorf("below the runs stands %q", got)
	}
	pressMore(t, tab)
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	if got := below(t, tab); got != "Worked out from these 4 runs. Wait for all 5 runs" {
		t.Errorf("below the runs stands %q", got)
	}
	if got := browser.Ask[bool](t, tab, `document.getElementById("own_avg")?.checkVisibility() ?? false`); got {
		t.Error("the steps of five runs are shown for four")
	}
	if got := fill("avg", "120.7"); got.State == "right" {
		t.Error("a mean that is off is right")
	}
	fill("avg", "120.8")
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.whole()`)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	kept := browser.Ask[string](t, tab, `document.getElementById("_kept").textContent`)
	if strings.Contains(kept, "stop-0") {
		t.Errorf("the page says of it %q", kept)
	}
	pressMore(t, tab)
	browser.Wait(t, tab, told("avg")+`.includes("Fill in all")`)
	pressMore(t, tab)
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	// With 120.9 the mean of all five is 120.8, too.
	fill("stop-3", "120.9")
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	browser.Wait(t, tab, `document.getElementById("own_avg").checkVisibility()`)
	tab.Report(t)
}

// TestASixthRunCanBeAdded adds one, and one that stays empty; comes back; and asks for the table.
func TestASixthRunCanBeAdded(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	for i, x := range []string{"119.8", "121.6", "120.9", "120.4", "121.3"} {
		browser.Fill(t, tab, [][2]string{{fmt.Sprintf("stop-%d", i+1), x}})
	}
	if got := below(t, tab); got != "Add run 6" {
		t.Fatalf("below the runs stands %q", got)
	}
	pressMore(t, tab)
	if got := browser.Ask[string](t, tab, `document.activeElement.id`); got != "in_stop-6" {
		t.Errorf("the focus is on %q", got)
	}
	if got := below(t, tab); got != "" {
		t.Errorf("while the sixth is empty there stands %q", got)
	}
	name := browser.Ask[string](t, tab, `document.activeElement.getAttribute("aria-label")`)
	if !strings.Contains(name, "run 6, cm") && !strings.Contains(name, "Run 6, cm") {
		t.Errorf("its name is %q", name)
	}
	// (604 + 127) ÷ 6 = 121.83
	browser.Type(t, tab, "in_stop-6", "127")
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_avg").focus()`)
	browser.Wait(t, tab, `document.getElementById("in_stop-6").dataset.kept === "127"`)
	if got := browser.Fill(t, tab, [][2]string{{"avg", "120.8"}})[0]; got.State == "right" ||
		!strings.Contains(got.Text, "You have 6 runs now") {
		t.Errorf("for six the mean of five is told %q (%s)", got.Text, got.State)
	}
	if got := browser.Fill(t, tab, [][2]string{{"avg", "121.8"}})[0]; got.State != "right" {
		t.Errorf("the mean of six is told %q", got.Text)
	}
	pressMore(t, tab) // the seventh stays empty
	if got := browser.Fill(t, tab, [][2]string{{"avg", "121.83"}})[0]; got.State != "right" {
		t.Errorf("with an empty seventh the mean of six is told %q", got.Text)
	}
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.whole()`)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Wait(t, tab, `document.getElementById("in_stop-6")?.value === "127"`)
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	if n := browser.Ask[int](t, tab, `document.querySelectorAll("[id^=in_stop-]").length`); n != 6 {
		t.Errorf("there are %d boxes", n)
	}
	sum := browser.Ask[string](t, tab, `document.getElementById("sum_stop").textContent`)
	if !strings.Contains(sum, "121.8") {
		t.Errorf("below the runs stands %q", sum)
	}
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Newts", false)`)
	browser.Wait(t, tab, `document.getElementById("in_stop-6").value === ""`)
	tab.Report(t)
}
