package figure

// The tables of a runs block: what each group's runs come to, runs that need a second look,
// accuracy and repeatability, drift cycle by cycle.

import (
	"math"
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
			Column: m.Column, title: m.Title, group: d.GroupTitle, target: m.TargetText,
			amounts: w.amounts(m), angles: m.Angles, at: w.lineOf(m),
		}
		if c.aim = aimOf(m.Target, m.Unit); m.Line.Keyword == "across" {
			c.aim = AimStraight
		}
		w.column(f, c)
	}
	if d.Poses != nil {
		f.Tables = append(f.Tables, w.poses(d))
	}
	f.note(w)
}

// amounts writes the numbers of a measured column; in the students' edition those that
// they find themselves are hidden.
func (w *writer) amounts(m *work.Measured) amounts {
	a := amountsOf(m.Step, m.Unit, m.Groups)
	a.veil = w.veil
	return a
}

// lineOf tells where a run of a file of the pack stands.
func (w *writer) lineOf(m *work.Measured) func(int) string {
	return func(row int) string { return w.Say("runs-line", strconv.Itoa(m.Lines[row])) }
}

// note says once what a chance means.
func (f *Figure) note(w *writer) {
	for _, t := range f.Tables {
		for _, s := range t.Says {
			if strings.Contains(s, w.Say("runs-chance")) {
				f.Note = w.Say("runs-note")
			}
		}
	}
}

// column is a measured column as it is shown.
type column struct {
	runs.Column
	title, group, target string
	aim                  Aim
	amounts
	angles []float64
	at     func(row int) string // where a row of the table stands
}

// column adds a column's table, its odd runs, and its sentences.
func (w *writer) column(f *Figure, c column) {
	straight, aimed := c.aim == AimStraight, !math.IsNaN(c.Target)
	t := Numbers{
		Caption: titled(c.title, c.in.Symbol()),
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
		row := []string{g.Name, strconv.Itoa(g.N), c.number(g.Mean), c.interval(g.Low, g.High), c.number(g.SD)}
		hidden := c.hides(g.Mean)
		// How far sideways has a side; of other columns the error has one.
		if straight && !hidden {
			row[2] = c.signed(g.Mean)
		}
		if aimed && !straight {
			off := []string{c.signed(g.Bias)}
			if c.Target != 0 {
				off = append(off, c.percent(g.Percent, 1))
			}
			if hidden { // they and the target would give the mean
				for i := range off {
					off[i] = veiled
				}
			}
			row = append(row, off...)
		}
		if c.angles != nil {
			row = append(row, behind(c.of(1, "deg").number(c.angles[i]), "°"))
		}
		t.Rows = append(t.Rows, row)
		t.Look = append(t.Look, w.look(g, c)...)
	}
	for _, p := range c.Pairs {
		t.Says = append(t.Says, w.verdict(c.Column, p, c.aim))
	}
	f.Tables = append(f.Tables, t)
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
func (w *writer) look(g runs.Group, c column) []string {
	var all []string
	// Odd runs are named and kept: the mean with all of them stands beside the one without.
	for i, place := range g.Odd {
		if i == mostLooks {
			all = append(all, w.Say("runs-odd-more", g.Name, grouped(len(g.Odd)-i)))
			break
		}
		all = append(all, w.Say("runs-odd", g.Name, c.raw().size(g.Values[place]), c.at(g.Rows[place])))
	}
	if len(g.Odd) > 0 {
		all = append(all, w.Say("runs-odd-mean", g.Name, c.size(g.Mean), c.size(g.Without)))
	}
	if g.N == 1 {
		all = append(all, w.Say("runs-one-run", g.Name))
	}
	if g.N > 1 && g.SD == 0 {
		all = append(all, w.Say("runs-no-scatter", g.Name))
	}
	if g.Empty > 0 {
		all = append(all, w.Say("runs-empty", g.Name, grouped(g.Empty)))
	}
	return all
}

// poses is the table of accuracy and repeatability.
func (w *writer) poses(d *work.Data) Numbers {
	m := w.amounts(d.Measured[0])
	t := Numbers{
		Caption: titled(w.Say("runs-pose"), m.in.Symbol()),
		Heads:   []string{d.GroupTitle, w.Say("runs-accuracy"), w.Say("runs-repeatability")},
	}
	for i, g := range d.Measured[0].Groups {
		row := []string{g.Name, missingNumber, missingNumber}
		if p := d.Poses[i]; p.OK {
			row[1], row[2] = m.number(p.Accuracy), m.number(p.Repeatability)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// cycles shows offsets cycle by cycle, and the pattern.
func (w *writer) cycles(f *Figure, d *work.Data) {
	m := d.Measured[0]
	a := w.amounts(m)
	t := Numbers{
		Caption: titled(m.Title, a.in.Symbol()),
		Heads:   []string{d.GroupTitle, w.Say("runs-cycles"), w.Say("runs-slope"), w.Say("runs-interval")},
	}
	explained := d.Leg.Number > 0
	if explained {
		t.Heads = append(t.Heads, w.Say("runs-mismatch"))
	}
	// A row for each arrangement of the wheels that has a slope.
	add := func(name string, r runs.Readings) {
		if r.Fit == nil {
			return
		}
		slope, interval := a.slopes(r.Fit)
		row := []string{name, strconv.Itoa(r.Fit.N), slope, interval}
		if explained {
			row = append(row, behind(a.of(3, "%").signed(100*r.Mismatch), " %"))
		}
		t.Rows = append(t.Rows, row)
	}
	for _, c := range d.Cycles {
		if c.Swapped.Fit == nil {
			add(c.Name, c.Built)
		} else {
			add(w.Say("runs-built", c.Name), c.Built)
			add(w.Say("runs-swapped", c.Name), c.Swapped)
		}
		t.Says = append(t.Says, w.pattern(c, a))
	}
	f.Tables, f.Note = append(f.Tables, t), w.Say("runs-pattern-note")
}

// slopes writes slopes alike: to the place at which their interval has two digits.
func (m amounts) slopes(f *runs.Fit) (slope, interval string) {
	at := m.sloped(f)
	slope = at.signed(f.Slope)
	switch {
	case at.places < 0:
		return slope, missingNumber
	case at.hides(f.Slope):
		return slope, veiled
	}
	at = at.raw() // the ends are nobody's answer
	return slope, at.signed(f.Low) + " … " + at.signed(f.High)
}

// slopeSize is a slope's size with its unit, to the same place.
func (m amounts) slopeSize(f *runs.Fit) string { return m.sloped(f).size(math.Abs(f.Slope)) }

// sloped writes to the place of a slope's interval. An interval that is nothing but the last
// bits of the computation is none.
func (m amounts) sloped(f *runs.Fit) amounts {
	at := m
	at.step, at.places = quantity.Rounding{}, -1
	if half := (f.High - f.Low) / 2; half > 1e-9*math.Abs(f.Slope) {
		at.places = twoDigits(half)
	}
	return at
}
