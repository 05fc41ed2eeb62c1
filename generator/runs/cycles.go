package runs

// What a robot adds from cycle to cycle out and back: its steps, their mean with its interval, and where the drift goes
// when the wheels are swapped. outandback.go does so for a group of runs.

import "math"

// Step is what one cycle added or, where readings are missing, several of which only the last was read.
type Step struct {
	Cycle  float64 // the cycle after which it was read
	Offset float64 // as it was read
	Over   float64 // of how many cycles it is the sum
	Way    float64
}

// StepsOf takes readings, in the order in which they were made, apart into steps. A robot that carries on starts each
// cycle where the last one ended, so that all that chance adds stays in the offset and readings are not independent:
// their differences are. It sets off from 0, or from its reading of cycle 0; a cycle number that does not rise begins
// anew from there. A robot that is set back each time starts afresh, and every reading is a step.
func StepsOf(cycles, offsets []float64, afresh bool) []Step {
	var steps []Step
	at, last := 0.0, 0.0
	for i, y := range offsets {
		cycle := cycles[i]
		switch {
		case cycle == 0:
			at, last = y, 0
			continue
		case afresh:
			steps = append(steps, Step{cycle, y, 1, y})
			continue
		case cycle <= last:
			at, last = 0, 0
		}
		steps = append(steps, Step{cycle, y, cycle - last, y - at})
		at, last = y, cycle
	}
	return steps
}

// fewestSteps are as many as can be told from chance: of two, Student's interval is too wide to say anything.
const fewestSteps = 3

// DriftOf is the mean of steps, per cycle, with Student's interval (NIST/SEMATECH e-Handbook, 1.3.5.2). A step over k
// cycles is a sum of k: it has k times the variance of one, and counts k times in the mean (weighted least squares,
// NIST/SEMATECH e-Handbook, 4.1.4.3). The step to which places were read counts as in groups of runs; 0 if it is not
// known.
func DriftOf(steps []Step, readTo float64) Summary {
	s := Summarise(nil)
	var cycles, way, rest float64
	for _, step := range steps {
		cycles, way = cycles+step.Over, way+step.Way
	}
	if s.N = len(steps); s.N == 0 {
		return s
	}
	s.Mean, s.Least, s.Most = way/cycles, math.Inf(1), math.Inf(-1)
	for _, step := range steps {
		off := step.Way - step.Over*s.Mean
		rest += off * off / step.Over
		s.Least, s.Most = min(s.Least, step.Way/step.Over), max(s.Most, step.Way/step.Over)
	}
	if s.N > 1 {
		s.SD = math.Sqrt(rest / float64(s.N-1))
		s.Error = s.SD / math.Sqrt(cycles)
		half := Critical(float64(s.N-1), intervalConfidence) * s.Error
		s.Low, s.High = s.Mean-half, s.Mean+half
	}
	return s.readTo(readTo)
}

// Steady tells whether a mean of steps is more than chance: its interval leaves zero out.
func (s Summary) Steady() bool { return s.Low > 0 || s.High < 0 }

// Pattern is what the drifts per cycle look like. It says where to look first, never what is so.
type Pattern int

const (
	TooFewCycles Pattern = iota // not enough cycles to tell a drift from chance
	Scatter                     // no drift beyond chance
	OneWay                      // a drift, and nobody has swapped the wheels
	TurnsRound                  // it changes with the wheels, and nothing stays beyond chance
	Stays                       // it stays when the wheels are swapped, and nothing changes beyond chance
	Both                        // it changes with the wheels, and some of it stays
	Unclear                     // a drift with one arrangement of the wheels; whether it changes or stays is not known
)

// PatternOf reads the steps as built and, if the wheels were swapped left for right, with them swapped; nil where there
// are none. What wheels do changes sides when they are swapped, so it is half of the difference of the two means; what
// all else does stays, and is half of their sum. Both are tested by Welch, with Holm's correction, so that a robot
// without a fault is given one in at most 5 % of logs.
func PatternOf(built, swapped []Step, readTo float64) Pattern {
	a, b := DriftOf(built, readTo), DriftOf(swapped, readTo)
	switch {
	case a.N == 0 && b.N == 0, a.N > 0 && a.N < fewestSteps, b.N > 0 && b.N < fewestSteps:
		return TooFewCycles
	case a.N == 0:
		return oneWay(b)
	case b.N == 0:
		return oneWay(a)
	}
	p := Holm([]float64{differs(a, b), differs(a, b.opposite())})
	changes, stays := p[0] < Level, p[1] < Level
	switch {
	case changes && stays:
		return Both
	case changes:
		return TurnsRound
	case stays:
		return Stays
	case a.Steady() || b.Steady():
		return Unclear
	}
	return Scatter
}

func oneWay(s Summary) Pattern {
	if s.Steady() {
		return OneWay
	}
	return Scatter
}

// differs is the chance of such a difference; steps that are all equal differ for certain, or not at all.
func differs(a, b Summary) float64 {
	if t, ok := Welch(a, b); ok {
		return t.P
	}
	if a.Mean == b.Mean {
		return 1
	}
	return 0
}

// opposite is the summary of the same numbers with their signs changed.
func (s Summary) opposite() Summary {
	s.Mean, s.Low, s.High, s.Least, s.Most = -s.Mean, -s.High, -s.Low, -s.Most, -s.Least
	return s
}

// Band is how far from 0 chance alone leaves a robot after each of the cycles from 0 to the last, in 95 % of logs at
// each of them, if its steps scatter so much and it has no drift: spread·t·√k where it carries on (the variances of
// independent steps add up), the same after every cycle where it starts afresh.
func Band(spread float64, degrees, cycles int, afresh bool) []float64 {
	t := Critical(float64(degrees), intervalConfidence)
	band := make([]float64, cycles+1)
	for k := range band {
		band[k] = t * spread
		if !afresh {
			band[k] *= math.Sqrt(float64(k))
		}
	}
	return band
}
