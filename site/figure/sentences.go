package figure

// What is said of two groups, and of a robot's drift from cycle to cycle. Each sentence is a text of words, chosen by
// a verdict of package runs.

import (
	"math"
	"strconv"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
)

// Aim is what a column's runs are meant to do; the texts runs-apart-… are named after it.
type Aim string

const (
	AimNear     Aim = "near"     // to stop at a place
	AimStraight Aim = "straight" // not to go sideways
	AimTarget   Aim = "target"   // to come to some other size
	AimMore     Aim = "more"     // nothing: more is only more
)

// verdict tells what can be said of two groups.
func (w *writer) verdict(c runs.Column, p runs.Pair, aim Aim) string {
	a, b := c.Groups[p.First], c.Groups[p.Second]
	switch p.Verdict {
	case runs.Apart:
		return w.Say("runs-apart-"+string(aim), a.Name, b.Name, w.oneIn(p.P))
	case runs.Same:
		if !math.IsNaN(c.Target) && a.Bias*b.Bias < 0 {
			return w.Say("runs-same-far", a.Name, b.Name)
		}
		return w.Say("runs-same", a.Name, b.Name)
	case runs.NoSpread:
		return w.Say("runs-no-spread", a.Name, b.Name)
	case runs.TooFew:
		return w.Say("runs-too-few", a.Name, b.Name, w.tooFew(a, b))
	}
	each := w.Say("runs-each", strconv.Itoa(a.N))
	if a.N != b.N {
		each = w.Say("runs-unequal", strconv.Itoa(a.N), strconv.Itoa(b.N))
	}
	// Never fewer runs than were made, which did not tell the groups apart.
	if n, ok := c.Needed(p); ok {
		return w.Say("runs-together", each, a.Name, b.Name, quantity.Grouped(max(n, a.N+1, b.N+1)))
	}
	return w.Say("runs-never", each, a.Name, b.Name)
}

// tooFew names those of two groups that have fewer than two runs.
func (w *writer) tooFew(a, b runs.Group) string {
	switch {
	case b.N >= 2:
		return a.Name
	case a.N >= 2:
		return b.Name
	}
	return w.Say("runs-both", a.Name, b.Name)
}

// oneIn writes a small chance as one in so many: two digits below a hundred, else one.
func (w *writer) oneIn(p float64) string {
	if !(p > 1e-6) {
		return w.Say("runs-one-in-million")
	}
	n := 1 / p
	place := math.Pow(10, math.Floor(math.Log10(n)))
	if n < 100 {
		place = 1
	}
	return w.Say("runs-one-in", quantity.Grouped(int(math.Round(n/place)*place)))
}

// pattern tells where to look first.
func (w *writer) pattern(c runs.Cycled, m amounts, asked [2]work.CycleAnswers) string {
	drift := func(r runs.Readings, asked work.CycleAnswers) string {
		side := "left"
		if r.Drift.Mean < 0 {
			side = "right"
		}
		return w.Say("runs-drift-"+side, m.driftSize(r.Drift, asked.Mean))
	}
	says := func(text string) string {
		return w.Say(text, c.Name, drift(c.Built, asked[0]), drift(c.Swapped, asked[1]))
	}
	switch c.Pattern {
	case runs.Scatter:
		return w.Say("runs-scatter", c.Name)
	case runs.OneWay:
		if c.Built.Drift.N == 0 {
			return w.Say("runs-one-way", c.Name, drift(c.Swapped, asked[1]))
		}
		return w.Say("runs-one-way", c.Name, drift(c.Built, asked[0]))
	case runs.TurnsRound:
		return says("runs-turns-round")
	case runs.Stays:
		return says("runs-stays")
	case runs.Both:
		return says("runs-both-parts")
	case runs.Unclear:
		return w.Say("runs-unclear", c.Name)
	}
	return w.Say("runs-few-cycles", c.Name)
}
