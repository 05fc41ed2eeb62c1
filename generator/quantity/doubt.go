package quantity

// This file finds out where the first-order uncertainty of a result misleads, by trying
// the formula at other values of its inputs.

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"
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
// value within three u of an input, or runs away a little further out.
type Doubt struct {
	MeanShift   float64
	Uncertainty float64 // with the curve; the first-order one is Quantity.Uncertainty
	Broken      bool
}

// misleading is the part of u beyond which a second-order effect is worth a word.
const misleading = 0.1

// mostInputs bounds the inputs that are looked at: pairs grow with the square, and a lesson has far fewer.
const mostInputs = 12

// FirstOrderDoubt tells whether the first-order uncertainty of y misleads by more than a tenth. at gives the result
// with each named input moved by so many of its standard uncertainties; false if there is no value there. A
// first look takes the values about 1.4 and 2.9 standard uncertainties either side, so that a fold such
// as that of |x| is seen as well as a bend (JCGM 100:2008, 5.1.2, note, gives the second-order terms). What looks
// doubtful is worked out at so many points over all inputs together (JCGM 101:2008), whose mean and spread count;
// with 0 points the first look does.
func FirstOrderDoubt(y Quantity, points int, at func(moved map[string]float64) (float64, bool)) (Doubt, bool) {
	inputs := y.Inputs()
	if len(inputs) == 0 || len(inputs) > mostInputs {
		return Doubt{}, false
	}
	d, off := firstLook(y, inputs, at)
	if !off || d.Broken || points == 0 {
		return d, off
	}
	d = spreadOver(y, inputs, points, at)
	return d, d.misleads(y)
}

// firstLook tries each input and each pair of them.
func firstLook(y Quantity, inputs []string, at func(moved map[string]float64) (float64, bool)) (Doubt, bool) {
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
	return d, d.misleads(y) || d.Broken
}

func (d Doubt) misleads(y Quantity) bool {
	u := y.Uncertainty()
	// A thousand-millionth of the value is the noise of binary arithmetic, not an effect.
	noise := 1e-9 * math.Abs(y.Number)
	return math.Abs(d.MeanShift) > misleading*u+noise || math.Abs(d.Uncertainty-u) > misleading*u+noise
}

// spreadOver works the result out at points that lie as evenly as those of a normal distribution can, the same every
// time: the sequence of Halton, a prime for each input (Numerische Mathematik 2, 1960, 84). Each point is taken
// with its mirror image, so that what is straight adds nothing to the mean.
func spreadOver(y Quantity, inputs []string, points int, at func(moved map[string]float64) (float64, bool)) Doubt {
	primes := [mostInputs]int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37}
	const skipped = 40 // the first points of the larger primes lie in a row
	var offs []float64
	for i := range points / 2 {
		point, mirrored := map[string]float64{}, map[string]float64{}
		for k, input := range inputs {
			z := math.Sqrt2 * math.Erfinv(2*radicalInverse(i+skipped, primes[k])-1)
			point[input], mirrored[input] = z, -z
		}
		for _, p := range []map[string]float64{point, mirrored} {
			if v, ok := at(p); ok && finite(v) { // far out there may be no value; firstLook has seen what is near
				offs = append(offs, v-y.Number)
			}
		}
	}
	const fewest = 8
	if len(offs) < fewest {
		return Doubt{Broken: true}
	}
	mean, spread := stat.MeanStdDev(offs, nil)
	return Doubt{MeanShift: mean, Uncertainty: spread, Broken: runsAway(offs)}
}

// runsAway tells whether a few far points make most of a spread, as near a division by zero: then the halves
// of the points do not agree, and no number is worth naming.
func runsAway(offs []float64) bool {
	const agree = 0.2
	half := len(offs) / 2
	first, second := stat.StdDev(offs[:half], nil), stat.StdDev(offs[half:], nil)
	return math.Abs(first-second) > agree*max(first, second)
}

// radicalInverse mirrors the digits of i at the point, in the given base: 1, 2, 3, 4 become 0.1, 0.01, 0.11, 0.001.
func radicalInverse(i, base int) float64 {
	x, place := 0.0, 1.0
	for ; i > 0; i /= base {
		place /= float64(base)
		x += float64(float64(i%base) * place)
	}
	return x
}

// EvalMoved is Eval with each ± that stands in the expression itself moved by so many standard uncertainties; they
// are named as Inputs names them.
func EvalMoved(e Expr, env Env, moved map[string]float64) (Value, []*Error) {
	ev := evaluator{env: env, moved: moved}
	v := ev.eval(e)
	if len(ev.errs) > 0 {
		return Unknown{}, ev.errs
	}
	return v, nil
}

// InExpression tells whether an input is a ± that stands in an expression, without a name of its own.
func InExpression(input string) bool { return strings.HasPrefix(input, literalInput) }

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
