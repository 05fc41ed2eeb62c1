package answers_test

// The robot that a team chooses, and what of the page follows it.

import (
	"fmt"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// TestOurOwnKit chooses it without facts, gives it one that cannot be read, and goes back to no kit.
func TestOurOwnKit(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\ngiven r = kit.wheel / 2 \"Radius\"\nmeasure d = kit.wheel \"Wheel\"\n"+
		"find n in rot to 0.1 = rotations(1 m, d, kit.gear) \"Motor rotations\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	facts := func() string { return browser.Ask[string](t, tab, `document.getElementById("_facts").textContent`) }
	choose := func(id, text string) {
		t.Helper()
		enter(t, tab, id, text)
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById(%q).dataset.kept === %q`, id, text))
	}
	box := func(want string) {
		t.Helper()
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("in_d").value === %q`, want))
	}
	first := facts()
	choose("_kit", "coot")
	box("48")
	choose("_kit", "ours")
	box("") // the number was that of another robot
	for text, want := range map[string]string{
		"3 to 5": "cannot be read as a number", "-1": "more than 0", "3/5": "stays on this device",
		"3:5": "stays on this device",
	} {
		choose("kit_gear", text)
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("_kept").textContent.includes(%q)`, want))
		isBad := `(document.getElementById("kit_gear").ariaInvalid === "true")`
		browser.Wait(t, tab, fmt.Sprintf(isBad+` === %v`, text != "3/5" && text != "3:5"))
	}
	choose("kit_wheel", "50")
	box("50")
	choose("_kit", "")
	box("")
	if got := facts(); got != first {
		t.Errorf("without a kit the page says %q, and said %q at first", got, first)
	}
	// What a team has measured without a kit stays, though it is the size of the pack's own.
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	choose("_kit", "ours")
	box("65")
	tab.Report(t)
}

// TestTheFactsOfTheKitFollow builds a lesson that is told the kit's facts.
func TestTheFactsOfTheKitFollow(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "One rotation is {circumference(kit.wheel) in cm to 0.1}.\n\n```python filled\n"+
		"go({rotations(1 m, kit.wheel) to 0.01})\n```\n\n"+
		"```work\ngiven r = kit.wheel / 2 \"Radius\"\nfind n in rot to 0.1 = rotations(1 m, kit.wheel, kit.gear) "+
		"\"Motor rotations\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	text := func() string { return browser.Ask[string](t, tab, `document.querySelector("main").innerText`) }
	if got := text(); !strings.Contains(got, "20.4") || !strings.Contains(got, "go(4.90)") ||
		!strings.Contains(got, "32.5") {
		t.Errorf("at first the page reads %s", got)
	}
	browser.Ask[chromedp.Void](t, tab,
		`(() => { const k = document.getElementById("_kit"); k.value = "coot"; k.dispatchEvent(new Event("change")); })()`)
	browser.Wait(t, tab, `["15.1", "Coot · wheel 48"].every((w) => document.querySelector("main").innerText.includes(w))`)
	if got := text(); !strings.Contains(got, "go(6.63)") || !strings.Contains(got, "24") {
		t.Errorf("with Coot the page reads %s", got)
	}
	if got := browser.Fill(t, tab, [][2]string{{"n", "6.6"}})[0]; got.State != "right" {
		t.Errorf("with Coot 6.6 rotations are told %q", got.Text)
	}
	tab.Report(t)
}

// enter puts a value into a field, or chooses it, in one step.
func enter(t *testing.T, tab *browser.Tab, id, text string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
		const e = document.getElementById(%q);
		e.value = %q;
		e.dispatchEvent(new Event("change"));
	})()`, id, text))
}
