package runs

// What runs out and back come to, cycle by cycle, as built and with the wheels swapped.

import (
	"math"
)

// Readings are the offsets of one arrangement of a group's wheels, cycle by cycle.
type Readings struct {
	Cycles, Offsets []float64
	Fit             *Fit    // nil below two cycles
	Mismatch        float64 // of the wheels that would explain the slope; NaN if none would, or the leg is not known
}

// Cycled is what a group's runs out and back come to.
type Cycled struct {
	Name           string
	Built, Swapped Readings
	Pattern        Pattern
}

// CycledSeries is a group's readings: for each its cycle and whether the wheels were swapped.
type CycledSeries struct {
	Name            string
	Cycles, Offsets []float64
	Swapped         []bool
}

// CyclesOf works a group's cycles out. leg and track are in the unit of the offsets, NaN
// if they are not known.
func CyclesOf(s CycledSeries, leg, track float64) Cycled {
	c := Cycled{Name: s.Name}
	for i, x := range s.Offsets {
		if math.IsNaN(x) || math.IsNaN(s.Cycles[i]) {
			continue
		}
		r := &c.Built
		if s.Swapped[i] {
			r = &c.Swapped
		}
		r.Cycles, r.Offsets = append(r.Cycles, s.Cycles[i]), append(r.Offsets, x)
	}
	c.Built.work(leg, track)
	c.Swapped.work(leg, track)
	c.Pattern = PatternOf(c.Built.Fit, c.Swapped.Fit)
	return c
}

func (r *Readings) work(leg, track float64) {
	r.Mismatch = math.NaN()
	f, ok := PerCycle(r.Cycles, r.Offsets)
	if !ok {
		return
	}
	r.Fit = &f
	if m, ok := MismatchOutAndBack(f.Slope, leg, track); ok {
		r.Mismatch = m
	}
}
