package runs

// Readings taken cycle after cycle: the straight line through them, and what the slopes of both arrangements of the
// wheels have in common. outandback.go does so for runs out and back.

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Fit is a straight line through readings taken one cycle after the other.
type Fit struct {
	N         int
	Start     float64 // at cycle 0
	Slope     float64 // per cycle
	Low, High float64 // 95 % interval of the slope, by Student's t; NaN below three readings
	Residual  float64 // standard deviation about the line, n − 2
}

// PerCycle fits a line to readings y taken at the cycles x by least squares (NIST/SEMATECH
// e-Handbook, 4.1.4.1). ok is false unless there are two readings at different cycles.
func PerCycle(x, y []float64) (f Fit, ok bool) {
	n := len(y)
	if n < 2 || slices.Min(x) == slices.Max(x) {
		return Fit{}, false
	}
	f.N = n
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
	half := Critical(float64(n-2), intervalConfidence) * f.Residual / math.Sqrt(across)
	f.Low, f.High = f.Slope-half, f.Slope+half
	return f, true
}

// Steady tells whether the slope is more than chance: its interval leaves zero out.
func (f Fit) Steady() bool { return f.Low > 0 || f.High < 0 }

// Pattern is what slopes per cycle look like. It says where to look first, never what is so.
type Pattern int

const (
	TooFewCycles Pattern = iota // not enough cycles to tell a slope from chance
	Scatter                     // no slope beyond chance
	OneWay                      // a slope, and nobody has swapped the wheels
	TurnsRound                  // the slope turns round with the wheels
	Stays                       // the slope stays when the wheels are swapped
	Changes                     // a slope with one arrangement of the wheels, none beyond chance with the other
)

// PatternOf reads the slope as built and, if the wheels were swapped left for right, the
// slope with them swapped; nil where there is none.
func PatternOf(built, swapped *Fit) Pattern {
	all := []*Fit{}
	for _, f := range []*Fit{built, swapped} {
		if f == nil {
			continue
		}
		if math.IsNaN(f.Low) {
			return TooFewCycles
		}
		all = append(all, f)
	}
	steady := 0
	for _, f := range all {
		if f.Steady() {
			steady++
		}
	}
	switch {
	case len(all) == 0:
		return TooFewCycles
	case steady == 0:
		return Scatter
	case len(all) == 1:
		return OneWay
	case steady == 1:
		return Changes
	case built.Slope*swapped.Slope < 0:
		return TurnsRound
	}
	return Stays
}
