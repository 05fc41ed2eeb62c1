package runs

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func seriesOf(name string, x ...float64) Series {
	s := Series{Name: name, Numbers: x}
	for i := range x {
		s.Rows = append(s.Rows, i)
	}
	return s
}

// TestEqualBasesOnEitherSideAreSeldomToldApart simulates classes that compare three bases which are equally
// near to the target, on the same side of it or not: at most one class in twenty may read
// "more than chance" anywhere.
func TestEqualBasesOnEitherSideAreSeldomToldApart(t *testing.T) {
	for _, n := range []int{5, 10, 30} {
		for _, truth := range [][3]float64{{0, 0, 0}, {2, 2, 2}, {2, -2, 2}, {0.4, -0.4, 0.4}} {
			r := rand.New(rand.NewPCG(uint64(n), math.Float64bits(truth[1])))
			wrong := 0
			for range classes {
				var all []Series
				for base, off := range truth {
					x := make([]float64, n)
					for i := range x {
						x[i] = 120 + off + (1+float64(base)/2)*r.NormFloat64()
					}
					all = append(all, seriesOf(fmt.Sprint(base), x...))
				}
				for _, p := range NewColumn(all, 120).Pairs {
					if p.Verdict == Apart {
						wrong++
						break
					}
				}
			}
			part := float64(wrong) / classes
			t.Logf("n = %d, off by %v: wrong in %.2f %%", n, truth, 100*part)
			if part > 0.05 {
				t.Errorf("n = %d, off by %v: equal bases are told apart in %.2f %%", n, truth, 100*part)
			}
		}
	}
}

// TestTheRunsAdvisedTellThemApart lets classes with three bases make as many runs as such a
// difference takes: at least three in four find it.
func TestTheRunsAdvisedTellThemApart(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	draw := func(n int, mean float64) []float64 {
		x := make([]float64, n)
		for i := range x {
			x[i] = mean + 2*r.NormFloat64()
		}
		return x
	}
	// What is advised for a difference of one spread: groups made to have exactly that.
	first := NewColumn([]Series{seriesOf("a", 1, 5, 1, 5), seriesOf("b", 2.9, 6.9, 2.9, 6.9),
		seriesOf("c", 3, 7, 3, 7)}, 0)
	pair := first.Pairs[1]
	needed, ok := first.Needed(pair)
	if pair.Verdict != Together || !ok || needed < 10 {
		t.Fatalf("the pair is %+v, %d runs each", pair, needed)
	}
	spread := first.Groups[0].SD
	found := 0
	for range 2000 {
		near, far := draw(needed, 3), draw(needed, 3+2*2/spread)
		c := NewColumn([]Series{seriesOf("a", near...), seriesOf("b", draw(needed, 4)...), seriesOf("c", far...)}, 0)
		if c.Pairs[1].Verdict == Apart {
			found++
		}
	}
	t.Logf("%d runs each: found in %.1f %%", needed, float64(found)/20)
	if found < 1600 {
		t.Errorf("%d runs each find the difference in %.1f %% of classes", needed, float64(found)/20)
	}
}

func TestWhichIsNearerDoesNotDependOnTheSide(t *testing.T) {
	c := NewColumn([]Series{seriesOf("short", 115.1, 115, 114.9), seriesOf("long", 121.1, 121, 120.9)}, 120)
	p := c.Pairs[0]
	if p.Verdict != Apart || c.Groups[p.First].Name != "long" {
		t.Errorf("the pair is %+v", p)
	}
	level := NewColumn([]Series{seriesOf("short", 118.1, 118, 117.9), seriesOf("long", 122.1, 122, 121.9)}, 120)
	if level.Pairs[0].Verdict == Apart {
		t.Error("two bases equally far on either side are told apart")
	}
	more := NewColumn([]Series{seriesOf("little", 1.1, 1, 0.9), seriesOf("much", 5.1, 5, 4.9)}, math.NaN())
	if p := more.Pairs[0]; p.Verdict != Apart || more.Groups[p.First].Name != "much" {
		t.Errorf("without a target the pair is %+v", p)
	}
}

func TestGroupsThatCannotBeJudged(t *testing.T) {
	nan := math.NaN()
	c := NewColumn([]Series{
		seriesOf("one run", 3), seriesOf("none", nan, nan), seriesOf("equal", 5, 5, 5), seriesOf("equal too", 7, 7),
		seriesOf("the same", 5, 5),
	}, 4)
	want := map[[2]int]Verdict{
		{0, 1}: TooFew, {0, 2}: TooFew, {0, 3}: TooFew, {0, 4}: TooFew, {1, 2}: TooFew, {1, 3}: TooFew, {1, 4}: TooFew,
		{2, 3}: NoSpread, {2, 4}: Same, {4, 3}: NoSpread,
	}
	for _, p := range c.Pairs {
		if v, ok := want[[2]int{p.First, p.Second}]; !ok || v != p.Verdict {
			t.Errorf("the pair %+v was not expected", p)
		}
	}
	if g := c.Groups[1]; g.N != 0 || g.Empty != 2 || !math.IsNaN(g.Mean) {
		t.Errorf("the empty group is %+v", g)
	}
	if g := c.Groups[2]; g.SD != 0 || g.Percent != 0.25 || g.Bias != 1 {
		t.Errorf("the equal group is %+v", g)
	}
	if zero := NewColumn([]Series{seriesOf("a", 1, 2)}, 0).Groups[0]; !math.IsNaN(zero.Percent) || zero.Bias != 1.5 {
		t.Errorf("off from zero is %+v", zero)
	}
}

func TestOddRunsAreFlaggedAndStillCount(t *testing.T) {
	g := NewColumn([]Series{{Name: "a", Rows: []int{3, 4, 5, 6, 7, 8},
		Numbers: []float64{10.1, 10.2, math.NaN(), 10.4, 14, 10.3}}}, 10).Groups[0]
	if len(g.Odd) != 1 || g.Values[g.Odd[0]] != 14 || g.Rows[g.Odd[0]] != 7 || g.N != 5 {
		t.Errorf("the group is %+v", g)
	}
	if math.Abs(g.Mean-11) > 1e-12 || math.Abs(g.Without-10.25) > 1e-12 {
		t.Errorf("mean %g, without the odd one %g", g.Mean, g.Without)
	}
}
