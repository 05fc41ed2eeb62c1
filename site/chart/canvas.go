package chart

// From gonum's drawing to elements of SVG: transforms, paths, text. How a path is written short is in pen.go; how wide
// a text is, in lettering.go.

import (
	"html"
	"image"
	"image/color"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// A paint is the class that stands where gonum/plot has a colour.
type paint string

// The paints that belong to no series.
const (
	ink  paint = "ink"  // axes, means, intervals
	grid paint = "grid" // the light lines behind
	goal paint = "goal" // a target
	halo paint = "halo" // the ground, to part what lies on top from what lies below
)

// RGBA makes a paint a color.Color; nothing looks at it.
func (paint) RGBA() (r, g, b, a uint32) { return 0, 0, 0, 0xffff }

// A canvas turns gonum's drawing into elements of SVG. Strokes that follow each other and look the same become one
// path. It keeps the transforms itself: what it writes is in the units of the viewBox, y down.
type canvas struct {
	width, height vg.Length

	out     strings.Builder
	pen     pen
	look    look   // of what the pen has drawn and out has not
	anchor  string // where the next text is held: start, middle, end
	grouped string // the anchor of the group that is open in out

	now   state   // what is drawn next looks like this
	saved []state // by Push
}

// A look is all by which two strokes differ but their place.
type look struct {
	class  string
	width  vg.Length
	dashes string
}

// A state is what gonum sets before it draws; turn takes its points to the viewBox.
type state struct {
	color  paint
	width  vg.Length
	dashes string
	turn   transform
}

// A transform maps (x, y) to (a·x + c·y + e, b·x + d·y + f).
type transform struct{ a, b, c, d, e, f float64 }

func (t transform) apply(p vg.Point) (x, y float64) {
	px, py := float64(p.X), float64(p.Y)
	return t.a*px + t.c*py + t.e, t.b*px + t.d*py + t.f
}

// after is the transform that first does o, then t.
func (t transform) after(o transform) transform {
	return transform{
		t.a*o.a + t.c*o.b, t.b*o.a + t.d*o.b,
		t.a*o.c + t.c*o.d, t.b*o.c + t.d*o.d,
		t.a*o.e + t.c*o.f + t.e, t.b*o.e + t.d*o.f + t.f,
	}
}

// newCanvas is an empty one of a size in the units of the viewBox.
func newCanvas(w, h vg.Length) *canvas {
	c := &canvas{width: w, height: h, anchor: "start"}
	c.now.turn = transform{a: 1, d: 1}
	vg.Initialize(c)
	return c
}

// Size makes the canvas one that gonum's draw.New takes.
func (c *canvas) Size() (x, y vg.Length) { return c.width, c.height }

// SetLineWidth, SetLineDash and SetColor set what the next strokes look like.
func (c *canvas) SetLineWidth(w vg.Length) { c.now.width = w }

// SetLineDash sets the dashes; their offset is always 0 here.
func (c *canvas) SetLineDash(pattern []vg.Length, _ vg.Length) {
	var b []byte
	for i, l := range pattern {
		if i > 0 {
			b = append(b, ' ')
		}
		b = appendTenths(b, inTenths(float64(l)))
	}
	c.now.dashes = string(b)
}

// SetColor takes a paint; any other colour is ink.
func (c *canvas) SetColor(col color.Color) {
	p, ok := col.(paint)
	if !ok {
		p = ink
	}
	c.now.color = p
}

// Rotate, Translate and Scale change the transform; Push and Pop keep it and what else is set.
func (c *canvas) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	c.now.turn = c.now.turn.after(transform{cos, sin, -sin, cos, 0, 0})
}

// Translate moves what follows.
func (c *canvas) Translate(p vg.Point) {
	c.now.turn = c.now.turn.after(transform{1, 0, 0, 1, float64(p.X), float64(p.Y)})
}

// Scale enlarges what follows.
func (c *canvas) Scale(x, y float64) {
	c.now.turn = c.now.turn.after(transform{x, 0, 0, y, 0, 0})
}

// Push keeps the state.
func (c *canvas) Push() { c.saved = append(c.saved, c.now) }

// Pop takes up the state kept last.
func (c *canvas) Pop() {
	c.now = c.saved[len(c.saved)-1]
	c.saved = c.saved[:len(c.saved)-1]
}

// Stroke draws along the path.
func (c *canvas) Stroke(p vg.Path) {
	if c.now.width <= 0 {
		return
	}
	c.draw(look{string(c.now.color), c.now.width, c.now.dashes}, thinned(p))
}

// Fill fills the path.
func (c *canvas) Fill(p vg.Path) {
	c.draw(look{string(c.now.color) + " f", 1, ""}, p)
}

// thinned is a path without needless points, if it is one line.
func thinned(p vg.Path) vg.Path {
	points := make([]vg.Point, len(p))
	for i, part := range p {
		if (i == 0) != (part.Type == vg.MoveComp) || i > 0 && part.Type != vg.LineComp {
			return p
		}
		points[i] = part.Pos
	}
	var q vg.Path
	for i, pt := range thin(points) {
		if i == 0 {
			q.Move(pt)
		} else {
			q.Line(pt)
		}
	}
	return q
}

