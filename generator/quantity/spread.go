package quantity

// This file holds further statistics: quartiles, the mode, and spreads of a whole class of values.

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// spreads are statistics like those in statistics.go, for whoever teaches box plots and distributions.
var spreads = []*Formula{
	{Name: "lower_quartile", statistic: lowerQuartile,
		Doc: "median of the lower half of the values; with an odd number of values the middle one is in neither half"},
	{Name: "upper_quartile", statistic: upperQuartile,
		Doc: "median of the upper half of the values; with an odd number of values the middle one is in neither half"},
	{Name: "mode", statistic: mode, Doc: "value that comes most often; none if several come equally often"},
	{Name: "population_stdev", statistic: populationStdev,
		Doc: "standard deviation of all there are and not of a sample (n); stdev is that of a sample (n − 1)"},
	{Name: "mean_absolute_deviation", statistic: meanAbsoluteDeviation,
		Doc: "mean of how far each value is from their mean"},
}

func lowerQuartile(s sample) (Quantity, string) { return s.quartile(0) }
func upperQuartile(s sample) (Quantity, string) { return s.quartile((len(s.x) + 1) / 2) }

// quartile is the median of the half of the values that begins at a rank.
func (s sample) quartile(from int) (Quantity, string) {
	half := len(s.x) / 2
	if half == 0 {
		return Quantity{}, "a single value has no quartiles; take at least two"
	}
	order := s.order()
	low, high := order[from+(half-1)/2], order[from+half/2]
	return s.claim((s.x[low]+s.x[high])/2, s.between(low, high))
}

// between is the slope of the middle of two values.
func (s sample) between(low, high int) func(i int) float64 {
	return func(i int) float64 {
		slope := 0.0
		if i == low {
			slope += 0.5
		}
		if i == high {
			slope += 0.5
		}
		return slope
	}
}

// mode counts numbers as equal that differ in the last bits only.
func mode(s sample) (Quantity, string) {
	best, most, tied := 0, 0, false
	order := s.order()
	for i := 0; i < len(order); {
		n := 1
		for i+n < len(order) && snap(s.x[order[i+n]]) == snap(s.x[order[i]]) {
			n++
		}
		switch {
		case n > most:
			best, most, tied = order[i], n, false
		case n == most:
			tied = true
		}
		i += n
	}
	if tied {
		return Quantity{}, "several values come equally often, so none of them is the mode"
	}
	return s.claim(s.x[best], func(i int) float64 {
		if snap(s.x[i]) == snap(s.x[best]) {
			return 1 / float64(most)
		}
		return 0
	})
}

func populationStdev(s sample) (Quantity, string) {
	m := stat.Mean(s.x, nil)
	squares := 0.0
	for _, x := range s.x {
		squares += float64((x - m) * (x - m))
	}
	n := float64(len(s.x))
	sd := unlessDust(math.Sqrt(squares/n), math.Abs(m))
	return s.claim(sd, func(i int) float64 {
		if sd == 0 {
			return 0
		}
		return (s.x[i] - m) / (n * sd)
	})
}

func meanAbsoluteDeviation(s sample) (Quantity, string) {
	n, m := float64(len(s.x)), stat.Mean(s.x, nil)
	off, above := 0.0, 0.0
	for _, x := range s.x {
		off += math.Abs(x - m)
		above += sign(x - m)
	}
	return s.claim(unlessDust(off/n, math.Abs(m)), func(i int) float64 { return (sign(s.x[i]-m) - above/n) / n })
}

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
