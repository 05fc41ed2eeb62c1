package quantity

// This file fits straight lines to pairs of readings: how many millimetres each rotation brings, and how sure that is.

import (
	"math"
	"slices"
)

// fits take two records, y over x: reading k of one belongs to reading k of the other.
var fits = []*Formula{
	{Name: "fit_slope", fit: slopeOf, Doc: "slope of the line that fits y over x best, by least squares, with an " +
		"intercept, of two records (NIST/SEMATECH e-Handbook, 4.1.4.1)"},
	{Name: "fit_intercept", fit: interceptOf, Doc: "where that line is at x = 0"},
	{Name: "fit_through_origin", fit: slopeThroughOrigin, Doc: "slope of the line through 0 that fits y over x best, by " +
		"least squares"},
}

// pairs are the readings of two records, each in its unit, and the name of the fit's inputs.
type pairs struct {
	x, y  []float64
	xUnit Unit
	yUnit Unit
	input string
}

// A fittedLine is y = middle + slope·(x − center). Its two uncertainties are independent of each other, so that what is
// made of slope and intercept together has their correlation (JCGM 100:2008, H.3: the reference value t₀ at the centre
// makes r = 0).
type fittedLine struct {
	middle, slope, center   float64
	middleError, slopeError float64
}

// fitLine is least squares with an intercept; ok is false where all x are equal. Two points lie on a line however wrong
// they are, and claim no uncertainty.
func (p pairs) fitLine() (l fittedLine, ok bool) {
	// Their mean, when rounded, is not always one of them, so that the sum of squares does not tell.
	if slices.Min(p.x) == slices.Max(p.x) {
		return l, false
	}
	n := float64(len(p.x))
	for i := range p.x {
		l.center, l.middle = l.center+p.x[i], l.middle+p.y[i]
	}
	l.center, l.middle = l.center/n, l.middle/n
	across, along := 0.0, 0.0
	for i := range p.x {
		dx := p.x[i] - l.center
		across, along = across+float64(dx*dx), along+float64(dx*(p.y[i]-l.middle))
	}
	if across == 0 {
		return l, false
	}
	l.slope = along / across
	rest, size := 0.0, 0.0
	for i := range p.x {
		off := p.y[i] - l.middle - float64(l.slope*(p.x[i]-l.center))
		rest, size = rest+float64(off*off), max(size, math.Abs(p.y[i]), math.Abs(l.slope*p.x[i]))
	}
	if n > 2 {
		spread := unlessDust(math.Sqrt(rest/(n-2)), size)
		l.middleError, l.slopeError = spread/math.Sqrt(n), spread/math.Sqrt(across)
	}
	return l, true
}

// unlessDust is x, or 0 where x is no more than 1e-13 of numbers of that size: so much rounding in binary leaves where
// decimals cancel, and no measurement is that fine. The page has the same rule (site/scripts/run.js).
func unlessDust(x, size float64) float64 {
	if math.Abs(x) <= 1e-13*size {
		return 0
	}
	return x
}

// shares are those of a fit, which has as many degrees of freedom as points beyond those that its parameters take; a
// part of 0 has none. They count as one part, since all come from the scatter about one line.
func (p pairs) shares(parameters int, parts ...share) []share {
	var out []share
	for _, s := range parts {
		if s.part != 0 {
			out = append(out, share{input: p.input + s.input, part: s.part, freedom: float64(len(p.x) - parameters)})
		}
	}
	return out
}

const noLine = "all values of x are equal, and a line needs different ones"

// perX gives a slope its unit, that of y over that of x.
func (p pairs) perX(slope Quantity) Quantity { return slope.over(New(1, p.xUnit)) }

func slopeOf(p pairs) (Quantity, string) {
	l, ok := p.fitLine()
	if !ok {
		return Quantity{}, noLine
	}
	shares := p.shares(2, share{input: "[slope]", part: l.slopeError})
	return p.perX(Quantity{Number: l.slope, Unit: p.yUnit, shares: shares}), ""
}

func interceptOf(p pairs) (Quantity, string) {
	l, ok := p.fitLine()
	if !ok {
		return Quantity{}, noLine
	}
	shares := p.shares(2, share{input: "[middle]", part: l.middleError},
		share{input: "[slope]", part: -l.center * l.slopeError})
	carried := float64(l.slope * l.center)
	start := unlessDust(l.middle-carried, math.Abs(l.middle)+math.Abs(carried))
	return Quantity{Number: start, Unit: p.yUnit, shares: shares}, ""
}

func slopeThroughOrigin(p pairs) (Quantity, string) {
	across, along := 0.0, 0.0
	for i := range p.x {
		across, along = across+float64(p.x[i]*p.x[i]), along+float64(p.x[i]*p.y[i])
	}
	if across == 0 {
		return Quantity{}, "all values of x are 0, and a line through 0 needs others"
	}
	slope, rest, size := along/across, 0.0, 0.0
	for i := range p.x {
		off := p.y[i] - float64(slope*p.x[i])
		rest, size = rest+float64(off*off), max(size, math.Abs(p.y[i]))
	}
	spread := 0.0
	if n := float64(len(p.x)); n > 1 {
		spread = unlessDust(math.Sqrt(rest/(n-1)), size) / math.Sqrt(across)
	}
	shares := p.shares(1, share{input: "[origin]", part: spread})
	return p.perX(Quantity{Number: slope, Unit: p.yUnit, shares: shares}), ""
}

// fit works a fit out. Both arguments are records with as many readings.
func (ev *evaluator) fit(e *Call, f *Formula) Value {
	if len(e.Args) != 2 {
		return ev.fail(e.Span(), "argument-count", f.Name+" takes two records, y and x; "+itoa(len(e.Args))+" given here",
			"name what was read first, then what it depends on, as in "+f.Name+"(stop, turns)")
	}
	y, x := ev.eval(e.Args[0]), ev.eval(e.Args[1])
	_, lost := y.(Unknown)
	if _, too := x.(Unknown); lost || too {
		return Unknown{}
	}
	ys, ok := y.(Record)
	xs, ok2 := x.(Record)
	switch {
	case !ok || !ok2:
		return ev.fail(e.Span(), "fit-records", f.Name+" fits a line to the readings of two records",
			"name two records with as many readings each, as in "+f.Name+"(stop, turns)")
	case len(ys.Numbers) != len(xs.Numbers):
		return ev.fail(e.Span(), "fit-records", "the two records have "+itoa(len(ys.Numbers))+" and "+
			itoa(len(xs.Numbers))+" readings", "each reading of the one belongs to one of the other")
	case len(ys.Numbers) < 2:
		return ev.fail(e.Span(), "no-value", "a line needs at least two readings", "take more of them")
	}
	p := pairs{x: xs.Numbers, y: ys.Numbers, xUnit: xs.Unit, yUnit: ys.Unit, input: ys.Name + " over " + xs.Name}
	q, what := f.fit(p)
	if what != "" {
		return ev.fail(e.Span(), "no-value", what, "look at the values that go into "+e.Name)
	}
	return ev.finite(e.Span(), q)
}

// fit puts a fit in a program. The page has its twin, which takes the readings of y, then those of x.
func (c *compiler) fit(e *Call) Unit {
	if len(e.Args) != 2 {
		return c.fail(e, "it takes two records")
	}
	y, x := c.expr(e.Args[0]), c.expr(e.Args[1])
	if c.err != nil {
		return Unit{}
	}
	c.put(e.Name + ":2")
	if e.Name == "fit_intercept" {
		return y
	}
	quotient, scale := y.times(x, -1)
	c.scale(scale, 1)
	return c.plain(quotient)
}
