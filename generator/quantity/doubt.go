package quantity

// This file finds out where the first-order uncertainty of a result misleads, by trying
// the formula at other values of its inputs.

import (
	"math"
	"slices"
	"strings"
)

// Inputs lists the measured inputs that the uncertainty depends on. The readings of a
// record count as one input, named after the record.
func (q Quantity) Inputs() []string {
	var names []string
	for _, s := range q.shares {
		name, _, _ := strings.Cut(s.input, "[")
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// Doubt says how far first order misleads about a result: how much the mean moves
// and how much the uncertainty changes when the curve of the formula is taken into
// account, both in the unit of the result. Broken means that the formula has no
// value within three u of an input.
type Doubt struct {
	MeanShift   float64
	Uncertainty float64 // with the curve; the first-order one is Quantity.Uncertainty
	Broken      bool
}

// misleading is the part of u beyond which a second-order effect is worth a word.
const misleading = 0.1

// FirstOrderDoubt tells whether the first-order uncertainty of y misleads by more
// than a tenth. at gives the result with each named input moved by so many of its
// standard uncertainties; false if there is no value there. The curve is seen from
// the values about 1.4 and 2.9 standard uncertainties either side, so that a fold such
// as that of |x| is seen as well as a bend (JCGM 100:2008, 5.1.2, note, gives the
// second-order terms; JCGM 101:2008 the case for looking further).
func FirstOrderDoubt(y Quantity, at func(moved map[string]float64) (float64, bool)) (Doubt, bool) {
	inputs := y.Inputs()
	const most = 12 // pairs grow with the square; a lesson has far fewer
	if len(inputs) == 0 || len(inputs) > most {
		return Doubt{}, false
	}
	d := Doubt{}
	value := func(moved map[string]float64) float64 {
		v, ok := at(moved)
		if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
			d.Broken = true
			return y.Number
		}
		return v
	}
	variance := 0.0
	for i, a := range inputs {
		mean, square := nodes(y.Number, func(by float64) float64 { return value(map[string]float64{a: by}) })
		d.MeanShift += mean
		variance += square - mean*mean
		for _, b := range inputs[i+1:] {
			cross := value(map[string]float64{a: 1, b: 1}) - value(map[string]float64{a: 1, b: -1}) -
				value(map[string]float64{a: -1, b: 1}) + value(map[string]float64{a: -1, b: -1})
			variance += cross * cross / 16
		}
	}
	d.Uncertainty = math.Sqrt(max(0, variance))
	u := y.Uncertainty()
	// A thousand-millionth of the value is the noise of binary arithmetic, not an effect.
	noise := 1e-9 * math.Abs(y.Number)
	off := math.Abs(d.MeanShift) > misleading*u+noise || math.Abs(d.Uncertainty-u) > misleading*u+noise
	return d, off || d.Broken
}

// nodes returns the mean and the mean square of f(z) − f(0) over a standard normal z,
// by Gauss-Hermite quadrature with five nodes (Abramowitz and Stegun, table 25.10,
// recomputed: the roots of z⁵ − 10z³ + 15z and their weights).
func nodes(f0 float64, f func(float64) float64) (mean, square float64) {
	root := math.Sqrt(10)
	near, far := math.Sqrt(5-root), math.Sqrt(5+root)
	wNear, wFar := (7+2*root)/60, (7-2*root)/60
	for _, n := range []struct{ z, w float64 }{{near, wNear}, {-near, wNear}, {far, wFar}, {-far, wFar}} {
		off := f(n.z) - f0
		mean += float64(n.w * off)
		square += float64(n.w * off * off)
	}
	return mean, square
}
