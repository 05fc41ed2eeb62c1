package figure

// What is said of two groups, and of a robot's drift from cycle to cycle. Each sentence is a text of words, chosen by
// a verdict of package runs.

import (
	"math"

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

// verdicts tell what can be said of every two groups: by how near their runs end and, with a target, by how well they
// are aimed. Pairs that cannot be judged at all are named once.
func (w *writer) verdicts(c column) (near, aims []string) {
	aim := string(c.aim)
	for _, p := range c.Near {
		near = append(near, w.verdict(c.Column, p, "runs-apart-"+aim, "runs-together-"+aim))
	}
	for _, p := range c.Aim {
		if p.Verdict == runs.Apart || p.Verdict == runs.Together {
			aims = append(aims, w.verdict(c.Column, p, "runs-apart-aim-"+aim, "runs-together-aim-"+aim))
		}
	}
	return near, aims
}

// verdict tells what can be said of two groups; apart and together are the texts for what was tested.
func (w *writer) verdict(c runs.Column, p runs.Pair, apart, together string) string {
	a, b := c.Groups[p.First], c.Groups[p.Second]
	switch p.Verdict {
	case runs.Apart:
		return w.Say(apart, a.Name, b.Name, w.oneIn(p.P))
	case runs.NoSpread:
		return w.Say("runs-no-spread", a.Name, b.Name)
	case runs.TooFew:
		return w.Say("runs-too-few", a.Name, b.Name, w.tooFew(a, b))
	}
	return w.Say(together, a.Name, b.Name)
}

// matters tells how many runs it takes to tell what matters from chance.
func (w *writer) matters(m *work.Matter) string {
	switch {
	case m.Fewest == 0:
		return w.Say("runs-matters-never", w.Number(m.Text), m.Why)
	case m.Most == 0:
		return w.Say("runs-matters-more", w.Number(m.Text), m.Why, w.Count(m.Fewest))
	case m.Most == m.Fewest:
		return w.Say("runs-matters-about", w.Number(m.Text), m.Why, w.Count(m.Fewest))
	}
	return w.Say("runs-matters", w.Number(m.Text), m.Why, w.Count(m.Fewest), w.Count(m.Most))
}

// tooFew names those of two groups that have fewer than three runs.
func (w *writer) tooFew(a, b runs.Group) string {
	switch {
	case b.N >= runs.FewestRuns:
		return a.Name
	case a.N >= runs.FewestRuns:
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
	return w.Say("runs-one-in", w.Count(int(math.Round(n/place)*place)))
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
