package check

// Steps that are for adults.

import (
	"slices"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/source"
)

// adultsSteps refuses a step that tells students to do what a card leaves to adults: one with a number, whatever it
// says of it, and any other text that tells them to handle it. A step that names an adult who does it, or forbids it,
// is welcome.
func (c cover) adultsSteps(l *lesson.Lesson, own *prose.Phrases, said []prose.Found, problems *problem.List) {
	if !slices.ContainsFunc(said, func(f prose.Found) bool { return c.leaving(f.Entry) != nil }) {
		return // so it is with most lessons, and steps take time to find
	}
	r := reader{cover: c, l: l, own: own, problems: problems}
	for _, passage := range prose.Passages(l) {
		r.passage(passage)
	}
}

// leaving gives the card that leaves what a lesson says to adults, nil if there is none. What a card mentions it leaves
// to them in every lesson; a word of the table stands for it where the lesson carries the card.
func (c cover) leaving(e *prose.Entry) *lesson.Card {
	cards := c.mentioning(e.Text)
	switch {
	case e.Otherwise:
		return nil
	case e.Word != nil:
		cards = c.covering(e.Word)
	}
	for _, card := range cards {
		if c.leavesToAdults(card, e.Text) {
			return card
		}
	}
	return nil
}

// leavesToAdults tells whether a card leaves a phrase to adults. One for both does if it says so of the phrase where it
// says what adults do, and not where it says what students do.
func (c cover) leavesToAdults(card *lesson.Card, phrase string) bool {
	return card.Adults || card.Both && c.tongue.Has(card.AdultsMay, phrase) && !c.tongue.Has(card.StudentsMay, phrase)
}

// A reader goes through a lesson's texts and keeps in mind what was named since the last heading.
type reader struct {
	cover
	l        *lesson.Lesson
	own      *prose.Phrases
	problems *problem.List

	named   []prose.Named
	by      *lesson.Card // that leaves the last of them to adults
	between []prose.Run  // what was said since
}

// passage reads one text. A word is reported once in it.
func (r *reader) passage(p prose.Passage) {
	if p.Heading {
		r.named, r.between = nil, nil
	}
	if r.tongue != nil {
		r.foreign(p)
		return
	}
	told := map[string]bool{}
	tells := func(clause prose.Run, part source.Span) bool {
		return !p.Quiet && (p.Step || prose.Instructs(clause, part)) && !prose.LeavesAlone(clause, part)
	}
	for _, clause := range prose.Clauses(p.Run) {
		hits := slices.DeleteFunc(r.own.In(clause.Text), func(h prose.Hit) bool { return r.leaving(h.Entry) == nil })
		refused := false
		for _, h := range hits {
			part := h.Part()
			if tells(clause, part) && !told[h.Text] {
				r.refuse(clause, h)
				refused, told[h.Text] = true, true
			}
		}
		if len(r.named) > 0 && !refused {
			if part, how := prose.StandsFor(clause, r.named, r.between); how != prose.Silent && tells(clause, part) {
				r.standsFor(clause, part, how, told)
			}
		}
		if len(hits) == 0 {
			r.between = append(r.between, clause)
			continue
		}
		r.between = nil
		for _, h := range hits {
			r.named = append(r.named,
				prose.Named{Phrase: h.Text, Substance: substance(h.Word, h.Text), Quietly: p.Quiet})
			r.by = r.leaving(h.Entry)
		}
	}
}

// foreign reads one text in a language that is not English.
func (r *reader) foreign(p prose.Passage) {
	text := p.InSmallLetters()
	hits := slices.DeleteFunc(r.own.In(text.Text), func(h prose.Hit) bool { return r.leaving(h.Entry) == nil })
	told := map[string]bool{}
	if !p.Quiet {
		for _, t := range r.tongue.Tells(text, hits, r.named) {
			switch {
			case t.Hit == nil:
				r.standsForIn(text, t, hits, told)
			case !told[t.Hit.Text]:
				told[t.Hit.Text] = true
				r.refuse(text, *t.Hit)
			}
		}
	}
	for _, h := range hits {
		r.named = append(r.named, prose.Named{Phrase: h.Text, Quietly: p.Quiet})
		r.by = r.leaving(h.Entry)
	}
}

// standsForIn reports a word that stands for what was named, in this text or in one before.
func (r *reader) standsForIn(text prose.Run, t prose.Telling, hits []prose.Hit, told map[string]bool) {
	named, by := r.named, r.by
	for _, h := range hits {
		if h.Start < t.Part.Start {
			r.named, r.by = append(slices.Clone(r.named), prose.Named{Phrase: h.Text}), r.leaving(h.Entry)
		}
	}
	if len(r.named) > 0 {
		r.standsFor(text, t.Part, t.How, told)
	}
	r.named, r.by = named, by
}

// substance tells whether what a card mentions is used up; what is not in the table is taken for it.
func substance(w *hazard.Word, phrase string) bool {
	if w != nil {
		return w.Substance()
	}
	ends := prose.Endings(phrase)
	return len(ends) == 0 || ends[0].Word.Substance()
}

const beginWithAdult = "begin the sentence with who does it, as in  Your mentor …, or with  Never …; or move it " +
	"to the mentor notes"

// refuse reports a step that names what is for adults.
func (r *reader) refuse(clause prose.Run, h prose.Hit) {
	what := "a step tells students about “" + h.Text + "”, which the card " + r.leaving(h.Entry).Name + " leaves " +
		"to adults"
	r.problems.Error(r.l.File, clause.Span(h.Start, h.End), "adults-step", what, beginWithAdult)
}

// standsFor reports a step that uses what was named before by another word.
func (r *reader) standsFor(clause prose.Run, part source.Span, how prose.Sureness, told map[string]bool) {
	word, last := string(clause.Text[part.Start:part.End]), r.named[len(r.named)-1].Phrase
	if told[word] {
		return
	}
	told[word] = true
	at := clause.Span(part.Start, part.End)
	if how == prose.Perhaps {
		r.problems.Caution(r.l.File, at, "adults-step-unsure",
			"“"+word+"” may stand for “"+last+"”, which the card "+r.by.Name+" leaves to adults",
			"write the thing's name instead of “"+word+"”; if it does stand for it, "+beginWithAdult)
		return
	}
	r.problems.Error(r.l.File, at, "adults-step",
		"a step tells students to handle “"+word+"”, after “"+last+"”, "+
			"which the card "+r.by.Name+" leaves to adults",
		beginWithAdult+"; if “"+word+"” is another thing, write its name")
}
