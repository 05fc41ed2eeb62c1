package runs

import (
	"math"
	"math/rand/v2"
	"testing"
)

const classes = 10_000

func drawn(r *rand.Rand, n int, mean, sd float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = mean + sd*r.NormFloat64()
	}
	return x
}

// TestIntervalsCoverTheTruth simulates 10,000 classes that measure the same base: the 95 %
// interval must hold the true mean in 94 to 96 % of them.
func TestIntervalsCoverTheTruth(t *testing.T) {
	for _, n := range []int{5, 10, 30} {
		r := rand.New(rand.NewPCG(9283, uint64(n)))
		covered := 0
		for range classes {
			if s := Summarise(drawn(r, n, 120, 0.8)); s.Low <= 120 && 120 <= s.High {
				covered++
			}
		}
		part := float64(covered) / classes
		t.Logf("n = %d: %.2f %% covered", n, 100*part)
		if part < 0.94 || part > 0.96 {
			t.Errorf("n = %d: the interval covers the truth in %.2f %%", n, 100*part)
		}
	}
}

// TestEqualBasesAreSeldomToldApart simulates classes that compare three bases which are
// equal: that any pair is told apart must be wrong in at most 5 % of them, also where the
// spreads differ.
func TestEqualBasesAreSeldomToldApart(t *testing.T) {
	for _, spreads := range [][3]float64{{1, 1, 1}, {0.5, 1, 2}} {
		for _, n := range []int{5, 10} {
			r := rand.New(rand.NewPCG(1979, uint64(n)))
			wrong := 0
			for range classes {
				var groups [3]Summary
				for i := range groups {
					groups[i] = Summarise(drawn(r, n, 120, spreads[i]))
				}
				var p []float64
				for _, pair := range [][2]int{{0, 1}, {0, 2}, {1, 2}} {
					if test, ok := Welch(groups[pair[0]], groups[pair[1]]); ok {
						p = append(p, test.P)
					}
				}
				for _, corrected := range Holm(p) {
					if corrected < Level {
						wrong++
						break
					}
				}
			}
			part := float64(wrong) / classes
			t.Logf("spreads %v, n = %d: wrong in %.2f %%", spreads, n, 100*part)
			if part > 0.05 {
				t.Errorf("spreads %v, n = %d: equal bases are told apart in %.2f %%", spreads, n, 100*part)
			}
		}
	}
}

// TestRunsNeededFindTheDifference simulates classes that make as many runs as they were
// told: four in five must find the difference.
func TestRunsNeededFindTheDifference(t *testing.T) {
	r := rand.New(rand.NewPCG(1947, 1))
	for _, size := range []float64{0.8, 1, 1.5, 2} {
		n, ok := RunsNeeded(size, 1, 1)
		if !ok {
			t.Fatal("no number")
		}
		found := 0
		for range classes {
			if test, ok := Welch(Summarise(drawn(r, n, 0, 1)), Summarise(drawn(r, n, size, 1))); ok && test.P < Level {
				found++
			}
		}
		part := float64(found) / classes
		t.Logf("a difference of %g spreads, %d runs each: found in %.1f %%", size, n, 100*part)
		if part < 0.775 || part > 0.9 {
			t.Errorf("size %g, n = %d: found in %.1f %%", size, n, 100*part)
		}
	}
}

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
	if odd := Outliers([]float64{5, 5, 5, 5, 9}); odd != nil {
		t.Errorf("with no scale %v are flagged", odd)
	}
}

// TestOutliersAreFlagged works the score by hand: median 10.2, deviations 0.1 0 0.2 0.1 3.8,
// MAD 0.1, so that 14 has 0.6745·38 = 25.6.
func TestOutliersAreFlagged(t *testing.T) {
	if odd := Outliers([]float64{10.1, 10.2, 10.4, 10.3, 14}); len(odd) != 1 || odd[0] != 4 {
		t.Errorf("flagged are %v, want the last alone", odd)
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
