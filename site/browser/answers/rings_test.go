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
	look := func(full, name string) { // each ring as 1 or 0
		t.Helper()
		got := browser.Ask[string](t, tab,
			`[...document.querySelectorAll(".tape b i")].map((e) => Number(e.className === "full")).join("")`)
		if got != full {
			t.Errorf("the rings %q are full, not %q", got, full)
		}
		said := browser.Ask[string](t, tab, `document.querySelectorAll(".tape a")[1].getAttribute("aria-label") ?? ""`)
		if said != name {
			t.Errorf("the part is called %q, not %q", said, name)
		}
	}
	rings := browser.Ask[[]int](t, tab, `[...document.querySelectorAll(".tape a")]
		.map((a) => a.querySelectorAll("i").length)`)
	if want := []int{0, 2, 3, 1, 1, 0}; !slices.Equal(rings, want) {
		t.Errorf("the parts have the rings %v, not %v", rings, want)
	}
	look("0000000", "")
	browser.Fill(t, tab, [][2]string{{"d", "65 mm"}, {"C", "20.4"}, {"n", "1"}})
	look("1000000", "Work it out, 1 of 2 right")
	browser.Fill(t, tab, [][2]string{{"n", "5.97"}})
	look("1100000", "Work it out, 2 of 2 right")
	browser.Fill(t, tab, [][2]string{{"n", ""}, {"C", "3"}})
	look("0000000", "")
	browser.Fill(t, tab, [][2]string{{"w", "4.41"}})
	if said := browser.Ask[string](t, tab, `document.querySelectorAll(".tape a")[3].getAttribute("aria-label")`); said !=
		"Exit ticket, 1 of 1 right" {
		t.Errorf("the last part is called %q", said)
	}
	tab.Report(t)
}
