package chart

// Lines: the curves of a formula, with marks on them. The labels of marks are placed in tags.go.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines are the curves of a formula, with points that are marked on them.
type Lines struct {
	Chart
	X, Y   Axis
	Curves []Curve
	Marks  []Mark
}

// Mark is a place on the horizontal axis, and the points of the curves over it. Its label stands above the curves.
type Mark struct {
	Label string
	X     float64
	Y     []float64 // one for each curve; NaN for none
}

const linesHeight vg.Length = 285

// Draw makes the picture.
func (l Lines) Draw() Picture {
	if p, ok := l.draw(true); ok {
		return p
	}
	p, _ := l.draw(false)
	return p
}

// draw makes the picture, its curves named at their ends or in the legend.
func (l Lines) draw(named bool) (Picture, bool) {
	x, y := nothing, nothing
	for _, c := range l.Curves {
		x, y = x.withPoints(y, c)
	}
	for _, m := range l.Marks {
		if drawable(m.X) {
			x, y = x.with(m.X), y.with(m.Y[:min(len(m.Y), len(l.Curves))]...)
		}
	}
	f := newFrame(linesHeight, l.X, l.Y)
	names, ok := f.room(named, l.Curves)
	if !ok {
		return Picture{}, false
	}
	f.up(y.roomy(0.05))
	f.across(x.roomy(0), false)
	// Labels need the horizontal axis to know where they lie, and then take height from the vertical one.
	tags := f.tags(l.Marks)
	f.area = draw.Crop(f.area, 0, 0, 0, -vg.Length(tags.levels)*tagHeight)
	f.up(y.roomy(0.05))
	f.titles(l.X, l.Y)
	f.lined(true)
	var legend []Entry
	for i, c := range l.Curves {
		f.Add(curve(c.X, c.Y, series(i).line()))
		legend = append(legend, series(i).entry(c.Label, true, len(l.Marks) > 0))
	}
	f.Add(l.drops(tags, f.text), l.marked())
	if named {
		at, ok := f.named(names, l.Curves)
		if !ok {
			return Picture{}, false
		}
		f.Add(at)
		legend = nil
	}
	return f.picture(l.Chart, legend), true
}

// withPoints widens two spans by the points of a curve.
func (s span) withPoints(y span, c Curve) (span, span) {
	for i := range min(len(c.X), len(c.Y)) {
		if drawable(c.X[i], c.Y[i]) {
			s, y = s.with(c.X[i]), y.with(c.Y[i])
		}
	}
	return s, y
}

// drops are the thin lines from the axis up through the marked points, to the label if there is one.
func (l Lines) drops(tags tagRows, text lettering) plot.Plotter {
	return drawing(func(c draw.Canvas, p *plot.Plot) {
		toX, toY := p.Transforms(&c)
		for i, m := range l.Marks {
			end := c.Min.Y
			if high := nothing.with(m.Y[:min(len(m.Y), len(l.Curves))]...).high; drawable(high) {
				end = toY(high)
			}
			if tags.level[i] >= 0 {
				end = tags.end(i, &c)
			}
			if drawable(m.X) {
				x := toX(m.X)
				c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1, Dashes: []vg.Length{2, 2}}, x, c.Min.Y, x, end)
			}
		}
		for i, m := range l.Marks {
			if tags.level[i] >= 0 {
				tags.draw(&c, text, i, toX(m.X))
			}
		}
	})
}

// marked are the markers of the curves.
func (l Lines) marked() plot.Plotter {
	return drawing(func(c draw.Canvas, p *plot.Plot) {
		for i := range l.Curves {
			var x, y []float64
			for _, m := range l.Marks {
				if i < len(m.Y) {
					x, y = append(x, m.X), append(y, m.Y[i])
				}
			}
			markersAt(x, y, series(i).glyph()).Plot(c, p)
		}
	})
}
