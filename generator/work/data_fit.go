package work

// The chart of one column over another: the points of each group, its line, and what the students find of it.

import (
	"cmp"
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
)

// GroupFit is a group's runs that have both numbers, in the chart's units, and the line through them.
type GroupFit struct {
	Name string // "" if the runs are not in groups
	X, Y []float64
	Fit  runs.Fit
	OK   bool // it has a line

	SlopeAnswer, StartAnswer, ThroughAnswer *Answer
}

// fitted works the lines out.
func (w *worker) fitted(d *Data, t *dataTable, c *Chart) {
	l := d.Line(string(lesson.FittedChart))
	y, yUnit, ok := w.numbers(t, l)
	x, xUnit, ok2 := w.numbers(t, l.Over)
	if !ok || !ok2 {
		return
	}
	c.XTitle, c.YTitle, c.XUnit, c.YUnit = l.Over.Column, cmp.Or(l.Text, l.Column), xUnit, yUnit
	c.Per = quantity.New(1, yUnit).Per(quantity.New(1, xUnit))
	for _, g := range t.groups {
		c.Fits = append(c.Fits, fitOf(g.Name, g.Rows, x, y))
	}
	if t.groups == nil {
		rows := make([]int, len(y))
		for i := range rows {
			rows[i] = i
		}
		c.Fits = append(c.Fits, fitOf("", rows, x, y))
	}
	some := false
	for i := range c.Fits {
		if c.Fits[i].OK {
			w.showFit(d, l, c, &c.Fits[i])
			some = true
		}
	}
	if !some {
		w.problems.Error(w.out.File, l.At, "no-runs",
			"no line can be fitted: it takes two runs that differ in "+l.Over.Column,
			"write them in, or draw the runs with  dots")
	}
}

func fitOf(name string, rows []int, x, y []float64) GroupFit {
	g := GroupFit{Name: name}
	for _, row := range rows {
		if !math.IsNaN(x[row]) && !math.IsNaN(y[row]) {
			g.X, g.Y = append(g.X, x[row]), append(g.Y, y[row])
		}
	}
	g.Fit, g.OK = runs.FitLine(g.X, g.Y)
	return g
}
