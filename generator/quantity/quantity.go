package quantity

// This file holds values and their arithmetic, in which uncertainty is carried along.

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// Value is what an expression may come to: a Quantity, a Record, or Unknown.
type Value interface{ isValue() }

// Unknown stands for a value that could not be worked out and whose problem has
// been reported already. It spreads without another problem.
type Unknown struct{}

// Quantity is a number in a unit. Its uncertainty is kept to first order as the
// share of each input: ∂y/∂xᵢ · u(xᵢ), in Unit (JCGM 100:2008, 5.1.3). Inputs used
// twice thus count once: d − d is exactly 0 ± 0.
type Quantity struct {
	Number float64
	Unit   Unit
	shares []share // sorted by input

	written string // how somebody wrote the number, which steps show: 4.990; "" if it is worked out
}

// Record is a list of repeated readings in one unit. What the readings are off their mean makes its standard
// uncertainty the standard error (JCGM 100:2008, 4.2), to which half a step of reading adds as a limit of all.
type Record struct {
	Name    string
	Runs    string  // the record in whose runs it was read, "" if in runs of its own
	Step    float64 // to which it was read, in Unit; 0 if that is not said
	InOrder bool    // its readings follow each other, such as places cycle by cycle: they do not scatter round one value
	Numbers []float64
	Texts   []string // how each reading was written, or none
	Unit    Unit

	made [][]share // of a record that is worked out from others: what each reading shares with other values
}

func (Quantity) isValue() {}
func (Record) isValue()   {}
func (Unknown) isValue()  {}

// A share is ∂y/∂x · u(x) of one input x, with its sign. freedom is how many degrees of freedom u(x) has, 0 for one
// that is known.
type share struct {
	input   string
	part    float64
	freedom float64
}

// text is the number as it was written, else with as many digits as steps show.
func (q Quantity) text() string {
	if q.written != "" {
		return q.written
	}
	return digitsOf(q.Number)
}

// Written is how somebody wrote the quantity, "" if it is worked out.
func (q Quantity) Written() string {
	if q.written == "" {
		return ""
	}
	return Shown{q.written, q.Unit.Symbol()}.Text()
}

// text is the reading at i as it was written.
func (r Record) text(i int) string {
	if 0 <= i && i < len(r.Texts) {
		return r.Texts[i]
	}
	return digitsOf(r.Numbers[max(i, 0)])
}

// New returns an exact quantity.
func New(number float64, u Unit) Quantity { return Quantity{Number: number, Unit: u} }

// Measured returns a quantity with a standard uncertainty, both in u. The input's
// name tells whether two quantities rest on the same measurement.
func Measured(input string, number, uncertainty float64, u Unit) Quantity {
	q := New(number, u)
	if uncertainty != 0 {
		q.shares = []share{{input, uncertainty, 0}}
	}
	return q
}

// Uncertainty is the combined standard uncertainty, in q.Unit (JCGM 100:2008,
// equation 10).
func (q Quantity) Uncertainty() float64 {
	var norm float64
	for _, s := range q.shares {
		norm = math.Hypot(norm, s.part)
	}
	return norm
}

// Share is the signed part that one input has in the uncertainty, in q.Unit.
func (q Quantity) Share(input string) float64 {
	for _, s := range q.shares {
		if s.input == input {
			return s.part
		}
	}
	return 0
}

// In converts to another unit of the same kind; see Alike. It gives false where
// the kinds differ.
func (q Quantity) In(u Unit) (Quantity, bool) {
	if q.Unit.Equal(u) {
		return q, true
	}
	if !Alike(q.Unit, u) {
		return Quantity{}, false
	}
	u = reached(q.Unit, u)
	num, den := conversion(q.Unit, u)
	before, after := warmthShift(q.Unit, u)
	y := unlessDust(float64((q.Number+before)*num/den)+after, math.Abs(after))
	return Quantity{Number: y, Unit: u, shares: scaled(q.shares, num/den)}, true
}

// Base gives the number in the units that all others are fractions of: metre, turn, second,
// kilogram, mole. 4 cm and 40 mm have the same.
func (q Quantity) Base() float64 {
	num, den := conversion(q.Unit, Unit{})
	return q.Number * num / den
}

