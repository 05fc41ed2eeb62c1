package answers_test

// Typing with a keyboard of glass: which one a box asks for, and how to get on.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// TestEnterGoesOnToTheNextBox types a run after the other without leaving the keyboard; the last box is left.
func TestEnterGoesOnToTheNextBox(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_stop-1").focus()`)
	browser.Wait(t, tab, `trundle.update`)
	typed(t, tab, "118.8\r120.3\r119.6\r121\r119.1\r119.8\r")
	browser.Wait(t, tab, told("avg")+`.includes("Right")`)
	if got := browser.Ask[string](t, tab, `document.activeElement.id`); got != "in_spread" {
		t.Errorf("after the mean the focus is on %q", got)
	}
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_w").focus()`)
	typed(t, tab, "3\r")
	browser.Wait(t, tab, told("w")+` !== ""`)
	tab.Report(t)
}

// TestABoxAsksForDigitsOnlyWhereTheyAreEnough: a keyboard of digits may have neither sign nor stroke nor letters, so a
// box that may need a sign or a fraction does not ask for it; a tap on a unit brings letters to any box.
func TestABoxAsksForDigitsOnlyWhereTheyAreEnough(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\n"+`given L = 1 m "To the gate"
measure d = kit.wheel "Wheel"
measure rest = 3 cm "Left over"
record stop[3] in cm to 0.1 = 99, 101, 102 "Stops"
record drift[3] in mm to 1 = 30, 31, 36 "Sideways"
record time[3] in s to 0.1 = 3, 4, 5 "Times"
record halt[3] in in to 1/16 = 36, 37, 38 "Inches"
find C in cm to 0.1 = circumference(d) "Round"
find e in % to 0.1 = percent_error(mean(stop), L) "Error"
find off in cm to 0.1 = mean(stop) - L "Off"
find size in cm to 0.1 = abs(off) "How far off"
find side in mm to 1 = mean(drift) "Mean drift"
find far in cm to 1/16 = C * 2 "Far"
`+"```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	got := strings.Join(browser.Ask[[]string](t, tab,
		`[...document.querySelectorAll("input[inputmode=decimal]")].map((e) => e.id.slice(3))`), " ")
	if want := "d stop-1 stop-2 stop-3 time-1 time-2 time-3 C e size"; got != want {
		t.Errorf("digits are asked for in\n%s, not in\n%s", got, want)
	}
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_d").focus()`)
	browser.Wait(t, tab, `trundle.update`)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("unit_C").click()`)
	if got := browser.Ask[string](t, tab, `document.activeElement.id + " " + document.activeElement.inputMode`); got !=
		"in_C text" {
		t.Errorf("after a tap on the unit the focus is on %q", got)
	}
	tab.Report(t)
}
