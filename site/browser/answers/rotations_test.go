package answers_test

// One rotation and more: how pages and what is said of answers write the unit.

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"
)

// TestRotationsAreWrittenOutOnThePage looks at one rotation and at more: in boxes, in what
// is said of an answer, in prose that follows the boxes, in steps; and at rot in columns.
func TestRotationsAreWrittenOutOnThePage(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\nmeasure a = 8 rot \"A\"\nrecord r[2] in rot to 0.1 = 1.0, 2.0 \"R\"\n"+
		"find n in rot = a / 2 \"N\"\n```\n\nThen it went {n} and stopped.\n\nThe kit needs {kit.wheel / 65 mm in rot}.\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	prose := func() string {
		return strings.ReplaceAll(browser.Ask[string](t, tab, `document.querySelector("main").innerText`), "\u00a0", " ")
	}
	if got := prose(); !strings.Contains(got, "needs 1 rotation.") {
		t.Errorf("at first the page reads %s", got)
	}
	for _, c := range []struct{ a, n, shown string }{
		{"2 rot", "1 turn", "1 rotation"}, {"6 turns", "3", "3 rotations"}, {"2", "1 rotation", "1 rotation"},
		{"1", "0.5 rotations", "0.5 rotations"},
	} {
		told := browser.Fill(t, tab, [][2]string{{"a", c.a}, {"n", c.n}})[1]
		if told.State != "right" {
			t.Errorf("half of %s is %s, and the page says %q", c.a, c.n, told.Text)
		}
		if got := prose(); !strings.Contains(got, "Then it went "+c.shown+" and stopped.") {
			t.Errorf("half of %s: the page reads %s", c.a, got)
		}
		steps := browser.Ask[string](t, tab, `document.querySelector("#own_n ol").textContent`)
		if steps = strings.ReplaceAll(steps, "\u202f", " "); !strings.HasSuffix(strings.TrimSpace(steps), c.shown) {
			t.Errorf("half of %s: the steps are %q", c.a, steps)
		}
	}
	if unit := browser.Ask[string](t, tab, `document.getElementById("unit_n").textContent`); unit != "rotations" {
		t.Errorf("the box is in %q", unit)
	}
	told := browser.Fill(t, tab, [][2]string{{"n", "180 kg"}})[0]
	if !strings.Contains(told.Text, "rotations") {
		t.Errorf("of kilograms the page says %q", told.Text)
	}
	steps, err := os.ReadFile(filepath.Join(built.Dir, "students", "steps", "01-t.js"))
	if err != nil || !strings.Contains(string(steps), `"n":"r","k":"record","u":"rotations","csv":"rot"`) {
		t.Errorf("the column of a record is not in rot: %v %s", err, steps)
	}
	tab.Report(t)
}
