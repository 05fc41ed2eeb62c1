package chart

// Readings over cycles out and back, beside the steps between them: a panel for each group, in its colour and with its
// marker. The second arrangement of a group has the same marker hollow.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Steps are readings cycle by cycle, and what each cycle added.
type Steps struct {
	Chart
	Cycle, Offset, Step Axis
	Groups              []Stepped
	Words               StepWords
}

// Stepped is a panel: a group's readings in one or two arrangements, over a band of what chance alone would do.
type Stepped struct {
	Name         string
	Arrangements []Stepping
	Band         []float64 // half its width after each cycle from 0; none is drawn without one
}

// Stepping are the readings of one arrangement, its steps in their order, and their mean with its interval; NaN for
// none.
type Stepping struct {
	X, Y, Steps     []float64
	Mean, Low, High float64
}

// StepWords are the labels of the legend; what has none, or is not there, has no entry.
type StepWords struct {
	Arrangements []string
	Band, Mean   string
}

const (
	panelHeight vg.Length = 206
	panelName   vg.Length = 17
	panelPart             = 0.52 // of the width: the readings; the rest are the steps

	// More readings than these are thinned to one in each square of a grid.
	mostReadings           = 500
	readingsCell vg.Length = 9
)

// Draw makes the picture. All panels share their scales, so that groups can be compared.
func (d Steps) Draw() Picture {
	x, y, step := nothing.with(0), nothing.with(0), nothing.with(0)
	total := 0
	for _, g := range d.Groups {
		for _, a := range g.Arrangements {
			x, y = x.withPoints(y, Curve{X: a.X, Y: a.Y})
			step = step.with(a.Steps...).with(a.Mean, a.Low, a.High)
			total += len(a.X)
		}
		for k, b := range g.Band {
			x, y = x.withPoints(y, Curve{X: []float64{float64(k), float64(k)}, Y: []float64{b, -b}})
		}
	}
	n := max(1, len(d.Groups))
	c := newCanvas(pictureWidth, panelHeight*vg.Length(n))
	for i := range n {
		var g Stepped
		if i < len(d.Groups) {
			g = d.Groups[i]
		}
		below := panelHeight * vg.Length(n-1-i)
		row := draw.Crop(draw.New(c), 0, 0, below, below+panelHeight-c.height)
		text := newLettering(c)
		row.FillText(text.style(draw.XLeft, draw.YTop), vg.Point{X: row.Min.X + side, Y: row.Max.Y - 2},
			text.fit(tidy(g.Name), pictureWidth-2*side))
		row.Max.Y -= panelName
		split := row.Size().X * panelPart
		floor := d.offsets(c, draw.Crop(row, 0, split-row.Size().X, 0, 0), series(i), g, x, y, total)
		d.steps(c, draw.Crop(row, split, 0, 0, 0), series(i), g, step, total, floor)
	}
	return Picture{SVG: d.svg(c), Legend: d.legend()}
}

// offsets draws a group's readings over its band, and returns where its axes have their lower end.
func (d Steps) offsets(to *canvas, area draw.Canvas, s series, g Stepped, x, y span, total int) (floor vg.Length) {
	f := frameOn(to, area, d.Cycle, d.Offset)
	f.up(y.roomy(0.06))
	f.across(x.roomy(0.04), true)
	f.titles(d.Cycle, d.Offset)
	f.Add(drawing(func(c draw.Canvas, p *plot.Plot) { chanceBand(&c, p, g.Band) }))
	f.lined(true)
	f.Add(drawing(baseline))
	for i, a := range g.Arrangements {
		f.Add(glyphs(a.X, a.Y, s.arranged(i), total))
	}
	f.Draw(f.area)
	return f.DataCanvas(f.area).Min.Y
}

// steps draws what each cycle added, one arrangement after the other, and a line for the mean of each.
func (d Steps) steps(to *canvas, area draw.Canvas, of series, g Stepped, s span, total int, floor vg.Length) {
	f := frameOn(to, area, Axis{}, d.Step)
	f.up(s.roomy(0.06))
	f.X.Min, f.X.Max = 0, 0
	for _, a := range g.Arrangements {
		f.X.Max += float64(len(a.Steps)) + 2
	}
	f.area = draw.Crop(f.area, 0, 0, floor-f.DataCanvas(f.area).Min.Y, 0)
	f.X.Max = max(f.X.Max, 1)
	f.titles(Axis{}, d.Step)
	f.Add(drawing((&plotter.Grid{Horizontal: draw.LineStyle{Color: grid, Width: 1}}).Plot), drawing(baseline))
	from := 1.0
	for i, a := range g.Arrangements {
		at := make([]float64, len(a.Steps))
		for k := range at {
			at[k] = from + float64(k)
		}
		first, last := from, from+float64(len(at))-1
		line := meanLine
		if i > 0 {
			line.Dashes = []vg.Length{4, 3}
		}
		f.Add(drawing(func(c draw.Canvas, p *plot.Plot) { a.mean(&c, p, line, first-0.5, last+0.8) }))
		f.Add(glyphs(at, a.Steps, of.arranged(i), total))
		from = last + 3
	}
	f.Draw(f.area)
}

