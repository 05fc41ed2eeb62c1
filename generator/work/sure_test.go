package work_test

// How sure the values of a lesson are: limits, steps of reading, records that were read together.

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestALimitAndAStepCountAsWideAsTheyAre(t *testing.T) {
	w, problems := worked(t, block(`measure d = 65 mm within 0.5 mm "d"`, `measure e = 65 mm ± 0.5 mm "e"`,
		`measure f = -3 cm within 1 mm "f"`, `record s[3] in cm to 0.1 = 20.3, 20.3, 20.3 "s"`, "find x in mm = d * 1",
		"find y in mm = e * 1", "find z in mm = f * 1", "find m in mm = mean(s)"))
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	for name, want := range map[string]float64{
		"x": 0.5 / math.Sqrt(3), "y": 0.5, "z": 1 / math.Sqrt(3), "m": 1 / math.Sqrt(12),
	} {
		if q, _ := find(t, w, name).Quantity(); math.Abs(q.Uncertainty()-want) > 1e-12 {
			t.Errorf("u(%s) = %g, want %g", name, q.Uncertainty(), want)
		}
	}
}

func TestRecordsReadInTheSameRunsAreCountedTogether(t *testing.T) {
	records := func(with string) []string {
		return []string{`record a[3] in cm = 10, 12, 14 "a"`, "record b[3] in cm " + with + ` = 21, 23, 25 "b"`,
			"record c[3] in cm " + strings.Replace(with, "a", "b", 1) + ` = 5, 4, 3 "c"`,
			"find x in cm = mean(b) - mean(a)", "find y in cm = mean(a) + mean(c) * 2", "find z in cm = mean(a)"}
	}
	for _, c := range []struct {
		with string
		x, y float64 // b is a and 11 more; c is 10 less half of a
		lost []string
	}{
		{"with a", 0, 0, nil}, {"", math.Sqrt(8.0 / 3), math.Sqrt(8.0 / 3), []string{"a", "b"}},
	} {
		w, problems := worked(t, block(records(c.with)...))
		if len(problems) > 0 {
			t.Fatal(problems[0].What)
		}
		x, _ := find(t, w, "x").Quantity()
		y, _ := find(t, w, "y").Quantity()
		z, _ := find(t, w, "z").Quantity()
		if math.Abs(x.Uncertainty()-c.x) > 1e-12 || math.Abs(y.Uncertainty()-c.y) > 1e-12 {
			t.Errorf("%q: u is %g and %g, want %g and %g", c.with, x.Uncertainty(), y.Uncertainty(), c.x, c.y)
		}
		if got := w.Apart(x); !slices.Equal(got, c.lost) {
			t.Errorf("%q: taken as apart are %v", c.with, got)
		}
		if got := w.Apart(z); len(got) > 0 {
			t.Errorf("%q: of one record, taken as apart are %v", c.with, got)
		}
	}
}

func TestARecordIsOfTheRunsOfOneThatIsThere(t *testing.T) {
	for with, want := range map[string]string{
		"nobody": "there is no record nobody above this one", "b": "there is no record b above this one",
		"d": "there is no record d above this one", "a": "b has 2 readings and a 3; they cannot be of the same runs",
	} {
		_, problems := worked(t, block(`record a[3] in cm = 1, 2, 4 "a"`, `measure d = 3 cm "d"`,
			"record b[2] in cm to 0.1 with "+with+` = 1, 2 "b"`))
		if len(problems) != 1 || problems[0].Slug != "record-with" || problems[0].What != want {
			t.Errorf("with %s: %v", with, problems)
		}
	}
}

func TestAPlusMinusInsideAFormulaIsDoubtedToo(t *testing.T) {
	w, problems := worked(t, block("given c = 1 * (1 cm ± 0.3 cm)", `measure t = -1 s ± 0.3 s "t"`,
		"find x = 1 / (1 cm ± 0.3 cm)", "find y = 1 / c", "find z = 1 / t", "find fine = 2 * c")+
		"\n{1 / (1 cm ± 0.3 cm)} {2 * c} {y}\n")
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	for name, want := range map[string]bool{"x": true, "y": true, "z": true, "fine": false} {
		if got := find(t, w, name).Doubt != nil; got != want {
			t.Errorf("%s is doubted: %v", name, got)
		}
	}
	for i, want := range []bool{true, false, false} {
		if got := w.OfValue(w.Shown[i]).Doubt != nil; got != want {
			t.Errorf("value %d in prose is doubted: %v", i+1, got)
		}
	}
}
