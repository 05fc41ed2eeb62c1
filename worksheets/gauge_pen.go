package worksheets

import (
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// A pen draws the lines and words of gauges.
type pen struct{ pdf *fpdf.Fpdf }

// Widths of lines in millimetres, and greys. Both survive a copier.
const (
	hair, thin, firm, thick = 0.12, 0.2, 0.35, 0.6

	black, dark, pale = 0, 110, 165
)

func (p pen) line(x1, y1, x2, y2, width float64, grey int) {
	p.pdf.SetLineWidth(width)
	p.pdf.SetDrawColor(grey, grey, grey)
	p.pdf.Line(x1, y1, x2, y2)
}

func (p pen) dashed(draw func()) {
	p.pdf.SetDashPattern([]float64{2, 1.5}, 0)
	draw()
	p.pdf.SetDashPattern(nil, 0)
}

func (p pen) rect(x, y, w, h, width float64, grey int) {
	p.pdf.SetLineWidth(width)
	p.pdf.SetDrawColor(grey, grey, grey)
	p.pdf.Rect(x, y, w, h, "D")
}

// Where a word stands to its point.
const (
	fromLeft = iota
	centred
	toRight
)

// word writes a text on a base line and gives its width.
func (p pen) word(x, y, size float64, how int, text string) float64 {
	p.pdf.SetFont(family, regular, size)
	text = printable(text)
	w := p.pdf.GetStringWidth(text)
	switch how {
	case centred:
		x -= w / 2
	case toRight:
		x -= w
	}
	p.pdf.Text(x, y, text)
	return w
}

// note writes a text in as many lines as it may have, cut with dots if it has more.
func (p pen) note(x, y, width, size float64, most int, text string) {
	p.pdf.SetFont(family, regular, size)
	lines := wrap(p.pdf, text, width)
	if len(lines) > most {
		lines = lines[:most]
		last := []rune(lines[most-1])
		for len(last) > 0 && p.pdf.GetStringWidth(string(last)+"…") > width {
			last = last[:len(last)-1]
		}
		lines[most-1] = string(last) + "…"
	}
	for i, l := range lines {
		p.pdf.Text(x, y+float64(i)*size*point*leading, l)
	}
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
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(thin)
}

// caption writes the gauge's text above it.
func (g Gauge) caption(p pen, at place, width float64) {
	if g.Text != "" {
		p.note(at.X+gaugeEdge, at.Y+3.4, width-2*gaugeEdge, captionSize, 2, g.Text)
	}
}

func (g Gauge) say(name string, args ...any) string {
	if g.Words == nil {
		return ""
	}
	return strings.TrimSpace(g.Words(name, args...))
}
