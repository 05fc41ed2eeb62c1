package runs

import (
	"math"
	"slices"
	"testing"
)

func TestWhatHasNoSpreadIsSaidSo(t *testing.T) {
	one := Summarise([]float64{3})
	if one.N != 1 || one.Mean != 3 || !math.IsNaN(one.SD) || !math.IsNaN(one.Low) {
		t.Errorf("one run gives %+v", one)
	}
	if none := Summarise(nil); none.N != 0 || !math.IsNaN(none.Mean) {
		t.Errorf("no run gives %+v", none)
	}
	equal := Summarise([]float64{2, 2, 2})
	if equal.SD != 0 || equal.Low != 2 || equal.High != 2 {
		t.Errorf("equal runs give %+v", equal)
	}
	for _, pair := range [][2]Summary{{one, equal}, {equal, equal}} {
		if test, ok := Welch(pair[0], pair[1]); ok {
			t.Errorf("without spread the test gives %+v", test)
		}
	}
	for _, bad := range [][2]float64{{0, 1}, {1, 0}, {math.NaN(), 1}, {1e-9, 1}} {
		if n, ok := RunsNeeded(bad[0], bad[1], 1); ok {
			t.Errorf("a difference of %g at a spread of %g takes %d runs", bad[0], bad[1], n)
		}
	}
	if odd := Outliers([]float64{5, 5, 5, 5, 5, 5}, 0); odd != nil {
		t.Errorf("with no scale %v are flagged", odd)
	}
}

// Sources, both from memory: NIST/SEMATECH e-Handbook 1.3.5.17.1, eight mass spectrometer readings by Tietjen and Moore
// (1972), of which the last is an outlier: G 2.4687, critical 2.032 (one-sided at 5 %, which is two-sided at 10 %); and
// 1.3.5.17.3, Rosner's 54 values (1983), of which three are outliers: critical 3.159, 3.151, 3.144.
func TestOddRunsAgainstPublishedExamples(t *testing.T) {
	x := []float64{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}
	if place, score := farthest(x, 0); place != 7 || math.Abs(score-2.4687) > 0.0001 {
		t.Errorf("farthest is %d with %v", place, score)
	}
	if limit := oddLimit(8, 0.1); math.Abs(limit-2.032) > 0.001 {
		t.Errorf("the limit is %v", limit)
	}
	if odd := Outliers(x, 0.01); !slices.Equal(odd, []int{7}) {
		t.Errorf("odd are %v", odd)
	}
	for i, want := range []float64{3.159, 3.151, 3.144} {
		if limit := oddLimit(54-i, 0.05); math.Abs(limit-want) > 0.0006 {
			t.Errorf("limit %d is %v, not %v", i+1, limit, want)
		}
	}
	rosner := []float64{-0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65,
		1.69, 1.70, 1.76, 1.77, 1.81,
		1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.10, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.40,
		2.47, 2.54, 2.62, 2.64, 2.90, 2.92, 2.92, 2.93, 3.21, 3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01}
	if _, score := farthest(rosner, 0); math.Abs(score-3.119) > 0.001 {
		t.Errorf("the first score is %v, not 3.119", score)
	}
	if odd := oddAmong(rosner, 0, 10, 0.05); !slices.Equal(odd, []int{51, 52, 53}) {
		t.Errorf("odd are %v, not the last three", odd)
	}
}

// TestHolm works an example by hand: p sorted 0.01 0.02 0.04 times 3, 2, 1, never falling.
func TestHolmIsAsWorkedByHand(t *testing.T) {
	got := Holm([]float64{0.04, 0.01, 0.02})
	for i, want := range []float64{0.04, 0.03, 0.04} {
		if math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("corrected are %v", got)
		}
	}
}

// By hand: chi-square with 4 degrees of freedom is 0.4844 and 11.143 at 2.5 % and 97.5 %, so that a spread of 1 may be
// 0.599 to 2.874.
func TestTheRangeOfRunsComesFromTheSpreadAlone(t *testing.T) {
	low, _ := RunsNeeded(1, math.Sqrt(4/11.143), 1)
	high, _ := RunsNeeded(1, math.Sqrt(4/0.4844), 1)
	fewest, most := RunsRange(1, 1, 4, 1)
	if fewest != low || most != high {
		t.Errorf("%d to %d runs, want %d to %d", fewest, most, low, high)
	}
	if fewest, most := RunsRange(0.05, 1, 4, 1); fewest != 0 || most != 0 {
		t.Errorf("even a thousand would not do, and it says %d to %d", fewest, most)
	}
	if fewest, _ := RunsRange(100, 1, 4, 1); fewest != FewestRuns {
		t.Errorf("%d runs are fewer than are compared", fewest)
	}
}
