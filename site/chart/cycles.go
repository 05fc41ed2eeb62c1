package chart

// Readings over cycles with the line fitted to each group.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Cycles are readings after each out and back, with the line fitted to each group.
type Cycles struct {
	Chart
	Cycle, Offset Axis
	Groups        []Fitted
}

// Fitted is a group's readings, and its line Start + Slope·x; NaN for no line.
type Fitted struct {
	Label        string
	X, Y         []float64
	Start, Slope float64
}

const (
	cyclesHeight vg.Length = 260

	// More readings than these are thinned to one in each square of a grid.
	mostReadings           = 500
	readingsCell vg.Length = 9
)

// Draw makes the picture.
func (d Cycles) Draw() Picture {
	x, y := nothing, nothing.with(0)
	total := 0
	for _, g := range d.Groups {
		x, y = x.withPoints(y, Curve{X: g.X, Y: g.Y})
		total += len(g.X)
	}
	lines := make([]Curve, len(d.Groups))
	for i, g := range d.Groups {
		lines[i] = g.fitted()
		x, y = x.withPoints(y, lines[i])
	}
	f := newFrame(cyclesHeight, d.Cycle, d.Offset)
	f.up(y.roomy(0.06))
	f.across(x.roomy(0.04), true)
	f.titles(d.Cycle, d.Offset)
	f.lined(true)
	f.Add(drawing(func(c draw.Canvas, p *plot.Plot) {
		_, toY := p.Transforms(&c)
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.5}, c.Min.X, toY(0), c.Max.X, toY(0))
	}))
	var legend []Entry
	for i, g := range d.Groups {
		f.Add(curve(lines[i].X, lines[i].Y, series(i).line()))
		legend = append(legend, series(i).entry(g.Label, drawable(g.Start, g.Slope), true))
	}
	for i, g := range d.Groups {
		f.Add(readings(g, series(i), total))
	}
	return f.picture(d.Chart, legend)
}

// fitted is the line over the readings it was fitted to.
func (g Fitted) fitted() Curve {
	x, _ := nothing.withPoints(nothing, Curve{X: g.X, Y: g.Y})
	return Curve{X: []float64{x.low, x.high}, Y: []float64{g.Start + g.Slope*x.low, g.Start + g.Slope*x.high}}
}

func readings(g Fitted, s series, total int) plot.Plotter {
	if total <= mostReadings {
		return markersAt(g.X, g.Y, s.glyph())
	}
	return drawing(func(c draw.Canvas, p *plot.Plot) {
		toX, toY := p.Transforms(&c)
		var at []vg.Point
		for i := range min(len(g.X), len(g.Y)) {
			if drawable(g.X[i], g.Y[i]) {
				at = append(at, vg.Point{X: toX(g.X[i]), Y: toY(g.Y[i])})
			}
		}
		for _, pt := range apart(at, readingsCell) {
			c.DrawGlyph(s.glyph(), pt)
		}
	})
}
