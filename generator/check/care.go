package check

import (
	"regexp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// careCover sees to it that a lesson has a care card, that its cards exist, and that
// what its text names has its card.
func careCover(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	names := cardNames(p)
	if len(l.Care) == 0 && l.HasHeader {
		problems.Error(l.File, l.HeaderAt, "no-care", "the lesson names no care card",
			"add a line  care: [NAME]  to the header, "+cardsOf(names))
	}
	var cards []*lesson.Card
	for _, ref := range l.Care {
		if c, ok := p.Card(ref.Value); ok {
			cards = append(cards, c)
		} else {
			unknownCard(p, l.File, ref, problems)
		}
	}
	drivingCards(p, l, problems)
	said := newSeeker(l)
	steps(p, l, said, problems)
	mentions(p, l, cards, said, problems)
}

// unknownCard reports the name of a card that is not there.
func unknownCard(p *lesson.Pack, f *source.File, ref lesson.Text, problems *problem.List) {
	names := cardNames(p)
	hint := "the cards are " + strings.Join(names, ", ")
	if near := quantity.Nearest(ref.Value, names); len(near) == 1 {
		hint = "did you mean " + near[0] + "?"
	}
	problems.Error(f, ref.At, "unknown-card", "there is no care card care/"+ref.Value+".md", hint)
}

// drivingCards asks a lesson in which a robot drives for the cards that the pack wants there. One that records runs
// or fills a program in is taken for such a lesson; a pack with others leaves the field out.
func drivingCards(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	if len(p.Driving) == 0 || !l.HasHeader || !drives(l) {
		return
	}
	var missing []string
	for _, want := range p.Driving {
		if !slices.ContainsFunc(l.Care, func(has lesson.Text) bool { return has.Value == want.Value }) {
			missing = append(missing, want.Value)
		}
	}
	if len(missing) > 0 {
		names := strings.Join(missing, ", ")
		problems.Error(l.File, l.HeaderAt, "card-rule", "the lesson records runs or has a program to fill in, and does not carry "+names,
			"add "+names+" to the header's care; pack.yaml asks for its cards in each such lesson")
	}
}

// drives tells whether a lesson records runs or fills a program in.
func drives(l *lesson.Lesson) bool {
	found := false
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *lesson.WorkBlock:
			found = found || slices.ContainsFunc(n.Statements, func(s *lesson.Statement) bool { return s.Kind == lesson.Record })
		case *lesson.FilledCode:
			found = true
		}
		return ast.WalkContinue, nil
	})
	return found
}

// cardsOf says which cards there are to choose from.
func cardsOf(names []string) string {
	if len(names) == 0 {
		return "with the name of a card that you write into the folder care/; a card may be for a task as plain as a damp cloth"
	}
	return "with one of " + strings.Join(names, ", ")
}

// A cleaner is a word that calls for a card whatever the pack's cards mention.
type cleaner struct{ word, article string }

var cleaners = []cleaner{
	{"solvent", "a"}, {"spray", "a"}, {"cleaner", "a"}, {"aerosol", "an"}, {"degreaser", "a"}, {"alcohol", "an"},
	{"acetone", "the solvent"}, {"isopropanol", "the solvent"}, {"white spirit", "the solvent"}, {"methylated spirit", "the solvent"},
	{"bleach", "the cleaner"}, {"cleaning fluid", "a"},
}

// harmless are names and comparisons that a cleaner's word is part of.
var harmless = map[string]*regexp.Regexp{
	"cleaner": regexp.MustCompile(`(?:vacuum|pipe|street|window)[ \p{Pd}]+cleaners?|cleaner than|(?:\b(?:is|are|was|were|be|gets?|got|looks?|becomes?|became|much|even|far)) cleaner`),
	"spray":   regexp.MustCompile(`spray bottles? of water`),
	"alcohol": regexp.MustCompile(`alcohol[ \p{Pd}]+free`),
}

func mentions(p *lesson.Pack, l *lesson.Lesson, cards []*lesson.Card, said *seeker, problems *problem.List) {
	var told []string
	for _, c := range p.Cards {
		for _, m := range c.Mentions {
			if at, found := said.find(m.Value); found && !slices.Contains(cards, c) {
				problems.Error(l.File, at, "card-missing", "the lesson names “"+m.Value+"” and does not carry its care card",
					"add "+c.Name+" to the header's care")
				told = append(told, m.Value)
			}
		}
	}
	for _, phrase := range told {
		said.forget(phrase)
	}
	for word, pattern := range harmless {
		said.blank(pattern, []byte(word))
	}
	for _, c := range cleaners {
		at, found := said.find(c.word)
		what := "the lesson names " + strings.TrimSpace(c.article+" "+c.word)
		switch {
		case found && !coveredBy(p.Cards, c.word):
			problems.Error(l.File, at, "card-missing", what+", and no care card of the pack mentions it",
				"write a care card for it, with the word among its mentions, and add it to the header's care")
		case found && !coveredBy(cards, c.word):
			problems.Error(l.File, at, "card-missing", what+" and carries no care card for one",
				"add the card of that substance to the header's care")
		}
	}
}

// coveredBy tells whether a card mentions a word, alone or in a phrase.
func coveredBy(cards []*lesson.Card, word string) bool {
	pattern := lesson.MentionPattern(lesson.MentionWords(word))
	return slices.ContainsFunc(cards, func(c *lesson.Card) bool {
		return slices.ContainsFunc(c.Mentions, func(m lesson.Text) bool { return pattern.MatchString(strings.ToLower(m.Value)) })
	})
}
