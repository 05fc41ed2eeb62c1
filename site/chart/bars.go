package chart

// Means with their intervals: a dot with whiskers for each group.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Bars are values of groups with their intervals, a row for each group.
type Bars struct {
	Chart
	Value  Axis
	Groups []Bar
	From   float64 // where a thin line stands, from which values are counted
	Target float64 // NaN for none
	Words  BarWords
}

// Bar is one row.
type Bar struct {
	Name             string
	Value, Low, High float64 // Low and High are the ends of the interval; NaN for none
}

// BarWords are the labels of the legend; what has none, or is not there, has no entry.
type BarWords struct {
	Value, Interval, Target string
}

const valueRadius vg.Length = 5.5

// Draw makes the picture.
func (b Bars) Draw() Picture {
	s := nothing.with(b.From, b.Target)
	var names []string
	for _, g := range b.Groups {
		names = append(names, g.Name)
		s = s.with(g.Value)
		if g.hasInterval() {
			s = s.with(g.Low, g.High)
		}
	}
	f := newRows(names, b.Value, s.roomy(0.05))
	f.lined(false)
	f.Add(drawing(b.start), drawing(b.intervals), drawing(b.values))
	legend := append(b.legend(), f.target(b.Target, b.Words.Target)...)
	return f.picture(b.Chart, legend)
}

func (g Bar) hasInterval() bool { return drawable(g.Low, g.High) }

// start is the line from which values are counted; a target there has a line of its own.
func (b Bars) start(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	if drawable(b.From) && b.From > p.X.Min && b.From != b.Target {
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1}, toX(b.From), c.Min.Y, toX(b.From), c.Max.Y)
	}
}

func (b Bars) values(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	for i, g := range b.Groups {
		if drawable(g.Value) {
			c.DrawGlyph(valueDot, vg.Point{X: toX(g.Value), Y: toY(rowAt(i, len(b.Groups)))})
		}
	}
}

// valueDot is large enough to be seen on its whiskers.
var valueDot = draw.GlyphStyle{Color: series(0).paint(), Radius: valueRadius, Shape: marker(0)}

func (b Bars) intervals(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	var ends [][2]vg.Point
	for i, g := range b.Groups {
		if g.hasInterval() {
			y := toY(rowAt(i, len(b.Groups)))
			ends = append(ends, [2]vg.Point{{X: toX(g.Low), Y: y}, {X: toX(g.High), Y: y}})
		}
	}
	whiskers(&c, ends)
}

// whiskers are lines with a cap at each end.
func whiskers(c *draw.Canvas, ends [][2]vg.Point) {
	for _, e := range ends {
		var p vg.Path
		for _, end := range e {
			p.Move(vg.Point{X: end.X, Y: end.Y - 6})
			p.Line(vg.Point{X: end.X, Y: end.Y + 6})
		}
		p.Move(e[0])
		p.Line(e[1])
		c.SetLineStyle(draw.LineStyle{Color: ink, Width: 2})
		c.Stroke(p)
	}
}

func (b Bars) legend() []Entry {
	var value, interval []Entry
	for _, g := range b.Groups {
		if drawable(g.Value) {
			value = entry(b.Words.Value, func(c *draw.Canvas, m vg.Point) { c.DrawGlyph(valueDot, m) })
		}
		if g.hasInterval() {
			interval = entry(b.Words.Interval, func(c *draw.Canvas, m vg.Point) {
				whiskers(c, [][2]vg.Point{{{X: m.X - 14, Y: m.Y}, {X: m.X + 14, Y: m.Y}}})
			})
		}
	}
	return append(value, interval...)
}
