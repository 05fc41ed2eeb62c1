package chart

// The axes that all kinds of chart share: room for labels and titles, rows of groups, the grid, the target. Which
// numbers an axis marks is decided in ticks.go.

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A frame is a canvas with a plot that has our axes.
type frame struct {
	*plot.Plot
	to   *canvas
	text lettering
	area draw.Canvas // what the plot may use

	number func(text string) string // see Axis
}

// top is the room above the axes, side that at the left and right.
const top, side vg.Length = 8, 4

// newFrame is an empty one; the titles only keep their room until the axes are known.
func newFrame(height vg.Length, across, up Axis) *frame {
	c := newCanvas(pictureWidth, height)
	return frameOn(c, draw.New(c), across, up)
}

// frameOn is an empty one on a part of a canvas.
func frameOn(c *canvas, area draw.Canvas, across, up Axis) *frame {
	f := &frame{Plot: plot.New(), to: c, text: newLettering(c), area: draw.Crop(area, side/2, -side, 1, -top),
		number: across.Number}
	if f.number == nil {
		f.number = up.Number
	}
	f.BackgroundColor = nil
	f.TextHandler = f.text
	for _, a := range []*plot.Axis{&f.X, &f.Y} {
		a.LineStyle = draw.LineStyle{Color: ink, Width: 1}
		a.Tick.LineStyle = a.LineStyle
		a.Tick.Length = 5
		a.Tick.Marker = plot.ConstantTicks(nil)
		a.Padding = 0
		a.Label.Padding = 2
		a.Label.TextStyle = f.text.style(draw.XCenter, draw.YBottom)
	}
	f.X.Label.Text, f.Y.Label.Text = holder(across), holder(up)
	f.X.Tick.Label = f.text.style(draw.XCenter, draw.YTop)
	f.Y.Tick.Label = f.text.style(draw.XRight, draw.YCenter)
	return f
}

// holder stands for a title whose length does not matter yet.
func holder(a Axis) string {
	if tidy(a.Title) == "" {
		return ""
	}
	return "x"
}

// across sets the horizontal axis, when the vertical one is known. Labels that stick out make it shorter, and a shorter
// axis has room for fewer labels, so it takes a second look, seldom a third.
func (f *frame) across(s span, whole bool) {
	f.X.Min, f.X.Max = s.low, s.high
	for range 4 {
		length := f.DataCanvas(f.area).Size().X
		spacing := func(label string) vg.Length { return max(36, f.text.width(label)+12) }
		ticks := ruler{length, spacing, whole, f.number}.Ticks(s.low, s.high)
		f.X.Tick.Marker = plot.ConstantTicks(ticks) // gonum asks again and again.
		// gonum makes room for a label that sticks out at the right, but not at the left.
		c := f.DataCanvas(f.area)
		room := vg.Length(0)
		for _, t := range ticks {
			room = max(room, f.text.width(t.Label)/2-c.X(f.X.Norm(t.Value)))
		}
		f.area = draw.Crop(f.area, room, 0, 0, 0)
		if room < 0.5 && length-c.Size().X < 12 {
			return
		}
	}
}

// up sets the vertical axis.
func (f *frame) up(s span) {
	f.Y.Min, f.Y.Max = s.low, s.high
	spacing := func(string) vg.Length { return 25 } // all labels are one line high
	ticks := ruler{f.area.Size().Y - 3*textSize, spacing, false, f.number}.Ticks(s.low, s.high)
	f.Y.Tick.Marker = plot.ConstantTicks(ticks)
}

// rows sets the vertical axis to names, the first one at the top.
func (f *frame) rows(names []string) {
	var ticks []plot.Tick
	for i, name := range names {
		if name = f.text.fit(tidy(name), nameLimit); name != "" {
			ticks = append(ticks, plot.Tick{Value: rowAt(i, len(names)), Label: name})
		}
	}
	f.Y.Min, f.Y.Max = -0.5, max(1, float64(len(names)))-0.5
	f.Y.Tick.Marker = plot.ConstantTicks(ticks)
	f.Y.Tick.Length = 0
}

// rowAt is where the i-th of n groups stands on the vertical axis.
func rowAt(i, n int) float64 { return float64(n - 1 - i) }

// Rows are rowHeight high; under them are marks and a title. A name of 16 characters fits.
const (
	rowHeight vg.Length = 34
	nameLimit vg.Length = 157
	footer    vg.Length = 43
)

// newRows is a frame with a row for each name.
func newRows(names []string, value Axis, s span) *frame {
	height := footer + top + 1 + rowHeight*vg.Length(max(1, len(names)))
	f := newFrame(height, value, Axis{})
	f.rows(names)
	f.across(s, false)
	if f.titles(value, Axis{}) == 1 {
		return f
	}
	// A second line of the title takes no room from the rows.
	f = newFrame(height+f.X.Label.TextStyle.Height("x"), value, Axis{})
	f.rows(names)
	f.across(s, false)
	f.titles(value, Axis{})
	return f
}

// titles sets those of the axes, cut to the room they have, and returns how many lines the horizontal one has.
func (f *frame) titles(across, up Axis) int {
	f.X.Label.Text = f.text.wrap(tidy(across.Title), f.DataCanvas(f.area).Size().X)
	f.Y.Label.Text = f.text.fit(tidy(up.Title), f.DataCanvas(f.area).Size().Y)
	return len(f.text.Lines(f.X.Label.Text))
}

// lined adds the grid; it comes first, so that all else lies on it.
func (f *frame) lined(horizontal bool) {
	g := &plotter.Grid{Vertical: draw.LineStyle{Color: grid, Width: 1}}
	if horizontal {
		g.Horizontal = g.Vertical
	}
	f.Add(drawing(g.Plot))
}

// picture draws all.
func (f *frame) picture(h Chart, legend []Entry) Picture {
	f.Draw(f.area)
	return Picture{SVG: h.svg(f.to), Legend: legend}
}

// aim is the line of what was wanted: short dashes, heavier than those of any series.
var aim = draw.LineStyle{Color: goal, Width: 3, Dashes: []vg.Length{4, 3}}

// target adds a line through all rows, and gives its entry.
func (f *frame) target(at float64, label string) []Entry {
	if !drawable(at) {
		return nil
	}
	f.Add(drawing(func(c draw.Canvas, p *plot.Plot) {
		x, _ := p.Transforms(&c)
		c.StrokeLine2(aim, x(at), c.Min.Y, x(at), c.Max.Y)
	}))
	return aimEntry(label)
}

// aimEntry is the legend's entry for a target.
func aimEntry(label string) []Entry {
	return entry(label, func(c *draw.Canvas, m vg.Point) { c.StrokeLine2(aim, 0, m.Y, 2*m.X, m.Y) })
}

// entry is a line of the legend, or none if nothing is said.
func entry(label string, sample func(c *draw.Canvas, m vg.Point)) []Entry {
	if label == "" {
		return nil
	}
	return []Entry{{tidy(label), swatch(sample)}}
}

// standing draws heavy upright lines that reach as far above as below their points.
func standing(c *draw.Canvas, at []vg.Point, half vg.Length) {
	for _, p := range at {
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 3}, p.X, p.Y-half, p.X, p.Y+half)
	}
}
