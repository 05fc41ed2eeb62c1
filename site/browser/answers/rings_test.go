package answers_test

// The rings on the tape, one for each question of a part.

import (
	"slices"
	"testing"

	"trundle/testdata/browser"
)

func TestARingOfTheTapeFillsWhenItsQuestionIsRight(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	look := func(full, name string) {
		t.Helper()
		got := browser.Ask[string](t, tab, `[...document.querySelectorAll(".tape .full")].map((e) => e.id).join(" ")`)
		if got != full {
			t.Errorf("the rings %q are full, not %q", got, full)
		}
		said := browser.Ask[string](t, tab, `document.querySelectorAll(".tape a")[1].getAttribute("aria-label") ?? ""`)
		if said != name {
			t.Errorf("the part is called %q, not %q", said, name)
		}
	}
	rings := browser.Ask[[]string](t, tab, `[...document.querySelectorAll(".tape a")]
		.map((a) => [...a.querySelectorAll("i")].map((e) => e.id.slice(5)).join(" "))`)
	if want := []string{"", "C n x", "avg spread miss", "w"}; !slices.Equal(rings, want) {
		t.Errorf("the parts have the rings %q, not %q", rings, want)
	}
	look("", "")
	browser.Fill(t, tab, [][2]string{{"d", "65 mm"}, {"C", "20.4"}, {"n", "1"}})
	look("ring_C", "Work it out, 1 of 3 right")
	browser.Fill(t, tab, [][2]string{{"n", "5.97"}})
	look("ring_C ring_n", "Work it out, 2 of 3 right")
	browser.Fill(t, tab, [][2]string{{"n", ""}, {"C", "3"}})
	look("", "")
	tab.Report(t)
}
