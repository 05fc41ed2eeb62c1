package worksheets

// Questions with answers to choose from: a box to tick before each. Mentors find the right one ticked, and hints for
// the others where there is room.

import (
	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// Sizes of an answer to tick, in millimetres.
const (
	tickBox   = 3.6
	afterTick = 2.2
	tickLine  = 6.6 // from one answer to the next, if each has one line
	tickApart = 4.0 // from one column to the next
)

// A choosing is a question's answers laid out in columns, read line by line.
type choosing struct {
	columns int
	width   float64    // of an answer with its box
	lines   [][]string // of each answer
	line    float64
	heights []float64 // of the rows
}

// choosing lays answers out in as many columns as have each on one line.
func (s *sheet) choosing(q question, width float64) choosing {
	c := choosing{columns: len(q.Answers), line: s.font(bold, body)} // which the right one is in for mentors
	for ; ; c.columns-- {
		c.width = (width - tickApart*float64(c.columns-1)) / float64(c.columns)
		c.lines = c.lines[:0]
		most := 0
		for _, a := range q.Answers {
			lines := s.wrap(a.Text, c.width-tickBox-afterTick)
			c.lines, most = append(c.lines, lines), max(most, len(lines))
		}
		if most <= 1 || c.columns == 1 {
			break
		}
	}
	for i := 0; i < len(c.lines); i += c.columns {
		high := tickLine
		for _, lines := range c.lines[i:min(i+c.columns, len(c.lines))] {
			high = max(high, c.line*float64(len(lines))+1.2)
		}
		c.heights = append(c.heights, high)
	}
	return c
}

// choose puts a question with its answers below it.
func (s *sheet) choose(q question) {
	a := s.asked(q, s.width()-symbolWide)
	c := s.choosing(q, s.width()-symbolWide)
	height := a.height + 1
	for _, h := range c.heights {
		height += h
	}
	s.put(height+s.between(), func(y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(a, s.left(), y) })
			y += a.height + 1
			s.doc.In(pdf.L, func() {
				for i, answer := range q.Answers {
					row, column := i/c.columns, i%c.columns
					if column == 0 && row > 0 {
						y += c.heights[row-1]
					}
					x := s.left() + symbolWide + float64(column)*(c.width+tickApart)
					s.doc.In(pdf.LI, func() { s.toTick(answer, c, c.lines[i], x, y) })
				}
			})
		})
	})
}

// toTick draws an answer with its box.
func (s *sheet) toTick(a lesson.Answer, c choosing, lines []string, x, y float64) {
	isTicked := s.mentors && a.Right
	name, style := s.say("tick"), regular
	if isTicked {
		name, style = s.say("choose-right"), bold
	}
	s.doc.In(pdf.Lbl, func() {
		s.doc.In(pdf.Form, func() {
			s.tick(x+0.2, y+0.5, tickBox)
			if isTicked {
				s.doc.LineWidth(0.6)
				s.doc.Line(x+0.9, y+2.4, x+1.8, y+3.3)
				s.doc.Line(x+1.8, y+3.3, x+4.2, y-0.2)
			}
		}, pdf.Alt(name))
	})
	left := x + tickBox + afterTick
	s.doc.In(pdf.LBody, func() {
		s.font(style, body)
		s.lines(left, y, lines, c.line)
		if s.mentors && a.Hint != nil {
			s.hintBeside(a.Hint.Prompt, left+s.doc.Width(printable(lines[len(lines)-1]))+3, x+c.width,
				y+c.line*float64(len(lines)-1))
		}
	})
}

// hintBeside writes a hint on what is left of an answer's last line, if it has room for all of it.
func (s *sheet) hintBeside(hint string, from, to, y float64) {
	line := s.font(regular, small)
	if lines := s.wrap(hint, to-from); to > from && len(lines) == 1 && s.doc.Width(lines[0]) <= to-from {
		s.lines(from, y+0.5, lines, line)
	}
}
