package quantity

// This file tells temperatures from differences of temperatures. Both are in °C or °F, and become each other in sums:
// 25 °C − 20 °C is a difference, and 20 °C and a difference are a temperature. In a product there are only differences.

import "slices"

// warmths are the units of temperatures, each with that of its differences.
var warmths = map[*atom]*atom{
	atomByName["°C"]: atomByName["Δ°C"], atomByName["°F"]: atomByName["Δ°F"],
}

// isWarmth tells whether the unit is one of temperatures.
func (u Unit) isWarmth() bool { return u.isOne() && warmths[u.terms[0].atom] != nil }

// Difference is the unit that differences of a unit's values are in. It is another one for temperatures alone.
func (u Unit) Difference() Unit {
	for i, t := range u.terms {
		if t.atom.dim != warmthDim {
			continue
		}
		if to := warmths[t.atom]; to != nil {
			terms := append([]term{}, u.terms...)
			terms[i].atom = to
			u = Unit{terms}
		}
	}
	return u
}

// apart are the statistics that say how far values are apart.
var apart = []string{"stdev", "stderr", "range", "population_stdev", "mean_absolute_deviation"}

// ofStatistic is the unit of a statistic of values in a unit.
func (u Unit) ofStatistic(name string) Unit {
	if slices.Contains(apart, name) {
		return u.Difference()
	}
	return u
}

// freezing is where water freezes, in °F.
const freezing = 32

// warmthShift is what is added to a temperature before and after it is multiplied, to give it in another unit.
func warmthShift(from, to Unit) (before, after float64) {
	if !from.isWarmth() || !to.isWarmth() || from.Equal(to) {
		return 0, 0
	}
	if from.String() == "°F" {
		return -freezing, 0
	}
	return 0, freezing
}

// reached is the unit in which a value comes out that is asked for in another one: a difference stays a difference.
func reached(from, to Unit) Unit {
	if to.isWarmth() && !from.isWarmth() {
		return to.Difference()
	}
	return to
}

// sumUnits gives the unit that the second of two values of one kind is brought to before it is added or subtracted, and
// that of the result. It is false for what has no meaning, such as 20 °C + 68 °F.
func sumUnits(left, right Unit, minus bool) (second, result Unit, ok bool) {
	if left.Dimension() != right.Dimension() {
		return left, left, false
	}
	switch {
	case left.isWarmth() && right.isWarmth() && minus:
		return left, left.Difference(), true
	case left.isWarmth() && right.isWarmth(): // 20 °C + 5 °C, and what a mean adds up
		return left, left, left.Equal(right)
	case left.isWarmth():
		return left.Difference(), left, true
	case right.isWarmth() && minus:
		return left, left, false
	case right.isWarmth(): // 5 Δ°C + 20 °C is in the unit of its first part, too
		for point, difference := range warmths {
			if left.Equal(Unit{[]term{{difference, 1}}}) {
				return Unit{[]term{{point, 1}}}, Unit{[]term{{point, 1}}}, true
			}
		}
	}
	return left, left, true
}
