package generator_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/testdata/browser"
)

// TestWhatAPackNamesIsFollowedWhileItIsWritten changes units, money, kits and formulas under one memory, and holds what
// it finds against a memory that starts with none.
func TestWhatAPackNamesIsFollowedWhileItIsWritten(t *testing.T) {
	pack := browser.PackOf("```work\nmeasure d = kit.wheel \"Wheel\"\ngiven L = 5 tiles\n" +
		"find n in ticks to 1 = rotations(L, d)\nfind e in % to 0.1 = lost_way(L, 142 cm)\n" +
		"find c in EUR to 0.01 = 4 * 2.50 EUR\nfind t in s to 0.1 = L / kit.pace\n```\n\n" +
		"```runs data/runs.csv\ngroup base \"Base\"\nalong stop in cm to 0.1 = 120 cm \"Stop\"\n```\n")
	set := func(name, text string) { pack[name] = &fstest.MapFile{Data: []byte(text)} }
	const head = "title: P\nversion: 1\nkit: heron\n"
	set("data/runs.csv", "base,stop (tiles)\nA,4\nA,4.1\nA,3.9\n")
	var memory generator.Memory
	seen := map[string]bool{}
	prove := func() string {
		t.Helper()
		got, fresh := proved(t, &memory, pack), proved(t, new(generator.Memory), pack)
		if got != fresh {
			t.Errorf("with a memory\n%s\nwithout one\n%s", got, fresh)
		}
		return got
	}
	note := func(what string) {
		t.Helper()
		got := prove()
		if seen[got] {
			t.Errorf("%s changes nothing:\n%s", what, got)
		}
		seen[got] = true
	}
	note("nothing that is named")
	set("pack.yaml", head+"money: EUR\nunits: {ticks: 360 a rotation, tiles: 30 cm}\n")
	note("units")
	set("kits.yaml", "heron: {title: H, wheel: 65 mm, pace: 30 cm/s}\n")
	note("a fact of the kit")
	const formula = "lost_way: {values: {a: length, b: length}, is: (a - b) / a, in: \"%\", says: S, source: S}\n"
	set("formulas.yaml", formula)
	note("a formula")
	if got := prove(); !strings.Contains(got, "n = 2644.") || strings.Contains(got, "error") {
		t.Errorf("it is still wrong: %s", got)
	}
	set("formulas.yaml", strings.Replace(formula, "/ a", "/ b", 1))
	note("another formula")
	set("pack.yaml", head+"money: EUR\nunits: {ticks: 720 a rotation, tiles: 30 cm}\n")
	note("another unit")
	set("pack.yaml", head+"money: EUR\nunits: {ticks: 720 a rotation, tiles: 25 cm}\n")
	note("a unit of a file of runs")
	set("pack.yaml", "# A comment.\n"+head+"money: EUR\nunits:\n  ticks: 720 a rotation\n  tiles: 25 cm\n")
	if got := prove(); !seen[got] {
		t.Errorf("the same in other words is something else: %s", got)
	}
	delete(pack, "formulas.yaml")
	note("no formulas")
}

// proved writes what proving a pack comes to.
func proved(t *testing.T, memory *generator.Memory, pack fstest.MapFS) string {
	t.Helper()
	p, err := memory.Prove(t.Context(), pack)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, one := range p.Problems {
		fmt.Fprintf(&b, "%s %s: %s\n", one.Severity, one.Slug, one.What)
	}
	for _, l := range p.Lessons {
		for _, s := range l.Finds {
			if q, ok := l.Of(s).Quantity(); ok {
				fmt.Fprintf(&b, "%s = %g %s\n", s.Name, q.Number, q.Unit)
			}
		}
		for _, d := range l.Data {
			for _, m := range d.Measured {
				fmt.Fprintf(&b, "%+v in %s\n", m.Groups, m.Unit)
			}
		}
	}
	return b.String()
}