// scaled multiplies shares by a number. The list itself is never changed, since values
// share it.
func scaled(shares []share, by float64) []share {
	if by == 1 || len(shares) == 0 {
		return shares
	}
	out := make([]share, len(shares))
	for i, s := range shares {
		out[i] = share{s.input, s.part * by, s.freedom}
	}
	return out
}

// combined adds two sorted lists of shares, each times its derivative.
func combined(a []share, da float64, b []share, db float64) []share {
	if len(a) == 0 {
		return scaled(b, db)
	}
	if len(b) == 0 {
		return scaled(a, da)
	}
	out := make([]share, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		switch cmp.Compare(a[0].input, b[0].input) {
		case -1:
			out, a = append(out, scaled(a[:1], da)...), a[1:]
		case 1:
			out, b = append(out, scaled(b[:1], db)...), b[1:]
		default:
			// The products are rounded one by one, so that equal shares cancel.
			part := float64(a[0].part*da) + float64(b[0].part*db)
			out = append(out, share{a[0].input, part, a[0].freedom})
			a, b = a[1:], b[1:]
		}
	}
	out = append(out, scaled(a, da)...)
	return append(out, scaled(b, db)...)
}

// Negative is the quantity with the other sign.
func (q Quantity) Negative() Quantity {
	n := Quantity{Number: -q.Number, Unit: q.Unit, shares: scaled(q.shares, -1)}
	if q.written != "" {
		n.written = Minus + q.written
		if rest, negative := strings.CutPrefix(q.written, Minus); negative {
			n.written = rest
		}
	}
	return n
}

// add returns q + sign·r in q's unit; false if the kinds differ. What is left of 0.1 + 0.2 − 0.3 in binary is 0: see
// unlessDust. The shares stay, since what is not sure of the operands is not sure of a sum that is 0, either.
func (q Quantity) add(r Quantity, sign float64) (Quantity, bool) {
	second, result, ok := sumUnits(q.Unit, r.Unit, sign < 0)
	if !ok {
		return Quantity{}, false
	}
	r, _ = r.In(second)
	y := unlessDust(q.Number+float64(sign*r.Number), max(math.Abs(q.Number), math.Abs(r.Number)))
	return Quantity{Number: y, Unit: result, shares: combined(q.shares, 1, r.shares, sign)}, true
}

// times returns q · r. The shares follow from the product rule.
func (q Quantity) times(r Quantity) Quantity {
	u, scale := q.Unit.times(r.Unit, 1)
	return Quantity{
		Number: q.Number * r.Number * scale, Unit: u,
		shares: combined(q.shares, r.Number*scale, r.shares, q.Number*scale),
	}.plain()
}

// over returns q ÷ r; the caller has seen to it that r is not zero.
func (q Quantity) over(r Quantity) Quantity {
	u, scale := q.Unit.times(r.Unit, -1)
	y := q.Number / r.Number * scale
	return Quantity{Number: y, Unit: u, shares: combined(q.shares, scale/r.Number, r.shares, -y/r.Number)}.plain()
}

// Per returns q ÷ r.
func (q Quantity) Per(r Quantity) Quantity { return q.over(r) }

// plain turns a product of units without a dimension, such as % · cm/cm, into a
// number. A unit that stands alone (10 %) is kept.
func (q Quantity) plain() Quantity {
	if len(q.Unit.terms) == 0 || q.Unit.Dimension() != (Dimension{}) && !q.Unit.hasFraction() {
		return q
	}
	kept := Unit{slices.DeleteFunc(slices.Clone(q.Unit.terms), func(t term) bool {
		return q.Unit.Dimension() == (Dimension{}) || t.atom.dim == (Dimension{})
	})}
	num, den := conversion(q.Unit, kept)
	return Quantity{Number: q.Number * num / den, Unit: kept, shares: scaled(q.shares, num/den)}
}

// hasFraction tells whether % or ppm stands among other units.
func (u Unit) hasFraction() bool {
	return slices.ContainsFunc(u.terms, func(t term) bool { return t.atom.dim == (Dimension{}) })
}

// mapped applies a function of one variable: y its value, slope its derivative,
// both with q's number in the unit that the caller worked with.
func (q Quantity) mapped(y, slope float64, u Unit) Quantity {
	return Quantity{Number: y, Unit: u, shares: scaled(q.shares, slope)}
}

// OK tells whether the number and its uncertainty are finite.
func (q Quantity) OK() bool { return finite(q.Number) && finite(q.Uncertainty()) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
