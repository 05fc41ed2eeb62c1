package figure

// The pictures of chart blocks and of reports, with what is read aloud in their stead and the table of their numbers.
// How a chart is drawn is known to package chart.

import (
	"cmp"
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
	"trundle/site/chart"
)

// chart draws a chart block.
func (w *writer) chart(f *Figure, d *work.Data) {
	f.Title, f.Folded = d.Chart.Title, true
	head := chart.Chart{ID: f.ID, Title: d.Chart.Title}
	switch d.Chart.Kind {
	case lesson.LineChart:
		w.lines(f, d, head)
	case lesson.PathChart:
		w.paths(f, d, head)
	case lesson.StepsChart:
		w.steps(f, d, head)
	case lesson.FittedChart:
		w.fitted(f, d, head)
	case lesson.DotsChart, lesson.BarsChart:
		m := d.Measured[0]
		c := column{
			Column: m.Column, title: m.Title, group: d.GroupTitle, target: w.Number(m.TargetText), aim: aimOf(m.Target, m.Unit),
			amounts: w.amountsOf(m.Step, m.Unit, m.Groups), answers: w.answers(m), at: w.lineOf(m),
		}
		if d.Chart.Kind == lesson.DotsChart {
			w.dots(f, c, head)
		} else {
			w.bars(f, c, head)
		}
		w.column(f, c)
		f.Tables[0].Says, f.Tables[0].Look = nil, nil // a runs block says them
	}
}

// show puts a drawn chart into the figure.
func (f *Figure) show(p chart.Picture) {
	f.Picture = lift(p.SVG)
	for _, e := range p.Legend {
		f.Legend = append(f.Legend, LegendEntry{e.Swatch, e.Label})
	}
}

// chartAxis is an axis of a chart under a title.
func (w *writer) chartAxis(title string) chart.Axis {
	return chart.Axis{Title: title, Number: w.Number}
}

// dots draws the runs of every group.
func (w *writer) dots(f *Figure, c column, head chart.Chart) {
	value := w.chartAxis(titled(c.title, w.Unit(c.in.Symbol())))
	d := chart.Dots{Chart: head, Value: value, Target: c.Target, Words: chart.DotWords{
		Run: w.Say("chart-run"), Many: w.Say("chart-many"), Odd: w.Say("chart-odd"),
		Mean: w.Say("runs-mean"), Target: w.target(c.target),
	}}
	var says []string
	for i, g := range c.Groups {
		a := c.asked(i)
		odd := make([]bool, len(g.Values))
		for _, i := range g.Odd {
			odd[i] = true
		}
		d.Groups = append(d.Groups, chart.Group{Name: g.Name, Values: g.Values, Odd: odd, Mean: drawnIf(g.Mean, a.Mean)})
		if g.N > 0 {
			says = append(says, w.Say("chart-dots", g.Name, w.Count(g.N),
				c.sizeOf(g.Least, a.Least), c.sizeOf(g.Most, a.Most), c.sizeOf(g.Mean, a.Mean)))
		}
	}
	d.Description = w.described(says, c.target)
	f.show(d.Draw())
}

// drawnIf is a number to be drawn, NaN for one that students find: it could be read off the picture.
func drawnIf(x float64, asked *work.Answer) float64 {
	if asked != nil {
		return math.NaN()
	}
	return x
}

// target is a target's entry in the legend, "" without a target.
func (w *writer) target(text string) string {
	if text == "" {
		return ""
	}
	return w.Say("chart-legend-target", text)
}

// described joins what is read aloud instead of a picture, the target last.
func (w *writer) described(says []string, target string) string {
	if target != "" {
		says = append(says, w.Say("chart-target", target))
	}
	return described(says)
}

// bars draws the means with their intervals, from the target if there is one.
func (w *writer) bars(f *Figure, c column, head chart.Chart) {
	value := w.chartAxis(titled(c.title, w.Unit(c.in.Symbol())))
	d := chart.Bars{Chart: head, Value: value, Target: c.Target, Words: chart.BarWords{
		Value: w.Say("runs-mean"), Interval: w.Say("runs-interval"), Target: w.target(c.target),
	}}
	if !math.IsNaN(c.Target) {
		d.From = c.Target
	}
	var says []string
	for i, g := range c.Groups {
		a := cmp.Or(c.asked(i).Mean, c.asked(i).Bias) // a dot is as far from the target as its mean is off
		d.Groups = append(d.Groups, chart.Bar{
			Name: g.Name, Value: drawnIf(g.Mean, a), Low: drawnIf(g.Low, a), High: drawnIf(g.High, a),
		})
		if g.N > 0 {
			says = append(says, w.Say("chart-bar", g.Name, c.sizeOf(g.Mean, c.asked(i).Mean), c.middle(g, c.asked(i).Mean)))
		}
	}
	d.Description = w.described(says, c.target)
	f.show(d.Draw())
}

