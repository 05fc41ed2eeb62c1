package chart

// Runs over what they depend on, with a straight line, and below them what the line leaves: how far each run is from
// it.

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Fitted are the runs of groups with the line of each.
type Fitted struct {
	Chart
	X, Y, Left Axis // Left is what the line leaves
	Groups     []FittedGroup
}

// FittedGroup is a group's runs, and its line Start + Slope·x; NaN for no line.
type FittedGroup struct {
	Label        string
	X, Y         []float64
	Start, Slope float64
}

const (
	fittedHeight vg.Length = 250
	leftHeight   vg.Length = 160
)

// Draw makes the picture; without any line there is nothing left of one.
func (d Fitted) Draw() Picture {
	x, y, left := nothing, nothing, nothing.with(0)
	total := 0
	lines, rests := make([]Curve, len(d.Groups)), make([]Curve, len(d.Groups))
	lined := false
	for i, g := range d.Groups {
		x, y = x.withPoints(y, Curve{X: g.X, Y: g.Y})
		total += len(g.X)
		lines[i], rests[i] = g.line(), g.rest()
		x, y = x.withPoints(y, lines[i])
		_, left = x.withPoints(left, rests[i])
		lined = lined || drawable(g.Start, g.Slope)
	}
	height := fittedHeight
	if lined {
		height += leftHeight
	}
	c := newCanvas(pictureWidth, height)
	above := draw.Crop(draw.New(c), 0, 0, height-fittedHeight, 0)
	upper := d.frame(c, above, d.X, d.Y, x, y)
	var legend []Entry
	for i, g := range d.Groups {
		upper.Add(curve(lines[i].X, lines[i].Y, series(i).line()))
		legend = append(legend, series(i).entry(g.Label, drawable(g.Start, g.Slope), true))
	}
	for i, g := range d.Groups {
		upper.Add(readings(g.X, g.Y, series(i), total))
	}
	upper.Draw(upper.area)
	if lined {
		lower := d.frame(c, draw.Crop(draw.New(c), 0, 0, 0, -fittedHeight), d.X, d.Left, x, left)
		lower.Add(drawing(baseline))
		for i := range rests {
			lower.Add(readings(rests[i].X, rests[i].Y, series(i), total))
		}
		lower.Draw(lower.area)
	}
	if len(legend) == 1 && tidy(d.Groups[0].Label) == "" {
		legend = nil
	}
	return Picture{SVG: d.svg(c), Legend: legend}
}

// frame is one of the two, with its grid.
func (d Fitted) frame(c *canvas, area draw.Canvas, across, up Axis, x, y span) *frame {
	f := frameOn(c, area, across, up)
	f.up(y.roomy(0.08))
	f.across(x.roomy(0.04), false)
	f.titles(across, up)
	f.lined(true)
	return f
}

// line is the line over the runs that it was fitted to.
func (g FittedGroup) line() Curve {
	x, _ := nothing.withPoints(nothing, Curve{X: g.X, Y: g.Y})
	return Curve{X: []float64{x.low, x.high}, Y: []float64{g.Start + g.Slope*x.low, g.Start + g.Slope*x.high}}
}

// dustPart is the part of a number that binary rounding may have made; it is not drawn as a pattern.
const dustPart = 1e-13

// rest is how far each run is above the line.
func (g FittedGroup) rest() Curve {
	c := Curve{X: g.X}
	for i := range min(len(g.X), len(g.Y)) {
		off := g.Y[i] - g.Start - g.Slope*g.X[i]
		if math.Abs(off) <= dustPart*(math.Abs(g.Y[i])+math.Abs(g.Start)) {
			off = 0
		}
		c.Y = append(c.Y, off)
	}
	return c
}
