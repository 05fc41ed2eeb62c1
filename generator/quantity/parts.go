package quantity

// This file holds quantities that people write in parts: 6 ft 3 1/2 in, 2:30 min, 3:5.

import (
	"math"
	"math/big"
	"strings"
)

// parts reads what goes on after the first number and unit of a literal: the inches after feet, or what a colon means.
func (p *Parser) parts(lit *Literal) *Error {
	if lit.Number.hasColon() {
		return lit.colons()
	}
	for p.partAhead(lit) {
		at := p.peek().span.Start
		number := p.next().number
		small, err := p.optionalUnit()
		if err != nil {
			return err
		}
		at = min(at, lit.At.Start)
		lit.At.End = p.tokens[p.i-1].span.End
		if err := lit.join(number, small); err != nil {
			err.Span = Span{at, lit.At.End}
			return err
		}
	}
	return nil
}

// partAhead tells whether another number comes with a unit of the same kind, as in 6 ft 3 in.
func (p *Parser) partAhead(lit *Literal) bool {
	number, unit, after := p.peek(), p.peekAt(1), p.peekAt(2)
	small := readable(unit.text)
	joined := after.kind == tokenSign && !after.spaced && strings.Contains("/*^²³", after.text)
	return number.kind == tokenNumber && !number.number.hasColon() && small != nil && !joined &&
		(unit.kind == tokenName || unit.kind == tokenSign) && lit.Unit.isOne() && small.dim == lit.Unit.terms[0].atom.dim &&
		small.dim != (Dimension{}) && small.shown == ""
}

// join adds the smaller part to a literal. Its number then counts the smaller unit, and its text is both.
func (e *Literal) join(number Number, small Unit) *Error {
	before := e.Number.Text + " " + e.Unit.Symbol()
	all := before + " " + number.Text + " " + small.Symbol()
	times, whole := e.Unit.wholeTimes(small)
	fault := func(what, hint string) *Error { return &Error{Slug: "two-units", What: what, Hint: hint} }
	last := e.Number.Text[strings.LastIndexByte(e.Number.Text, ' ')+1:]
	switch {
	case !whole:
		return fault("“"+all+"” is not one quantity, since "+e.Unit.Symbol()+" is not a whole number of "+small.Symbol(),
			"write the larger unit first, as in 6 ft 3 1/2 in; to add two quantities write + between")
	case strings.Trim(last, "0123456789") != "":
		return fault("only the last part of “"+all+"” may have a fraction",
			"write whole "+e.Unit.Symbol()+", and what is left over in "+small.Symbol())
	case number.Exact.Cmp(times) >= 0:
		return fault("“"+all+"” has more than one "+e.Unit.Symbol()+" in its last part",
			"write less than "+times.RatString()+" "+small.Symbol()+" there; to add two quantities write + between")
	}
	sum := new(big.Rat).Mul(e.Number.Exact, times)
	e.Number = Number{Text: before + " " + number.Text, Exact: sum.Add(sum, number.Exact), Place: number.Place}
	e.Unit, e.letter = small, ""
	return nil
}

// wholeTimes tells how many of a smaller unit of the same kind make this one, if that is a whole number.
func (u Unit) wholeTimes(small Unit) (*big.Rat, bool) {
	if !u.isOne() || !small.isOne() {
		return nil, false
	}
	times, exact := ExactRatio(u, small)
	return times, exact && times.IsInt() && times.Cmp(big.NewRat(1, 1)) > 0
}

// colons says what 3:5 or 2:30 is: a ratio, or a time if the unit of one follows.
func (e *Literal) colons() *Error {
	number, isTime := e.Number.asTime()
	parts := strings.Count(e.Number.Text, ":") + 1
	unit := e.Unit.String()
	switch {
	case e.Unit.IsNumber() && parts == 2 && e.Number.Exact.Sign() >= 0 && e.Number.Place.Sign() > 0:
		return nil
	case e.Unit.IsNumber() && parts == 2:
		return &Error{Span: e.At, Slug: "division-by-zero", What: "the ratio " + e.Number.Text + " divides by zero",
			Hint: "write what comes after the colon, as in 3:5"}
	case isTime && (unit == "min" && parts == 2 || unit == "h"):
		e.Number, e.letter = number, ""
		return nil
	case e.Unit.IsNumber():
		return &Error{Span: e.At, Slug: "time-unit", What: quote(e.Number.Text) + " could be a time or a ratio of three",
			Hint: "write the unit of the first part after a time, as in " + e.Number.Text +
				" h; of a ratio write two parts, as in 3:5"}
	case e.Unit.Dimension() == timeDim:
		return &Error{Span: e.At, Slug: "time-unit",
			What: quote(e.Number.Text+" "+unit) + " is not a time as a clock shows it",
			Hint: "write minutes and seconds as in 2:30 min, hours and minutes as in 1:05 h"}
	}
	return &Error{Span: e.At, Slug: "time-unit", What: "a ratio such as " + e.Number.Text + " has no unit",
		Hint: "take " + unit + " away; a time is written as in 2:30 min"}
}

// Parts takes a number of several parts apart: 6 ft and 3 1/2 in.
func (m Shown) Parts() []Shown {
	var parts []Shown
	words := strings.Fields(m.Number)
	start := 0
	for i, word := range words {
		if i > start && readable(word) != nil {
			parts = append(parts, Shown{strings.Join(words[start:i], " "), word})
			start = i + 1
		}
	}
	return append(parts, Shown{strings.Join(words[start:], " "), m.Unit})
}

// inParts tells whether the number is written as no calculator takes it: 6 ft 3, 2:30.
func (m Shown) inParts() bool {
	isTime := strings.Contains(m.Number, ":") && m.Unit != ""
	return isTime || len(m.Parts()) > 1
}

// Larger says of two units how many make the larger one, and its name: "12 ft"; "" of one unit.
func (t Target) Larger() string {
	times, whole := t.Over.wholeTimes(t.Unit)
	if !whole {
		return ""
	}
	return times.RatString() + " " + t.Over.Symbol()
}

// Label names the units that a box takes: "cm", "ft in", "cm or in".
func (t Target) Label(own string) string {
	label := own
	if !t.Over.IsNumber() {
		label = t.Over.Symbol() + " " + own
	}
	if t.Also != nil {
		label += " or " + t.Also.Label(t.Also.Unit.Symbol())
	}
	return label
}

// text writes x, which is in the target's unit, as the target asks: rounded, and in parts where it has two units. The
// page does the same in show.js.
func (t Target) text(x float64) string {
	plain := func(x float64) string {
		if t.Step.IsZero() {
			return FormatPlain(x)
		}
		return FormatStep(x, t.Step)
	}
	times, whole := t.Over.wholeTimes(t.Unit)
	if !whole || math.Abs(x) >= 1e9 {
		return plain(x)
	}
	n, _ := times.Float64()
	size := math.Abs(x)
	if !t.Step.IsZero() {
		size = snap(t.Step.Round(size))
	}
	large := math.Floor(snap(size / n))
	rest := plain(size - large*n)
	if t.Step.IsZero() && rest == plain(n) { // 71.99999999 in is 6 ft
		large, rest = large+1, "0"
	}
	sign := ""
	if x < 0 && (large > 0 || strings.Trim(rest, "0.") != "") {
		sign = Minus
	}
	return sign + FormatPlain(large) + " " + t.Over.Symbol() + " " + rest
}
