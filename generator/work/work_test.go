package work_test

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/work"
)

// worked works a lesson whose only content is the given body, for a kit.
func worked(t *testing.T, body string) (*work.Lesson, []problem.Problem) {
	t.Helper()
	kits, found := parse.Kits(source.NewFile("kits.yaml",
		[]byte("heron: {title: Heron, wheel: 65 mm ± 0.5 mm, track: 112 mm ± 1 mm, gear: 1}\n")))
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n" + body
	l, more := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
	found.Join(more)
	w, more := work.ForKit(l, kits[0], nil)
	found.Join(more)
	return w, found.Sorted()
}

func block(lines ...string) string { return "```work\n" + strings.Join(lines, "\n") + "\n```\n" }

func find(t *testing.T, w *work.Lesson, name string) *work.Result {
	t.Helper()
	for _, s := range w.Finds {
		if s.Name == name {
			return w.Of(s)
		}
	}
	t.Fatalf("no find %s", name)
	return nil
}

func TestKeyHoldsToItsLastWrittenPlaceBothEndsIn(t *testing.T) {
	for _, c := range []struct {
		name, find, key string
		holds           bool
	}{
		{"just above the lower end", "20.3501 cm", "20.4 cm", true},
		{"at the lower end", "20.35 cm", "20.4 cm", true},
		{"below the lower end", "20.3499 cm", "20.4 cm", false},
		{"at the upper end", "20.45 cm", "20.4 cm", true},
		{"at the upper end by way of a division", "40.9 cm / 2", "20.4 cm", true},
		{"above the upper end", "20.4501 cm", "20.4 cm", false},
		{"a trailing zero asks for more", "20.41 cm", "20.40 cm", false},
		{"a whole number to the unit", "120.4 cm", "120 cm", true},
		{"a whole number not to the ten", "121 cm", "120 cm", false},
		{"a tape fraction to half of its step", "8 3/64 in", "8 1/32 in", true},
		{"a tape fraction no further", "8 4/64 in", "8 1/32 in", false},
		{"in another unit of the kind", "204 mm", "20.4 cm", true},
		{"its own limit counts instead", "20.6 cm", "20.4 cm within 0.2 cm", true},
		{"outside its own limit", "20.61 cm", "20.4 cm within 0.2 cm", false},
		{"its own limit in another unit", "20.6 cm", "20.4 cm within 2 mm", true},
		{"a negative key", "-5.24 mm", "-5.2 mm", true},
		{"a number called rotations", "120 cm / 20 cm", "6.0 rot", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, problems := worked(t, block("find x = "+c.find, "key x = "+c.key))
			if len(problems) > 0 {
				t.Fatal(problems[0].What)
			}
			if got := find(t, w, "x").Key.Holds; got != c.holds {
				t.Errorf("find x = %s with key %s: holds is %v", c.find, c.key, got)
			}
		})
	}
}

func TestValuesThatRestOnStudentsAreMarked(t *testing.T) {
	w, problems := worked(t, block(
		`given L = 120 cm`, `measure d = 65 mm "Wheel"`, `record s[2] in cm = 1, 2 "Stop"`,
		`find C = circumference(d)`, `given twice = C * 2`, `given half = L / 2`)+
		"{L} {half} {d} {mean(s)} {C} {twice} {2 * twice} {kit.wheel}\n")
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	want := []bool{false, false, true, true, true, true, true, false}
	for i, v := range w.Shown {
		if got := w.OfValue(v).OfStudents; got != want[i] {
			t.Errorf("{%s}: depends on students is %v", v.Expr, got)
		}
	}
	if len(w.Shown) != len(want) {
		t.Errorf("%d values, not %d", len(w.Shown), len(want))
	}
}

func TestAKitsUncertaintyFlowsIn(t *testing.T) {
	w, problems := worked(t, block(`measure d = kit.wheel "Wheel"`, `find C in cm = circumference(d)`,
		`find none = d - kit.wheel`))
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	q, _ := find(t, w, "C").Quantity()
	const want = 3.14159265358979 * 0.05 // π times 0.5 mm in cm
	if got := q.Uncertainty(); got < want*0.999999 || got > want*1.000001 {
		t.Errorf("u(C) = %g cm, want %g", got, want)
	}
	if q, _ := find(t, w, "none").Quantity(); q.Number != 0 || q.Uncertainty() != 0 {
		t.Errorf("the kit's wheel less itself is %g ± %g", q.Number, q.Uncertainty())
	}
}

