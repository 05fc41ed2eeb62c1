package work

// What each number of a runs, chart, compare or readers block is made of, so that the finds that ask for
// it are known.

import (
	"cmp"
	"math"
	"strconv"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/table"
)

// GroupAnswers are the finds that ask for what a group's runs come to; nil where there is none.
type GroupAnswers struct {
	Mean, Without, SD, Least, Most, Bias, Percent, Angle *Answer
}

// CycleAnswers are those that ask for a drift cycle by cycle.
type CycleAnswers struct{ Mean, SD, Mismatch *Answer }

// showColumn notes what a measured column shows of each group.
func (w *worker) showColumn(d *Data, m *Measured) {
	if m == nil {
		return
	}
	m.Answers = make([]GroupAnswers, len(m.Groups))
	for i, g := range m.Groups {
		if g.N == 0 {
			continue
		}
		of := func(stat func(runs.Group) float64) func(nudge) float64 {
			return func(n nudge) float64 { return stat(m.again(g, n)) }
		}
		show := func(what string, u quantity.Unit, slot **Answer, stat func(runs.Group) float64) {
			if !math.IsNaN(stat(g)) {
				w.show(d, m.Line, what+" of "+g.Name, u, of(stat), func(a *Answer) { *slot = a })
			}
		}
		a := &m.Answers[i]
		show("mean", m.Unit, &a.Mean, func(g runs.Group) float64 { return g.Mean })
		show("mean without odd runs", m.Unit, &a.Without, func(g runs.Group) float64 { return g.Without })
		show("standard deviation", m.Unit, &a.SD, func(g runs.Group) float64 { return g.SD })
		if m.Line.Keyword == string(lesson.DotsChart) {
			show("least run", m.Unit, &a.Least, func(g runs.Group) float64 { return g.Least })
			show("largest run", m.Unit, &a.Most, func(g runs.Group) float64 { return g.Most })
		}
		if m.Target != 0 {
			show("error", m.Unit, &a.Bias, func(g runs.Group) float64 { return g.Bias })
			show("percent error", quantity.Unit{}, &a.Percent, func(g runs.Group) float64 { return g.Percent })
		}
	}
}

// again works a group out from nudged runs. Which runs are odd stays as it is.
func (m *Measured) again(g runs.Group, n nudge) runs.Group {
	rows := make([]int, len(g.Values))
	series := runs.Series{Name: g.Name, Rows: rows, Numbers: n.all(g.Values, m.Unit)}
	moved := runs.NewColumn([]runs.Series{series}, n(m.Target, m.Unit), m.Column.Step).Groups[0]
	moved.Without = math.NaN()
	if len(g.Odd) > 0 {
		moved.Without = runs.MeanWithout(moved.Values, g.Odd)
	}
	return moved
}

// showAngles notes the mean drift angles.
func (w *worker) showAngles(d *Data, along, across *Measured) {
	degrees, _ := quantity.LookupUnit("deg")
	for i := range across.Angles {
		made := func(n nudge) float64 {
			forward := n.in(d.Leg, across.Unit)
			if math.IsNaN(forward) && along != nil {
				q, _ := quantity.New(along.again(along.Groups[i], n).Mean, along.Unit).In(across.Unit)
				forward = q.Number
			}
			return math.Atan2(across.again(across.Groups[i], n).Mean, forward) * 180 / math.Pi
		}
		if !math.IsNaN(across.Angles[i]) {
			w.show(d, across.Line, "drift angle of "+across.Groups[i].Name, degrees, made,
				func(a *Answer) { across.Answers[i].Angle = a })
		}
	}
}

// showPose notes the accuracy and repeatability of the group that was added last.
func (w *worker) showPose(d *Data, along, across *Measured, g table.Group, points []runs.Point) {
	at := len(d.Poses) - 1
	if !d.Poses[at].OK {
		return
	}
	again := func(n nudge) runs.Pose {
		moved := make([]runs.Point, len(points))
		for i, p := range points {
			moved[i] = runs.Point{X: n(p.X, along.Unit), Y: n(p.Y, along.Unit)}
		}
		p, _ := runs.PoseOf(moved, runs.Point{X: n(along.Target, along.Unit)})
		return p
	}
	w.show(d, across.Line, "accuracy of "+g.Name, along.Unit, func(n nudge) float64 { return again(n).Accuracy },
		func(a *Answer) { d.Poses[at].AccuracyAnswer = a })
	w.show(d, across.Line, "repeatability of "+g.Name, along.Unit, func(n nudge) float64 { return again(n).Repeatability },
		func(a *Answer) { d.Poses[at].RepeatabilityAnswer = a })
}

// showCycles notes the drifts cycle by cycle.
func (w *worker) showCycles(d *Data) {
	m := d.Measured[len(d.Measured)-1]
	d.CycleAnswers = make([][2]CycleAnswers, len(d.Cycles))
	for i, c := range d.Cycles {
		for k, r := range []runs.Readings{c.Built, c.Swapped} {
			if r.Drift.N == 0 {
				continue
			}
			again := func(n nudge) runs.Readings {
				s := runs.CycledSeries{Cycles: r.Cycles, Offsets: n.all(r.Offsets, m.Unit), Swapped: make([]bool, len(r.Cycles)),
					Afresh: c.Afresh}
				return runs.CyclesOf(s, n.in(d.Leg, m.Unit), n.in(d.Track, m.Unit)).Built
			}
			slot := &d.CycleAnswers[i][k]
			w.show(d, m.Line, "drift per cycle of "+c.Name, m.Unit, func(n nudge) float64 { return again(n).Drift.Mean },
				func(a *Answer) { slot.Mean = a })
			if r.Drift.N > 1 {
				w.show(d, m.Line, "standard deviation of a step of "+c.Name, m.Unit,
					func(n nudge) float64 { return again(n).Drift.SD }, func(a *Answer) { slot.SD = a })
			}
			if !math.IsNaN(r.Mismatch) && d.Leg.Number > 0 {
				w.show(d, m.Line, "wheel mismatch of "+c.Name, quantity.Unit{}, func(n nudge) float64 { return again(n).Mismatch },
					func(a *Answer) { slot.Mismatch = a })
			}
		}
	}
}