// draw adds a path to the one before if both look the same; else that one is written out first.
func (c *canvas) draw(l look, p vg.Path) {
	if l != c.look {
		c.flush()
		c.look = l
	}
	for i, part := range p {
		x, y := c.at(part.Pos)
		switch part.Type {
		case vg.MoveComp:
			c.pen.moveTo(x, y, i > 0 && p[i-1].Type == vg.MoveComp)
		case vg.LineComp:
			c.pen.lineTo(x, y)
		case vg.ArcComp:
			c.arc(part)
		case vg.CurveComp:
			c.curve(part)
		case vg.CloseComp:
			c.pen.close()
		}
	}
}

// arc draws an arc in halves, since the ends of a whole circle are one point.
func (c *canvas) arc(part vg.PathComp) {
	size := math.Sqrt(math.Abs(c.now.turn.a*c.now.turn.d - c.now.turn.b*c.now.turn.c))
	for half := range 3 {
		sin, cos := math.Sincos(part.Start + part.Angle*float64(half)/2)
		x, y := c.at(vg.Point{X: part.Pos.X + part.Radius*vg.Length(cos), Y: part.Pos.Y + part.Radius*vg.Length(sin)})
		if half > 0 {
			c.pen.arcTo(x, y, inTenths(float64(part.Radius)*size), part.Angle < 0)
		} else if x != c.pen.x || y != c.pen.y {
			c.pen.lineTo(x, y)
		}
	}
}

// curve draws a Bézier curve, with one control point or two.
func (c *canvas) curve(part vg.PathComp) {
	var points []int
	for _, p := range append(part.Control[:len(part.Control):len(part.Control)], part.Pos) {
		x, y := c.at(p)
		points = append(points, x, y)
	}
	if len(part.Control) == 1 {
		c.pen.curveTo('q', points...)
	} else {
		c.pen.curveTo('c', points...)
	}
}

// FillString writes text, held at its start, middle or end as the lettering has said.
func (c *canvas) FillString(f font.Face, p vg.Point, text string) {
	if f.Font.Size <= 0 || text == "" {
		return
	}
	c.flush()
	c.group(c.anchor)
	x, y := c.at(p)
	if angle := math.Atan2(c.now.turn.b, c.now.turn.a); angle != 0 {
		turn := appendTenths(nil, inTenths(-angle*180/math.Pi))
		c.out.WriteString(`<text transform="translate(` + pair(x, y) + `)rotate(` + string(turn) + `)">`)
	} else {
		c.out.WriteString(`<text x="` + string(appendTenths(nil, x)) + `" y="` + string(appendTenths(nil, y)) + `">`)
	}
	c.out.WriteString(html.EscapeString(text) + `</text>`)
}

// DrawImage is not needed: charts hold no pictures.
func (c *canvas) DrawImage(vg.Rectangle, image.Image) {}

// group opens a group for texts that are held alike; "" only closes the one that is open.
func (c *canvas) group(anchor string) {
	if anchor == c.grouped {
		return
	}
	if c.grouped != "" {
		c.out.WriteString(`</g>`)
	}
	if anchor != "" {
		c.out.WriteString(`<g text-anchor="` + anchor + `">`)
	}
	c.grouped = anchor
}

// flush writes the path that the pen has drawn.
func (c *canvas) flush() {
	if len(c.pen.d) == 0 {
		return
	}
	c.out.WriteString(`<path class="` + c.look.class + `"`)
	if c.look.width != 1 {
		c.out.WriteString(` stroke-width="` + string(appendTenths(nil, inTenths(float64(c.look.width)))) + `"`)
	}
	if c.look.dashes != "" {
		c.out.WriteString(` stroke-dasharray="` + c.look.dashes + `"`)
	}
	c.out.WriteString(` d="` + string(c.pen.d) + `"/>`)
	c.pen = pen{}
}

// body is all that was drawn.
func (c *canvas) body() string {
	c.flush()
	c.group("")
	return c.out.String()
}

// box is the viewBox.
func (c *canvas) box() string {
	return "0 0 " + strconv.Itoa(int(math.Ceil(float64(c.width)))) + " " + strconv.Itoa(int(math.Ceil(float64(c.height))))
}

// at is a point in tenths of the units of the viewBox.
func (c *canvas) at(p vg.Point) (x, y int) {
	fx, fy := c.now.turn.apply(p)
	return inTenths(fx), inTenths(float64(c.height) - fy)
}

// inTenths rounds to a tenth. Processors differ in the last bits of a sum, so these go first: what comes near half a
// tenth is then half a tenth on all of them.
func inTenths(v float64) int { return int(math.Round(sixPlaces(10 * v))) }

// sixPlaces drops the bits in which processors differ.
func sixPlaces(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// pair writes a point.
func pair(x, y int) string {
	return string(appendTenths(nil, x)) + " " + string(appendTenths(nil, y))
}
