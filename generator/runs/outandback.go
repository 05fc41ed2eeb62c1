package runs

// What runs out and back come to, cycle by cycle, as built and with the wheels swapped.

import "math"

// Readings are the offsets of one arrangement of a group's wheels, cycle by cycle.
type Readings struct {
	Cycles, Offsets []float64
	Steps           []Step
	Drift           Summary // of the steps, per cycle
	Mismatch        float64 // of the wheels that would explain the drift; NaN if none would, or the leg is not known
	Least, Most     float64 // the ends of its 95 % interval, from that of the drift; NaN if there is none
}

// Cycled is what a group's runs out and back come to.
type Cycled struct {
	Name           string
	Afresh         bool // the robot was set back on the line before each cycle
	Built, Swapped Readings
	Pattern        Pattern
	Band           []float64 // what chance alone would do, by cycle from 0; nil below two steps
}

// CycledSeries is a group's readings in the order in which they were made: for each its cycle and whether the wheels
// were swapped.
type CycledSeries struct {
	Name            string
	Cycles, Offsets []float64
	Swapped         []bool
	Afresh          bool
	ReadTo          float64 // the finest step of the offsets; 0 if it is not known
}

// CyclesOf works a group's cycles out. leg and track are in the unit of the offsets, NaN
// if they are not known.
func CyclesOf(s CycledSeries, leg, track float64) Cycled {
	c := Cycled{Name: s.Name, Afresh: s.Afresh}
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
	c.Built.work(s, leg, track)
	c.Swapped.work(s, leg, track)
	c.Pattern = PatternOf(c.Built.Steps, c.Swapped.Steps, s.ReadTo)
	c.Band = c.band()
	return c
}

func (r *Readings) work(s CycledSeries, leg, track float64) {
	r.Mismatch, r.Least, r.Most = math.NaN(), math.NaN(), math.NaN()
	r.Steps = StepsOf(r.Cycles, r.Offsets, s.Afresh)
	r.Drift = DriftOf(r.Steps, s.ReadTo)
	if m, ok := MismatchOutAndBack(r.Drift.Mean, leg, track); ok {
		r.Mismatch = m
	}
	// A robot that pulls left comes home to the right, so the ends change places.
	least, ok := MismatchOutAndBack(r.Drift.High, leg, track)
	most, ok2 := MismatchOutAndBack(r.Drift.Low, leg, track)
	if ok && ok2 {
		r.Least, r.Most = least, most
	}
}

// band takes the scatter of both arrangements of the wheels together: how a robot is set down does not depend on them.
func (c Cycled) band() []float64 {
	squares, degrees, last := 0.0, 0, 0.0
	for _, r := range []Readings{c.Built, c.Swapped} {
		if r.Drift.N > 1 {
			squares += r.Drift.SD * r.Drift.SD * float64(r.Drift.N-1)
			degrees += r.Drift.N - 1
		}
		for _, cycle := range r.Cycles {
			last = max(last, cycle)
		}
	}
	if degrees == 0 || last > mostBand {
		return nil
	}
	return Band(math.Sqrt(squares/float64(degrees)), degrees, int(last), c.Afresh)
}

// mostBand is the last cycle up to which a band is worked out.
const mostBand = 1000
