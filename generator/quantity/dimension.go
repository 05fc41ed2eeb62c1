package quantity

// This file says what kind of thing a quantity measures, in numbers and in words.

import "strings"

// The base dimensions. Angle is one of its own, so that a calculation which mixes turns
// and lengths by mistake is caught; amount is needed for molar masses only, temperature for
// weather and motors.
const (
	length = iota
	angle
	time
	mass
	amount
	current
	temperature
	money // of one currency, which a pack names
	dimensions
)

// Dimension holds the exponents of the base dimensions: a speed is length 1,
// time −1. The zero Dimension is that of a plain number.
type Dimension [dimensions]int8

var (
	lengthDim = Dimension{length: 1}
	angleDim  = Dimension{angle: 1}
	timeDim   = Dimension{time: 1}
	massDim   = Dimension{mass: 1}
	forceDim  = Dimension{length: 1, time: -2, mass: 1}
	powerDim  = Dimension{length: 2, time: -3, mass: 1}
	warmthDim = Dimension{temperature: 1}
	chargeDim = Dimension{time: 1, current: 1}
	speedDim  = Dimension{length: 1, time: -1}
	turnDim   = Dimension{angle: 1, time: -1}
	molarDim  = Dimension{mass: 1, amount: -1}
	volumeDim = Dimension{length: 3}
	moneyDim  = Dimension{money: 1}
)

// dimensionNames are the words for dimensions that have one of their own.
var dimensionNames = []struct {
	dim  Dimension
	word string
}{
	{Dimension{}, "a number"},
	{lengthDim, "a length"},
	{angleDim, "an angle"},
	{timeDim, "a time"},
	{massDim, "a mass"},
	{speedDim, "a speed"},
	{turnDim, "a turning speed"},
	{Dimension{length: 2}, "an area"},
	{volumeDim, "a volume"},
	{forceDim, "a force"},
	{moneyDim, "an amount of money"},
	{molarDim, "a molar mass"},
	{Dimension{length: 1, time: -2}, "an acceleration"},
	{Dimension{time: -1}, "a frequency"},
	{powerDim, "a power"},
	{Dimension{length: 2, time: -2, mass: 1}, "an energy"},
	{Dimension{current: 1}, "a current"},
	{Dimension{length: 2, time: -3, mass: 1, current: -1}, "a voltage"},
	{chargeDim, "a charge"},
	{warmthDim, "a temperature"},
	{truthDim, "a yes or no"},
}

// String names the dimension in plain words: "a length", "a length × a time".
func (d Dimension) String() string {
	for _, n := range dimensionNames {
		if n.dim == d {
			return n.word
		}
	}
	words := [dimensions]string{"length", "angle", "time", "mass", "amount", "current", "temperature", "money"}
	var parts []string
	for i, p := range d {
		switch {
		case p == 1:
			parts = append(parts, words[i])
		case p != 0:
			parts = append(parts, words[i]+superscript(int(p)))
		}
	}
	return strings.Join(parts, " × ")
}

// times multiplies d by e^power: the exponents add up.
func (d Dimension) times(e Dimension, power int) Dimension {
	for i := range d {
		d[i] += e[i] * int8(power)
	}
	return d
}

// superscript raises a number, for text that has no other way to show a power.
func superscript(n int) string { return raised.Replace(itoa(n)) }

var raised = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴",
	"5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")