// axis writes numbers of which no place is known.
func (w *writer) axis(u quantity.Unit) amounts {
	return amounts{places: -1, in: u, words: w.Words}
}

// drawn are the curves of a chart that an edition may show, with their places.
func (w *writer) drawn(c *work.Chart) (curves []work.Curve, places []int) {
	for i, curve := range c.Curves {
		if w.mentors || !curve.OfStudents {
			curves, places = append(curves, curve), append(places, i)
		}
	}
	return curves, places
}

// point gives the finds that ask for one of several numbers.
func (w *writer) point(all []*work.Answer, i int) *work.Answer {
	if i >= len(all) {
		return nil
	}
	return w.asks(all[i])
}

// lines draws the curves of formulas. What depends on students' own numbers is for them to find, so their edition
// leaves it out, and says so if nothing is left.
func (w *writer) lines(f *Figure, d *work.Data, head chart.Chart) {
	c := d.Chart
	curves, places := w.drawn(c)
	if len(curves) == 0 {
		f.Note = w.Say("chart-own")
		return
	}
	x, y := w.axis(c.XUnit), w.axis(c.YUnit)
	title := c.YTitle
	if title == "" && len(curves) == 1 {
		title = curves[0].Label
	}
	across, up := titled(c.XTitle, w.Unit(x.in.Symbol())), titled(title, w.Unit(y.in.Symbol()))
	l := chart.Lines{Chart: head, X: w.chartAxis(across), Y: w.chartAxis(up)}
	var says []string
	for _, curve := range curves {
		l.Curves = append(l.Curves, chart.Curve{Label: curve.Label, X: curve.X, Y: curve.Y})
		last := len(curve.X) - 1
		says = append(says, w.Say("chart-line", curve.Label,
			y.sizeOf(curve.Y[0], w.point(curve.Answers, 0)), x.size(curve.X[0]),
			y.sizeOf(curve.Y[last], w.point(curve.Answers, last)), x.size(curve.X[last])))
	}
	t := w.curveTable(x, y, up, across, curves)
	for _, m := range c.Marks {
		if m.OfStudents && !w.mentors {
			continue
		}
		mark := chart.Mark{Label: m.Label, X: m.X}
		row := []string{m.Label + ", " + x.number(m.X)}
		for _, i := range places {
			mark.Y = append(mark.Y, m.Y[i])
			row = append(row, y.numberOf(m.Y[i], w.point(m.Answers, i)))
			if math.IsNaN(m.Y[i]) {
				continue
			}
			value := y.sizeOf(m.Y[i], w.point(m.Answers, i))
			says = append(says, w.Say("chart-mark", m.Label, x.size(m.X), c.Curves[i].Label, value))
		}
		l.Marks, t.Rows = append(l.Marks, mark), append(t.Rows, row)
	}
	l.Description = described(says)
	f.Tables = append(f.Tables, t)
	f.show(l.Draw())
}

