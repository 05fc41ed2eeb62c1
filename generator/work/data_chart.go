package work

// The chart block: the curves of formulas with their marks, and the paths that a mismatch drives. Dots, bars and
// steps are columns of runs and are worked out as such.

import (
	"cmp"
	"math"
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/source"
)

// Chart is what a chart block draws; dots, bars and steps are in Data.
type Chart struct {
	Kind  lesson.ChartKind
	Title string
	// Of lines and paths: what lies across the page and what along it.
	XTitle, YTitle string
	XUnit, YUnit   quantity.Unit
	Curves         []Curve
	Marks          []Mark
	Fits           []GroupFit        // of fitted, a group each
	Per            quantity.Quantity // of fitted: 1 in YUnit ÷ 1 in XUnit, in the unit of slopes
}

// Curve is a line of a chart. Y is NaN where the formula has no value.
type Curve struct {
	Label      string
	X, Y       []float64
	OfStudents bool      // depends on what students do: not drawn in their edition
	Answers    []*Answer // of each point that a table shows
	EndAnswers []*Answer // of a path: along and sideways
}

// Mark is a place on the lines of a chart.
type Mark struct {
	Label      string
	X          float64
	Y          []float64 // of each curve
	Answers    []*Answer // of each curve
	OfStudents bool
}

// chartBlock works out a chart. A block that mixes kinds was reported by the parser.
func (w *worker) chartBlock(d *Data, t *dataTable) {
	c := &Chart{Kind: d.Draws, Title: textOf(d.Line("title"))}
	switch c.Kind {
	case lesson.LineChart:
		w.curves(d, c)
	case lesson.DotsChart, lesson.BarsChart:
		if m := w.measuredColumn(d, t, d.Line(string(c.Kind)), false); m != nil {
			d.Measured = append(d.Measured, m)
			w.showColumn(d, m)
		}
	case lesson.StepsChart:
		c.XTitle = cmp.Or(textOf(d.Line("cycle")), columnOf(d.Line("cycle")))
		w.cycles(d, t, d.Line(string(lesson.StepsChart)))
	case lesson.FittedChart:
		w.fitted(d, t, c)
	case lesson.PathChart:
		w.paths(d, c)
	}
	d.Chart = c
}

// someLength works out a line that must come to a length above zero.
func (w *worker) someLength(l *lesson.DataLine) (q quantity.Quantity, ok bool) {
	if q, ok = w.eval(l.Expr, l.Target).(quantity.Quantity); !ok {
		return q, false
	}
	if !q.Unit.IsLength() || !(q.Number > 0) {
		w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-length",
			"a "+l.Keyword+" is a length above zero", "write it as in  length 200 cm  and  track 112 mm")
		return q, false
	}
	return q, true
}

// curvePoints is into how many steps a line is cut.
const curvePoints = 120

// curves works out the lines of formulas over what varies, in the unit of the first one, and their marks.
func (w *worker) curves(d *Data, c *Chart) {
	vary := d.Line("vary")
	if vary == nil {
		return
	}
	if _, taken := w.out.Env[vary.Column]; taken {
		w.problems.Error(w.out.File, vary.ColumnAt, "name-twice",
			"the name "+vary.Column+" is defined in this lesson already", "let another name vary, such as x")
		return
	}
	from, ok := w.eval(vary.From, quantity.Target{}).(quantity.Quantity)
	to, ok2 := w.eval(vary.To, quantity.Target{}).(quantity.Quantity)
	if !ok || !ok2 {
		return
	}
	end, alike := to.In(from.Unit)
	if !alike || !(end.Number > from.Number) {
		w.problems.Error(w.out.File, vary.At, "bad-range",
			"this does not go from less to more of the same kind", "write it as in  vary x from 0 cm to 200 cm")
		return
	}
	c.XTitle, c.XUnit, c.YTitle = vary.Text, from.Unit, textOf(d.Line("axis"))
	ofStudents := w.dependsOnStudents(vary.From) || w.dependsOnStudents(vary.To)
	d.Varies = w.dependsOnVarying(vary.From) || w.dependsOnVarying(vary.To)
	// Every line is worked out, whatever becomes of the ones above it, for the sake of its problems.
	sound := true
	for _, l := range d.All(string(lesson.LineChart)) {
		f := formula{w: w, line: l, name: vary.Column, unit: from.Unit}
		curve, y, ok := f.curve(from.Number, end.Number)
		if ok && len(c.Curves) == 0 {
			c.YUnit = y
		}
		if !ok || !f.bring(&curve, y, c.YUnit) {
			sound = false
			continue
		}
		curve.OfStudents = curve.OfStudents || ofStudents
		d.Varies = d.Varies || w.dependsOnVarying(l.Expr)
		w.showCurve(d, f, &curve, c.YUnit)
		c.Curves = append(c.Curves, curve)
	}
	w.marks(d, c, axis{vary, from.Unit, from.Number, end.Number, sound})
}

