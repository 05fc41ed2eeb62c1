package figure

// How the numbers of a column are written, and the veil over those that students find.

import (
	"math"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
)

// amounts writes the numbers of a column alike: to the step of its readings or, if nobody
// named one, to the place at which the smallest spread of its groups has two digits.
type amounts struct {
	step   quantity.Rounding
	places int // of decimals, if there is no step; below 0 none are known
	in     quantity.Unit
	veil   *veil
}

// amountsOf looks at the spreads of a column's groups.
func amountsOf(step quantity.Rounding, unit quantity.Unit, groups []runs.Group) amounts {
	least, most := math.Inf(1), 0.0
	for _, g := range groups {
		if g.SD > 0 {
			least, most = min(least, g.SD), max(most, g.SD)
		}
	}
	a := amounts{step: step, in: unit, places: -1}
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
	return amounts{places: places, in: in, veil: m.veil}
}

// raw gives the same for what was read off, which is nobody's answer.
func (m amounts) raw() amounts {
	m.veil = nil
	return m
}

// missingNumber stands where there is none.
const missingNumber = "–"

// fallback is how many digits a number has of which no place is known.
const fallback = 4

// number writes a number, or what stands for one that students find.
func (m amounts) number(x float64) string {
	if m.hides(x) {
		return veiled
	}
	return m.bare(x)
}

// bare writes a number whether it is hidden or not.
func (m amounts) bare(x float64) string {
	switch {
	case math.IsNaN(x), math.IsInf(x, 0):
		return missingNumber
	case !m.step.IsZero():
		return quantity.FormatStep(x, m.step)
	case m.places >= 0:
		return quantity.FormatPlaces(x, m.places)
	}
	return quantity.FormatSignificant(x, fallback)
}

// hides tells whether students must not see a number.
func (m amounts) hides(x float64) bool { return m.veil.hides(x, m.bare(x), m.in) }

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
	return quantity.Shown{Number: m.number(x), Unit: m.in.Symbol()}.Text()
}

// interval writes the ends of an interval, or what stands for one.
func (m amounts) interval(low, high float64) string {
	switch {
	case math.IsNaN(low), math.IsInf(low, 0):
		return missingNumber
	case m.hides((low + high) / 2):
		return veiled // its middle is what is hidden; its ends are nobody's answer
	}
	m = m.raw()
	return m.number(low) + " … " + m.number(high)
}

// percent writes a part of one to so many places.
func (m amounts) percent(x float64, places int) string {
	if 100*x > mostPercent {
		return "> " + grouped(mostPercent) + " %"
	}
	return behind(m.of(places, "%").number(100*x), " %")
}

// behind puts a sign behind a number, if there is one.
func behind(number, sign string) string {
	if number == missingNumber {
		return number
	}
	return number + sign
}

// mostPercent is the largest percent error that says anything.
const mostPercent = 9999

// A veil hides the numbers that students find themselves: what would be taken for the right
// answer to a find, in whatever unit and with whatever sign.
type veil struct {
	found []found
	used  bool
}

// found is what a find comes to, or its key.
type found struct {
	quantity.Quantity
	off work.Tolerance
}

// veiled stands for a number that students find.
const veiled = "?"

// over gives a number as it is shown, or what stands for a hidden one.
func (v *veil) over(x float64, shown string, unit quantity.Unit) string {
	if v.hides(x, shown, unit) {
		return veiled
	}
	return shown
}

// hides tells whether a number, given as it is and as it is shown, would be taken for the
// answer to a find.
func (v *veil) hides(x float64, shown string, unit quantity.Unit) bool {
	if v == nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return false
	}
	// A number is hidden if it is the answer, or if it becomes the answer by being rounded.
	sizes := []float64{x}
	if a, err := quantity.ReadAnswer(shown); err == nil {
		sizes = append(sizes, a.Number.Float())
	}
	// Sizes are compared, since a number with the other sign gives the answer away too.
	for _, f := range v.found {
		for _, size := range sizes {
			q, ok := quantity.New(math.Abs(size), unit).In(f.Unit)
			if ok && f.off.Near(q.Number, math.Abs(f.Number)) {
				v.used = true
				return true
			}
		}
	}
	return false
}

// veilOf hides what a lesson's finds come to, and their keys.
func veilOf(l *work.Lesson) *veil {
	v := &veil{}
	for _, s := range l.Finds {
		r := l.Of(s)
		q, ok := r.Quantity()
		if !ok {
			continue
		}
		off := l.Tolerance(s)
		v.found = append(v.found, found{q, off})
		if r.Key != nil {
			if key, ok := r.Key.Value.In(q.Unit); ok {
				v.found = append(v.found, found{key, off})
			}
		}
	}
	return v
}
