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
	return q.Text()
}

// amount lays a row of one box out in a width. The box of a guess is dashed.
func (s *sheet) amount(q question, width, box float64) piece {
	a := s.asked(q, width-symbolWide-box-2)
	return piece{max(a.height, boxHigh) + s.between(), len(a.lines), func(x, y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(a, x, y+1) })
			if q.Kind == lesson.Predict {
				s.doc.Dashes(1.4, 1.1)
			}
			s.box(x+width-box, y, box, boxHigh, entry{s.nameOf(q), q.Unit(), s.sample(q), regular})
			if q.Kind == lesson.Predict {
				s.doc.Dashes()
			}
		})
	}}
}
