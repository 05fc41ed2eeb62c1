package figure

// The tables of a runs block: what each group's runs come to, runs that need a second look,
// accuracy and repeatability, drift cycle by cycle.

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
)

// runs shows a runs block: a table for each column, or the drift from cycle to cycle.
func (w *writer) runs(f *Figure, d *work.Data) {
	f.Title, f.Source = w.Say("runs-title"), d.File.Value
	if d.Cycles != nil {
		w.cycles(f, d)
		return
	}
	for _, m := range d.Measured {
		c := column{
			Column: m.Column, title: m.Title, group: d.GroupTitle, target: w.Number(m.TargetText),
			amounts: w.amountsOf(m.Step, m.Unit, m.Groups), angles: m.Angles, angleEnds: m.AngleEnds,
			at: w.lineOf(m), answers: w.answers(m),
			matters: m.Matters,
		}
		if c.aim = aimOf(m.Target, m.Unit); m.Line.Keyword == "across" {
			c.aim = AimStraight
		}
		w.column(f, c)
	}
	if d.Poses != nil {
		f.Tables = append(f.Tables, w.poses(d))
	}
	f.note(w, slices.ContainsFunc(d.Measured, func(m *work.Measured) bool { return len(m.Aim) > 0 }))
}

// answers gives for each group of a column the finds that ask for its numbers; nil for mentors.
func (w *writer) answers(m *work.Measured) []work.GroupAnswers {
	if w.mentors {
		return nil
	}
	return m.Answers
}

// lineOf tells where a run of a file of the pack stands.
func (w *writer) lineOf(m *work.Measured) func(int) string {
	return func(row int) string { return w.Say("runs-line", strconv.Itoa(m.Lines[row])) }
}

// note says once what a chance means, and that there are two questions if there are.
func (f *Figure) note(w *writer, twoQuestions bool) {
	var notes []string
	if twoQuestions {
		notes = append(notes, w.Say("runs-two"))
	}
	for _, t := range f.Tables {
		if slices.ContainsFunc(t.Says, func(s string) bool { return strings.Contains(s, w.Say("runs-chance")) }) {
			notes = append(notes, w.Say("runs-note"))
			break
		}
	}
	f.Note = strings.Join(notes, " ")
}

// column is a measured column as it is shown.
type column struct {
	runs.Column
	title, group, target string
	aim                  Aim
	amounts
	angles    []float64
	angleEnds [][2]float64
	answers   []work.GroupAnswers
	matters   *work.Matter
	at        func(row int) string // where a row of the table stands
}

// asked gives the finds that ask for a group's numbers.
func (c column) asked(group int) work.GroupAnswers {
	if group < len(c.answers) {
		return c.answers[group]
	}
	return work.GroupAnswers{}
}

// Who has the mean has its error, the percent error and the angle, and the other way round with the
// target. What follows from a mean that is asked for is hidden with it.

// bias is the answer that gives the error.
func (c column) bias(a work.GroupAnswers) *work.Answer {
	return cmp.Or(a.Bias, a.Mean.Then(programmed(c.Target)+" -"))
}

// percentage is the answer that gives the percent error, in parts of one.
func (c column) percentage(a work.GroupAnswers) *work.Answer {
	size := programmed(math.Abs(c.Target))
	return cmp.Or(a.Percent, a.Mean.Then(programmed(c.Target)+" - abs:1 "+size+" /"))
}

// angle is the answer that gives the drift angle, if that would give the mean.
func (c column) angle(a work.GroupAnswers, g runs.Group, angle float64) *work.Answer {
	if a.Angle != nil || a.Mean == nil || angle == 0 {
		return a.Angle
	}
	tan := func(degrees float64) float64 { return math.Tan(degrees * math.Pi / 180) }
	forward := g.Mean / tan(angle)
	if !a.Mean.Near(forward*tan(math.Round(angle*10)/10), g.Mean) {
		return nil // the angle as it is shown is too coarse
	}
	return a.Mean.Then(programmed(forward) + " / atan:1")
}

// between adds an interval to a number, unless students find what it would give away.
func (m amounts) between(number string, low, high float64, hidden bool) string {
	if hidden || number == missingNumber || math.IsNaN(low) || math.IsNaN(high) {
		return number
	}
	return number + " (" + m.signed(low) + " … " + m.signed(high) + ")"
}

// middle writes an interval; both ends are hidden with the mean between them.
func (c column) middle(g runs.Group, mean *work.Answer) string {
	text := c.interval(g.Low, g.High)
	if mean == nil || text == missingNumber {
		return text
	}
	half := programmed((g.High - g.Low) / 2)
	return c.or("", mean.Then(half+" -"), false) + " … " + c.or("", mean.Then(half+" +"), false)
}