// curveTable holds some points of curves that share their X.
func (w *writer) curveTable(x, y amounts, caption, first string, curves []work.Curve) Numbers {
	t := Numbers{Caption: caption, Heads: []string{first}}
	for _, c := range curves {
		t.Heads = append(t.Heads, c.Label)
	}
	// All curves of a chart have their points at the same places of the axis.
	for k := range work.TablePoints {
		i := curves[0].TablePoint(k)
		row := []string{x.number(curves[0].X[i])}
		for _, c := range curves {
			row = append(row, y.numberOf(c.Y[i], w.point(c.Answers, i)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// paths draws where robots drive, and says how much the scale sideways is stretched.
func (w *writer) paths(f *Figure, d *work.Data, head chart.Chart) {
	c := d.Chart
	curves, _ := w.drawn(c)
	if len(curves) == 0 {
		f.Note = w.Say("chart-own")
		return
	}
	x, y := w.axis(c.XUnit), w.axis(c.YUnit)
	forward := titled(cmp.Or(c.XTitle, w.Say("chart-forward")), w.Unit(x.in.Symbol()))
	sideways := titled(cmp.Or(c.YTitle, w.Say("chart-sideways")), w.Unit(y.in.Symbol()))
	p := chart.Path{Chart: head, Forward: w.chartAxis(forward), Sideways: w.chartAxis(sideways),
		Words: chart.PathWords{Straight: w.Say("chart-straight"), Start: w.Say("gauge-start")}}
	var says []string
	t := Numbers{Caption: w.Say("chart-ends"), Heads: []string{w.Say("chart-path"), forward, sideways}}
	for _, curve := range curves {
		p.Paths = append(p.Paths, chart.Curve{Label: curve.Label, X: curve.X, Y: curve.Y})
		last := len(curve.X) - 1
		end := [2]*work.Answer{w.point(curve.EndAnswers, 0), w.point(curve.EndAnswers, 1)}
		says = append(says, w.Say("chart-path-ends", curve.Label,
			x.sizeOf(curve.X[last], end[0]), y.sizeOf(curve.Y[last], end[1])))
		t.Rows = append(t.Rows, []string{curve.Label, x.numberOf(curve.X[last], end[0]), y.signedOf(curve.Y[last], end[1])})
	}
	p.Description = described(says)
	picture := p.Draw()
	f.show(picture)
	f.Tables = append(f.Tables, t)
	if per, ok := quantity.New(1, c.XUnit).In(c.YUnit); ok && picture.Stretch > 0 {
		if times := picture.Stretch * per.Number; times >= 1 {
			f.Note = w.Say("chart-stretch", w.Number(quantity.FormatSignificant(times, 2)))
		} else {
			f.Note = w.Say("chart-shrink", w.Number(quantity.FormatSignificant(1/times, 2)))
		}
	}
}

// steps draws offsets cycle by cycle over what chance alone would do, and what each cycle added.
func (w *writer) steps(f *Figure, d *work.Data, head chart.Chart) {
	m := d.Measured[0]
	a := w.amountsOf(m.Step, m.Unit, m.Groups)
	caption, step := titled(m.Title, w.Unit(a.in.Symbol())), titled(w.Say("runs-step"), w.Unit(a.in.Symbol()))
	p := chart.Steps{
		Chart: head, Cycle: w.chartAxis(d.Chart.XTitle),
		Offset: w.chartAxis(caption), Step: w.chartAxis(step),
		Words: chart.StepWords{Band: w.Say("chart-band"), Mean: w.Say("chart-mean-step"),
			Arrangements: []string{w.Say("chart-built"), w.Say("chart-swapped")}},
	}
	t := Numbers{Caption: caption, Heads: []string{d.GroupTitle, d.Chart.XTitle, m.Title}}
	var says []string
	// A group has one entry for each arrangement of its wheels. A mean that students find is not drawn.
	add := func(group *chart.Stepped, name string, r runs.Readings, asked work.CycleAnswers) {
		if len(r.Cycles) == 0 {
			return
		}
		one := chart.Stepping{X: r.Cycles, Y: r.Offsets, Mean: drawnIf(r.Drift.Mean, asked.Mean),
			Low: drawnIf(r.Drift.Low, asked.Mean), High: drawnIf(r.Drift.High, asked.Mean)}
		for i, s := range r.Steps {
			one.Steps = append(one.Steps, s.Way/s.Over)
			if i < mostRows {
				t.Rows = append(t.Rows, []string{name, w.plain(s.Cycle), a.signed(s.Offset)})
			}
		}
		mean, _ := a.drift(r.Drift, asked.Mean)
		size := amountIn(w.Words, mean, a.in)
		if len(r.Steps) > 0 {
			says = append(says, w.Say("chart-steps", name, size, w.Count(len(r.Steps))))
		}
		group.Arrangements = append(group.Arrangements, one)
	}
	for i, c := range d.Cycles {
		asked := w.drifts(d, i)
		group := chart.Stepped{Name: c.Name, Band: c.Band}
		if len(c.Swapped.Cycles) == 0 {
			add(&group, c.Name, c.Built, asked[0])
		} else {
			add(&group, w.Say("runs-built", c.Name), c.Built, asked[0])
			add(&group, w.Say("runs-swapped", c.Name), c.Swapped, asked[1])
		}
		p.Groups = append(p.Groups, group)
	}
	p.Description = described(says)
	f.Tables = append(f.Tables, t)
	f.show(p.Draw())
}

// mostRows of readings are put into a table.
const mostRows = 200
