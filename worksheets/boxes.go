package worksheets

// Boxes to write in, and what mentors find in them.

import (
	"strings"

	"trundle/worksheets/pdf"
)

// entry is what a box to write in has: its unit, what it is for, and in the mentors' edition what stands in it.
type entry struct {
	about string // for who cannot see the box
	unit  string
	value string // "" where somebody writes
	style pdf.Style
}

// box draws a box from its top left corner. Its ground is white, as it may stand on squares.
func (s *sheet) box(x, y, width, height float64, e entry) {
	s.doc.In(pdf.Form, func() {
		s.doc.LineWidth(0.35)
		s.doc.Shade(255)
		s.doc.Rect(x, y, width, height, pdf.FillAnd)
		s.doc.Shade(0)
		value, unit := e.parts()
		if over, rest, two := strings.Cut(unit, " "); two && value == "" && !strings.Contains(rest, " ") { // ft in
			s.unitFont(over)
			s.doc.Text(x+width*0.4, y+height*0.5+1.6, over)
			unit = rest
		}
		unit = printable(unit)
		s.unitFont(unit)
		wide := s.doc.Width(unit)
		s.fill(value, e.style, x+2, y, width-5-wide, height)
		s.unitFont(unit)
		s.doc.Text(x+width-wide-2, y+height*0.5+1.6, unit)
	}, pdf.Alt(s.boxFor(e)))
}

// unitFont is that of the unit in a box. The sign of degrees by itself would be a dot.
func (s *sheet) unitFont(unit string) {
	s.font(bold, 10.5)
	if unit == "°" {
		s.font(bold, digits)
	}
}

// parts are the number and the unit of what stands in a box. A value in another unit than the box's brings its own.
func (e entry) parts() (value, unit string) {
	if e.value == "" || e.unit == "" {
		return e.value, e.unit
	}
	if number, ok := strings.CutSuffix(e.value, e.unit); ok {
		return strings.TrimSpace(number), e.unit
	}
	if strings.ContainsAny(e.value, "0123456789") {
		return e.value, ""
	}
	return e.value, e.unit // words
}

func (s *sheet) boxFor(e entry) string {
	if e.unit == "" {
		return s.say("box-for", e.about)
	}
	return s.say("box-in", e.about, e.unit)
}

// fill writes a value into a box, as large as it fits; words that are no number in two lines.
func (s *sheet) fill(value string, style pdf.Style, x, y, width, height float64) {
	if value == "" {
		return
	}
	size := digits
	if !strings.ContainsAny(value, "0123456789") {
		size = labelSize
	}
	for ; size >= small; size -= 0.5 {
		b := setter{s.doc, size}.amount(style, value)
		if b.width <= width && b.height() <= height {
			b.draw(x, y+(height+b.up-b.down)/2)
			return
		}
	}
	const least = 7.5
	line := s.font(style, least) * 0.9
	lines := short(s.wrap(value, width), max(int(height/line), 1))
	s.lines(x, y+(height-line*float64(len(lines)))/2, lines, line)
}

// amount sets a number with what may come after it; a fraction of a tape is stacked, and read as it was written.
func (s setter) amount(style pdf.Style, text string) box {
	text = printable(text)
	at := strings.IndexByte(text, '/')
	if at < 1 || at+1 == len(text) || !isDigit(text[at-1]) || !isDigit(text[at+1]) {
		return s.text(style, text)
	}
	from, to := at, at+1
	for from > 0 && isDigit(text[from-1]) {
		from--
	}
	for to < len(text) && isDigit(text[to]) {
		to++
	}
	low := s.smaller()
	all := beside(s.text(style, strings.TrimRight(text[:from], " ")), s.space(0.08),
		low.fraction(low.text(style, text[from:at]), low.text(style, text[at+1:to])), s.text(style, text[to:]))
	return s.readAs(all, text)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// readAs makes a box be read as a text instead of by its pieces.
func (s setter) readAs(b box, text string) box {
	draw := b.draw
	b.draw = func(x, y float64) {
		s.doc.In(pdf.Span, func() { draw(x, y) }, pdf.Actual(text))
	}
	return b
}
