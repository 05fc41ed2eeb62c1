package worksheets

// What to take care of, on the first page, before the work.

import (
	"slices"
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

// careInShort is all that a sheet says of a card beside its title: what matters most, what to wear, and what is an
// adult's part of it. It is the same in both editions.
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
		all = append(all, s.led("wear")+strings.Join(c.Wear, "; ")+".")
	}
	if c.Both && !s.fit.brief {
		all = append(all, s.led("for-adults")+c.AdultsMay)
	}
	return strings.Join(all, " ")
}

// care puts what to take care of as one paragraph, card by card, and once who decides.
func (s *sheet) care(cards []Card) {
	if len(cards) == 0 {
		return
	}
	spans := kept(s.remembered().care, careIn{&cards[0], s.fit.brief}, func() []span { return s.careSpans(cards) })
	lines := s.setLines(spans, s.headSize(), s.width())
	s.gap(2)
	s.doc.In(pdf.P, func() { s.putLines(lines, 0, s.headSize()) })
}

// careIn are a lesson's cards in a fit.
type careIn struct {
	first *Card
	brief bool
}

// careSpans is what a sheet says of cards.
func (s *sheet) careSpans(cards []Card) []span {
	spans := slices.Clone(s.wordsOf(s.say("care")+".", bold))
	put := func(title, text string) {
		for _, words := range [][]span{s.wordsOf(title, bold), s.wordsOf(text, regular)} {
			from := len(spans)
			if spans = append(spans, words...); from < len(spans) {
				spans[from].space = true
			}
		}
	}
	for _, c := range cards {
		put(c.Title+s.say("colon"), s.careInShort(c))
	}
	put("", s.say("authority"))
	return slices.Clip(spans)
}
