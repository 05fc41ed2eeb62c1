package pdf

// Content streams (ISO 32000-1, 8 and 9): lines, areas, curves, and what they are drawn with.

import (
	"math"
	"strconv"
)

// content is the operators of a page. The library's own stream formats each with fmt, which takes most of the time of a
// sheet.
type content struct {
	bytes   []byte
	font    setFont // that is set; none at the beginning of marked content
	unclear bool    // a number is none, or larger than any paper
	off     bool    // nothing is kept
}

func (c *content) raw(text string) {
	if !c.off {
		c.bytes = append(c.bytes, text...)
	}
}

// op writes an operator with its numbers before it.
func (c *content) op(name string, numbers ...float64) {
	if c.off {
		return
	}
	for _, x := range numbers {
		c.unclear = c.unclear || !(math.Abs(x) <= largest)
		c.bytes = appendNumber(append(c.bytes, ' '), x)
	}
	c.bytes = append(append(append(c.bytes, ' '), name...), '\n')
}

// largest is beyond any paper, and beyond what all readers take (ISO 32000-1, annex C).
const largest = 1 << 20

// appendNumber writes a number with three decimals at most: the file has no exponents. What is not a number, or too
// large, is 0, as processors differ in what it would be as an integer.
func appendNumber(to []byte, x float64) []byte {
	if !(math.Abs(x) <= largest) {
		x = 0
	}
	n := int64(math.Round(x * 1000))
	if n < 0 {
		to, n = append(to, '-'), -n
	}
	to = strconv.AppendInt(to, n/1000, 10)
	if n %= 1000; n == 0 {
		return to
	}
	to = append(to, '.', byte('0'+n/100), byte('0'+n/10%10), byte('0'+n%10))
	for to[len(to)-1] == '0' {
		to = to[:len(to)-1]
	}
	return to
}

// appendHex writes a number of two bytes as four digits.
func appendHex(to []byte, n uint16) []byte {
	const digits = "0123456789abcdef"
	return append(to, digits[n>>12], digits[n>>8&15], digits[n>>4&15], digits[n&15])
}

// A Paint says what is done with a shape.
type Paint string

// Lines along a shape, its area, or both.
const (
	Stroke  Paint = "S"
	Fill    Paint = "f"
	FillAnd Paint = "B"
)

// LineWidth sets the width of lines in millimetres.
func (d *Document) LineWidth(mm float64) { d.state().op("w", d.across(mm)) }

// Ink sets the grey of lines, 0 for black to 255 for white.
func (d *Document) Ink(grey int) { d.state().op("G", float64(grey)/255) }

// Shade sets the grey of areas and text.
func (d *Document) Shade(grey int) { d.state().op("g", float64(grey)/255) }

// Dashes sets how lines are broken: millimetres of line and gap in turn; none for whole lines.
func (d *Document) Dashes(mm ...float64) {
	c := d.state()
	c.raw("[")
	for _, x := range mm {
		c.bytes = append(appendNumber(append(c.bytes, ' '), d.across(x)), ' ')
	}
	c.raw("]")
	c.op("d", 0)
}

// Line draws a straight line.
func (d *Document) Line(x1, y1, x2, y2 float64) {
	d.MoveTo(x1, y1)
	d.LineTo(x2, y2)
	d.Paint(Stroke)
}

// Rect draws a rectangle from its top left corner.
func (d *Document) Rect(x, y, w, h float64, paint Paint) {
	left, foot := d.across(x), d.up(y+h)
	d.draw().op("re", left, foot, d.across(x+w)-left, d.up(y)-foot)
	d.Paint(paint)
}

// MoveTo begins a shape.
func (d *Document) MoveTo(x, y float64) { d.draw().op("m", d.across(x), d.up(y)) }

// LineTo goes on straight.
func (d *Document) LineTo(x, y float64) { d.draw().op("l", d.across(x), d.up(y)) }

// CurveTo goes on along a Bézier curve of two control points.
func (d *Document) CurveTo(x1, y1, x2, y2, x, y float64) {
	d.draw().op("c", d.across(x1), d.up(y1), d.across(x2), d.up(y2), d.across(x), d.up(y))
}

// Bow draws a Bézier curve of one control point.
func (d *Document) Bow(x0, y0, cx, cy, x, y float64) {
	d.MoveTo(x0, y0)
	third := func(a, b float64) float64 { return a + (b-a)*2/3 }
	d.CurveTo(third(x0, cx), third(y0, cy), third(x, cx), third(y, cy), x, y)
	d.Paint(Stroke)
}

// Close joins the end of a shape to its beginning.
func (d *Document) Close() { d.draw().op("h") }

// Paint ends a shape.
func (d *Document) Paint(paint Paint) { d.draw().op(string(paint)) }

// Upwards turns what is drawn by a quarter, so that text at a place runs upwards from there.
func (d *Document) Upwards(x, y float64, draw func()) {
	d.turned(0, 1, d.across(x), d.up(y), draw)
}

// turned draws about a point in points, turned by the angle of a cosine and a sine.
func (d *Document) turned(cos, sin, x, y float64, draw func()) {
	d.draw().raw("q\n")
	d.draw().op("cm", cos, sin, -sin, cos, x-cos*x+sin*y, y-sin*x-cos*y)
	draw()
	d.draw().raw("Q\n")
	d.state().font = setFont{}
}
