package worksheets

// What to take care of, on the first page, before the work.

import (
	"strings"

	"trundle/worksheets/pdf"
)

// Card is a care card in short, as the reader of a sheet is to see it.
type Card struct {
	Title       string
	Own         bool   // the reader's own; a card for adults is none of the students'
	Adults      bool   // for adults alone
	Both        bool   // students may do a part of it
	StudentsMay string // of a card for both
	AdultsMay   string // of a card for both
	SignalWord  string // "danger" or "warning", "" if the card has no hazard statements
	TakeCare    string // what matters most
	Wear        []string
}

// inShort is all that a sheet says of a card beside its title.
func (s *sheet) inShort(c Card) string {
	if !c.Own {
		return s.say("not-yours") + " " + s.say("not-yours-call")
	}
	var all []string
	if c.SignalWord != "" {
		all = append(all, strings.ToUpper(s.say("signal-"+c.SignalWord))+".")
	}
	all = append(all, c.TakeCare)
	if len(c.Wear) > 0 {
		all = append(all, s.say("wear")+": "+strings.Join(c.Wear, "; ")+".")
	}
	switch {
	case c.Both:
		all = append(all, s.say("who-students")+": "+c.StudentsMay, s.say("who-adults")+": "+c.AdultsMay)
	case c.Adults:
		all = append(all, s.say("for-adults")+".")
	default:
		all = append(all, s.say("for-students")+".")
	}
	return strings.Join(all, " ")
}

// care puts a line for each card into a frame: its title, what matters most, what to wear, who does it; and once
// who decides.
func (s *sheet) care(cards []Card) {
	const pad, size, share = 2.0, 9.0, 0.24
	if len(cards) == 0 {
		return
	}
	type row struct{ title, text []string }
	var rows []row
	line := s.font(bold, size)
	height := 2*pad + line
	titles := share * s.width()
	for _, c := range cards {
		s.font(bold, size)
		r := row{title: short(wrap(s.doc, c.Title, titles-pad), 4)}
		s.font(regular, size)
		r.text = wrap(s.doc, s.inShort(c), s.width()-titles-2*pad)
		rows = append(rows, r)
		height += line*float64(max(len(r.title), len(r.text))) + 1
	}
	authority := wrap(s.doc, s.say("authority"), s.width()-2*pad)
	height += line * float64(len(authority))
	if height > s.foot()-Margin { // more than a page; nothing of it may be lost
		for i, c := range cards {
			s.paragraph(bold, size, 0, s.say("care")+": "+strings.Join(rows[i].title, " "))
			s.paragraph(regular, size, 0, s.inShort(c))
		}
		s.paragraph(regular, size, 0, s.say("authority"))
		return
	}
	s.put(height, func(y float64) {
		s.doc.LineWidth(0.5)
		s.doc.Rect(s.left(), y, s.width(), height, pdf.Stroke)
		y += pad
		s.font(bold, size)
		s.lines(s.left()+pad, y, []string{printable(s.say("care"))}, line)
		y += line
		for _, r := range rows {
			s.font(bold, size)
			s.lines(s.left()+pad, y, r.title, line)
			s.font(regular, size)
			s.lines(s.left()+titles+pad, y, r.text, line)
			y += line*float64(max(len(r.title), len(r.text))) + 1
		}
		s.lines(s.left()+pad, y, authority, line)
	})
	s.gap(2)
}
