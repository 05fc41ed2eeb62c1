package work_test

import (
	"testing"

	"trundle/generator/work"
)

// TestAMeasurementIsLikelyWithinAFactorOfFive holds what the page would doubt about a wheel of 40 mm: below a
// fifth, above five times, rounded outwards to one digit.
func TestAMeasurementIsLikelyWithinAFactorOfFive(t *testing.T) {
	for _, c := range []struct {
		sample    string
		low, high float64
	}{
		{"40 mm", 8, 200}, {"60 mm", 10, 300}, {"12 mm", 2, 60}, {"65 mm", 10, 400}, {"2 mm", 0.4, 10},
	} {
		w, problems := worked(t, block("measure d = "+c.sample+`  "Wheel"`, "find C in cm to 0.1 = circumference(d)"))
		if len(problems) > 0 {
			t.Fatal(problems[0].What)
		}
		if got, want := w.Fields[0].Bounds, (work.Bounds{Low: c.low, High: c.high, Positive: true}); got != want {
			t.Errorf("a sample of %s is likely between %v; %v was expected", c.sample, got, want)
		}
	}
}
