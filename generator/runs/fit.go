package runs

// The straight line through runs of which each has two numbers, such as rotations and distance.

import "math"

// Fit is a line by least squares (NIST/SEMATECH e-Handbook, 4.1.4.1), with 95 % intervals by Student's t.
type Fit struct {
	N                   int
	Start, Slope        float64 // y = Start + Slope·x
	StartHalf, Half     float64 // half the interval of each; NaN below three runs
	Residual            float64 // standard deviation about the line, n − 2; NaN below three runs
	Through, HalfOrigin float64 // the slope of the line through 0, n − 1, and half its interval
	ResidualOrigin      float64 // standard deviation about that line
}

// FitLine fits y over x; ok is false below two runs, or where all have the same x.
func FitLine(x, y []float64) (f Fit, ok bool) {
	xs, ys := Summarise(x), Summarise(y)
	if xs.N < 2 || xs.Least == xs.Most {
		return Fit{}, false
	}
	f.N = xs.N
	var across, along, squares, products float64
	for i := range x {
		dx := x[i] - xs.Mean
		across, along = across+dx*dx, along+dx*(y[i]-ys.Mean)
		squares, products = squares+x[i]*x[i], products+x[i]*y[i]
	}
	f.Slope, f.Through = along/across, products/squares
	f.Start = ys.Mean - f.Slope*xs.Mean
	var rest, restOrigin float64
	for i := range x {
		off, offOrigin := y[i]-ys.Mean-f.Slope*(x[i]-xs.Mean), y[i]-f.Through*x[i]
		rest, restOrigin = rest+off*off, restOrigin+offOrigin*offOrigin
	}
	// Runs that lie on the line leave only what binary rounding leaves, which is no scatter and no intercept.
	size := max(math.Abs(ys.Least), math.Abs(ys.Most)) + math.Abs(f.Slope)*max(math.Abs(xs.Least), math.Abs(xs.Most))
	n := float64(f.N)
	dust := dustPart * size
	rest, restOrigin = unlessDust(rest, n*dust*dust), unlessDust(restOrigin, n*dust*dust)
	f.Start = unlessDust(f.Start, dust)
	f.ResidualOrigin = math.Sqrt(restOrigin / (n - 1))
	f.HalfOrigin = Critical(n-1, intervalConfidence) * f.ResidualOrigin / math.Sqrt(squares)
	f.StartHalf, f.Half, f.Residual = math.NaN(), math.NaN(), math.NaN()
	if f.N > 2 {
		f.Residual = math.Sqrt(rest / (n - 2))
		t := Critical(n-2, intervalConfidence) * f.Residual
		f.Half, f.StartHalf = t/math.Sqrt(across), t*math.Sqrt(1/n+xs.Mean*xs.Mean/across)
	}
	return f, true
}

// dustPart is the part of a number that binary rounding may have made: digits after the thirteenth are not shown
// either.
const dustPart = 1e-13

// unlessDust is x, or 0 where it is no more than rounding.
func unlessDust(x, dust float64) float64 {
	if math.Abs(x) <= dust {
		return 0
	}
	return x
}
