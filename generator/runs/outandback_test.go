package runs

// Out and back: steps, their mean, and the patterns. The errors of its rules are simulated in outandback_sim_test.go.

import (
	"math"
	"slices"
	"testing"
)

func TestStepsAreWhatEachCycleAdds(t *testing.T) {
	for _, c := range []struct {
		name            string
		cycles, offsets []float64
		afresh          bool
		want            []Step
	}{
		{"from the line", []float64{1, 2, 3}, []float64{-10, -22, -30}, false,
			[]Step{{1, -10, 1, -10}, {2, -22, 1, -12}, {3, -30, 1, -8}}},
		{"from where it set off", []float64{0, 1, 2}, []float64{5, 7, 3}, false, []Step{{1, 7, 1, 2}, {2, 3, 1, -4}}},
		{"over a cycle that nobody read", []float64{1, 3}, []float64{4, 12}, false, []Step{{1, 4, 1, 4}, {3, 12, 2, 8}}},
		{"anew", []float64{1, 2, 1, 2}, []float64{4, 8, 3, 5}, false,
			[]Step{{1, 4, 1, 4}, {2, 8, 1, 4}, {1, 3, 1, 3}, {2, 5, 1, 2}}},
		{"set back each time", []float64{0, 1, 2}, []float64{9, 4, 6}, true, []Step{{1, 4, 1, 4}, {2, 6, 1, 6}}},
		{"of nothing", nil, nil, false, nil},
	} {
		if got := StepsOf(c.cycles, c.offsets, c.afresh); !slices.Equal(got, c.want) {
			t.Errorf("steps %s: %v, want %v", c.name, got, c.want)
		}
	}
}

// Worked by hand. Of −10, −12, −8: mean −10, s 2, t 4.303 with 2 degrees of freedom, so ±4.303·2/√3 = ±4.968.
func TestTheMeanOfStepsIsAsWorkedByHand(t *testing.T) {
	s := DriftOf(StepsOf([]float64{1, 2, 3}, []float64{-10, -22, -30}, false), 0)
	if s.N != 3 || s.Mean != -10 || s.SD != 2 || math.Abs(s.High+10-4.968) > 0.001 || s.Least != -12 || s.Most != -8 {
		t.Errorf("the drift is %+v", s)
	}
	// 4, then 8 over two cycles: mean 12/3 = 4 with no scatter.
	gap := DriftOf(StepsOf([]float64{1, 3}, []float64{4, 12}, false), 0)
	if gap.Mean != 4 || gap.SD != 0 {
		t.Errorf("with a gap it is %+v", gap)
	}
	// 1, then 8 over two cycles: mean 3; (1−3)²/1 + (8−6)²/2 = 6 with one degree of freedom; s/√3.
	uneven := DriftOf(StepsOf([]float64{1, 3}, []float64{1, 9}, false), 0)
	if uneven.Mean != 3 || math.Abs(uneven.SD-math.Sqrt(6)) > 1e-12 || math.Abs(uneven.Error-math.Sqrt2) > 1e-12 {
		t.Errorf("with a gap it is %+v", uneven)
	}
	// Equal steps read to 1 mm: by hand 4.303 · 0.2887 ÷ √3 = 0.717, as of runs.
	equal := DriftOf(StepsOf([]float64{1, 2, 3}, []float64{-4, -8, -12}, false), 1)
	if math.Abs(equal.High+4-0.717) > 0.001 {
		t.Errorf("equal steps are %+v", equal)
	}
	if one := DriftOf([]Step{{1, 3, 1, 3}}, 0); one.Mean != 3 || !math.IsNaN(one.SD) || one.Steady() {
		t.Errorf("one step is %+v", one)
	}
	if none := DriftOf(nil, 0); none.N != 0 || !math.IsNaN(none.Mean) {
		t.Errorf("no step is %+v", none)
	}
}