// column adds a column's table, its odd runs, and its sentences.
func (w *writer) column(f *Figure, c column) {
	straight, aimed := c.aim == AimStraight, !math.IsNaN(c.Target)
	t := Numbers{
		Caption: titled(c.title, w.Unit(c.in.Symbol())),
		Heads:   []string{c.group, w.Say("runs-n"), w.Say("runs-mean"), w.Say("runs-interval"), w.Say("runs-sd")},
	}
	if c.target != "" {
		t.Caption += ", " + w.Say("runs-target", c.target)
	}
	if aimed && !straight {
		t.Heads = append(t.Heads, w.Say("runs-error"))
		if c.Target != 0 {
			t.Heads = append(t.Heads, w.Say("runs-percent"))
		}
	}
	if c.angles != nil {
		t.Heads = append(t.Heads, w.Say("runs-angle"))
	}
	for i, g := range c.Groups {
		t.Rows = append(t.Rows, w.group(c, i, g))
		t.Look = append(t.Look, w.look(g, c, c.asked(i))...)
	}
	near, aims := w.verdicts(c)
	t.Says, t.Brief = slices.Concat(near, aims), near
	if c.matters != nil {
		t.Says, t.Brief = append(t.Says, w.matters(c.matters)), append(t.Brief, w.matters(c.matters))
	}
	f.Tables = append(f.Tables, t)
}

// group is a group's row of its column's table.
func (w *writer) group(c column, i int, g runs.Group) []string {
	straight, aimed, a := c.aim == AimStraight, !math.IsNaN(c.Target), c.asked(i)
	row := []string{g.Name, strconv.Itoa(g.N), c.numberOf(g.Mean, a.Mean), c.middle(g, a.Mean), c.numberOf(g.SD, a.SD)}
	// How far sideways has a side; of other columns the error has one.
	if straight {
		row[2] = c.signedOf(g.Mean, a.Mean)
	}
	if aimed && !straight {
		row = append(row, c.signedOf(g.Bias, c.bias(a)))
		if c.Target != 0 {
			row = append(row, c.percent(g.Percent, 1, c.percentage(a)))
		}
	}
	if c.angles != nil {
		degrees := c.of(1, "deg")
		asked := c.angle(a, g, c.angles[i])
		row = append(row, degrees.between(followed(degrees.numberOf(c.angles[i], asked), "°"), c.angleEnds[i][0],
			c.angleEnds[i][1], asked != nil || a.Mean != nil || a.Angle != nil))
	}
	return row
}

// aimOf is what runs with a target, NaN without one, are meant to do.
func aimOf(target float64, unit quantity.Unit) Aim {
	switch {
	case math.IsNaN(target):
		return AimMore
	case target != 0 && unit.IsLength():
		return AimNear
	}
	return AimTarget
}

// titled writes a title with its unit in brackets, as columns and axes have it.
func titled(title, unit string) string {
	if unit == "" || title == "" {
		return title + unit
	}
	if strings.EqualFold(title, unit) { // Rotations (rotations)
		return title
	}
	return title + " (" + unit + ")"
}

// mostLooks are as many odd runs as a group names one by one.
const mostLooks = 20

// look names the runs of a group that need a second look.
func (w *writer) look(g runs.Group, c column, a work.GroupAnswers) []string {
	var all []string
	// Odd runs are named and kept: the mean with all of them stands beside the one without.
	for i, place := range g.Odd {
		if i == mostLooks {
			all = append(all, w.Say("runs-odd-more", g.Name, w.Count(len(g.Odd)-i)))
			break
		}
		all = append(all, w.Say("runs-odd", g.Name, c.size(g.Values[place]), c.at(g.Rows[place])))
	}
	if len(g.Odd) > 0 {
		all = append(all, w.Say("runs-odd-mean", g.Name, c.sizeOf(g.Mean, a.Mean), c.sizeOf(g.Without, a.Without)))
	}
	if g.N == 1 {
		all = append(all, w.Say("runs-one-run", g.Name))
	}
	if g.N > 1 && g.SD == 0 {
		all = append(all, w.Say("runs-no-scatter", g.Name))
	}
	if g.Empty > 0 {
		all = append(all, w.Say("runs-empty", g.Name, w.Count(g.Empty)))
	}
	return all
}

