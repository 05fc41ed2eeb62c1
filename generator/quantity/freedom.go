package quantity

// This file tells how sure an uncertainty is that comes from a few readings: its degrees of freedom, and the interval
// that follows.

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

// Freedom is the effective degrees of freedom of the uncertainty by the formula of Welch and Satterthwaite
// (JCGM 100:2008, G.4.1), infinite if no part of it comes from readings. What all readings of a record add
// counts as one part.
func (q Quantity) Freedom() float64 {
	squares := map[string]float64{} // by record
	freedom := map[string]float64{}
	var order []string
	for _, s := range q.shares {
		if s.freedom == 0 {
			continue
		}
		name, _, _ := strings.Cut(s.input, "[")
		if _, seen := freedom[name]; !seen {
			order = append(order, name)
		}
		squares[name] += float64(s.part * s.part) // rounded, on every processor alike
		freedom[name] = s.freedom
	}
	below := 0.0
	for _, name := range order { // in the order of the shares, so that the last bit is always the same
		below += squares[name] * squares[name] / freedom[name]
	}
	if below == 0 {
		return math.Inf(1)
	}
	return math.Pow(q.Uncertainty(), 4) / below
}

// Expanded is how far the value may be off either way with this confidence, such as 0.95: the uncertainty times
// Student's t for the effective degrees of freedom, cut to a whole number as JCGM 100:2008, G.4.1 has it.
func (q Quantity) Expanded(confidence float64) float64 {
	tail := 1 - (1-confidence)/2
	nu := math.Floor(q.Freedom())
	if math.IsInf(nu, 1) {
		return float64(q.Uncertainty() * distuv.UnitNormal.Quantile(tail))
	}
	return float64(q.Uncertainty() * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: max(1, nu)}.Quantile(tail))
}

// FormatInterval writes the ends of the interval of 95 %, to the place to which the value is written with its ±. It
// gives "" for a value without one.
func FormatInterval(q Quantity) (low, high string) {
	const confidence = 0.95
	u := q.Uncertainty()
	if u <= 0 || !finite(u) {
		return "", ""
	}
	step, off := uncertaintyStep(u), q.Expanded(confidence)
	return FormatStep(q.Number-off, step), FormatStep(q.Number+off, step)
}