func TestPatternsOfOutAndBack(t *testing.T) {
	steps := func(mean, scatter float64) []Step {
		var all []Step
		for i, off := range []float64{1, -1, 0.5, -0.5, 1, -1} {
			all = append(all, Step{float64(i + 1), 0, 1, mean + scatter*off})
		}
		return all
	}
	for _, c := range []struct {
		name           string
		built, swapped []Step
		want           Pattern
	}{
		{"nothing", nil, nil, TooFewCycles},
		{"two cycles", steps(4, 1)[:2], nil, TooFewCycles},
		{"two cycles swapped", steps(4, 1), steps(4, 1)[:2], TooFewCycles},
		{"scatter", steps(0, 5), nil, Scatter},
		{"scatter both ways", steps(0, 5), steps(0.1, 5), Scatter},
		{"one way", steps(4, 1), nil, OneWay},
		{"only swapped", nil, steps(4, 1), OneWay},
		{"turns round", steps(4, 1), steps(-4, 1), TurnsRound},
		{"stays", steps(4, 1), steps(3.9, 1), Stays},
		{"part of each", steps(9, 1), steps(3, 1), Both},
		{"one way round only, the other in the dark", steps(4, 1), steps(1, 30), Unclear},
		{"equal steps that turn round", steps(4, 0), steps(-4, 0), TurnsRound},
		{"equal steps that stay", steps(4, 0), steps(4, 0), Stays},
		{"no steps at all", steps(0, 0), steps(0, 0), Scatter},
	} {
		if got := PatternOf(c.built, c.swapped, 0); got != c.want {
			t.Errorf("%s: pattern %d, want %d", c.name, got, c.want)
		}
	}
}

func TestReadingsOfOutAndBackArePartedByTheWheels(t *testing.T) {
	s := CycledSeries{
		Name:    "Heron",
		Cycles:  []float64{1, 2, 3, 1, 2, 3, 4, math.NaN()},
		Offsets: []float64{-10, -20.5, -29.25, 11, 20, 29, math.NaN(), 4},
		Swapped: []bool{false, false, false, true, true, true, true, false},
	}
	c := CyclesOf(s, 2000, 112)
	if c.Built.Drift.N != 3 || c.Swapped.Drift.N != 3 || len(c.Band) != 4 || c.Band[0] != 0 {
		t.Fatalf("cycles: %+v", c)
	}
	// About −m·leg²÷track: −9.75 mm a cycle is a mismatch of 9.75·112 ÷ 2000² = 0.000273.
	if math.Abs(c.Built.Mismatch-0.000273) > 1e-6 || c.Swapped.Mismatch >= 0 {
		t.Errorf("mismatches %g and %g", c.Built.Mismatch, c.Swapped.Mismatch)
	}
	if b := c.Built; !(b.Least < b.Mismatch && b.Mismatch < b.Most) {
		t.Errorf("the mismatch %g is not within %g … %g", b.Mismatch, b.Least, b.Most)
	}
	if low, _ := MismatchOutAndBack(c.Built.Drift.High, 2000, 112); low != c.Built.Least {
		t.Errorf("the interval starts at %g, not at %g", c.Built.Least, low)
	}
	if unknown := CyclesOf(s, math.NaN(), 112); !math.IsNaN(unknown.Built.Mismatch) {
		t.Error("a mismatch without a leg")
	}
}

// The variances of independent steps add up: after four cycles the band is twice as wide as after one.
func TestTheBandOfChanceGrowsWithTheRootOfTheCycles(t *testing.T) {
	b := Band(2, 4, 4, false)
	if b[0] != 0 || math.Abs(b[1]-2*2.776445) > 1e-5 || math.Abs(b[4]-2*b[1]) > 1e-12 {
		t.Errorf("the band is %v", b)
	}
	if flat := Band(2, 4, 4, true); flat[0] != flat[4] || math.Abs(flat[0]-2*2.776445) > 1e-5 {
		t.Errorf("set back each time, the band is %v", flat)
	}
}
