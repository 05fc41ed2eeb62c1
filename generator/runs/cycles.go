package runs

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Fit is a straight line through readings taken one cycle after the other.
type Fit struct {
	Start     float64 // at cycle 0
	Slope     float64 // per cycle
	Low, High float64 // 95 % interval of the slope, by Student's t; NaN below three readings
	Residual  float64 // standard deviation about the line, n − 2
}

// PerCycle fits a line to the readings of cycles 1, 2, 3, … by least squares (NIST/SEMATECH
// e-Handbook, 4.1.4.1). ok is false below two readings.
func PerCycle(y []float64) (f Fit, ok bool) {
	n := len(y)
	if n < 2 {
		return Fit{}, false
	}
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i + 1)
	}
	f.Start, f.Slope = stat.LinearRegression(x, y, nil, false)
	f.Low, f.High, f.Residual = math.NaN(), math.NaN(), math.NaN()
	if n < 3 {
		return f, true
	}
	var rest, across float64
	middle := stat.Mean(x, nil)
	for i := range x {
		off := y[i] - f.Start - f.Slope*x[i]
		rest += off * off
		across += (x[i] - middle) * (x[i] - middle)
	}
	f.Residual = math.Sqrt(rest / float64(n-2))
	half := Critical(float64(n-2), confidence) * f.Residual / math.Sqrt(across)
	f.Low, f.High = f.Slope-half, f.Slope+half
	return f, true
}

// Steady tells whether the slope is more than chance: its interval leaves zero out.
func (f Fit) Steady() bool { return f.Low > 0 || f.High < 0 }

// Mismatch is the difference of two wheels' travel over their mean that drives an arc
// through a point so far sideways and forward, for a track width in the same unit:
// 2·track·sideways ÷ (forward² + sideways²), exact for an arc (circle geometry).
func Mismatch(sideways, forward, track float64) float64 {
	return 2 * track * sideways / (forward*forward + sideways*sideways)
}
