package chart

// Bars: a value for each group with its interval.

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
	From   float64 // where bars start
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

const barHalf vg.Length = 7.5

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
	room := s.roomy(0.05)
	if s.low == b.From && s.high-s.low > room.high-s.high {
		room.low = s.low // Bars grow out of the axis.
	}
	f := newRows(names, b.Value, room)
	f.lined(false)
	f.Add(drawing(b.bars), drawing(b.intervals))
	legend := append(b.legend(), f.target(b.Target, b.Words.Target)...)
	return f.picture(b.Chart, legend)
}

func (g Bar) hasInterval() bool { return drawable(g.Low, g.High) }

func (b Bars) bars(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	from := p.X.Min
	if drawable(b.From) {
		from = b.From
	}
	for i, g := range b.Groups {
		if drawable(g.Value) {
			bar(&c, toX(from), toX(g.Value), toY(rowAt(i, len(b.Groups))))
		}
	}
	// Bars that grow out of the axis need no line to start at.
	if from > p.X.Min {
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1}, toX(from), c.Min.Y, toX(from), c.Max.Y)
	}
}

func bar(c *draw.Canvas, from, to, y vg.Length) {
	c.FillPolygon(paint("c1"), []vg.Point{
		{X: from, Y: y - barHalf}, {X: to, Y: y - barHalf}, {X: to, Y: y + barHalf}, {X: from, Y: y + barHalf},
	})
}

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

// whiskers are lines with a cap at each end, on a halo.
func whiskers(c *draw.Canvas, ends [][2]vg.Point) {
	for _, sty := range []draw.LineStyle{{Color: halo, Width: 4.5}, {Color: ink, Width: 2}} {
		for _, e := range ends {
			var p vg.Path
			for _, end := range e {
				p.Move(vg.Point{X: end.X, Y: end.Y - 5})
				p.Line(vg.Point{X: end.X, Y: end.Y + 5})
			}
			p.Move(e[0])
			p.Line(e[1])
			c.SetLineStyle(sty)
			c.Stroke(p)
		}
	}
}

func (b Bars) legend() []Entry {
	var value, interval []Entry
	for _, g := range b.Groups {
		if drawable(g.Value) {
			value = entry(b.Words.Value, func(c *draw.Canvas, m vg.Point) { bar(c, m.X-14, m.X+14, m.Y) })
		}
		if g.hasInterval() {
			interval = entry(b.Words.Interval, func(c *draw.Canvas, m vg.Point) {
				whiskers(c, [][2]vg.Point{{{X: m.X - 14, Y: m.Y}, {X: m.X + 14, Y: m.Y}}})
			})
		}
	}
	return append(value, interval...)
}
