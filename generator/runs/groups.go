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

	Distance Summary // of how far each run ended from the target; of no runs without one

	Bias    float64 // the mean less the target; NaN without one
	Percent float64 // its size in parts of the target; NaN without one, or for a target of 0
	Odd     []int   // places in Values of runs that lie far from the rest; they count all the same
	Without float64 // the mean without them; NaN if there are none
}

// Column is a measured column. Near and Aim answer two questions, which may have two answers: runs that scatter widely
// round the target are well aimed and do not end near it.
type Column struct {
	Target float64 // what every run should have come to; NaN if nothing is asked
	Step   float64 // the finest step to which a run was read; 0 if it is not known
	Groups []Group
	Near   []Pair // every group with every later one: whose runs end nearer to the target, or have more
	Aim    []Pair // whose mean is nearer to the target; nil without one
}

// Verdict is what can be said of two groups.
type Verdict int

const (
	Apart    Verdict = iota // the difference is more than chance
	Together                // these runs cannot tell them apart, which does not say that they are equal
	NoSpread                // no run of either group differs from another: chance has no measure
	TooFew                  // a group has fewer than FewestRuns runs
)

// FewestRuns are as many as are compared: with two in one group, Welch's test calls equal groups different in up to
// 16 % of trials (simulation_test.go).
const FewestRuns = 3

// Pair compares two groups: which is nearer to the target or, without one, has more.
type Pair struct {
	First, Second int // places in Groups; the first is nearer, or has more
	Verdict
	P float64 // the chance of such a difference if there is none, of this pair alone; of Apart and Together
}

// Series is one row of numbers that belong to a group: NaN where there is none.
type Series struct {
	Name    string
	Rows    []int
	Numbers []float64
}

// NewColumn works a column out: every group, and each with every later one. step is the finest to which runs were read,
// 0 if it is not known.
func NewColumn(series []Series, target, step float64) Column {
	c := Column{Target: target, Step: step}
	for _, s := range series {
		c.Groups = append(c.Groups, group(s, target, step))
	}
	if math.IsNaN(target) {
		c.Near = pairs(c.Groups, func(g Group) Summary { return g.Summary }, true)
		return c
	}
	c.Near = pairs(c.Groups, func(g Group) Summary { return g.Distance }, false)
	c.Aim = pairs(c.Groups, func(g Group) Summary { return facing(g.Summary, target) }, false)
	return c
}

func group(s Series, target, step float64) Group {
	g := Group{Name: s.Name, Bias: math.NaN(), Percent: math.NaN(), Without: math.NaN()}
	for i, x := range s.Numbers {
		if math.IsNaN(x) {
			g.Empty++
			continue
		}
		g.Values, g.Rows = append(g.Values, x), append(g.Rows, s.Rows[i])
	}
	g.Summary = Summarise(g.Values).readTo(step)
	g.Distance = Summarise(distancesFrom(g.Values, target)).readTo(step)
	g.Bias = g.Mean - target
	if target != 0 {
		g.Percent = math.Abs(g.Bias / target)
	}
	if g.Odd = Outliers(g.Values, step); len(g.Odd) > 0 {
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

// distancesFrom gives how far each run ended from the target; none without a target.
func distancesFrom(values []float64, target float64) []float64 {
	if math.IsNaN(target) {
		return nil
	}
	all := make([]float64, len(values))
	for i, x := range values {
		all[i] = math.Abs(x - target)
	}
	return all
}

// facing gives a group's summary as a distance of its mean from the target: a mean beyond it is mirrored to this
// side. That never makes a difference look larger than it is, so that equal groups are not told apart more often than
// without.
func facing(s Summary, target float64) Summary {
	s.Mean = math.Abs(s.Mean - target)
	return s
}

// pairs compares every two groups by Welch's test of what of says of each, with Holm's correction among the pairs. The
// chance that a pair keeps is its own: it is what "1 in 400" means, and the correction is how it was judged.
func pairs(groups []Group, of func(Group) Summary, moreIsFirst bool) []Pair {
	var all []Pair
	var tested []int
	var p []float64
	for i := range groups {
		for j := i + 1; j < len(groups); j++ {
			pair, a, b := Pair{First: i, Second: j}, of(groups[i]), of(groups[j])
			if a.Mean > b.Mean != moreIsFirst && a.Mean != b.Mean {
				pair.First, pair.Second = j, i
			}
			if test, ok := Welch(a, b); a.N < FewestRuns || b.N < FewestRuns {
				pair.Verdict = TooFew
			} else if !ok {
				pair.Verdict = NoSpread
			} else {
				tested, p = append(tested, len(all)), append(p, test.P)
			}
			all = append(all, pair)
		}
	}
	for k, corrected := range Holm(p) {
		pair := &all[tested[k]]
		pair.P, pair.Verdict = p[k], Together
		if corrected < Level {
			pair.Verdict = Apart
		}
	}
	return all
}
