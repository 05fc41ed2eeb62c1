package quantity

// This file holds the functions of mathematics with their slopes, by which uncertainty is
// carried.

import (
	"math"
	"slices"
)

// mathematics are the functions of one or two values. Each has its twin in
// site/scripts/run.js, which works without units: there, angles that come in are rotations.
var mathematics = []*Formula{
	{Name: "abs", Params: []Param{anyOf("x")}, native: absolute, Doc: "size without sign"},
	{Name: "sqrt", Params: []Param{{Name: "x", Plain: true, Square: true}}, native: squareRoot, Doc: "square root"},
	{Name: "sin", Params: []Param{angleOf("angle")}, native: sine, Doc: "sine"},
	{Name: "cos", Params: []Param{angleOf("angle")}, native: cosine, Doc: "cosine"},
	{Name: "tan", Params: []Param{angleOf("angle")}, native: tangent, Doc: "tangent"},
	{Name: "atan", Params: []Param{numberOf("ratio")}, native: arcTangent, Doc: "angle of a slope"},
	{Name: "atan2", Params: []Param{anyOf("sideways"), anyOf("forward")}, native: arcTangent2,
		Doc: "angle of a point, all round"},
}

// absolute has a fold at zero, where its slope is neither of the two; 0 is given there, and
// FirstOrderDoubt finds the fold.
func absolute(args []Quantity) (Quantity, string) {
	x := args[0]
	slope := 1.0
	if x.Number < 0 {
		slope = -1
	} else if x.Number == 0 {
		slope = 0
	}
	return x.mapped(math.Abs(x.Number), slope, x.Unit), ""
}

// squared brings a value whose unit has odd powers, such as mL/ft, into one with even powers if its kind has one.
func (q Quantity) squared() Quantity {
	odd := func(t term) bool { return t.power%2 != 0 }
	even := baseUnit(q.Unit.Dimension())
	if !slices.ContainsFunc(q.Unit.terms, odd) || slices.ContainsFunc(even.terms, odd) {
		return q
	}
	q, _ = q.In(even)
	return q
}

// squareRoot halves the powers of the unit, which must be even. At zero the slope has no
// finite value, and no uncertainty is carried.
func squareRoot(args []Quantity) (Quantity, string) {
	x := args[0]
	if x.Number < 0 {
		return x, "a negative value has no square root"
	}
	u := Unit{slices.Clone(x.Unit.terms)}
	for i := range u.terms {
		if u.terms[i].power%2 != 0 {
			return x, "the square root of " + x.Unit.Dimension().String() + " in " + x.Unit.Symbol() +
				" has no unit; square it first"
		}
		u.terms[i].power /= 2
	}
	y := math.Sqrt(x.Number)
	if y == 0 {
		return x.mapped(0, 0, u), ""
	}
	return x.mapped(y, 1/(2*y), u), ""
}

// circular returns sine and cosine of an angle, exact at the quarters, and the slope
// in 1 per unit of the angle.
func circular(x Quantity) (sin, cos, perUnit float64) {
	turns, _ := x.In(mustUnit("rot"))
	num, den := conversion(x.Unit, mustUnit("rad"))
	quarter := math.Round(4 * turns.Number)
	rest := (turns.Number - quarter/4) * 2 * math.Pi
	s, c := math.Sincos(rest)
	switch int(math.Mod(math.Mod(quarter, 4)+4, 4)) {
	case 1:
		s, c = c, -s
	case 2:
		s, c = -s, -c
	case 3:
		s, c = -c, s
	}
	return s, c, num / den
}

func sine(args []Quantity) (Quantity, string) {
	s, c, per := circular(args[0])
	return args[0].mapped(s, c*per, Unit{}), ""
}

func cosine(args []Quantity) (Quantity, string) {
	s, c, per := circular(args[0])
	return args[0].mapped(c, -s*per, Unit{}), ""
}

func tangent(args []Quantity) (Quantity, string) {
	s, c, per := circular(args[0])
	if c == 0 {
		return args[0], "the tangent has no value at a right angle"
	}
	return args[0].mapped(s/c, per/(c*c), Unit{}), ""
}

func arcTangent(args []Quantity) (Quantity, string) {
	deg := mustUnit("deg")
	x := args[0]
	y := math.Atan(x.Number) / (2 * math.Pi) * 360
	return x.mapped(y, 360/(2*math.Pi)/(1+x.Number*x.Number), deg), ""
}

// arcTangent2 takes the sideways distance first, as atan2 does everywhere with y before x.
func arcTangent2(args []Quantity) (Quantity, string) {
	sideways := args[0]
	forward, ok := args[1].In(sideways.Unit)
	if !ok {
		return sideways, "the two values of atan2 must be of one kind"
	}
	square := sideways.Number*sideways.Number + forward.Number*forward.Number
	if square == 0 {
		return sideways, "atan2 has no value where both are zero"
	}
	degrees := 360 / (2 * math.Pi)
	y := math.Atan2(sideways.Number, forward.Number) / (2 * math.Pi) * 360
	shares := combined(sideways.shares, degrees*forward.Number/square, forward.shares, -degrees*sideways.Number/square)
	return Quantity{Number: y, Unit: mustUnit("deg"), shares: shares}, ""
}
