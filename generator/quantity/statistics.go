package quantity

// This file holds the statistics of records and of several values, with the slopes by
// which they carry uncertainty.

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// A sample is what a statistic works on: numbers in one unit, and for each of them
// the shares of uncertainty. spread means that an entry is a reading of a record.
type sample struct {
	unit   Unit
	x      []float64
	shares [][]share
	spread bool
}

// statistics take a record, or several values, or both. Of a record's readings the
// mean and the sum carry an uncertainty; how sure a spread or an extreme is does
// not follow from first order, so none is claimed for those.
var statistics = []*Formula{
	{Name: "mean", statistic: meanOf, Doc: "sum of the values over their count"},
	{Name: "median", statistic: median, Doc: "middle value, or the mean of the two middle ones"},
	{Name: "stdev", statistic: stdev, Doc: "sample standard deviation (n − 1)"},
	{Name: "stderr", statistic: stderr, Doc: "standard error of the mean, stdev ÷ √n"},
	{Name: "range", statistic: spanOf, Doc: "largest less smallest"},
	{Name: "min", statistic: smallest, Doc: "smallest value"},
	{Name: "max", statistic: largest, Doc: "largest value"},
	{Name: "sum", statistic: total, Doc: "sum of the values"},
	{Name: "count", statistic: count, Doc: "how many values"},
}

func (ev *evaluator) statistic(e *Call, f *Formula) Value {
	s, ok := ev.sample(e, f)
	if !ok {
		return Unknown{}
	}
	if s.unit.IsTruth() {
		return ev.countYes(e, f, s)
	}
	q, what := f.statistic(s)
	if what != "" {
		return ev.fail(e.Span(), "no-value", what, "look at the values that go into "+e.Name)
	}
	q.Unit = q.Unit.ofStatistic(f.Name)
	return ev.finite(e.Span(), q)
}

// sample puts the arguments of a statistic together, in the unit of the first.
func (ev *evaluator) sample(e *Call, f *Formula) (sample, bool) {
	var s sample
	ok, started := true, false
	for _, a := range e.Args {
		v := ev.eval(a)
		unit, known := unitOf(v)
		if !known {
			ok = false
			continue
		}
		if !started {
			s.unit, started = unit, true
		}
		if unit.Dimension() != s.unit.Dimension() {
			ev.fail(a.Span(), "mixed-dimensions", f.Name+" needs values of one kind; "+quote(a.String())+" is "+
				unit.Dimension().String()+", the first is "+s.unit.Dimension().String(), "leave out what is of another kind")
			ok = false
			continue
		}
		s.add(v)
	}
	if len(e.Args) == 0 {
		ev.fail(e.Span(), "argument-count",
			f.Name+" takes a record or some values; none given here", "name a record, as in "+f.Name+"(s)")
		return s, false
	}
	return s, ok
}

func unitOf(v Value) (Unit, bool) {
	switch v := v.(type) {
	case Quantity:
		return v.Unit, true
	case Record:
		return v.Unit, true
	}
	return Unit{}, false
}

// add appends a value, or the readings of a record. Each reading is an input of its own, with what it is off the mean
// as its share: so the mean has the standard error s/√n, and records that were read in the same runs have
// their covariance (JCGM 100:2008, 5.2.3). The step is one input of all (4.3.7; H.6 adds δ²/12 to s²/n; from memory).
func (s *sample) add(v Value) {
	switch v := v.(type) {
	case Quantity:
		q, _ := v.In(s.unit)
		s.x = append(s.x, q.Number)
		s.shares = append(s.shares, q.shares)
	case Record:
		if v.InOrder {
			s.follow(v)
			return
		}
		num, den := conversion(v.Unit, s.unit)
		readings := make([]float64, len(v.Numbers))
		for i, n := range v.Numbers {
			q, _ := New(n, v.Unit).In(s.unit)
			readings[i] = q.Number
		}
		s.spread = true
		n, off := len(readings), scatter(readings)
		for i, x := range readings {
			s.x = append(s.x, x)
			shares := slices.Clone(scaled(v.common(i), num/den))
			if n > 1 && !v.Unit.IsTruth() {
				shares = append(shares, share{cmp.Or(v.Runs, v.Name) + "[" + itoa(i+1) + "]", off[i], float64(n - 1)})
			}
			s.shares = append(s.shares, shares)
		}
	}
}

