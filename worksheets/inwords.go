package worksheets

// Questions that are answered in words, with lines to write on.

import (
	"trundle/worksheets/pdf"
)

// lineApart is from one line to write on to the next: large hands need as much.
const lineApart = 8.0

// answerLines is how many lines there are for an answer.
func (s *sheet) answerLines() int {
	if s.isTight() {
		return 2
	}
	return 3
}

// inWords puts a question with lines to write on. Mentors read there what to listen for.
func (s *sheet) inWords(q question) {
	a := s.asked(q, s.width()-symbolWide)
	room := lineApart * float64(s.answerLines())
	s.put(a.height+room+s.between(), func(y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(a, s.left(), y) })
			top := y + a.height
			if s.mentors && len(q.Listens) > 0 {
				s.listens(q, top+1, room)
				return
			}
			s.doc.In(pdf.Form, func() {
				for line := 1; line <= s.answerLines(); line++ {
					s.writing(s.left()+symbolWide, s.right(), top+lineApart*float64(line))
				}
			}, pdf.Alt(s.say("lines-for", s.nameOf(q))))
		})
	})
}

// listens writes what to listen for where students have lines, as much as has room.
func (s *sheet) listens(q question, y, room float64) {
	const size = 9.0
	line := s.font(regular, size) * 0.95
	left := int(room / line)
	for _, l := range q.Listens {
		s.font(regular, size)
		lines := short(s.wrap(s.led(string(l.Kind))+l.Prompt, s.width()-symbolWide), max(left, 1))
		if left -= len(lines); left < 0 {
			return
		}
		s.doc.In(pdf.P, func() { s.lines(s.left()+symbolWide, y, lines, line) })
		y += line * float64(len(lines))
	}
}
