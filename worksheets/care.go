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

// inShort is all that a sheet says of a card beside its title. It is the same in both editions: what only an adult does
// is told on the cards.
func (s *sheet) careInShort(c Card) string {
	if !c.Own || c.Adults {
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
	if c.Both {
		all = append(all, s.say("who-students")+": "+c.StudentsMay, s.say("who-adults")+": "+c.AdultsMay)
	}
	return strings.Join(all, " ")
}

// care puts a paragraph for each card: its title, what matters most, what to wear, who does it; and once who decides.
func (s *sheet) care(cards []Card) {
	if len(cards) == 0 {
		return
	}
	s.label("care")
	put := func(title, text string) {
		pieces := s.wordsOf(title, bold)
		more := s.wordsOf(text, regular)
		if len(pieces) > 0 && len(more) > 0 {
			more[0].space = true
		}
		lines := s.setLines(append(pieces, more...), headSize, s.width())
		s.doc.In(pdf.P, func() { s.putLines(lines, 0, headSize) })
	}
	for _, c := range cards {
		put(c.Title+".", s.careInShort(c))
	}
	put("", s.say("authority"))
}
