package runs

// Whether two groups differ by more than chance, corrected for many comparisons, and how many runs it would take to
// tell. Which groups are compared is decided in groups.go.

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat/distuv"
)

// Test is a test of whether two means differ.
type Test struct {
	T       float64
	Degrees float64
	P       float64 // two-sided
}

// Welch tests whether the means of two groups differ, without taking their spreads for equal
// (Welch 1947; degrees of freedom by Welch and Satterthwaite, NIST/SEMATECH e-Handbook,
// 1.3.5.3). ok is false where a group has no spread to judge by: fewer than two runs, or
// no scatter in both.
func Welch(a, b Summary) (t Test, ok bool) {
	if a.N < 2 || b.N < 2 {
		return Test{}, false
	}
	va, vb := a.Error*a.Error, b.Error*b.Error
	if !(va+vb > 0) {
		return Test{}, false
	}
	t.T = (a.Mean - b.Mean) / math.Sqrt(va+vb)
	t.Degrees = (va + vb) * (va + vb) / (va*va/float64(a.N-1) + vb*vb/float64(b.N-1))
	t.P = 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: t.Degrees}.CDF(-math.Abs(t.T))
	return t, true
}

// Holm corrects the p-values of several tests so that the chance of even one false
// difference stays at the level that a corrected value is compared with (Holm 1979).
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return 0
	})
	corrected := make([]float64, len(p))
	least := 0.0
	for rank, i := range order {
		least = max(least, min(1, p[i]*float64(len(p)-rank)))
		corrected[i] = least
	}
	return corrected
}

// The level at which a difference counts as more than chance, and the chance with which runs enough find a difference.
const (
	Level = 0.05
	power = 0.8
)

// mostRuns is the most that anybody is asked to make.
const mostRuns = 1000

// RunsNeeded gives how many runs each of two groups needs so that a difference of their means
// is found with a chance of 80 % at the 5 % level, two-sided, with so many comparisons made
// (each at its share of the 5 %): the least n whose power, by the noncentral t distribution,
// is enough. spread is the groups' common standard deviation. found is false if a thousand
// runs each would not do, or nothing can be said.
func RunsNeeded(difference, spread float64, comparisons int) (n int, found bool) {
	size := math.Abs(difference) / spread
	if !(size > 0) || math.IsInf(size, 0) {
		return 0, false
	}
	each := Level / float64(max(1, comparisons))
	enough := func(n int) bool { return PowerOf(n, size, each) >= power }
	if !enough(mostRuns) {
		return 0, false
	}
	return 2 + sort.Search(mostRuns-2, func(i int) bool { return enough(i + 2) }), true
}

// PowerOf is the chance to find a difference of so many standard deviations with n runs in
// each of two groups, two-sided at a level such as 0.05; the far tail does not count.
func PowerOf(n int, size, level float64) float64 {
	degrees := float64(2 * (n - 1))
	shift := size * math.Sqrt(float64(n)/2)
	return 1 - distuv.NoncentralT{Nu: degrees, Mu: shift}.CDF(Critical(degrees, 1-level))
}

// RunsRange gives how many runs each of two groups needs to tell such a difference apart, from how much runs scatter
// and nothing else: what the groups differed by is no measure of what they really differ by. spread was found with so
// many degrees of freedom, so that the true one lies between spread·√(ν ÷ χ²) at both ends of a 95 % interval
// (NIST/SEMATECH e-Handbook, 7.2.3.1), and the number of runs between fewest and most. Either is 0 if a thousand
// would not do.
func RunsRange(difference, spread, degrees float64, comparisons int) (fewest, most int) {
	chi := distuv.ChiSquared{K: degrees}
	at := func(quantile float64) int {
		n, found := RunsNeeded(difference, spread*math.Sqrt(degrees/chi.Quantile(quantile)), comparisons)
		if !found {
			return 0
		}
		return max(n, FewestRuns)
	}
	return at((1 + intervalConfidence) / 2), at((1 - intervalConfidence) / 2)
}

// Spread is the common standard deviation of a column's groups with its degrees of freedom, the readings' step
// counted in; 0 if there is none.
func (c Column) Spread() (spread, degrees float64) {
	squares := 0.0
	for _, g := range c.Groups {
		if g.N > 1 {
			squares += float64(g.N-1) * g.SD * g.SD
			degrees += float64(g.N - 1)
		}
	}
	if degrees == 0 {
		return 0, 0
	}
	return math.Hypot(math.Sqrt(squares/degrees), c.Step/math.Sqrt(12)), degrees
}
