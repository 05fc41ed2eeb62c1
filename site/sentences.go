package site

import (
	"math"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/trials"
	"trundle/generator/work"
)

// Asks is what a column's runs are held against.
type Asks string

const (
	AsksNear     Asks = "near"     // to stop at a place
	AsksStraight Asks = "straight" // not to go sideways
	AsksMore     Asks = "more"     // nothing: more is only more
)

// verdict tells what can be said of two groups.
func (w words) verdict(c trials.Column, p trials.Pair, asks Asks) string {
	a, b := c.Groups[p.First], c.Groups[p.Second]
	switch p.Verdict {
	case trials.Apart:
		return w.must("runs-apart-"+string(asks), a.Name, b.Name, w.oneIn(p.P))
	case trials.Same:
		return w.must("runs-same", a.Name, b.Name)
	case trials.NoSpread:
		return w.must("runs-no-spread", a.Name, b.Name)
	case trials.TooFew:
		return w.must("runs-too-few", a.Name, b.Name)
	}
	each := w.must("runs-each", strconv.Itoa(a.N))
	if a.N != b.N {
		each = w.must("runs-unequal", strconv.Itoa(min(a.N, b.N)), strconv.Itoa(max(a.N, b.N)))
	}
	if n, ok := c.Needed(p); ok {
		return w.must("runs-together", each, a.Name, b.Name, grouped(max(n, a.N+1, b.N+1)))
	}
	return w.must("runs-never", each, a.Name, b.Name)
}

// oneIn writes a small chance as one in so many: two digits below a hundred, else one.
func (w words) oneIn(p float64) string {
	if !(p > 1e-6) {
		return w.must("runs-one-in-million")
	}
	n := 1 / p
	place := math.Pow(10, math.Floor(math.Log10(n)))
	if n < 100 {
		place = 1
	}
	return w.must("runs-one-in", grouped(int(math.Round(n/place)*place)))
}

// grouped writes a whole number with commas between its thousands.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// pattern tells where to look first.
func (w words) pattern(c trials.Cycled, m amounts) string {
	slope := func(r trials.Readings) string {
		side := "left"
		if r.Fit.Slope < 0 {
			side = "right"
		}
		return w.must("runs-slope-"+side, m.size(math.Abs(r.Fit.Slope)))
	}
	switch c.Pattern {
	case runs.Scatter:
		return w.must("runs-scatter", c.Name)
	case runs.OneWay:
		if c.Built.Fit == nil {
			return w.must("runs-one-way", c.Name, slope(c.Swapped))
		}
		return w.must("runs-one-way", c.Name, slope(c.Built))
	case runs.TurnsRound:
		return w.must("runs-turns-round", c.Name, slope(c.Built), slope(c.Swapped))
	case runs.Stays:
		return w.must("runs-stays", c.Name, slope(c.Built), slope(c.Swapped))
	case runs.Changes:
		return w.must("runs-changes", c.Name)
	}
	return w.must("runs-few-cycles", c.Name)
}

// amounts writes the numbers of a column alike: to the step of its readings or, if nobody
// named one, to the place at which the smallest spread of its groups has two digits.
type amounts struct {
	step   quantity.Rounding
	places int // of decimals, if there is no step; below 0 none are known
	unit   string
	veil   *veil
}

func amountsOf(step quantity.Rounding, unit string, groups []trials.Group) amounts {
	least := math.Inf(1)
	for _, g := range groups {
		if g.SD > 0 {
			least = min(least, g.SD)
		}
	}
	a := amounts{step: step, unit: unit, places: -1}
	if !math.IsInf(least, 1) {
		a.places = min(max(0, 1-int(math.Floor(math.Log10(least)))), 9)
	}
	return a
}

// of gives the same for other places and another unit.
func (m amounts) of(places int, unit string) amounts {
	return amounts{places: places, unit: unit, veil: m.veil}
}

// fallback is how many digits a number has of which no place is known.
const fallback = 4

func (m amounts) number(x float64) string {
	s := "–"
	switch {
	case math.IsNaN(x), math.IsInf(x, 0):
		return s
	case !m.step.IsZero():
		s = quantity.FormatStep(x, m.step)
	case m.places >= 0:
		s = quantity.FormatPlaces(x, m.places)
	default:
		s = quantity.FormatSignificant(x, fallback)
	}
	return m.veil.over(s, m.unit)
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
	return quantity.Shown{Number: m.number(x), Unit: m.unit}.Text()
}

func (m amounts) interval(low, high float64) string {
	if math.IsNaN(low) || math.IsInf(low, 0) {
		return "–"
	}
	return m.number(low) + " … " + m.number(high)
}

// percent writes a part of one to so many places.
func (m amounts) percent(x float64, places int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	return m.of(places, "%").number(100*x) + " %"
}

// A veil hides the numbers that students find themselves, as they would write them.
type veil struct {
	found map[string]bool // number and unit
	used  bool
}

// veiled stands for a number that students find.
const veiled = "?"

func (v *veil) over(number, unit string) string {
	if v == nil || !v.found[strings.TrimPrefix(number, quantity.Minus)+" "+unit] {
		return number
	}
	v.used = true
	return veiled
}

// veilOf hides what a lesson's finds come to, and their keys.
func veilOf(l *work.Lesson) *veil {
	v := &veil{found: map[string]bool{}}
	for _, s := range l.Finds {
		r := l.Of(s)
		texts := []string{r.Text()}
		if r.Key != nil {
			texts = append(texts, r.Key.Text())
		}
		for _, text := range texts {
			number, unit, _ := strings.Cut(strings.ReplaceAll(text, "\u00a0", " "), " ")
			unit, _, _ = strings.Cut(unit, " ±")
			v.found[strings.TrimPrefix(number, quantity.Minus)+" "+unit] = true
		}
	}
	return v
}
