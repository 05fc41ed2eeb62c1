package answers_test

// What a team gets that tries again and again, and what is said when a measurement looks odd.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

const more = `(document.getElementById("more_n")?.innerText ?? "")`

// TestEachWrongAnswerBringsMore tries lesson 3's n in vain, wrongly written and twice the same between, until it is
// right, and then another team begins anew.
func TestEachWrongAnswerBringsMore(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	try := func(text string) string {
		browser.Fill(t, tab, [][2]string{{"n", text}})
		return browser.Ask[string](t, tab, more)
	}
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	if got := try("7"); got != "" {
		t.Errorf("the first wrong answer brings %q", got)
	}
	for _, text := range []string{"7.0", "seven", "7 kg"} {
		if got := try(text); got != "" {
			t.Errorf("%q after 7 brings %q", text, got)
		}
	}
	const inWords = "How often does one rotation fit into the distance?"
	if got := try("8"); !strings.Contains(got, inWords) || strings.Contains(got, "first line") {
		t.Errorf("the second wrong answer brings %q", got)
	}
	got := try("9")
	if !strings.Contains(got, inWords) || !strings.Contains(got, "The first line:") ||
		!strings.Contains(got, "One like it, with other numbers") {
		t.Errorf("the third wrong answer brings %q", got)
	}
	if n := browser.Ask[int](t, tab, `document.querySelectorAll("#more_n details[open]").length`); n != 0 {
		t.Error("the example is open")
	}
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("#more_n summary").click()`)
	got = browser.Ask[string](t, tab, `document.querySelector("#more_n details").innerText`)
	if !strings.Contains(got, "53") || strings.Contains(got, "65") || strings.Contains(got, "5.97") {
		t.Errorf("the example is %q", got)
	}
	if got := try("10"); !strings.Contains(got, "One like it") {
		t.Errorf("the fourth wrong answer brings %q", got)
	}
	if n := browser.Ask[int](t, tab, `document.querySelectorAll("#more_n details[open]").length`); n != 1 {
		t.Error("the example has closed by itself")
	}
	if got := try("5.97"); got != "" {
		t.Errorf("the right answer is followed by %q", got)
	}
	if got := try("7"); got != "" {
		t.Errorf("after a right answer the first wrong one brings %q", got)
	}
	if got := try("8"); got == "" {
		t.Error("the second one brings nothing")
	}
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Newts", false)`)
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	if got := try("9"); got != "" {
		t.Errorf("another team's first wrong answer brings %q", got)
	}
	tab.Report(t)
}

// TestARightAnswerOnAnOddMeasurementSaysSoFirst takes a wheel of 65 cm, and then a run in mm.
func TestARightAnswerOnAnOddMeasurementSaysSoFirst(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	stops := [][2]string{{"stop-1", "119.8"}, {"stop-2", "121.6"}, {"stop-3", "1209"}, {"stop-4", "120.4"},
		{"stop-5", "121.3"}}
	said := browser.Fill(t, tab, append(stops, [][2]string{{"avg", "338.4"}, {"d", "650"}, {"C", "204.2"}}...))
	for i, want := range map[int]string{
		5: "Right for these numbers, but look at run 3 of stop first: 1209 cm?",
		7: "Right for these numbers, but look at d first: 650 mm?",
	} {
		if said[i].Text != want || said[i].State != "look" {
			t.Errorf("told %q (%s), want %q", said[i].Text, said[i].State, want)
		}
	}
	const line = `document.querySelector("#own_C .piece").checkVisibility()`
	if browser.Ask[bool](t, tab, line) {
		t.Error("the line of worked steps is shown on an odd diameter")
	}
	if browser.Ask[bool](t, tab, `document.getElementById("told_C").closest(".row").matches(".ok")`) {
		t.Error("an answer on an odd diameter is ticked")
	}
	got := browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})[1]
	if got.State != "right" || !browser.Ask[bool](t, tab, line) {
		t.Errorf("with the diameter put right: told %q, no line of steps", got.Text)
	}
	got = browser.Fill(t, tab, [][2]string{{"avg", "120.8"}})[0]
	if got.Text != "Look at run 3 of stop first: 1209 cm?" {
		t.Errorf("the mean that was meant is told %q", got.Text)
	}
	tab.Report(t)
}
