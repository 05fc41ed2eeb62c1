package worksheets

// Columns of a run sheet: what is put into one goes from its top down, or is only measured, so that a page can be
// tried before anything is drawn.

import (
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/wording"
	"trundle/worksheets/pdf"
)

// Heights of a run sheet's lines by the size of their type.
const (
	usualLeading = 1.17
	closeLeading = 1.11
)

// gutter is what lies between columns, in millimetres.
const gutter = 5.0

// A column is a place from a height down.
type column struct {
	*runSheet
	x, width, y float64
	blind       bool // only measured
}

// A share is a part of a column's width, and what is put there.
type share struct {
	part float64
	put  func(*column)
}

// beside puts sections beside each other, and goes on below the longest.
func (c *column) beside(shares ...share) {
	x, low := c.x, c.y
	room := c.width - gutter*float64(len(shares)-1)
	for _, s := range shares {
		part := &column{c.runSheet, x, room * s.part, c.y, c.blind}
		s.put(part)
		x += part.width + gutter
		low = max(low, part.y)
	}
	c.y = low
}

// tried is how far down sections beside each other would go. Once one goes further than what is worth it, the others
// do not matter.
func (c *column) tried(shares []share, limited bool, most float64) float64 {
	low, room := c.y, c.width-gutter*float64(len(shares)-1)
	for _, s := range shares {
		part := &column{c.runSheet, c.x, room * s.part, c.y, true}
		s.put(part)
		if low = max(low, part.y); limited && low >= most {
			break
		}
	}
	return low
}

// font sets style and size, and gives the height of a line.
func (c *column) font(style pdf.Style, size float64) float64 {
	c.doc.SetFont(style, size)
	return c.leadingOf(size)
}

func (c *column) leadingOf(size float64) float64 {
	if c.close {
		return size * point * closeLeading
	}
	return size * point * usualLeading
}

// roomFor goes on at the top of a new page if something of a height has no room on this one.
func (c *column) roomFor(height float64) {
	if c.flowing && c.y+height > c.foot() && c.y > Margin {
		c.newPage()
		c.y = Margin
	}
}

// put places something of a height.
func (c *column) put(height float64, draw func(y float64)) {
	c.roomFor(height)
	if !c.blind {
		draw(c.y)
	}
	c.y += height
}

// in puts what belongs to a part of the document's structure.
func (c *column) in(tag pdf.Tag, put func(), details ...pdf.Detail) {
	if c.blind {
		put()
		return
	}
	c.doc.In(tag, put, details...)
}

// What is left free above and below the rule over a heading, in millimetres.
const (
	headRoom = 1.4
	headDrop = 0.7
)

func (c *column) headSize() float64 { return c.size + 1.5 }

// heading heads a section, with a rule above it.
func (c *column) heading(text string) { c.lowered(text, 0) }

// lowered is a heading that stands lower below its rule, beside larger type.
func (c *column) lowered(text string, by float64) {
	line := c.font(bold, c.headSize())
	lines := c.cut(c.wrap(bold, c.headSize(), text, c.width), 2, c.width)
	height := by + line*float64(len(lines)) + 1
	c.roomFor(height + 15) // no heading ends a page
	c.y += headRoom
	c.in(pdf.H2, func() {
		c.put(height, func(y float64) {
			c.doc.Bookmark(2, text, y)
			c.doc.Apart(func() {
				c.doc.LineWidth(0.4)
				c.doc.Line(c.x, y, c.x+c.width, y)
			})
			c.font(bold, c.headSize())
			c.lines(c.x, y+headDrop+by, lines, line)
		})
	})
}

// paragraph puts wrapped text, cut to so many lines if that is more than 0.
func (c *column) paragraph(style pdf.Style, size float64, text string, most int) {
	line := c.font(style, size)
	lines := c.cut(c.wrap(style, size, text, c.width), most, c.width)
	if len(lines) == 0 {
		return
	}
	c.in(pdf.P, func() { c.each(style, size, line, c.x, lines) })
	c.y += 0.6
}

// each puts lines one by one, so that a page may end after any of them.
func (c *column) each(style pdf.Style, size, line, x float64, lines []string) {
	for _, l := range lines {
		c.put(line, func(y float64) {
			c.font(style, size)
			c.lines(x, y, []string{l}, line)
		})
	}
}

// item puts a point of a list, with a box to tick or a dash.
func (c *column) item(text string, box bool) {
	line := c.font(regular, c.size)
	side := 0.6 * line
	indent := side + 1.6
	lines := c.wrap(regular, c.size, text, c.width-indent)
	if len(lines) == 0 {
		return
	}
	c.in(pdf.LI, func() {
		if !c.blind {
			c.label(line, side, box)
		}
		c.in(pdf.LBody, func() { c.each(regular, c.size, line, c.x+indent, lines) })
	})
	c.y += 0.3
}

