package runs

// What the runs of several groups come to in one unit: for each how far off it is and how much
// it scatters, and which groups can be told apart.

import (
	"math"
)

// Group is the runs of one group in one column.
type Group struct {
	Name   string
	Values []float64 // the runs that have a number, in the order of the file
	Rows   []int     // of each, its row in the table, from 0
	Empty  int       // runs without a number
	Summary

	Bias    float64 // the mean less the target; NaN without one
	Percent float64 // its size in parts of the target; NaN without one, or for a target of 0
	Odd     []int   // places in Values of runs that lie far from the rest; they count all the same
	Without float64 // the mean without them; NaN if there are none
}

// Column is a measured column.
type Column struct {
	Target float64 // what every run should have come to; NaN if nothing is asked
	Groups []Group
	Pairs  []Pair // every group with every later one
}

// Verdict is what can be said of two groups.
type Verdict int

const (
	Apart    Verdict = iota // the difference is more than chance
	Together                // these runs cannot tell them apart
	Same                    // the means are equal
	NoSpread                // no run of either group differs from another: chance has no measure
	TooFew                  // a group has fewer than two runs
)

// Pair compares two groups: which is nearer to the target or, without one, has more.
type Pair struct {
	First, Second int // places in Groups; the first is nearer, or has more
	Verdict
	P float64 // Holm's corrected p-value; of Apart and Together
}

// Series is one row of numbers that belong to a group: NaN where there is none.
type Series struct {
	Name    string
	Rows    []int
	Numbers []float64
}

// NewColumn works a column out: every group, and each with every later one.
func NewColumn(series []Series, target float64) Column {
	c := Column{Target: target}
	for _, s := range series {
		c.Groups = append(c.Groups, group(s, target))
	}
	c.Pairs = pairs(c.Groups, target)
	return c
}

func group(s Series, target float64) Group {
	g := Group{Name: s.Name, Bias: math.NaN(), Percent: math.NaN(), Without: math.NaN()}
	for i, x := range s.Numbers {
		if math.IsNaN(x) {
			g.Empty++
			continue
		}
		g.Values, g.Rows = append(g.Values, x), append(g.Rows, s.Rows[i])
	}
	g.Summary = Summarise(g.Values)
	g.Bias = g.Mean - target
	if target != 0 {
		g.Percent = math.Abs(g.Bias / target)
	}
	if g.Odd = Outliers(g.Values); len(g.Odd) > 0 {
		g.Without = MeanWithout(g.Values, g.Odd)
	}
	return g
}

// MeanWithout is the mean of what is left without some places.
func MeanWithout(x []float64, odd []int) float64 {
	var rest []float64
	for i, v := range x {
		if len(odd) > 0 && odd[0] == i {
			odd = odd[1:]
			continue
		}
		rest = append(rest, v)
	}
	return Summarise(rest).Mean
}

// pairs compares every two groups. Welch's test is made of how far the means are from the
// target: a mean beyond it is mirrored to this side first. That never makes a difference
// look larger than it is, so that equal groups are not told apart more often than without.
func pairs(groups []Group, target float64) []Pair {
	var all []Pair
	var tested []int
	var p []float64
	for i := range groups {
		for j := i + 1; j < len(groups); j++ {
			pair, test, ok := compare(groups, i, j, target)
			if ok {
				tested, p = append(tested, len(all)), append(p, test.P)
			}
			all = append(all, pair)
		}
	}
	for k, corrected := range Holm(p) {
		pair := &all[tested[k]]
		pair.P = corrected
		if corrected < Level {
			pair.Verdict = Apart
			continue
		}
		pair.Verdict = Together
	}
	return all
}

// Needed gives how many runs each of a pair's groups would take to tell such a difference
// apart, among all the comparisons of the column; ok is false if not even a thousand would do.
func (c Column) Needed(p Pair) (n int, ok bool) {
	tests := 0
	for _, other := range c.Pairs {
		if other.Verdict == Apart || other.Verdict == Together {
			tests++
		}
	}
	a, b := facing(c.Groups[p.First].Summary, c.Target), facing(c.Groups[p.Second].Summary, c.Target)
	return RunsNeeded(a.Mean-b.Mean, Pooled(a, b), tests)
}

// equalMeans is below what two means differ by the last bits of the computation only, in parts of
// their size.
const equalMeans = 1e-13

// compare sets the nearer of two first. ok is false if there is no test to make.
func compare(groups []Group, i, j int, target float64) (pair Pair, test Test, ok bool) {
	pair = Pair{First: i, Second: j}
	a, b := facing(groups[i].Summary, target), facing(groups[j].Summary, target)
	switch {
	case a.N < 2 || b.N < 2:
		pair.Verdict = TooFew
		return pair, test, false
	case math.Abs(a.Mean-b.Mean) <= equalMeans*max(math.Abs(groups[i].Mean), math.Abs(groups[j].Mean)):
		pair.Verdict = Same
		return pair, test, false
	}
	if nearer := a.Mean > b.Mean; math.IsNaN(target) != nearer {
		pair.First, pair.Second = j, i
	}
	if test, ok = Welch(a, b); !ok {
		pair.Verdict = NoSpread
	}
	return pair, test, ok
}

// facing gives a group's summary as a distance from the target, which is at least 0; as it
// is without a target.
func facing(s Summary, target float64) Summary {
	if !math.IsNaN(target) {
		s.Mean = math.Abs(s.Mean - target)
	}
	return s
}
