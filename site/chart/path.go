package chart

// Paths: where robots drove, seen from above.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Path is where robots drove, seen from above: forward to the right, sideways up to the left of the robot. Sideways has
// a scale of its own; Picture.Stretch says how much larger it is. If the axes count in other units, the caller takes
// that into account.
type Path struct {
	Chart
	Forward, Sideways Axis
	Paths             []Curve // X forward, Y sideways, left is positive
	Words             PathWords
}

// PathWords are the labels of the legend; what has none has no entry.
type PathWords struct {
	Straight, Start string
}

const pathHeight vg.Length = 250

// mostStops is how many markers a path may have; one with more points has a marker at its end only.
const mostStops = 30

// start marks where all paths begin: a ring, which leaves what is below it to be seen.
var start = draw.GlyphStyle{Color: ink, Radius: 6, Shape: ring{2}}

// Draw makes the picture.
func (d Path) Draw() Picture {
	if p, ok := d.draw(true); ok {
		return p
	}
	p, _ := d.draw(false)
	return p
}

// draw makes the picture, its paths named at their ends or in the legend.
func (d Path) draw(named bool) (Picture, bool) {
	x, y := nothing.with(0), nothing.with(0)
	for _, c := range d.Paths {
		x, y = x.withPoints(y, c)
	}
	// A robot that stood still, or drove straight, still needs axes of some length.
	if x.low == x.high {
		x = x.with(1)
	}
	if y.low == y.high {
		y = y.with(-1, 1)
	}
	room := y.roomy(0.05)
	// The straight line lies inside, where it can be seen.
	room = room.with(-(y.high-y.low)*0.1, (y.high-y.low)*0.1)
	f := newFrame(pathHeight, d.Forward, d.Sideways)
	names, ok := f.room(named, d.Paths)
	if !ok {
		return Picture{}, false
	}
	f.up(room)
	f.across(x.roomy(0.04).with(x.low-(x.high-x.low)*0.04), false)
	f.titles(d.Forward, d.Sideways)
	f.lined(true)
	f.Add(drawing(func(c draw.Canvas, p *plot.Plot) {
		toX, toY := p.Transforms(&c)
		c.StrokeLine2(aim, toX(max(0, p.X.Min)), toY(0), c.Max.X, toY(0))
	}))
	var legend []Entry
	for i, c := range d.Paths {
		f.Add(curve(c.X, c.Y, series(i).line()), stops(c, series(i)))
		legend = append(legend, series(i).entry(c.Label, true, true))
	}
	if named {
		at, ok := f.named(names, d.Paths)
		if !ok {
			return Picture{}, false
		}
		f.Add(at)
		legend = nil
	}
	f.Add(markersAt([]float64{0}, []float64{0}, start))
	legend = append(legend, aimEntry(d.Words.Straight)...)
	legend = append(legend, entry(d.Words.Start, func(c *draw.Canvas, m vg.Point) { c.DrawGlyph(start, m) })...)
	c := f.DataCanvas(f.area)
	stretch := float64(c.Size().Y/c.Size().X) * (f.X.Max - f.X.Min) / (f.Y.Max - f.Y.Min)
	p := f.picture(d.Chart, legend)
	p.Stretch = stretch
	return p, true
}

// stops are the markers of a path: at each point that was measured, but not at the start, which has its own.
func stops(c Curve, s series) plot.Plotter {
	var x, y []float64
	for i := range min(len(c.X), len(c.Y)) {
		if drawable(c.X[i], c.Y[i]) && (c.X[i] != 0 || c.Y[i] != 0) {
			x, y = append(x, c.X[i]), append(y, c.Y[i])
		}
	}
	if n := len(x); n > mostStops {
		x, y = x[n-1:], y[n-1:]
	}
	return markersAt(x, y, s.glyph())
}
