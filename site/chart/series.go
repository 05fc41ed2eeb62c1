package chart

// What tells curves and groups apart, in colour and without: dashes and markers, and the entries of the legend. Here
// are also the plotters that draw them.

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A series is the number of a curve or group; it decides its colour, dashes and marker. After six, colours come again
// with other dashes and markers.
type series int

const colours = 6

// dashes, the first a whole line; markers stand in shapes.
var dashes = [colours][]vg.Length{
	nil, {8, 4}, {2, 3}, {10, 3, 2, 3}, {16, 4}, {6, 2, 2, 2, 2, 2},
}

// shapes are outlines for a radius of 1; the first is a circle, the fifth a cross.
var shapes = [colours][]vg.Point{
	nil,
	{{X: -0.9, Y: 0.9}, {X: 0.9, Y: 0.9}, {X: 0.9, Y: -0.9}, {X: -0.9, Y: -0.9}},
	{{X: 0, Y: 1.25}, {X: 1.15, Y: -0.85}, {X: -1.15, Y: -0.85}},
	{{X: 0, Y: 1.35}, {X: 1.35, Y: 0}, {X: 0, Y: -1.35}, {X: -1.35, Y: 0}},
	{{X: -1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}, {X: 1, Y: 1}},
	{{X: 0, Y: -1.25}, {X: 1.15, Y: 0.85}, {X: -1.15, Y: 0.85}},
}

// cross is the place of the one shape that is open, and so is stroked.
const cross = 4

func (s series) paint() paint { return paint("c" + strconv.Itoa(int(s)%colours+1)) }

func (s series) line() draw.LineStyle {
	return draw.LineStyle{Color: s.paint(), Width: 2, Dashes: dashes[(s+s/colours)%colours]}
}

func (s series) glyph() draw.GlyphStyle {
	return draw.GlyphStyle{Color: s.paint(), Radius: 4.1, Shape: marker((s + 2*(s/colours)) % colours)}
}

// A marker is one of the shapes. Its path begins at the point that is marked and goes to its outline from there.
type marker int

// DrawGlyph makes a marker a draw.GlyphDrawer.
func (m marker) DrawGlyph(c *draw.Canvas, sty draw.GlyphStyle, pt vg.Point) {
	p := m.outline(sty, pt)
	if m == cross {
		c.SetLineStyle(draw.LineStyle{Color: sty.Color, Width: 2.2})
		c.Stroke(p)
		return
	}
	c.Fill(p)
}

func (m marker) outline(sty draw.GlyphStyle, pt vg.Point) vg.Path {
	var p vg.Path
	p.Move(pt)
	if m == 0 {
		p.Move(vg.Point{X: pt.X + sty.Radius, Y: pt.Y})
		p.Arc(pt, sty.Radius, 0, 2*math.Pi)
		p.Close()
		return p
	}
	for i, corner := range shapes[m] {
		at := pt.Add(corner.Scale(sty.Radius))
		if i == 0 || m == cross && i%2 == 0 {
			p.Move(at)
		} else {
			p.Line(at)
		}
	}
	if m != cross {
		p.Close()
	}
	return p
}

// A hollow is a marker of which only the outline is drawn.
type hollow marker

// DrawGlyph makes a hollow a draw.GlyphDrawer.
func (h hollow) DrawGlyph(c *draw.Canvas, sty draw.GlyphStyle, pt vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: sty.Color, Width: 2})
	c.Stroke(marker(h).outline(sty, pt))
}

// A ring is a hollow circle.
type ring struct{ width vg.Length }

// DrawGlyph makes a ring a draw.GlyphDrawer.
func (r ring) DrawGlyph(c *draw.Canvas, sty draw.GlyphStyle, pt vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: sty.Color, Width: r.width})
	c.Stroke(marker(0).outline(sty, pt))
}

// A dot is a line without length, which a round pen makes a disc: the shortest way to write many.
type dot struct{}

// DrawGlyph makes a dot a draw.GlyphDrawer.
func (dot) DrawGlyph(c *draw.Canvas, sty draw.GlyphStyle, pt vg.Point) {
	c.StrokeLine2(draw.LineStyle{Color: sty.Color, Width: 2 * sty.Radius}, pt.X, pt.Y, pt.X, pt.Y)
}

// A drawing is a plotter without a range and boxes of its own: the frame has settled those.
type drawing func(c draw.Canvas, p *plot.Plot)

// Plot makes a drawing a plot.Plotter.
func (d drawing) Plot(c draw.Canvas, p *plot.Plot) { d(c, p) }

// curve draws a line, broken where a point is left out.
func curve(x, y []float64, sty draw.LineStyle) plot.Plotter {
	var parts []plotter.XYs
	broken := true
	for i := range min(len(x), len(y)) {
		if !drawable(x[i], y[i]) {
			broken = true
			continue
		}
		if broken {
			parts = append(parts, nil)
			broken = false
		}
		last := &parts[len(parts)-1]
		*last = append(*last, plotter.XY{X: x[i], Y: y[i]})
	}
	return drawing(func(c draw.Canvas, p *plot.Plot) {
		for _, xys := range parts {
			(&plotter.Line{XYs: xys, LineStyle: sty}).Plot(c, p)
		}
	})
}

// markersAt draws a marker at each point.
func markersAt(x, y []float64, sty draw.GlyphStyle) plot.Plotter {
	var xys plotter.XYs
	for i := range min(len(x), len(y)) {
		if drawable(x[i], y[i]) {
			xys = append(xys, plotter.XY{X: x[i], Y: y[i]})
		}
	}
	return drawing((&plotter.Scatter{XYs: xys, GlyphStyle: sty}).Plot)
}

// swatch draws what the legend shows of a line or marker.
func swatch(sample func(c *draw.Canvas, middle vg.Point)) string {
	c := newCanvas(48, 14)
	d := draw.New(c)
	sample(&d, d.Center())
	return `<svg class="swatch" viewBox="` + c.box() + `" aria-hidden="true">` + c.body() + `</svg>`
}

// entry is a series' line in the legend: its line, its marker or both.
func (s series) entry(label string, lined, marked bool) Entry {
	return Entry{tidy(label), swatch(func(c *draw.Canvas, m vg.Point) {
		if lined {
			c.StrokeLine2(s.line(), 0, m.Y, 2*m.X, m.Y)
		}
		if marked {
			c.DrawGlyph(s.glyph(), m)
		}
	})}
}