// follow appends readings that follow each other. How far they are from their mean says how far the thing moved, not
// how sure the readings are, so that they claim no uncertainty.
func (s *sample) follow(r Record) {
	s.spread = true
	num, den := conversion(r.Unit, s.unit)
	for i, n := range r.Numbers {
		q, _ := New(n, r.Unit).In(s.unit)
		s.x, s.shares = append(s.x, q.Number), append(s.shares, scaled(r.common(i), num/den))
	}
}

// give makes the result y from the derivative with respect to each entry. An input that does not count here, such as
// the larger of two in a min, is kept, so that FirstOrderDoubt can try it.
func (s sample) give(y float64, slope func(i int) float64) (Quantity, string) {
	parts := make(map[string]share)
	for i, shares := range s.shares {
		d := slope(i)
		for _, sh := range shares {
			if sh.part != 0 {
				parts[sh.input] = share{sh.input, parts[sh.input].part + float64(d*sh.part), sh.freedom}
			}
		}
	}
	var shares []share
	for _, input := range slices.Sorted(maps.Keys(parts)) {
		shares = append(shares, parts[input])
	}
	return Quantity{Number: y, Unit: s.unit, shares: shares}, ""
}

// claim is give for statistics whose uncertainty is not known for readings.
func (s sample) claim(y float64, slope func(i int) float64) (Quantity, string) {
	if s.spread {
		return Quantity{Number: y, Unit: s.unit}, ""
	}
	return s.give(y, slope)
}

func meanOf(s sample) (Quantity, string) {
	n := float64(len(s.x))
	return s.give(unlessDust(stat.Mean(s.x, nil), s.size()), func(int) float64 { return 1 / n })
}

func total(s sample) (Quantity, string) {
	sum := 0.0
	for _, x := range s.x {
		sum += x
	}
	return s.give(unlessDust(sum, s.size()), func(int) float64 { return 1 })
}

// size is that of the largest value, whatever its sign.
func (s sample) size() float64 {
	size := 0.0
	for _, x := range s.x {
		size = max(size, math.Abs(x))
	}
	return size
}

// countYes is count of comparisons: how many of them are yes.
func (ev *evaluator) countYes(e *Call, f *Formula, s sample) Value {
	if f.Name != "count" {
		return ev.fail(e.Span(), "yes-or-no", f.Name+" needs numbers, and these are yes or no",
			"count tells how many are yes")
	}
	q, _ := total(s)
	return Quantity{Number: q.Number, shares: q.shares}
}

func count(s sample) (Quantity, string) { return New(float64(len(s.x)), Unit{}), "" }

// order returns the places of the values from the smallest to the largest, equal ones in the
// order in which they came.
func (s sample) order() []int {
	order := make([]int, len(s.x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case s.x[a] < s.x[b]:
			return -1
		case s.x[a] > s.x[b]:
			return 1
		}
		return 0
	})
	return order
}

func median(s sample) (Quantity, string) {
	order := s.order()
	low, high := order[(len(order)-1)/2], order[len(order)/2]
	return s.claim((s.x[low]+s.x[high])/2, s.between(low, high))
}

func smallest(s sample) (Quantity, string) { return s.extreme(0) }
func largest(s sample) (Quantity, string)  { return s.extreme(len(s.x) - 1) }

// extreme is the value of a rank; it depends on one entry alone.
func (s sample) extreme(rank int) (Quantity, string) {
	at := s.order()[rank]
	return s.claim(s.x[at], func(i int) float64 {
		if i == at {
			return 1
		}
		return 0
	})
}

func spanOf(s sample) (Quantity, string) {
	low, _ := smallest(s)
	high, _ := largest(s)
	q, _ := high.add(low, -1)
	return q, ""
}

func stdev(s sample) (Quantity, string) {
	if len(s.x) < 2 {
		return Quantity{}, "the spread of a single value is not known; take at least two"
	}
	m, sd := stat.MeanStdDev(s.x, nil)
	return s.claim(sd, func(i int) float64 {
		if sd == 0 {
			return 0
		}
		return (s.x[i] - m) / (float64(len(s.x)-1) * sd)
	})
}

// stderr is stdev ÷ √n. What stdev claims of its uncertainty is passed on.
func stderr(s sample) (Quantity, string) {
	sd, what := stdev(s)
	if what != "" {
		return sd, what
	}
	root := math.Sqrt(float64(len(s.x)))
	return sd.mapped(sd.Number/root, 1/root, s.unit), ""
}
