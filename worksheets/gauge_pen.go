package worksheets

// Lines and words of gauges: few widths and greys, so that all gauges look alike.

import (
	"math"
	"sort"
	"strings"

	"trundle/worksheets/pdf"
)

// A pen draws the lines and words of gauges.
type pen struct{ doc *pdf.Document }

// Widths of lines in millimetres, and greys. Both survive a copier.
const (
	hair, thin, firm, thick = 0.12, 0.2, 0.35, 0.6

	black, dark, pale = 0, 110, 165
)

// line draws a line of a width and a grey.
func (p pen) line(x1, y1, x2, y2, width float64, grey int) {
	p.doc.LineWidth(width)
	p.doc.Ink(grey)
	p.doc.Line(x1, y1, x2, y2)
}

// dashed draws with dashes: what is to be cut, or is not to be measured from.
func (p pen) dashed(draw func()) {
	p.doc.Dashes(2, 1.5)
	draw()
	p.doc.Dashes()
}

// rect draws the outline of a rectangle.
func (p pen) rect(x, y, w, h, width float64, grey int) {
	p.doc.LineWidth(width)
	p.doc.Ink(grey)
	p.doc.Rect(x, y, w, h, pdf.Stroke)
}

// Where a word stands to its point.
const (
	fromLeft = iota
	centred
	toRight
)

// word writes a text on a base line and gives its width.
func (p pen) word(x, y, size float64, how int, text string) float64 {
	p.doc.SetFont(regular, size)
	text = printable(text)
	w := p.doc.Width(text)
	switch how {
	case centred:
		x -= w / 2
	case toRight:
		x -= w
	}
	p.doc.Text(x, y, text)
	return w
}

// note writes a text in as many lines as it may have, cut with dots if it has more.
func (p pen) note(x, y, width, size float64, most int, text string) {
	p.doc.SetFont(regular, size)
	lines := wrap(p.doc, text, width)
	if len(lines) > most {
		lines = append(lines[:most-1], strings.Join(lines[most-1:], " "))
	}
	for i, l := range lines {
		p.doc.Text(x, y+float64(i)*size*point*leading, p.short(size, l, width)+" ") // parts words that are heard
	}
}

// short cuts a text with dots so that it is no wider than width; nothing is left where not
// even a letter fits.
func (p pen) short(size float64, text string, width float64) string {
	p.doc.SetFont(regular, size)
	text = printable(text)
	if p.doc.Width(text) <= width {
		return text
	}
	letters := []rune(text)
	cut := func(n int) string { return strings.TrimRight(string(letters[:n]), " ") + "…" }
	if n := sort.Search(len(letters), func(n int) bool { return p.doc.Width(cut(n+1)) > width }); n > 0 {
		return cut(n)
	}
	return ""
}

// turned writes a text upwards, its middle at y, its base line at x.
func (p pen) turned(x, y, size float64, text string) {
	p.doc.Upwards(x, y, func() { p.word(x, y, size, centred, text) })
}

// circle draws a circle. The library's own is up to 0.3 % too small between its joints,
// which shows on a track.
func (p pen) circle(x, y, r, width float64, grey int) {
	p.doc.LineWidth(width)
	p.doc.Ink(grey)
	const pieces = 12
	const turn = 2 * math.Pi / pieces
	handle := 4.0 / 3 * math.Tan(turn/4) * r
	p.doc.MoveTo(x+r, y)
	for n := range pieces {
		sa, ca := math.Sincos(turn * float64(n))
		sb, cb := math.Sincos(turn * float64(n+1))
		p.doc.CurveTo(x+r*ca-handle*sa, y+r*sa+handle*ca, x+r*cb+handle*sb, y+r*sb-handle*cb, x+r*cb, y+r*sb)
	}
	p.doc.Paint(pdf.Stroke)
}

// arrow draws a line with a head at its end; dx and dy give its direction, of length 1.
func (p pen) arrow(x, y, dx, dy, length float64) {
	const head = 2.4
	ex, ey := x+dx*length, y+dy*length
	p.line(x, y, ex, ey, firm, black)
	p.line(ex, ey, ex-head*(dx+dy*0.5), ey-head*(dy-dx*0.5), firm, black)
	p.line(ex, ey, ex-head*(dx-dy*0.5), ey-head*(dy+dx*0.5), firm, black)
}

// down leaves the page as it was found.
func (p pen) down() {
	p.doc.Ink(0)
	p.doc.LineWidth(thin)
}

// caption writes the gauge's text above it, one line next to it.
func (g Gauge) caption(p pen, at place, width float64) {
	y := at.Y + 3.4
	p.doc.SetFont(regular, captionSize)
	if len(wrap(p.doc, g.Text, width-2*gaugeEdge)) == 1 {
		y += captionSize * point * leading
	}
	p.note(at.X+gaugeEdge, y, width-2*gaugeEdge, captionSize, 2, g.Text)
}

// colon is the language's, with its blanks.
func (g Gauge) colon() string {
	if g.Words == nil {
		return ": "
	}
	return g.Words("colon") + " "
}

// say is a text of the interface; gauges that tests draw may have none.
func (g Gauge) say(name string, args ...any) string {
	if g.Words == nil {
		return ""
	}
	return strings.TrimSpace(g.Words(name, args...))
}
