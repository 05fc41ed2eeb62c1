package runs

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Source: NIST StRD, Linear Regression, NoInt1 (from memory): y 130 to 140 over x 60 to 70, slope through 0
// 2.07438016528926 with a standard deviation of 0.0165289256198347. The line with a start is y = x + 70 exactly.
func TestALineIsFittedAsPublished(t *testing.T) {
	var x, y []float64
	for i := range 11 {
		x, y = append(x, float64(60+i)), append(y, float64(130+i))
	}
	f, ok := FitLine(x, y)
	if !ok || math.Abs(f.Through-2.07438016528926) > 1e-12 || math.Abs(f.Slope-1) > 1e-12 || math.Abs(f.Start-70) > 1e-9 {
		t.Errorf("the line is %+v", f)
	}
	near(t, "through 0", f.HalfOrigin/Critical(10, 0.95), 0.0165289256198347, 1e-10)
	if _, ok := FitLine([]float64{1, 1}, []float64{1, 2}); ok {
		t.Error("a line that stands upright")
	}
	if two, ok := FitLine([]float64{1, 2}, []float64{1, 3}); !ok || two.Slope != 2 || !math.IsNaN(two.Half) {
		t.Errorf("two runs give %+v", two)
	}
}

// The intervals of slope and start hold the truth in 95 %, whatever the number of runs.
func TestIntervalsOfALineCoverTheTruth(t *testing.T) {
	for _, n := range sizes {
		r := rand.New(rand.NewPCG(uint64(n), 4))
		held := [3]int{}
		for range *classes {
			x, y := counted(n), make([]float64, n)
			for i := range x {
				y[i] = 20*x[i] + 0.3*r.NormFloat64()
			}
			f, _ := FitLine(x, y)
			for k, off := range [3][2]float64{{f.Slope - 20, f.Half}, {f.Start, f.StartHalf}, {f.Through - 20, f.HalfOrigin}} {
				if math.Abs(off[0]) <= off[1] {
					held[k]++
				}
			}
		}
		for k, what := range []string{"slope", "start", "slope through 0"} {
			atLeast(t, what+" in its interval", 100*float64(held[k])/float64(*classes), 95)
		}
	}
}

func TestRunsOnALineLeaveNoScatter(t *testing.T) {
	f, ok := FitLine([]float64{0.1, 0.2, 0.3, 0.7}, []float64{0.3, 0.6, 0.9, 2.1})
	if !ok || f.Start != 0 || f.Residual != 0 || f.ResidualOrigin != 0 || f.Half != 0 || f.HalfOrigin != 0 {
		t.Errorf("rounding in binary counts as scatter: %+v", f)
	}
	f, _ = FitLine([]float64{0.1, 0.2, 0.3, 0.7}, []float64{0.3, 0.6, 0.9, 2.1001})
	if f.Start == 0 || f.Residual == 0 || f.ResidualOrigin == 0 {
		t.Errorf("a thousandth of a millimetre does not count: %+v", f)
	}
}
