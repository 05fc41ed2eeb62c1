package chart

// Dots: each run of each group, with outliers and means. Where each dot lies is worked out in swarm.go.

import (
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Dots are the runs of groups, a row for each group.
type Dots struct {
	Chart
	Value  Axis
	Groups []Group
	Target float64 // NaN for none
	Words  DotWords
}

// Group is one row of dots.
type Group struct {
	Name   string
	Values []float64
	Odd    []bool  // which values are outliers; may be shorter
	Mean   float64 // NaN for none
}

// DotWords are the labels of the legend; what has none, or is not there, has no entry.
type DotWords struct {
	Run, Many, Odd, Mean, Target string // Many: runs so many that the row is drawn as a band, higher where there are more
}

// How far up and down the dots of a row reach, and its mean, which lies under them.
const (
	rowHalf  vg.Length = 12.5
	meanHalf vg.Length = 15
)

// More runs than these are drawn as bands.
const (
	mostInRow = 200
	mostDots  = 600
)

// diameters of dots, the first that leaves each to be seen is taken. Those up to widestAside may move aside.
var diameters = []vg.Length{7, 5.6, 4.4, 3.4, 2.6}

const widestAside = 4.4

// Draw makes the picture.
func (d Dots) Draw() Picture {
	s := nothing.with(d.Target)
	var names []string
	for _, g := range d.Groups {
		names = append(names, g.Name)
		s = s.with(g.Mean).with(g.Values...)
	}
	f := newRows(names, d.Value, s.roomy(0.05))
	f.lined(false)
	c := f.DataCanvas(f.area)
	rows, diameter := d.swarms(f.Plot, &c)
	target := f.target(d.Target, d.Words.Target)
	means := d.means(f)
	var legend []Entry
	if diameter > 0 {
		legend = f.dots(rows, diameter, d.Words)
	} else {
		legend = f.bands(rows, d.Words)
	}
	legend = append(append(legend, means...), target...)
	return f.picture(d.Chart, legend)
}

// dots draws each run.
func (f *frame) dots(rows []swarm, diameter vg.Length, words DotWords) []Entry {
	run := draw.GlyphStyle{Color: paint("c1 dot"), Radius: diameter/2 - 0.2, Shape: dot{}}
	under := draw.GlyphStyle{Color: paint("halo dot"), Radius: diameter/2 + 0.6, Shape: dot{}}
	f.Add(drawing(func(c draw.Canvas, _ *plot.Plot) {
		for _, sty := range []draw.GlyphStyle{under, run} {
			for _, row := range rows {
				for _, p := range row.run {
					c.DrawGlyph(sty, p)
				}
			}
		}
	}))
	legend := f.odd(rows, max(2.6, diameter/2-0.7), words.Odd)
	if !slices.ContainsFunc(rows, func(row swarm) bool { return len(row.run) > 0 }) {
		return legend
	}
	return append(entry(words.Run, func(c *draw.Canvas, m vg.Point) { c.DrawGlyph(run, m) }), legend...)
}

// odd draws the outliers hollow: discs of the ground on larger discs, which takes fewer bytes than rings.
func (f *frame) odd(rows []swarm, radius vg.Length, label string) []Entry {
	layers := []draw.GlyphStyle{
		{Color: paint("c1 dot"), Radius: radius + 0.7, Shape: dot{}},
		{Color: paint("halo dot"), Radius: radius - 0.7, Shape: dot{}},
	}
	f.Add(drawing(func(c draw.Canvas, _ *plot.Plot) {
		for _, sty := range layers {
			for _, row := range rows {
				for _, p := range row.odd {
					c.DrawGlyph(sty, p)
				}
			}
		}
	}))
	if !slices.ContainsFunc(rows, func(row swarm) bool { return len(row.odd) > 0 }) {
		return nil
	}
	return entry(label, func(c *draw.Canvas, m vg.Point) {
		for _, sty := range layers {
			c.DrawGlyph(sty, m)
		}
	})
}

// means draws a heavy tick for each group.
func (d Dots) means(f *frame) []Entry {
	var legend []Entry
	for _, g := range d.Groups {
		if drawable(g.Mean) {
			legend = entry(d.Words.Mean, func(c *draw.Canvas, m vg.Point) { standing(c, []vg.Point{m}, 7) })
		}
	}
	f.Add(drawing(func(c draw.Canvas, p *plot.Plot) {
		toX, toY := p.Transforms(&c)
		var at []vg.Point
		for i, g := range d.Groups {
			if drawable(g.Mean) {
				at = append(at, vg.Point{X: toX(g.Mean), Y: toY(rowAt(i, len(d.Groups)))})
			}
		}
		standing(&c, at, meanHalf)
	}))
	return legend
}
