package work

// The runs block: columns along and across, drift angles, accuracy and repeatability, and drift cycle by cycle.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/table"
)

// runsBlock works out the columns of a runs block. With a cycle line, the column across holds offsets on coming
// home; without one, it holds how far sideways each run ended, which should be 0.
func (w *worker) runsBlock(d *Data, t *dataTable) {
	var along, across *Measured
	d.Leg, d.Track = w.lengthLine(d, "length"), w.lengthLine(d, "track")
	if l := d.Line("along"); l != nil {
		if along = w.measuredColumn(d, t, l, false); along != nil {
			d.Measured = append(d.Measured, along)
			w.matters(d, along)
		}
	}
	w.showColumn(d, along)
	if l := d.Line("cycle"); l != nil {
		w.sideways(t, d.Line("across"))
		w.cycles(d, t, d.Line("across"))
		return
	}
	if l := d.Line("across"); l != nil {
		if across = w.measuredColumn(d, t, l, true); across != nil {
			d.Measured = append(d.Measured, across)
			w.matters(d, across)
		}
	}
	if across != nil {
		w.angles(d, along, across)
		w.showColumn(d, across)
		w.showAngles(d, along, across)
	}
	if along != nil && across != nil && !math.IsNaN(along.Target) {
		w.poses(d, t, along, across)
	}
}

// lengthLine works a line out that gives a length; the zero quantity if there is none, or a problem.
func (w *worker) lengthLine(d *Data, keyword string) quantity.Quantity {
	l := d.Line(keyword)
	if l == nil || w.ofStudents(d, l.Expr) {
		return quantity.Quantity{}
	}
	q, ok := w.someLength(l)
	if !ok {
		return quantity.Quantity{}
	}
	return q
}

// bring gives the length of a line in the unit of a column, NaN if there is none or the column has
// another kind of unit, which is reported.
func (w *worker) bring(d *Data, keyword string, length quantity.Quantity, u quantity.Unit) float64 {
	if length.Number == 0 {
		return math.NaN()
	}
	in, ok := length.In(u)
	if !ok {
		w.problems.Error(w.out.File, d.Line(keyword).At, "mixed-dimensions",
			"this is a length, and the sideways column is "+u.Dimension().String(),
			"write the column's unit after its name, as in  drift (mm)")
		return math.NaN()
	}
	return in.Number
}

// sideways refuses offsets of the robot that are not lengths.
func (w *worker) sideways(t *dataTable, l *lesson.DataLine) {
	c, ok := t.Table.Column(l.Column)
	if ok && c.HasUnit && !c.Unit.IsLength() {
		w.problems.Error(w.out.File, l.ColumnAt, "mixed-dimensions",
			"the column "+c.Name+" is "+c.Unit.Dimension().String()+
				", and how far a robot comes home beside its start is a length",
			"measure it in mm or cm")
	}
}

// angles gives each group's mean drift angle over the distance that it went.
func (w *worker) angles(d *Data, along, across *Measured) {
	forward := w.bring(d, "length", d.Leg, across.Unit)
	for i, g := range across.Groups {
		// Over the distance that the block gives, else over the group's own mean distance.
		over := forward
		if math.IsNaN(over) && along != nil {
			q, alike := quantity.New(along.Groups[i].Mean, along.Unit).In(across.Unit)
			if !alike {
				return
			}
			over = q.Number
		}
		degrees := func(sideways float64) float64 { return math.Atan2(sideways, over) * 180 / math.Pi }
		across.Angles = append(across.Angles, degrees(g.Mean)) // NaN where either is not known
		across.AngleEnds = append(across.AngleEnds, [2]float64{degrees(g.Low), degrees(g.High)})
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
		d.Poses = append(d.Poses, Pose{Pose: p, OK: ok})
		w.showPose(d, along, across, g, points)
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
	leg, track := w.bring(d, "length", d.Leg, u), w.bring(d, "track", d.Track, u)
	column, _ := t.Table.Column(l.Column)
	before := w.problems.Count()
	d.Measured = append(d.Measured, &Measured{Line: l, Title: cmp.Or(l.Text, l.Column), Unit: u, Step: l.Target.Step})
	for _, g := range t.groups {
		if w.inOrder(t, d.Line("cycle"), g, cycle, swapped); w.problems.ErrorsSince(before) {
			continue
		}
		s := runs.CycledSeries{Name: g.Name, Afresh: d.Line("cycle").Afresh, ReadTo: t.Finest(column, u)}
		for _, row := range g.Rows {
			s.Cycles, s.Offsets = append(s.Cycles, cycle[row]), append(s.Offsets, offsets[row])
			s.Swapped = append(s.Swapped, swapped != nil && swapped[row])
		}
		d.Cycles = append(d.Cycles, runs.CyclesOf(s, leg, track))
	}
	w.showCycles(d)
}

// inOrder reports a cycle of a group that does not come after the one before it. A log that begins anew, with the first
// cycle or where it set off, is another one.
func (w *worker) inOrder(t *dataTable, l *lesson.DataLine, g table.Group, cycle []float64, swapped []bool) {
	c, _ := t.Table.Column(l.Column)
	report := t.Reporter(c, &w.problems)
	last := map[bool]float64{}
	for _, row := range g.Rows {
		side := swapped != nil && swapped[row]
		if before := last[side]; cycle[row] > 1 && cycle[row] <= before {
			report.Error(c.Cells[row].At, "bad-cycle",
				"cycle "+c.Cells[row].Text+" of "+g.Name+" comes after cycle "+quantity.FormatPlain(before),
				"write the cycles in the order in which they were driven; a new log starts with cycle 1")
		}
		if !math.IsNaN(cycle[row]) {
			last[side] = cycle[row]
		}
	}
	report.Rest("cycles that are out of order")
}

// cycleNumbers reads a column that counts.
func (w *worker) cycleNumbers(t *dataTable, l *lesson.DataLine) ([]float64, bool) {
	cycle, u, ok := w.numbers(t, l)
	if !ok {
		return nil, false
	}
	c, _ := t.Table.Column(l.Column)
	if !u.IsNumber() {
		w.problems.Error(w.out.File, l.ColumnAt, "mixed-dimensions",
			"the column "+c.Name+" is "+u.Dimension().String()+", and cycles are counted",
			"name the column that counts the cycles")
		return nil, false
	}
	report := t.Reporter(c, &w.problems)
	for i, x := range cycle {
		if !math.IsNaN(x) && (x != math.Trunc(x) || x < 0) {
			report.Error(c.Cells[i].At, "bad-cycle", "“"+c.Cells[i].Text+"” counts no cycle",
				"write a whole number, such as 1 for the first")
		}
	}
	report.Rest("cells that count no cycle")
	return cycle, report.None()
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
	all, report := make([]bool, len(c.Cells)), t.Reporter(c, &w.problems)
	for i, cell := range c.Cells {
		switch strings.ToLower(cell.Text) {
		case "yes":
			all[i] = true
		case "no":
		default:
			report.Error(cell.At, "swap-yes-no",
				"“"+cell.Text+"” does not say whether the wheels were swapped", "write yes or no")
		}
	}
	report.Rest("cells that do not say it")
	return all, report.None()
}