// mean draws the mean of the steps along them, with its interval at its end.
func (a Stepping) mean(c *draw.Canvas, p *plot.Plot, line draw.LineStyle, from, to float64) {
	toX, toY := p.Transforms(c)
	if !drawable(a.Mean) {
		return
	}
	c.StrokeLine2(line, toX(from), toY(a.Mean), toX(to), toY(a.Mean))
	if drawable(a.Low, a.High) {
		upright(c, toX(to), toY(a.Low), toY(a.High))
	}
}

var meanLine = draw.LineStyle{Color: ink, Width: 2}

// upright is an interval that stands, with a cap at each end.
func upright(c *draw.Canvas, x, low, high vg.Length) {
	var p vg.Path
	for _, y := range []vg.Length{low, high} {
		p.Move(vg.Point{X: x - 5, Y: y})
		p.Line(vg.Point{X: x + 5, Y: y})
	}
	p.Move(vg.Point{X: x, Y: low})
	p.Line(vg.Point{X: x, Y: high})
	c.SetLineStyle(meanLine)
	c.Stroke(p)
}

// baseline is the line on which nothing has moved.
func baseline(c draw.Canvas, p *plot.Plot) {
	_, toY := p.Transforms(&c)
	c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.5}, c.Min.X, toY(0), c.Max.X, toY(0))
}

// chanceBand fills what lies within some distance of zero.
func chanceBand(c *draw.Canvas, p *plot.Plot, half []float64) {
	toX, toY := p.Transforms(c)
	var over, under []vg.Point
	for k, b := range half {
		if drawable(b) {
			over = append(over, vg.Point{X: toX(float64(k)), Y: toY(b)})
			under = append(under, vg.Point{X: toX(float64(k)), Y: toY(-b)})
		}
	}
	if len(over) < 2 {
		return
	}
	for i := range under {
		over = append(over, under[len(under)-1-i])
	}
	c.FillPolygon(paint("band"), over)
}

// legend says which marker is which arrangement, where there are two, and what the band and the line are.
func (d Steps) legend() []Entry {
	var marks, rest []Entry
	most, banded, lined := 0, false, false
	for _, g := range d.Groups {
		most, banded = max(most, len(g.Arrangements)), banded || len(g.Band) > 1
		for _, a := range g.Arrangements {
			lined = lined || drawable(a.Mean)
		}
	}
	for i, label := range d.Words.Arrangements[:min(most, len(d.Words.Arrangements))] {
		marks = append(marks, entry(label, func(c *draw.Canvas, m vg.Point) { d.samples(c, m, i) })...)
	}
	if banded {
		rest = entry(d.Words.Band, func(c *draw.Canvas, m vg.Point) {
			right, high := 2*m.X, 2*m.Y
			c.FillPolygon(paint("band"), []vg.Point{{X: 0, Y: 0}, {X: right, Y: 0}, {X: right, Y: high}, {X: 0, Y: high}})
		})
	}
	if lined {
		rest = append(rest, entry(d.Words.Mean, func(c *draw.Canvas, m vg.Point) {
			c.StrokeLine2(meanLine, m.X-14, m.Y, m.X+14, m.Y)
			upright(c, m.X, m.Y-5, m.Y+5)
		})...)
	}
	return append(marks, rest...)
}

// samples are the markers of an arrangement, of up to three groups, as all have it.
func (d Steps) samples(c *draw.Canvas, middle vg.Point, arrangement int) {
	n := min(3, len(d.Groups))
	for i := range n {
		sty := series(i).arranged(arrangement)
		sty.Color = ink
		c.DrawGlyph(sty, vg.Point{X: middle.X + 14*(vg.Length(i)-vg.Length(n-1)/2), Y: middle.Y})
	}
}

// arranged is the marker of a group's first arrangement, or, hollow, of its second.
func (s series) arranged(arrangement int) draw.GlyphStyle {
	sty := s.glyph()
	if m, ok := sty.Shape.(marker); ok && arrangement > 0 && m != cross {
		sty.Shape = hollow(m)
	}
	return sty
}

// readings draws the markers of a series, thinned where there are many.
func readings(x, y []float64, s series, total int) plot.Plotter {
	return glyphs(x, y, s.glyph(), total)
}

func glyphs(x, y []float64, sty draw.GlyphStyle, total int) plot.Plotter {
	if total <= mostReadings {
		return markersAt(x, y, sty)
	}
	return drawing(func(c draw.Canvas, p *plot.Plot) {
		toX, toY := p.Transforms(&c)
		var at []vg.Point
		for i := range min(len(x), len(y)) {
			if drawable(x[i], y[i]) {
				at = append(at, vg.Point{X: toX(x[i]), Y: toY(y[i])})
			}
		}
		for _, pt := range apart(at, readingsCell) {
			c.DrawGlyph(sty, pt)
		}
	})
}
