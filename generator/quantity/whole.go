package quantity

// This file holds the functions that go by steps: rounding up, down and to the nearest, and what is left over.

import "math"

// stepped are those functions. Their slope is 0 between two steps; FirstOrderDoubt notices where an input may cross
// one.
var stepped = []*Formula{
	{Name: "round", Params: []Param{anyOf("x"), stepParam}, native: toStep(math.Round),
		Doc: "nearest whole number of its unit, or nearest multiple of a step, as in round(L, 5 cm); halves away from zero"},
	{Name: "floor", Params: []Param{anyOf("x"), stepParam}, native: toStep(math.Floor),
		Doc: "whole number of its unit, or multiple of a step, that is not above it"},
	{Name: "ceil", Params: []Param{anyOf("x"), stepParam}, native: toStep(math.Ceil),
		Doc: "whole number of its unit, or multiple of a step, that is not below it"},
	{Name: "mod", Params: []Param{anyOf("x"), anyOf("by")}, native: remainder,
		Doc: "what is left of x when by is taken from it as often as it goes: x − by × floor(x ÷ by), so mod(-10 deg, " +
			"360 deg) is 350 deg"},
}

var stepParam = Param{Name: "step", Any: true, Optional: true}

// toStep makes a function of how a number becomes a whole one.
func toStep(whole func(float64) float64) func([]Quantity) (Quantity, string) {
	return func(args []Quantity) (Quantity, string) {
		x, step := args[0], New(1, args[0].Unit)
		if len(args) > 1 {
			var ok bool
			if step, ok = args[1].In(x.Unit); !ok {
				return x, "its step is " + args[1].Unit.Dimension().String() + " and not " + x.Unit.Dimension().String() +
					", so give the step a unit as well"
			}
		}
		if step.Number <= 0 {
			return x, "a step must be more than zero"
		}
		y := snap(whole(snap(x.Number/step.Number)) * step.Number)
		return Quantity{Number: y, Unit: x.Unit, shares: combined(x.shares, 0, step.shares, y/step.Number)}, ""
	}
}

// remainder is what a division leaves, never below zero for a positive divisor. What binary arithmetic leaves is
// nothing.
func remainder(args []Quantity) (Quantity, string) {
	x := args[0]
	by, ok := args[1].In(x.Unit)
	switch {
	case !ok:
		return x, "the two values of mod must be of one kind"
	case by.Number == 0:
		return x, "nothing is left over from a division by zero"
	}
	times := math.Floor(snap(x.Number / by.Number))
	taken := float64(by.Number * times)
	y := unlessDust(x.Number-taken, math.Abs(x.Number)+math.Abs(taken))
	return Quantity{Number: y, Unit: x.Unit, shares: combined(x.shares, 1, by.shares, -times)}, ""
}
