package runs

// How often the rules are wrong: simulated classes, seeded. With -classes 40000 the rates are known to a quarter of a
// percent; DEVELOPERS.md has the command.

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

var classes = flag.Int("classes", 600, "how many classes, or logs, each simulation makes")

// sizes are the numbers of runs that every rule is simulated with.
var sizes = []int{3, 5, 8, 10, 30}

// rate is how often something happens, in percent.
func rate(happens func() bool) float64 {
	n := 0
	for range *classes {
		if happens() {
			n++
		}
	}
	return 100 * float64(n) / float64(*classes)
}

// slack is by how much a rate of 5 % or 95 % may be off by chance: three standard deviations, and half a percent for
// what rounding to a step does.
func slack() float64 { return 300*math.Sqrt(0.05*0.95/float64(*classes)) + 0.5 }

// atMost and atLeast log a rate and compare it.
func atMost(t *testing.T, what string, got, want float64) {
	t.Helper()
	t.Logf("%s: %.1f %%", what, got)
	if got > want+slack() {
		t.Errorf("%s: %.1f %%, at most %g %% is right", what, got, want)
	}
}

func atLeast(t *testing.T, what string, got, want float64) {
	t.Helper()
	t.Logf("%s: %.1f %%", what, got)
	if got < want-slack() {
		t.Errorf("%s: %.1f %%, at least %g %% is right", what, got, want)
	}
}

func drawn(r *rand.Rand, n int, mean, sd float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = mean + sd*r.NormFloat64()
	}
	return x
}

// read rounds to a step.
func read(x []float64, step float64) []float64 {
	for i := range x {
		x[i] = math.Round(x[i]/step) * step
	}
	return x
}

// A class reads to a step of 1; the spread is that many steps, and the truth lies anywhere between two marks.
func TestIntervalsCoverTheTruth(t *testing.T) {
	for _, n := range sizes {
		for _, spread := range []float64{0.1, 0.3, 1, 10} {
			r := rand.New(rand.NewPCG(9283, uint64(n)))
			atLeast(t, fmt.Sprintf("%d runs, spread of %g steps: truth in the interval", n, spread), rate(func() bool {
				truth := r.Float64()
				s := Summarise(read(drawn(r, n, truth, spread), 1)).readTo(1)
				return s.Low <= truth && truth <= s.High
			}), 95)
		}
	}
}

// Three bases that are equal: that any pair is told apart must be wrong in at most 5 %, also on different sides of the
// target and, as to their aim, with different spreads; and where one is as near on average but scatters in another way.
func TestEqualBasesAreSeldomToldApart(t *testing.T) {
	// 1.6 off with a spread of 0.3, and on the target with a spread of 2.0053, a run ends 1.6 away on average.
	for _, c := range []struct {
		name      string
		off, sd   [3]float64
		near, aim bool
		most      float64 // of nearness: distances are skewed, and more so where spreads differ
	}{
		{"equal, on the target", [3]float64{}, [3]float64{1, 1, 1}, true, true, 5},
		{"equal, on both sides", [3]float64{2, -2, 2}, [3]float64{1, 1, 1}, true, true, 5},
		{"equal aim, other spreads", [3]float64{0.4, -0.4, 0.4}, [3]float64{1, 1.5, 2}, false, true, 5},
		{"equally near, other spreads", [3]float64{1.6, 0, -1.6}, [3]float64{0.3, 2.0053, 0.3}, true, false, 6.5},
	} {
		for _, n := range sizes {
			r := rand.New(rand.NewPCG(uint64(n), 1979))
			near, aim := 0, 0
			for range *classes {
				var all []Series
				for base := range c.off {
					all = append(all, seriesOf("", read(drawn(r, n, 120+c.off[base], c.sd[base]), 0.1)...))
				}
				column := NewColumn(all, 120, 0.1)
				near, aim = near+anyApart(column.Near), aim+anyApart(column.Aim)
			}
			what := fmt.Sprintf("%s, %d runs: told apart by ", c.name, n)
			if c.near {
				atMost(t, what+"nearness", 100*float64(near)/float64(*classes), c.most)
			}
			if c.aim {
				atMost(t, what+"aim", 100*float64(aim)/float64(*classes), 5)
			}
		}
	}
}

func anyApart(pairs []Pair) int {
	for _, p := range pairs {
		if p.Verdict == Apart {
			return 1
		}
	}
	return 0
}

