package check

// Which care cards a lesson needs.

import (
	"cmp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/locale"
	"trundle/generator/problem"
	"trundle/generator/prose"
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
		c, ok := p.Card(ref.Value)
		if !ok {
			unknownCard(p, l.File, ref, problems)
			c, ok = meantCard(p, ref) // a slip of the pen is one error, and not one more for each word of the card
		}
		if ok {
			cards = append(cards, c)
		}
	}
	drivingCards(p, l, cards, problems)
	own := vocabulary(p)
	said := prose.Find(l, own)
	c := coverOf(p, cards)
	if slices.Contains(locale.Tags(), p.Language) { // another one is a problem of pack.yaml
		unreadLanguage(p, l, problems)
	}
	c.adultsSteps(l, own, said, problems)
	// Without a header nobody knows its cards, nor what a card covers that cannot be read; both were reported.
	if l.HasHeader && !lacksCard(p, l) {
		c.report(l, said, problems)
	}
}

// lacksCard tells whether a card that a lesson lists is there and could not be read.
func lacksCard(p *lesson.Pack, l *lesson.Lesson) bool {
	return slices.ContainsFunc(l.Care, func(ref lesson.Text) bool { return p.IsUnread(cardFile(ref.Value)) })
}

// unreadLanguage asks for a human reader where no check knows the words for substances and tools.
func unreadLanguage(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	tongue := prose.In(p.Language)
	unread := tongue != nil && len(tongue.Substances) == 0
	switch {
	case !l.HasHeader || l.CareByHand == unread:
	case unread:
		problems.Error(l.File, l.HeaderAt, "care-by-hand",
			"no check knows the words for substances and tools in “"+p.Language+"”, so none can tell which care cards this "+
				"lesson needs, and who does its steps",
			"read the lesson for what needs a card or an adult, add the cards to its care, and then write  "+
				"care-by-hand: true  into the header")
	default:
		problems.Caution(l.File, l.HeaderAt, "care-by-hand",
			"checks read this lesson for what needs a care card, so that nothing is left to be done by hand",
			"leave  care-by-hand  out of the header")
	}
}

// unknownCard reports the name of a card that is not there.
func unknownCard(p *lesson.Pack, f *source.File, ref lesson.Text, problems *problem.List) {
	if p.IsUnread(cardFile(ref.Value)) {
		return
	}
	names := cardNames(p)
	if name := strings.TrimSuffix(strings.TrimPrefix(ref.Value, "care/"), ".md"); slices.Contains(names, name) {
		problems.Error(f, ref.At, "unknown-card", "a card is named without its folder and ending", "write  "+name)
		return
	}
	hint := cmp.Or(quantity.DidYouMean(ref.Value, names), "the cards are "+strings.Join(names, ", "))
	problems.Error(f, ref.At, "unknown-card", "there is no care card care/"+ref.Value+".md", hint)
}

// meantCard is the card that a name which there is not must have meant.
func meantCard(p *lesson.Pack, ref lesson.Text) (*lesson.Card, bool) {
	if near := quantity.Nearest(ref.Value, cardNames(p)); len(near) == 1 {
		return p.Card(near[0])
	}
	return nil, false
}

// drivingCards asks a lesson in which a robot drives for the cards that the pack wants there. One that records runs
// or fills a program in is taken for such a lesson; a pack with others leaves the field out.
func drivingCards(p *lesson.Pack, l *lesson.Lesson, cards []*lesson.Card, problems *problem.List) {
	if len(p.Driving) == 0 || !l.HasHeader || !drives(l) {
		return
	}
	var missing []string
	for _, want := range p.Driving {
		isIt := func(has *lesson.Card) bool { return has.Name == want.Value }
		if !slices.ContainsFunc(cards, isIt) && !p.IsUnread(cardFile(want.Value)) {
			missing = append(missing, want.Value)
		}
	}
	if len(missing) > 0 {
		names := strings.Join(missing, ", ")
		problems.Error(l.File, l.HeaderAt, "card-rule",
			"the lesson records runs or has a program to fill in, and does not carry "+names,
			"add "+names+" to the header's care; pack.yaml asks for its cards in each such lesson")
	}
}

// drives tells whether a lesson records runs or fills a program in.
func drives(l *lesson.Lesson) bool {
	found := false
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) { // the others: they neither record runs nor hold a program
		case *lesson.WorkBlock:
			found = found || slices.ContainsFunc(n.Statements,
				func(s *lesson.Statement) bool { return s.Kind == lesson.Record })
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
		return "with the name of a card that you write into the folder care/; a card may be for a task as plain " +
			"as a damp cloth"
	}
	return "with one of " + strings.Join(names, ", ")
}
