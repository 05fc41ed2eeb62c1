package figure

// How the numbers of a column are written.

import (
	"math"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
	"trundle/site/words"
)

// amounts writes the numbers of a column alike: to the step of its readings or, if nobody
// named one, to the place at which the smallest spread of its groups has two digits.
type amounts struct {
	step   quantity.Rounding
	places int // of decimals, if there is no step; below 0 none are known
	in     quantity.Unit
	words  words.Words // for the form of numbers, and units
}

// amountsOf looks at the spreads of a column's groups.
func (w *writer) amountsOf(step quantity.Rounding, unit quantity.Unit, groups []runs.Group) amounts {
	least, most := math.Inf(1), 0.0
	for _, g := range groups {
		if g.SD > 0 {
			least, most = min(least, g.SD), max(most, g.SD)
		}
	}
	a := amounts{step: step, in: unit, places: -1, words: w.Words}
	if most == 0 { // equal runs are as sure as the step of their readings
		for _, g := range groups {
			if half := (g.High - g.Low) / 2; half > 0 {
				a.places = max(a.places, twoDigits(half))
			}
		}
	}
	if most > 0 {
		// One group that hardly scatters does not drag the others' digits along.
		a.places = min(twoDigits(least), twoDigits(most)+2)
	}
	return a
}

// mostPlaces of decimals are shown of any number.
const mostPlaces = 9

// twoDigits is how many decimals show two digits of x, which is more than 0.
func twoDigits(x float64) int {
	return min(max(0, 1-int(math.Floor(math.Log10(x)))), mostPlaces)
}

// of gives the same for other places and another unit.
func (m amounts) of(places int, unit string) amounts {
	in, _ := quantity.LookupUnit(unit)
	return amounts{places: places, in: in, words: m.words}
}

// missingNumber stands where there is none.
const missingNumber = "–"

// fallback is how many digits a number has of which no place is known.
const fallback = 4

// number writes a number.
func (m amounts) number(x float64) string {
	switch {
	case math.IsNaN(x), math.IsInf(x, 0):
		return missingNumber
	case !m.step.IsZero():
		return m.words.Number(quantity.FormatStep(x, m.step))
	case m.places >= 0:
		return m.words.Number(quantity.FormatPlaces(x, m.places))
	}
	return m.words.Number(quantity.FormatSignificant(x, fallback))
}

// signed shows the side of an error.
func (m amounts) signed(x float64) string {
	s := m.number(x)
	if x > 0 && strings.ContainsAny(s, "123456789") {
		return "+" + s
	}
	return s
}

// size is a number with its unit.
func (m amounts) size(x float64) string {
	return amountIn(m.words, m.number(x), m.in)
}

// interval writes the ends of an interval, or what stands for one.
func (m amounts) interval(low, high float64) string {
	switch {
	case math.IsNaN(low), math.IsInf(low, 0):
		return missingNumber
	}
	return m.number(low) + " … " + m.number(high)
}

// percent writes a part of one to so many places, or its veil.
func (m amounts) percent(x float64, places int, asked *work.Answer) string {
	if 100*x > mostPercent && asked == nil {
		return "> " + m.words.Count(mostPercent) + " %"
	}
	return followed(m.of(places, "%").numberOf(100*x, asked.Then("100 *")), " %")
}

// followed puts a sign after a number, if there is one.
func followed(number, sign string) string {
	if number == missingNumber {
		return number
	}
	return number + sign
}

// mostPercent is the largest percent error that says anything.
const mostPercent = 9999

// amountIn writes a number, as it is shown, with its unit.
func amountIn(w words.Words, number string, unit quantity.Unit) string {
	return quantity.Shown{Number: number, Unit: w.Unit(quantity.AfterNumber(number, unit.Symbol()))}.Text()
}