func TestTheOtherKitsHaveResultsOfTheirOwn(t *testing.T) {
	kits, _ := parse.Kits(source.NewFile("kits.yaml", []byte(
		"heron: {title: Heron, wheel: 65 mm}\ncoot: {title: Coot, wheel: 48 mm}\nbare: {title: Bare, track: 96 mm}\n")))
	l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(
		block(`measure d = kit.wheel "Wheel"`, `find C in cm to 0.1 = circumference(d)`, "key C = 20.4 cm"))))
	w, problems := work.ForKits(l, &lesson.Pack{Kits: kits, Kit: lesson.Text{Value: "heron"}})
	if problems.Count() > 0 || len(w.Others) != 1 || w.Others[0].Kit.Title != "Coot" {
		t.Fatal(problems.Sorted(), w.Others)
	}
	if here, there := find(t, w, "C").Text(), w.Others[0].Of(w.Finds[0]).Text(); here != "20.4 cm" || there != "15.1 cm" {
		t.Errorf("they are %s and %s", here, there)
	}
	if len(w.Others[0].Of(w.Finds[0]).Steps) == 0 {
		t.Error("the other kit has no worked steps")
	}
}

func TestARecordsStandardErrorIsTheUncertaintyOfItsMean(t *testing.T) {
	w, _ := worked(t, block(`record s[5] in cm = 118.8, 120.3, 119.6, 121.0, 119.1 "Stop"`,
		`find m = mean(s)`, `find e = stderr(s)`, `find none = m - mean(s)`))
	m, _ := find(t, w, "m").Quantity()
	e, _ := find(t, w, "e").Quantity()
	if diff := m.Uncertainty() - e.Number; diff > 1e-12 || diff < -1e-12 {
		t.Errorf("u(mean) = %g, stderr = %g", m.Uncertainty(), e.Number)
	}
	if q, _ := find(t, w, "none").Quantity(); q.Uncertainty() > 1e-12 {
		t.Errorf("a mean less itself has u = %g", q.Uncertainty())
	}
}

func TestFirstOrderIsDoubtedWhereItMisleads(t *testing.T) {
	for _, c := range []struct {
		name    string
		lines   []string
		doubted bool
	}{
		{"a circumference", []string{`measure d = 65 mm ± 0.5 mm "d"`, `find x = circumference(d)`}, false},
		{"a percent error far from zero", []string{`measure m = 110 cm ± 1 cm "m"`, `find x = percent_error(m, 100 cm)`},
			false},
		{"a percent error near zero", []string{`measure m = 100.2 cm ± 1 cm "m"`, `find x = percent_error(m, 100 cm)`}, true},
		{"a divisor known to 5 %", []string{`measure t = 10 s ± 0.5 s "t"`, `find x = 100 cm / t`}, false},
		{"a divisor known to 15 % (NIST TN 1900, E3, has one such)", []string{`measure t = 10 s ± 1.5 s "t"`,
			`find x = 100 cm / t`}, true},
		{"a divisor known to 30 %", []string{`measure t = 10 s ± 3 s "t"`, `find x = 100 cm / t`}, true},
		{"through a find between", []string{`measure t = 10 s ± 3 s "t"`, `find v = 100 cm / t`, `find x = 2 * v`}, true},
		{"through a record", []string{`record s[3] in cm = 99, 100, 101.5 "s"`, `find x = percent_error(mean(s), 100 cm)`},
			true},
		{"a root that ends within one u", []string{`measure a = 1 cm^2 ± 1 cm^2 "a"`, `find x = sqrt(a)`}, true},
		{"no uncertainty at all", []string{`measure t = 10 s "t"`, `find x = 100 cm / t`}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, problems := worked(t, block(c.lines...))
			if len(problems) > 0 {
				t.Fatal(problems[0].What)
			}
			if got := find(t, w, "x").Doubt != nil; got != c.doubted {
				t.Errorf("doubted is %v; %+v", got, find(t, w, "x").Doubt)
			}
		})
	}
}

func TestASpanIsTheTextThatTheEvaluatorSaw(t *testing.T) {
	w, problems := worked(t, "> > "+strings.ReplaceAll(block(`given a1 = 2 ± 1`, "find x = 20 in +", "  70 s",
		"given y = x + nix"), "\n", "\n> > ")+"\n\n- {nada}\n")
	want := []string{"20 in +\n> >   70 s", "nix", "nada"}
	var got []string
	for _, p := range problems {
		got = append(got, w.File.Slice(p.Span))
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("spans hold %q, want %q", got, want)
	}
}

func TestAGivenWithAnUncertaintyIsNotDoubtedForThat(t *testing.T) {
	w, problems := worked(t, block("given L = 120 cm ± 1 cm", "find x = 2 * L", "find y = 2 * (3 cm ± 0.1 cm)"))
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	for _, name := range []string{"x", "y"} {
		if r := find(t, w, name); r.Doubt != nil {
			t.Errorf("%s is doubted: %+v", name, *r.Doubt)
		}
	}
	if q, _ := find(t, w, "x").Quantity(); q.Uncertainty() != 2 {
		t.Errorf("u(x) = %g", q.Uncertainty())
	}
}