// label draws what a point of a list begins with.
func (c *column) label(line, side float64, box bool) {
	c.roomFor(line)
	if !box {
		c.doc.In(pdf.Lbl, func() { c.written(regular, c.size, c.x, c.y, "–") })
		return
	}
	c.doc.In(pdf.Lbl, func() { c.tick(c.x+0.2, c.y+0.22*line, side) }, pdf.Actual("☐"))
}

// answered puts a question, and its answer below.
func (c *column) answered(q lesson.Question) {
	line := c.font(regular, c.size)
	indent := 0.6*line + 1.6
	lines := c.wrap(regular, c.size, q.Ask, c.width-indent)
	answer := c.wrap(bold, c.size, arrow+q.Answer, c.width-indent)
	c.in(pdf.LI, func() {
		if !c.blind {
			c.label(line, 0, false)
		}
		c.in(pdf.LBody, func() {
			c.each(regular, c.size, line, c.x+indent, lines)
			if q.Answer != "" {
				c.each(bold, c.size, line, c.x+indent, answer)
			}
		})
	})
	c.y += 0.6
}

// arrow leads from what is asked or said to the answer.
const arrow = "→ "

// led puts a text that begins in bold.
func (c *column) led(lead, text string, size float64, most int) {
	runs := c.ledLines(lead, text, size, c.width, most)
	c.in(pdf.P, func() {
		for _, l := range runs {
			c.put(c.leadingOf(size), func(y float64) { l.draw(c, c.x, y, size) })
		}
	})
	c.y += 0.4
}

// A ledLine is a line with or without words in bold before the others.
type ledLine struct {
	bold, plain string
	at          float64 // of the plain words, from the line's beginning
}

func (l ledLine) draw(c *column, x, y, size float64) {
	line := c.font(bold, size)
	c.lines(x, y, []string{l.bold}, line)
	c.font(regular, size)
	c.lines(x+l.at, y, []string{l.plain}, line)
}

// ledLines breaks a text that begins in bold into lines, cut to so many if that is more than 0.
func (c *column) ledLines(lead, text string, size, width float64, most int) []ledLine {
	lead = printable(lead)
	at := c.widthOf(bold, size, lead)
	var all []ledLine
	if at > width/2 { // a long beginning has lines of its own
		for _, l := range c.wrap(bold, size, lead, width) {
			all = append(all, ledLine{bold: l})
		}
		lead, at = "", 0
	}
	for i, l := range c.hang(regular, size, text, width-at, width) {
		if i == 0 {
			all = append(all, ledLine{lead, l, at})
		} else {
			all = append(all, ledLine{plain: l})
		}
	}
	c.font(regular, size)
	if most > 0 && len(all) > most {
		all = all[:most]
		last := &all[most-1]
		last.plain = ended(c.doc, last.plain, width-last.at)
	}
	return all
}

// cut leaves so many of a text's lines, all of them for 0, in the font that is set.
func (c *column) cut(lines []string, most int, width float64) []string {
	if most > 0 && len(lines) > most {
		lines = slices.Clone(lines[:most]) // the others may be wanted in another fit
		lines[most-1] = ended(c.doc, lines[most-1], width)
	}
	return lines
}

// sentenceEnd matches a line up to the end of its last sentence.
var sentenceEnd = wording.New(`^.*[.?!]["”“’‘»)\x{a0}]*( |$)`)

// ended ends a line that is not the last of a text: after a sentence if that is not much shorter, else with an
// ellipsis.
func ended(doc *pdf.Document, line string, width float64) string {
	const ellipsis, part = " …", 3
	if at := sentenceEnd.FindStringIndex(line); at != nil && part*at[1] >= len(line) {
		return line[:at[1]]
	}
	letters := []rune(line)
	for len(letters) > 0 && doc.Width(string(letters)+ellipsis) > width {
		letters = letters[:len(letters)-1]
		if blank := strings.LastIndexByte(string(letters), ' '); blank > 0 {
			letters = []rune(string(letters)[:blank])
		}
	}
	return string(letters) + ellipsis
}

// written writes a short text in a style from the top of a line.
func (c *column) written(style pdf.Style, size, x, y float64, text string) {
	line := c.font(style, size)
	c.lines(x, y, []string{printable(text)}, line)
}

// heads puts the heads of a table's columns at their places.
func (c *column) heads(at []float64, words []string) {
	line := c.leadingOf(c.size)
	c.put(line, func(y float64) {
		c.doc.In(pdf.TR, func() {
			for i, word := range words {
				c.doc.In(pdf.TH, func() { c.written(regular, c.size, at[i], y, word) }, pdf.Scope(pdf.Column))
			}
		})
	})
}