// axis is what varies.
type axis struct {
	*lesson.DataLine
	unit     quantity.Unit
	from, to float64
	lined    bool // every line of the chart has its curve
}

// marks finds where marks stand on the lines. One outside of the axis, or where no line has a value, is a mistake.
func (w *worker) marks(d *Data, c *Chart, a axis) {
	for _, l := range d.All("mark") {
		q, ok := w.eval(l.Expr, quantity.Target{}).(quantity.Quantity)
		if !ok {
			continue
		}
		x, alike := q.In(a.unit)
		if !alike {
			w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "mixed-dimensions",
				"a mark is a place on the axis of "+a.Column+", which is "+a.unit.Dimension().String(),
				"write it with a unit of that kind")
			continue
		}
		// A mark at the very end of the axis may be off by a rounding.
		if slack := (a.to - a.from) * 1e-9; x.Number < a.from-slack || x.Number > a.to+slack {
			w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-mark",
				"this mark lies outside of what the chart shows", "let "+a.Column+" go as far as the mark, or leave the mark out")
			continue
		}
		if !a.lined {
			continue // which lines it stands on is not known
		}
		lines := d.All(string(lesson.LineChart))
		m := Mark{Label: l.Text, X: x.Number, OfStudents: w.dependsOnStudents(l.Expr), Answers: make([]*Answer, len(lines))}
		for i, line := range lines {
			f := formula{w: w, line: line, name: a.Column, unit: a.unit}
			y := math.NaN()
			if q, err := f.at(x.Number); err == nil {
				if in, ok := q.In(c.YUnit); ok {
					y = in.Number
				}
			}
			m.OfStudents = m.OfStudents || c.Curves[i].OfStudents && len(c.Curves) == 1
			m.Y = append(m.Y, y)
			if answers := m.Answers; !m.OfStudents {
				w.showPoint(d, f, x.Number, c.YUnit, func(a *Answer) { answers[i] = a })
			}
		}
		if !slices.ContainsFunc(m.Y, func(y float64) bool { return !math.IsNaN(y) }) {
			w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-mark",
				"no line of the chart has a value at this mark", "move it, or leave it out")
			continue
		}
		c.Marks = append(c.Marks, m)
	}
}

// A formula is one line of a chart with the name that varies in it.
type formula struct {
	w    *worker
	line *lesson.DataLine
	name string
	unit quantity.Unit
}

// env has what the formula uses, the name that varies included.
func (f formula) env(x float64) quantity.Env {
	// Only the names that the formula uses: this runs once for each point.
	env := quantity.Env{}
	for _, name := range quantity.Names(f.line.Expr) {
		if v, ok := f.w.out.Env[name]; ok {
			env[name] = v
		}
	}
	env[f.name] = quantity.New(x, f.unit)
	return env
}

// at works the formula out; an error is the ground floor's first.
func (f formula) at(x float64) (quantity.Quantity, *quantity.Error) {
	v, errs := quantity.Eval(f.line.Expr, f.env(x))
	if len(errs) > 0 {
		return quantity.Quantity{}, errs[0]
	}
	q, ok := v.(quantity.Quantity)
	if !ok {
		return q, &quantity.Error{
			Span: f.line.Expr.Span(), Slug: "record-as-number",
			What: "this is not a single number", Hint: "take one value of it, such as its mean",
		}
	}
	return q, nil
}