// This is why two runs are not compared: Welch's test of two against many is wrong three times as often as it says.
func TestTwoRunsAgainstManyAreToldApartTooOften(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 20))
	wrong := rate(func() bool {
		test, ok := Welch(Summarise(drawn(r, 2, 0, 1)), Summarise(drawn(r, 20, 0, 1)))
		return ok && test.P < Level
	})
	t.Logf("2 and 20 runs: %.1f %%", wrong)
	if wrong < 8 {
		t.Errorf("2 and 20 runs are told apart in %.1f %%: then two runs could be compared", wrong)
	}
}

// A scatters widely round the target, B is always a little off and so ends nearer: that is found, and the opposite is
// never said.
func TestARunThatEndsNearerIsFound(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	opposite := 0
	found := rate(func() bool {
		c := NewColumn([]Series{seriesOf("A", drawn(r, 10, 0, 5)...), seriesOf("B", drawn(r, 10, 1, 0.3)...)}, 0, 0)
		p := c.Near[0]
		if p.Verdict == Apart && p.First == 0 {
			opposite++
		}
		return p.Verdict == Apart && p.First == 1
	})
	atLeast(t, "10 runs, A wide and B a little off: B ends nearer", found, 85)
	if opposite > 0 {
		t.Errorf("A is said to end nearer in %d classes", opposite)
	}
}

// Clean groups have an odd run in at most 5 %, whatever the step; one that is six spreads off is found.
func TestOddRunsAreFlaggedInFewCleanGroups(t *testing.T) {
	for _, n := range []int{6, 8, 10, 20, 30} {
		for _, step := range []float64{0.01, 0.5, 2} {
			r := rand.New(rand.NewPCG(uint64(n), 17))
			atMost(t, fmt.Sprintf("%d clean runs, step of %g spreads: an odd one", n, step), rate(func() bool {
				return len(Outliers(read(drawn(r, n, r.Float64(), 1), step), step)) > 0
			}), 5)
		}
		r := rand.New(rand.NewPCG(uint64(n), 18))
		atLeast(t, fmt.Sprintf("%d runs, one six spreads off: found", n), rate(func() bool {
			x := read(drawn(r, n, 0, 1), 0.1)
			x[n/2] = 6
			odd := Outliers(x, 0.1)
			return len(odd) > 0 && (odd[0] == n/2 || odd[len(odd)-1] == n/2)
		}), []float64{6: 60, 8: 85, 10: 95, 20: 99, 30: 99}[n])
	}
	for n := range 6 {
		if odd := Outliers([]float64{1, 1.1, 1.2, 1.1, 50}[:min(n, 5)], 0.1); odd != nil {
			t.Errorf("%d runs are too few to call one odd, and %v are", n, odd)
		}
	}
}

// The number of runs that a difference really takes lies in the range that is given in 95 %, however few runs it is
// worked out from; never does the observed difference count.
func TestTheRangeOfRunsHoldsTheRightNumber(t *testing.T) {
	right, _ := RunsNeeded(1, 1, 1)
	defer func(n int) { *classes = n }(*classes)
	*classes /= 4 // each takes long
	for _, n := range sizes {
		r := rand.New(rand.NewPCG(uint64(n), 1947))
		atLeast(t, fmt.Sprintf("two groups of %d: %d runs lie in the range", n, right), rate(func() bool {
			c := NewColumn([]Series{seriesOf("a", drawn(r, n, 0, 1)...), seriesOf("b", drawn(r, n, 0.3, 1)...)}, 0, 0)
			spread, degrees := c.Spread()
			fewest, most := RunsRange(1, spread, degrees, 1)
			return fewest <= right && (right <= most || most == 0)
		}), 95)
	}
}

// Classes that make as many runs as they were told: four in five must find the difference.
func TestRunsNeededFindTheDifference(t *testing.T) {
	r := rand.New(rand.NewPCG(1947, 1))
	for _, size := range []float64{0.8, 1, 1.5, 2} {
		n, ok := RunsNeeded(size, 1, 1)
		if !ok {
			t.Fatal("no number")
		}
		found := rate(func() bool {
			test, ok := Welch(Summarise(drawn(r, n, 0, 1)), Summarise(drawn(r, n, size, 1)))
			return ok && test.P < Level
		})
		t.Logf("a difference of %g spreads, %d runs each: found in %.1f %%", size, n, found)
		if found < 76 || found > 91 {
			t.Errorf("size %g, n = %d: found in %.1f %%", size, n, found)
		}
	}
}
