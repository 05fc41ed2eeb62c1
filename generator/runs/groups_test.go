package runs

// What is said of groups, by hand. How often it is wrong is simulated in simulation_test.go.

import (
	"math"
	"slices"
	"testing"
)

func seriesOf(name string, x ...float64) Series {
	s := Series{Name: name, Numbers: x}
	for i := range x {
		s.Rows = append(s.Rows, i)
	}
	return s
}

func TestWhichIsNearerDoesNotDependOnTheSide(t *testing.T) {
	c := NewColumn([]Series{seriesOf("short", 115.1, 115, 114.9), seriesOf("long", 121.1, 121, 120.9)}, 120, 0)
	for _, p := range []Pair{c.Near[0], c.Aim[0]} {
		if p.Verdict != Apart || c.Groups[p.First].Name != "long" {
			t.Errorf("the pair is %+v", p)
		}
	}
	level := NewColumn([]Series{seriesOf("short", 118.1, 118, 117.9), seriesOf("long", 122.1, 122, 121.9)}, 120, 0)
	if level.Near[0].Verdict == Apart || level.Aim[0].Verdict == Apart {
		t.Error("two bases equally far on either side are told apart")
	}
	more := NewColumn([]Series{seriesOf("little", 1.1, 1, 0.9), seriesOf("much", 5.1, 5, 4.9)}, math.NaN(), 0)
	if p := more.Near[0]; p.Verdict != Apart || more.Groups[p.First].Name != "much" || more.Aim != nil {
		t.Errorf("without a target the pair is %+v", p)
	}
}

// A base that is right on average and scatters widely ends farther away than one that is always a little off.
func TestNearAndAimAreTwoQuestions(t *testing.T) {
	c := NewColumn([]Series{
		seriesOf("wide", 114, 126, 115, 125, 116, 124, 113, 127),
		seriesOf("off", 121, 121.3, 120.8, 121.1, 120.9, 121.2, 121, 120.7),
	}, 120, 0)
	if p := c.Near[0]; p.Verdict != Apart || c.Groups[p.First].Name != "off" {
		t.Errorf("nearer: %+v", p)
	}
	if p := c.Aim[0]; p.Verdict != Together || c.Groups[p.First].Name != "wide" {
		t.Errorf("aim: %+v", p)
	}
}

// Source of the numbers: Welch's test worked by hand. 1 2 3 and 4 5 6: difference 3, standard error √(1/3 + 1/3), t
// 3.674 with 4 degrees of freedom, two-sided p 0.0213; 1 2 3 and 2 3 4: t 1.225, p 0.288.
func TestTheChanceIsThatOfThePairAlone(t *testing.T) {
	c := NewColumn([]Series{seriesOf("a", 1, 2, 3), seriesOf("b", 4, 5, 6), seriesOf("c", 2, 3, 4)}, math.NaN(), 0)
	want := map[[2]int]float64{{1, 0}: 0.0213, {2, 0}: 0.288, {1, 2}: 0.0705}
	for _, p := range c.Near {
		if math.Abs(p.P-want[[2]int{p.First, p.Second}]) > 0.0005 {
			t.Errorf("the chance of %+v is not %v", p, want[[2]int{p.First, p.Second}])
		}
		if p.Verdict != Together { // 3 × 0.0213 is more than 5 %
			t.Errorf("Holm's correction is not what decides: %+v", p)
		}
	}
}

func TestGroupsThatCannotBeJudged(t *testing.T) {
	nan := math.NaN()
	c := NewColumn([]Series{
		seriesOf("two runs", 3, 4), seriesOf("none", nan, nan), seriesOf("equal", 5, 5, 5), seriesOf("equal too", 7, 7, 7),
		seriesOf("the same", 5, 5, 5),
	}, 4, 0)
	want := map[[2]int]Verdict{
		{0, 1}: TooFew, {0, 2}: TooFew, {0, 3}: TooFew, {0, 4}: TooFew, {1, 2}: TooFew, {1, 3}: TooFew, {1, 4}: TooFew,
		{2, 3}: NoSpread, {2, 4}: NoSpread, {4, 3}: NoSpread, {1, 0}: TooFew, {2, 1}: TooFew, {3, 1}: TooFew, {4, 1}: TooFew,
	}
	for _, p := range slices.Concat(c.Near, c.Aim) {
		if v, ok := want[[2]int{p.First, p.Second}]; !ok || v != p.Verdict {
			t.Errorf("the pair %+v was not expected", p)
		}
	}
	if g := c.Groups[1]; g.N != 0 || g.Empty != 2 || !math.IsNaN(g.Mean) {
		t.Errorf("the empty group is %+v", g)
	}
	if g := c.Groups[2]; g.SD != 0 || g.Percent != 0.25 || g.Bias != 1 || !math.IsNaN(g.Low) {
		t.Errorf("the equal group is %+v", g)
	}
	if zero := NewColumn([]Series{seriesOf("a", 1, 2)}, 0, 0).Groups[0]; !math.IsNaN(zero.Percent) || zero.Bias != 1.5 {
		t.Errorf("off from zero is %+v", zero)
	}
}

// Equal means of runs that scatter are no evidence that the groups are equal: 119, 120, 121 and 110, 120, 130.
func TestEqualMeansAreNotSaidToBeTheSame(t *testing.T) {
	c := NewColumn([]Series{seriesOf("a", 119, 120, 121), seriesOf("b", 110, 120, 130)}, 121, 0)
	if p := c.Aim[0]; p.Verdict != Together || p.P != 1 {
		t.Errorf("the pair is %+v", p)
	}
}

// With a step of 1, equal readings have a standard uncertainty of 1 ÷ √12 each; by hand 4.303 · 0.2887 ÷ √3 = 0.717.
func TestTheReadingsStepCountsInTheSpread(t *testing.T) {
	g := NewColumn([]Series{seriesOf("equal", 5, 5, 5), seriesOf("far", 9, 9, 9)}, math.NaN(), 1)
	if a := g.Groups[0]; a.SD != 0 || math.Abs(a.High-5.717) > 0.001 || math.Abs(a.Low-4.283) > 0.001 {
		t.Errorf("the group is %+v", a)
	}
	if p := g.Near[0]; p.Verdict != Apart {
		t.Errorf("four steps apart: %+v", p)
	}
	many := NewColumn([]Series{seriesOf("a", 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5)}, math.NaN(), 1).Groups[0]
	if many.Low != 4.5 || many.High != 5.5 {
		t.Errorf("rounding that is always the same averages out: %+v", many)
	}
	if spread, degrees := g.Spread(); math.Abs(spread-1/math.Sqrt(12)) > 1e-12 || degrees != 4 {
		t.Errorf("the spread is %v with %v", spread, degrees)
	}
}

func TestOddRunsAreFlaggedAndStillCount(t *testing.T) {
	g := NewColumn([]Series{{Name: "a", Rows: []int{3, 4, 5, 6, 7, 8, 9},
		Numbers: []float64{10.1, 10.2, math.NaN(), 10.4, 14, 10.3, 10.2}}}, 10, 0.1).Groups[0]
	if len(g.Odd) != 1 || g.Values[g.Odd[0]] != 14 || g.Rows[g.Odd[0]] != 7 || g.N != 6 {
		t.Errorf("the group is %+v", g)
	}
	if math.Abs(g.Mean-65.2/6) > 1e-12 || math.Abs(g.Without-10.24) > 1e-12 {
		t.Errorf("mean %g, without the odd one %g", g.Mean, g.Without)
	}
}