// curve works out a line's points in the unit of the first one that has a value.
func (f formula) curve(from, to float64) (c Curve, unit quantity.Unit, ok bool) {
	c = Curve{Label: f.line.Text, OfStudents: f.w.dependsOnStudents(f.line.Expr)}
	var first *quantity.Error
	for i := range curvePoints + 1 {
		x := from + (to-from)*float64(i)/curvePoints
		y := math.NaN()
		q, err := f.at(x)
		switch {
		case err != nil && first == nil:
			first = err
		case err == nil && !ok:
			unit, ok = q.Unit, true
			if f.line.Target.HasUnit && quantity.Alike(unit, f.line.Target.Unit) {
				unit = f.line.Target.Unit
			}
		}
		if err == nil {
			in, _ := q.In(unit)
			y = in.Number
		}
		c.X, c.Y = append(c.X, x), append(c.Y, y)
	}
	if !ok {
		f.w.explain(first)
		f.w.problems.FromQuantity(f.w.out.File, first)
		return c, unit, false
	}
	if t := f.line.Target; t.HasUnit && !quantity.Alike(unit, t.Unit) {
		f.w.problems.Error(f.w.out.File, source.Span(t.UnitAt), "mixed-dimensions",
			"this comes out as "+unit.Dimension().String()+" and cannot be given in "+t.Unit.String()+
				", which is "+t.Unit.Dimension().String(), "ask for a unit of that kind")
		return c, unit, false
	}
	return c, unit, true
}

// bring brings a curve to the chart's unit.
func (f formula) bring(c *Curve, from, to quantity.Unit) bool {
	if !quantity.Alike(from, to) {
		f.w.problems.Error(f.w.out.File, f.line.At, "mixed-dimensions",
			"this line is "+from.Dimension().String()+" and the first one is "+to.Dimension().String(),
			"draw them in two charts")
		return false
	}
	for i, y := range c.Y {
		q, _ := quantity.New(y, from).In(to)
		c.Y[i] = q.Number
	}
	return true
}

// A path that goes round needs points enough to look round, and few enough rounds to be seen.
const (
	mostTurns     = 10
	pointsPerTurn = 60
)

// paths draws each mismatch as the arc that it drives.
func (w *worker) paths(d *Data, c *Chart) {
	length, width := d.Line("length"), d.Line("track")
	if length == nil || width == nil {
		return
	}
	leg, ok := w.someLength(length)
	track, ok2 := w.someLength(width)
	if !ok || !ok2 {
		return
	}
	forward, _ := leg.In(track.Unit)
	c.XTitle, c.YTitle, c.XUnit, c.YUnit = length.Text, width.Text, leg.Unit, track.Unit
	d.Varies = w.dependsOnVarying(length.Expr) || w.dependsOnVarying(width.Expr)
	shared := w.dependsOnStudents(length.Expr) || w.dependsOnStudents(width.Expr)
	for _, l := range d.All(string(lesson.PathChart)) {
		m, ok := w.eval(l.Expr, quantity.Target{}).(quantity.Quantity)
		if !ok {
			continue
		}
		one, isNumber := m.In(quantity.Unit{})
		if !isNumber || !(math.Abs(one.Number) < 2) {
			w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-mismatch",
				"a path is drawn for a mismatch: the difference of the two wheels' travel over their mean, less than 2",
				"write it as in  path 0.5 %  or  path wheel_mismatch(3 cm, 200 cm, kit.track)")
			continue
		}
		turns := math.Abs(one.Number*forward.Number/track.Number) / (2 * math.Pi)
		if turns > mostTurns {
			w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-mismatch",
				"with this mismatch the path goes round more than "+itoa(mostTurns)+" times",
				"draw a shorter length, or a smaller mismatch")
			continue
		}
		steps := max(curvePoints/2, int(math.Ceil(turns*pointsPerTurn)))
		curve := Curve{Label: l.Text, OfStudents: shared || w.dependsOnStudents(l.Expr)}
		d.Varies = d.Varies || w.dependsOnVarying(l.Expr)
		for i := range steps + 1 {
			p := runs.Arc(one.Number, forward.Number*float64(i)/float64(steps), track.Number)
			x, _ := quantity.New(p.X, track.Unit).In(leg.Unit)
			curve.X, curve.Y = append(curve.X, x.Number), append(curve.Y, p.Y)
		}
		c.Curves = append(c.Curves, curve)
		w.showPath(d, l, &c.Curves[len(c.Curves)-1], leg.Unit, track.Unit)
	}
}
