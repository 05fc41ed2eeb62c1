package work

import (
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/table"
	"trundle/generator/trials"
)

func (w *worker) runsBlock(d *Data, t *dataTable) {
	var along, across *Measured
	for _, l := range d.All("length", "track") {
		w.someLength(l) // for its problems
	}
	if l := d.Line("along"); l != nil {
		if along = w.measuredColumn(d, t, l, false); along != nil {
			d.Measured = append(d.Measured, along)
		}
	}
	if l := d.Line("cycle"); l != nil {
		w.sideways(t, d.Line("across"))
		w.cycles(d, t, d.Line("across"))
		return
	}
	if l := d.Line("across"); l != nil {
		if across = w.measuredColumn(d, t, l, true); across != nil {
			d.Measured = append(d.Measured, across)
		}
	}
	if across != nil {
		w.angles(d, along, across)
	}
	if along != nil && across != nil && !math.IsNaN(along.Target) {
		w.poses(d, t, along, across)
	}
}

// sideways refuses offsets of the robot that are no lengths.
func (w *worker) sideways(t *dataTable, l *lesson.DataLine) {
	c, ok := t.Table.Column(l.Column)
	if mm, _ := quantity.LookupUnit("mm"); ok && c.HasUnit && !quantity.Alike(c.Unit, mm) {
		w.problems.Error(w.out.File, l.ColumnAt, "mixed-dimensions", "the column "+c.Name+" is "+c.Unit.Dimension().String()+", and how far a robot comes home beside its start is a length",
			"measure it in mm or cm")
	}
}

// angles gives each group's mean drift angle over the distance that it went.
func (w *worker) angles(d *Data, along, across *Measured) {
	forward, ok := math.NaN(), false
	if l := d.Line("length"); l != nil {
		if forward, ok = w.amount(d, l.Expr, across.Unit); !ok {
			return
		}
	}
	for i, g := range across.Groups {
		over := forward
		if math.IsNaN(over) && along != nil {
			q, alike := quantity.New(along.Groups[i].Mean, along.Unit).In(across.Unit)
			if !alike {
				return
			}
			over = q.Number
		}
		across.Angles = append(across.Angles, math.Atan2(g.Mean, over)*180/math.Pi) // NaN where either is not known
	}
	if !slices.ContainsFunc(across.Angles, func(a float64) bool { return !math.IsNaN(a) }) {
		across.Angles = nil
	}
}

// poses works out ISO 9283's accuracy and repeatability of runs that have both numbers.
func (w *worker) poses(d *Data, t *dataTable, along, across *Measured) {
	x, _, _ := w.numbers(t, along.Line)
	y, _, _ := w.numbers(t, across.Line)
	if !quantity.Alike(along.Unit, across.Unit) {
		return
	}
	for _, g := range t.groups {
		var points []runs.Point
		for _, row := range g.Rows {
			side, _ := quantity.New(y[row], across.Unit).In(along.Unit)
			if !math.IsNaN(x[row]) && !math.IsNaN(side.Number) {
				points = append(points, runs.Point{X: x[row], Y: side.Number})
			}
		}
		p, ok := runs.PoseOf(points, runs.Point{X: along.Target})
		d.Poses = append(d.Poses, Pose{p, ok})
	}
}

// cycles works out offsets cycle by cycle, of a runs block or a chart.
func (w *worker) cycles(d *Data, t *dataTable, l *lesson.DataLine) {
	offsets, u, ok := w.numbers(t, l)
	cycle, ok2 := w.cycleNumbers(t, d.Line("cycle"))
	swapped, ok3 := w.swapped(t, d.Line("swap"))
	if !ok || !ok2 || !ok3 {
		return
	}
	leg, track := math.NaN(), math.NaN()
	if length, width := d.Line("length"), d.Line("track"); length != nil && width != nil {
		if leg, ok = w.amount(d, length.Expr, u); !ok {
			return
		}
		if track, ok = w.amount(d, width.Expr, u); !ok {
			return
		}
		d.Leg, d.Track = quantity.New(leg, u), quantity.New(track, u)
	}
	d.Measured = append(d.Measured, &Measured{Line: l, Title: orElse(l.Text, l.Column), Unit: u, Step: l.Target.Step})
	for _, g := range t.groups {
		s := trials.CycledSeries{Name: g.Name}
		for _, row := range g.Rows {
			s.Cycles, s.Offsets = append(s.Cycles, cycle[row]), append(s.Offsets, offsets[row])
			s.Swapped = append(s.Swapped, swapped != nil && swapped[row])
		}
		d.Cycles = append(d.Cycles, trials.OutAndBack(s, leg, track))
	}
}

// cycleNumbers reads a column that counts.
func (w *worker) cycleNumbers(t *dataTable, l *lesson.DataLine) ([]float64, bool) {
	cycle, u, ok := w.numbers(t, l)
	if !ok {
		return nil, false
	}
	c, _ := t.Table.Column(l.Column)
	if !u.IsNumber() {
		w.problems.Error(w.out.File, l.ColumnAt, "mixed-dimensions", "the column "+c.Name+" is "+u.Dimension().String()+", and cycles are counted", "name the column that counts the cycles")
		return nil, false
	}
	refused := 0
	for i, x := range cycle {
		if math.IsNaN(x) || x == math.Trunc(x) && x >= 0 {
			continue
		}
		if refused++; refused <= table.MostTold {
			w.problems.Error(t.File, c.Cells[i].At, "bad-cycle", "“"+c.Cells[i].Text+"” counts no cycle", "write a whole number, such as 1 for the first")
		}
	}
	return cycle, refused == 0
}

// swapped reads a column of yes and no; nil without one.
func (w *worker) swapped(t *dataTable, l *lesson.DataLine) ([]bool, bool) {
	if l == nil {
		return nil, true
	}
	c := w.column(t.Table, l)
	if c == nil {
		return nil, false
	}
	all, ok, refused := make([]bool, len(c.Cells)), true, 0
	for i, cell := range c.Cells {
		switch strings.ToLower(cell.Text) {
		case "yes":
			all[i] = true
		case "no":
		default:
			ok = false
			if refused++; refused > table.MostTold {
				continue
			}
			w.problems.Error(t.File, cell.At, "swap-yes-no", "“"+cell.Text+"” does not say whether the wheels were swapped", "write yes or no")
		}
	}
	return all, ok
}
