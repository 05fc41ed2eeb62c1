package answers_test

// One line of steps at a right answer, the rest in a fold.

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"trundle/generator/work"
	"trundle/testdata/browser"
)

// ownLine is what the page shows of a find's steps at once, one part after the other.
const ownLine = `((name) => [...document.querySelectorAll("#own_" + name + " .piece:not([hidden])")]` +
	`.map((e) => e.textContent))`

// testLines answers every find of a lesson with the coach's numbers, which are typed already: its line begins with its
// name and ends in the value that mentors see.
func testLines(t *testing.T, tab *browser.Tab, l *work.Lesson) (seen int) {
	t.Helper()
	finds := browser.Finds(l)
	var typed [][2]string
	for _, find := range finds {
		typed = append(typed, [2]string{find.Name, browser.Exact(l, find)})
	}
	browser.Fill(t, tab, typed)
	for _, find := range finds {
		parts := browser.Ask[[]string](t, tab, ownLine+`("`+find.Name+`")`)
		line := noBlanks(strings.Join(parts, ""))
		value := noBlanks(l.Of(find).Text())
		isThere := strings.HasSuffix(line, "="+value) || strings.HasSuffix(line, "≈"+value)
		if !isThere || !strings.HasPrefix(line, find.Name+"=") && !strings.HasPrefix(line, find.Name+"≈") {
			t.Errorf("%s: the line of %s is %q; its value is %s", l.Slug, find.Name, parts, value)
		}
		if strings.Contains(line, "NaN") || strings.Contains(line, "undefined") {
			t.Errorf("%s: the line of %s is %q", l.Slug, find.Name, parts)
		}
	}
	if open := browser.Ask[int](t, tab, `document.querySelectorAll(".own details[open]").length`); open > 0 {
		t.Errorf("%s: %d folds are open", l.Slug, open)
	}
	return len(finds)
}

// noBlanks drops blanks, and the strokes of fractions, which pages stack where they are known.
func noBlanks(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '/' {
			return -1
		}
		return r
	}, s)
}

// TestTheLineShowsTheTeamsNumbers looks at the lines of lesson 3: whose numbers they have, and in which form.
func TestTheLineShowsTheTeamsNumbers(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Fill(t, tab, [][2]string{{"d", "64.5"}, {"stop-1", "118.8"}, {"stop-2", "120.3"}, {"stop-3", "119.6"},
		{"stop-4", "121.0"}, {"stop-5", "119.1"}, {"C", "20.3"}, {"avg", "119.8"}, {"spread", "2.2"}})
	for name, want := range map[string][]string{
		"C":      {"C=π×d", "=π×64.5mm", "=20.2632…cm", "≈20.3cm"},
		"avg":    {"avg=598.8cm5", "=119.76cm", "≈119.8cm"},
		"spread": {"spread=largest−smallest", "=121.0cm−118.8cm", "=2.2cm"},
	} {
		var got []string
		for _, part := range browser.Ask[[]string](t, tab, ownLine+`("`+name+`")`) {
			got = append(got, noBlanks(part))
		}
		if !slices.Equal(got, want) {
			t.Errorf("the line of %s is %q, not %q", name, got, want)
		}
	}
	// Theirs looks so, printed does not: 64.5 is theirs, 48 in of the lesson is not.
	browser.Fill(t, tab, [][2]string{{"n", "6.02"}})
	ours := browser.Ask[[]string](t, tab,
		`[...document.querySelectorAll("#own_n .piece mn.ours")].map((e) => e.textContent)`)
	if !slices.Contains(ours, "64.5") || slices.Contains(ours, "48") {
		t.Errorf("of n these are shown as the team's: %q", ours)
	}
	tab.Report(t)
}