// showFit notes the slopes of a group's line and where it starts.
func (w *worker) showFit(d *Data, l *lesson.DataLine, c *Chart, g *GroupFit) {
	again := func(n nudge) runs.Fit {
		f, _ := runs.FitLine(n.all(g.X, c.XUnit), n.all(g.Y, c.YUnit))
		return f
	}
	slope := func(of func(runs.Fit) float64) func(nudge) float64 {
		return func(n nudge) float64 { return of(again(n)) * c.Per.Number }
	}
	w.show(d, l, "slope of "+g.Name, c.Per.Unit, slope(func(f runs.Fit) float64 { return f.Slope }),
		func(a *Answer) { g.SlopeAnswer = a })
	w.show(d, l, "slope through 0 of "+g.Name, c.Per.Unit, slope(func(f runs.Fit) float64 { return f.Through }),
		func(a *Answer) { g.ThroughAnswer = a })
	w.show(d, l, "start of the line of "+g.Name, c.YUnit, func(n nudge) float64 { return again(n).Start },
		func(a *Answer) { g.StartAnswer = a })
}

// showCriterion notes how far off each group is, and its points.
func (w *worker) showCriterion(d *Data, c *Criterion, m *Measured, l *lesson.DataLine) {
	c.Answers = make([]*Answer, len(m.Groups))
	c.ScoreAnswers = make([]*Answer, len(m.Groups))
	within := quantity.New(c.Within, m.Unit)
	for i, g := range m.Groups {
		off := func(n nudge) float64 {
			moved := m.again(g, n)
			if l.Keyword == "steady" {
				return moved.SD
			}
			return math.Abs(moved.Bias)
		}
		score := func(n nudge) float64 { return max(0, 1-off(n)/n.in(within, m.Unit)) }
		w.show(d, l, "measure of "+g.Name, m.Unit, off, func(a *Answer) { c.Answers[i] = a })
		if l.Keyword == "near" { // how far off the mean is follows from the mean
			mean := func(n nudge) float64 { return m.again(g, n).Mean }
			target := strconv.FormatFloat(m.Target, 'g', 12, 64)
			w.showUnseen(d, l, m.Unit, mean, func(a *Answer) { c.Answers[i] = cmp.Or(c.Answers[i], a.Then(target+" - abs:1")) })
		}
		w.show(d, l, "points of "+g.Name, quantity.Unit{}, score, func(a *Answer) { c.ScoreAnswers[i] = a })
	}
}

// TablePoints are as many points of a curve as its table shows.
const TablePoints = 11

// TablePoint is the place of the table's row k among a curve's points.
func (c Curve) TablePoint(k int) int { return k * (len(c.X) - 1) / (TablePoints - 1) }

// showCurve notes the points of a curve that are shown as numbers.
func (w *worker) showCurve(d *Data, f formula, c *Curve, u quantity.Unit) {
	c.Answers = make([]*Answer, len(c.X))
	for k := range TablePoints {
		i := c.TablePoint(k)
		w.showPoint(d, f, c.X[i], u, func(a *Answer) { c.Answers[i] = a })
	}
}

// showPoint notes a value of a chart's formula. Once the finds are right the page works the value out
// as the chart does, since a team's own wheel may be another.
func (w *worker) showPoint(d *Data, f formula, x float64, u quantity.Unit, give func(*Answer)) {
	made := func(n nudge) float64 {
		v := view{w: w, nudge: n, env: quantity.Env{}, vary: f.name, at: quantity.New(x, f.unit)}
		q, ok := v.eval(f.line.Expr, deepest)
		in, alike := q.In(u)
		if !ok || !alike {
			return math.NaN()
		}
		return in.Number
	}
	if math.IsNaN(made(asItIs)) || w.dependsOnStudents(f.line.Expr) {
		return
	}
	w.show(d, f.line, "line “"+f.line.Text+"”", u, made, func(a *Answer) {
		none := func(string) bool { return false }
		p, _, err := quantity.Compile(f.line.Expr, f.env(x), none, quantity.Target{Unit: u, HasUnit: true})
		if err == nil {
			a.Program = p
		}
		give(a)
	})
}

// showPath notes where a path ends.
func (w *worker) showPath(d *Data, l *lesson.DataLine, c *Curve, leg, track quantity.Unit) {
	if c.OfStudents {
		return
	}
	c.EndAnswers = make([]*Answer, 2)
	ends := c.EndAnswers
	end := func(n nudge) runs.Point {
		sum := func(e quantity.Expr, u quantity.Unit) float64 {
			q, _ := view{w: w, nudge: n, env: quantity.Env{}}.eval(e, deepest)
			in, _ := q.In(u)
			return in.Number
		}
		return runs.Arc(sum(l.Expr, quantity.Unit{}), sum(d.Line("length").Expr, track), sum(d.Line("track").Expr, track))
	}
	along := func(n nudge) float64 {
		x, _ := quantity.New(end(n).X, track).In(leg)
		return x.Number
	}
	w.show(d, l, "end of the path “"+l.Text+"”", leg, along, func(a *Answer) { ends[0] = a })
	w.show(d, l, "end of the path “"+l.Text+"”", track, func(n nudge) float64 { return end(n).Y },
		func(a *Answer) { ends[1] = a })
}