// poses is the table of accuracy and repeatability.
func (w *writer) poses(d *work.Data) Numbers {
	m := w.amountsOf(d.Measured[0].Step, d.Measured[0].Unit, d.Measured[0].Groups)
	t := Numbers{
		Caption: titled(w.Say("runs-pose"), w.Unit(m.in.Symbol())),
		Heads:   []string{d.GroupTitle, w.Say("runs-accuracy"), w.Say("runs-repeatability")},
	}
	for i, g := range d.Measured[0].Groups {
		row := []string{g.Name, missingNumber, missingNumber}
		if p := d.Poses[i]; p.OK {
			row[1] = m.numberOf(p.Accuracy, w.asks(p.AccuracyAnswer))
			row[2] = m.numberOf(p.Repeatability, w.asks(p.RepeatabilityAnswer))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// cycles shows the drift from cycle to cycle, and the pattern.
func (w *writer) cycles(f *Figure, d *work.Data) {
	m := d.Measured[0]
	a := w.amountsOf(m.Step, m.Unit, m.Groups)
	t := Numbers{
		Caption: titled(m.Title, w.Unit(a.in.Symbol())),
		Heads: []string{d.GroupTitle, w.Say("runs-steps"), w.Say("runs-drift"), w.Say("runs-interval"),
			w.Say("runs-sd-step")},
	}
	explained := d.Leg.Number > 0
	if explained {
		t.Heads = append(t.Heads, w.Say("runs-mismatch"))
	}
	// A row for each arrangement of the wheels that has steps.
	add := func(name string, r runs.Readings, asked work.CycleAnswers) {
		if r.Drift.N == 0 {
			return
		}
		mean, interval := a.drift(r.Drift, asked.Mean)
		row := []string{name, strconv.Itoa(r.Drift.N), mean, interval, a.sloped(r.Drift).numberOf(r.Drift.SD, asked.SD)}
		if explained {
			part := asked.Mismatch.Then("100 *")
			hidden, places := part != nil || asked.Mean != nil, 3
			if !hidden && !math.IsNaN(r.Least) {
				places = 2 // its interval says how little the third is worth
			}
			percent := a.of(places, "%")
			row = append(row, percent.between(followed(percent.signedOf(100*r.Mismatch, part), " %"), 100*r.Least,
				100*r.Most, hidden))
		}
		t.Rows = append(t.Rows, row)
	}
	afresh := false
	for i, c := range d.Cycles {
		asked := w.drifts(d, i)
		if afresh = c.Afresh; c.Swapped.Drift.N == 0 {
			add(c.Name, c.Built, asked[0])
		} else {
			add(w.Say("runs-built", c.Name), c.Built, asked[0])
			add(w.Say("runs-swapped", c.Name), c.Swapped, asked[1])
		}
		t.Says = append(t.Says, w.pattern(c, a, asked))
	}
	f.Tables, f.Note = append(f.Tables, t), w.Say("runs-marches")
	if afresh {
		f.Note = w.Say("runs-marches-afresh")
	}
	f.Note += " " + w.Say("runs-pattern-note")
}

// drifts are the finds that ask for a group's drift, as built and with the wheels swapped.
func (w *writer) drifts(d *work.Data, group int) [2]work.CycleAnswers {
	if w.mentors {
		return [2]work.CycleAnswers{}
	}
	return d.CycleAnswers[group]
}

// drift writes a mean of steps and its interval alike: to the place at which the interval has two digits.
func (m amounts) drift(s runs.Summary, asked *work.Answer) (mean, interval string) {
	at := m.sloped(s)
	mean = at.signedOf(s.Mean, asked)
	if at.places < 0 {
		return mean, missingNumber
	}
	if asked != nil {
		half := programmed((s.High - s.Low) / 2)
		return mean, at.or("", asked.Then(half+" -"), true) + " … " + at.or("", asked.Then(half+" +"), true)
	}
	return mean, at.signed(s.Low) + " … " + at.signed(s.High)
}

// driftSize is a drift's size with its unit, to the same place.
func (m amounts) driftSize(s runs.Summary, asked *work.Answer) string {
	return m.sloped(s).sizeOf(math.Abs(s.Mean), asked.Then("abs:1"))
}

// sloped writes to the place of a drift's interval. An interval that is nothing but the last
// bits of the computation is none.
func (m amounts) sloped(s runs.Summary) amounts {
	at := m
	at.step, at.places = quantity.Rounding{}, -1
	if half := (s.High - s.Low) / 2; half > 1e-9*math.Abs(s.Mean) {
		at.places = twoDigits(half)
	}
	return at
}
