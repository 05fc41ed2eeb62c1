package runs

// Measuring the measurers: several readers read the same things several times each. How much of the scatter is the
// things, how much who reads, and how much the reading itself.

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Study is what such readings come to: standard deviations of a two-way random effects model (analysis of variance; the
// method of gauge studies, as in Automotive Industry Action Group, Measurement Systems Analysis, 4th ed. 2010, III.B;
// from memory).
type Study struct {
	Things, Readers, Times int
	Thing                  float64 // between things
	Person                 float64 // between readers, and between how each reads each thing
	Reading                float64 // between readings of one thing by one reader

	// The chance that readers who read alike would differ so much.
	P float64
	// Two readings of one thing by the same reader, and by any two, differ by more than these in 5 % (ISO 5725-6, the
	// repeatability and reproducibility limits, √2 · 1.96 standard deviations; from memory).
	SameLimit, OtherLimit float64
}

// limitOf is √2 · 1.96.
const limitOf = 2.771807648699343

// poolAbove is the chance above which what is particular to a reader and a thing counts as reading: the usual 25 %.
const poolAbove = 0.25

// StudyOf works readings[thing][reader][time] out, each thing read equally often by each reader; ok is false below two
// of any of them.
func StudyOf(readings [][][]float64) (s Study, ok bool) {
	s.Things = len(readings)
	if s.Things < 2 || len(readings[0]) < 2 || len(readings[0][0]) < 2 {
		return s, false
	}
	s.Readers, s.Times = len(readings[0]), len(readings[0][0])
	a, b, r := float64(s.Things), float64(s.Readers), float64(s.Times)
	cells, things, readers := make([][]float64, s.Things), make([]float64, s.Things), make([]float64, s.Readers)
	grand, within := 0.0, 0.0
	for i := range readings {
		cells[i] = make([]float64, s.Readers)
		for j := range readings[i] {
			cell := Summarise(readings[i][j])
			cells[i][j] = cell.Mean
			within += cell.SD * cell.SD * (r - 1)
			things[i], readers[j], grand = things[i]+cell.Mean/b, readers[j]+cell.Mean/a, grand+cell.Mean/(a*b)
		}
	}
	var thing, reader, both float64 // sums of squares
	for i := range cells {
		thing += b * r * (things[i] - grand) * (things[i] - grand)
		for j := range cells[i] {
			off := cells[i][j] - things[i] - readers[j] + grand
			both += r * off * off
		}
	}
	for j := range readers {
		reader += a * r * (readers[j] - grand) * (readers[j] - grand)
	}
	s.parts(thing/(a-1), reader/(b-1), both, within)
	return s, true
}

// parts takes mean squares of things and readers, and the sums of squares of both together and within, apart into what
// they are made of.
func (s *Study) parts(thing, reader, both, within float64) {
	a, b, r := float64(s.Things), float64(s.Readers), float64(s.Times)
	bothDegrees, degrees := (a-1)*(b-1), a*b*(r-1)
	repeat, interaction := within/degrees, both/bothDegrees
	own := 0.0 // the variance of how each reader reads each thing
	if pAbove(interaction, repeat, bothDegrees, degrees) > poolAbove {
		degrees += bothDegrees
		repeat = (within + both) / degrees
		interaction, bothDegrees = repeat, degrees
	} else {
		own = (interaction - repeat) / r
	}
	s.Reading = math.Sqrt(repeat)
	s.Thing = math.Sqrt(max(0, (thing-interaction)/(b*r)))
	s.Person = math.Sqrt(max(0, (reader-interaction)/(a*r)) + own)
	s.P = pAbove(reader, interaction, b-1, bothDegrees)
	s.SameLimit, s.OtherLimit = limitOf*s.Reading, limitOf*math.Hypot(s.Reading, s.Person)
}

// pAbove is the chance of a ratio of mean squares at least as large; 1 where neither has any size.
func pAbove(over, under, overDegrees, underDegrees float64) float64 {
	if !(over > 0) {
		return 1
	}
	return 1 - distuv.F{D1: overDegrees, D2: underDegrees}.CDF(over/under)
}
