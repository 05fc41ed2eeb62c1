package check

// What a lesson names without its care card, and what a pack says it means otherwise.

import (
	"slices"
	"strings"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/source"
)

// vocabulary are the pack's own phrases: what its cards mention, and what it means otherwise.
func vocabulary(p *lesson.Pack) *prose.Phrases {
	own := prose.NewPhrases(prose.In(p.Language))
	for _, c := range p.Cards {
		for _, m := range c.Mentions {
			own.Add(&prose.Entry{Text: m.Value})
		}
	}
	for _, m := range p.MeantOtherwise {
		own.Add(&prose.Entry{Text: m.Phrase.Value, Otherwise: true})
	}
	return own
}

// Phrases gives what finds the phrases in a lesson that its pack means otherwise, and the words of its cards.
func Phrases(p *lesson.Pack) func(*lesson.Lesson) []string {
	own := vocabulary(p)
	return func(l *lesson.Lesson) []string {
		if before, ok := l.Noticed(); ok {
			return before.Phrases
		}
		var all []string
		for _, f := range prose.Find(l, own) {
			if !slices.Contains(all, f.Text) {
				all = append(all, f.Text)
			}
		}
		return all
	}
}

// A cover knows which cards there are for what a lesson says. A lesson says the same words many times, so it keeps what
// it found of each.
type cover struct {
	pack     *lesson.Pack
	tongue   *prose.Tongue // of its language
	carried  []*lesson.Card
	covered  map[*hazard.Word][]*lesson.Card // by those that are carried
	mentions map[string][]*lesson.Card       // of all the pack has
}

func coverOf(p *lesson.Pack, carried []*lesson.Card) cover {
	return cover{p, prose.In(p.Language), carried, map[*hazard.Word][]*lesson.Card{}, map[string][]*lesson.Card{}}
}

// covering gives the carried cards that cover a word.
func (c cover) covering(w *hazard.Word) []*lesson.Card {
	cards, known := c.covered[w]
	if !known {
		cards = c.findCovering(c.carried, w)
		c.covered[w] = cards
	}
	return cards
}

// mentioning gives the pack's cards that mention a phrase.
func (c cover) mentioning(phrase string) []*lesson.Card {
	cards, known := c.mentions[phrase]
	if !known {
		cards = c.findMentioning(c.pack.Cards, phrase)
		c.mentions[phrase] = cards
	}
	return cards
}

// findMentioning gives the cards that mention a phrase, one or many of it.
func (c cover) findMentioning(cards []*lesson.Card, phrase string) []*lesson.Card {
	var all []*lesson.Card
	for _, card := range cards {
		if slices.ContainsFunc(card.Mentions, func(m lesson.Text) bool { return c.tongue.Same(m.Value, phrase) }) {
			all = append(all, card)
		}
	}
	return all
}

// findCovering gives the cards that cover a word of the table: those that mention it, and those that mention a phrase
// that ends with it, as "window cleaner" ends with "cleaner". The other way round, a card that mentions "knife" or
// "battery" covers a craft knife and a lithium battery; but one that mentions "cleaner" does not cover oven cleaner,
// which is another substance.
func (c cover) findCovering(cards []*lesson.Card, w *hazard.Word) []*lesson.Card {
	var all []*lesson.Card
	for _, card := range cards {
		if slices.ContainsFunc(card.Mentions, func(m lesson.Text) bool { return covers(c.tongue, m.Value, w) }) {
			all = append(all, card)
		}
	}
	return all
}

func covers(tongue *prose.Tongue, mention string, w *hazard.Word) bool {
	for _, e := range tongue.Kinds(mention) {
		if e.Word == w || tongue != nil && e.Word.Text == w.Text ||
			w.Alarm == hazard.Ask && !w.Substance() && e.Word.Kind == w.Kind {
			return true
		}
	}
	return tongue.Same(mention, w.Text) || !w.Substance() && tongue.Heads(w.Text, mention)
}

