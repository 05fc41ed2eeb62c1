package worksheets

// Rows with one box: what is measured, what is guessed, and what is given once a team's own numbers are known.

import (
	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// isTold tells whether a given's value is the same for all, so that it is printed.
func (s *sheet) isTold(q question) bool {
	return q.Kind == lesson.Given && !q.OfStudents && !q.Guessed && q.Text() != ""
}

// sample is what mentors find in a box that is not a find's.
func (s *sheet) sample(q question) string {
	switch {
	case !s.mentors:
		return ""
	case q.Guessed:
		return s.say("guessed-" + string(q.Kind))
	}
	return s.number(q.Text())
}

// stacked lays a row out for a column, its box below the prompt, or beside it where that leaves room.
func (s *sheet) stacked(q question) piece {
	box := s.narrowBox(q)
	if p := s.amount(q, s.width(), box); p.lines <= 2 && s.width()-symbolWide-box-2 > leastBeside {
		return p
	}
	a := s.asked(q, s.width()-symbolWide)
	return piece{a.height + 0.5 + boxHigh + s.between(), len(a.lines), func(x, y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(a, x, y) })
			s.boxOf(q, place{x + s.width() - box, y + a.height + 0.5, box, boxHigh})
		})
	}}
}

// leastBeside is the width in which a prompt is still easy to read.
const leastBeside = 24.0

// boxOf draws the box of a row; that of a guess is dashed.
func (s *sheet) boxOf(q question, at place) {
	if q.Kind == lesson.Predict {
		s.doc.Dashes(1.4, 1.1)
		defer s.doc.Dashes()
	}
	s.box(at.X, at.Y, at.Width, at.Height, entry{s.nameOf(q), s.unit(q.Unit()), s.sample(q), regular})
}

// amount lays a row of one box out in a width.
func (s *sheet) amount(q question, width, box float64) piece {
	a := s.asked(q, width-symbolWide-box-2)
	return piece{max(a.height, boxHigh) + s.between(), len(a.lines), func(x, y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(a, x, y+1) })
			s.boxOf(q, place{x + width - box, y, box, boxHigh})
		})
	}}
}