// report finds what the lesson's text names without its card: each word once, where it stands first. Whether it
// is in a note for mentors makes no difference, since the room is the same.
func (c cover) report(l *lesson.Lesson, said []prose.Found, problems *problem.List) {
	reported := map[string]bool{}
	once := func(key string) bool {
		was := reported[key]
		reported[key] = true
		return !was
	}
	for _, f := range said {
		switch {
		case f.Otherwise:
		case f.Word == nil:
			for _, card := range c.mentioning(f.Text) {
				if !slices.Contains(c.carried, card) && once(card.Name+" "+f.Text) {
					problems.Error(l.File, f.At, "card-missing", "the lesson mentions “"+f.Text+"” without its "+
						"care card",
						"add "+card.Name+" to  care: […]  in the header")
				}
			}
		case len(c.covering(f.Word)) == 0:
			if f.Word.Alarm == hazard.Ask || f.Doubtful {
				if once(f.Word.Kind) { // a caution of each kind is enough to look for the card
					c.unsure(l, f, problems)
				}
			} else if once(f.Text) {
				c.missing(l, f, problems)
			}
		case f.Qualified && f.Word.Substance() && len(c.findMentioning(c.carried, f.Text)) == 0:
			// The card is for a window cleaner, say. "The cleaner" may well be that one; "moss cleaner" may not.
			if once("qualified " + f.Text) {
				problems.Caution(l.File, f.At, "card-unsure",
					"the lesson may mean another "+f.Text+" here than its care card does",
					"write what the card mentions, or leave the word before it out; a card for another substance "+
						"mentions it "+
						"by its name")
			}
		}
	}
}

// missing reports a word that surely needs a card.
func (c cover) missing(l *lesson.Lesson, f prose.Found, problems *problem.List) {
	what := "the lesson mentions “" + f.Text + "”,"
	// “spray”, a spray, would say it twice
	if _, kind, _ := strings.Cut(f.Word.Is(), " "); !strings.HasSuffix(f.Text, kind) {
		what += " " + f.Word.Is() + ","
	}
	if cards := c.findCovering(c.pack.Cards, f.Word); len(cards) > 0 {
		problems.Error(l.File, f.At, "card-missing", what+" and does not carry the care card for it",
			"add "+namesOf(cards)+" to  care: […]  in the header")
		return
	}
	problems.Error(l.File, f.At, "card-missing", what+" and no care card of the pack does",
		"write a care card for it that mentions “"+f.Text+"”, and add the card to  care: […]  in the header; a "+
			"phrase that "+
			"means something else goes below  meant-otherwise:  in pack.yaml")
}

// unsure reports a word that may need one.
func (c cover) unsure(l *lesson.Lesson, f prose.Found, problems *problem.List) {
	hint := "carry a care card with the word among its mentions"
	if cards := c.findCovering(c.pack.Cards, f.Word); len(cards) > 0 {
		hint = "add " + namesOf(cards) + " to  care: […]  in the header"
	}
	problems.Caution(l.File, f.At, "card-unsure",
		"the lesson mentions “"+f.Text+"”, which may be "+f.Word.Is()+" without a care card",
		hint+"; a phrase that means something else goes below  meant-otherwise:  in pack.yaml")
}

// namesOf lists the names of cards one of which will do.
func namesOf(cards []*lesson.Card) string {
	var names []string
	for _, c := range cards {
		names = append(names, c.Name)
	}
	return strings.Join(names, " or ")
}

// meantOtherwise checks what a pack means otherwise: a phrase says more than the bare word, has a word that needs a
// card, and stands in a lesson.
func meantOtherwise(p *lesson.Pack, problems *problem.List) {
	plain := vocabulary(&lesson.Pack{Cards: p.Cards, Language: p.Language})
	unused := map[string]source.Span{}
	for _, m := range p.MeantOtherwise {
		hits := plain.In(prose.InHeader(m.Phrase.Value, m.Phrase.At).Text)
		switch {
		case len(hits) == 0:
			problems.Caution(p.File, m.Phrase.At, "otherwise-idle",
				"“"+m.Phrase.Value+"” has no word that needs a care card", "leave it out")
			continue
		case slices.ContainsFunc(hits, func(h prose.Hit) bool {
			return prose.In(p.Language).Same(h.Text, m.Phrase.Value) && (h.Word == nil || h.Word.Alarm != hazard.Ask)
		}):
			problems.Error(p.File, m.Phrase.At, "otherwise-wide",
				"“"+m.Phrase.Value+"” alone would hide every place that does mean it",
				"write it with the words around it, as in  cleaner data: …")
			continue
		}
		unused[m.Phrase.Value] = m.Phrase.At
	}
	if len(unused) == 0 {
		return
	}
	find := Phrases(p)
	for _, l := range p.Lessons {
		for _, text := range find(l) {
			delete(unused, text)
		}
	}
	for _, m := range p.MeantOtherwise {
		if at, ok := unused[m.Phrase.Value]; ok {
			problems.Caution(p.File, at, "otherwise-idle", "no lesson says “"+m.Phrase.Value+"”", "leave it out")
		}
	}
}
