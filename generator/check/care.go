package check

import (
	"strings"
	"unicode"

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
		c, ok := p.Card(ref.Value)
		if !ok {
			hint := "the cards are " + strings.Join(names, ", ")
			if near := quantity.Nearest(ref.Value, names); len(near) == 1 {
				hint = "did you mean " + near[0] + "?"
			}
			problems.Error(l.File, ref.At, "unknown-card", "there is no care card care/"+ref.Value+".md", hint)
			continue
		}
		cards = append(cards, c)
	}
	text := proseOf(l.Body, l.Markdown)
	mentions(p, l, cards, text, problems)
	steps(p, l, problems)
}

// steps refuses a numbered step that tells students to do what a card leaves to adults. A
// step that gives it to an adult, or forbids it, is welcome.
func steps(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		item, ok := n.(*ast.ListItem)
		if !ok || !entering || lesson.ForMentors(n) || !item.Parent().(*ast.List).IsOrdered() {
			return ast.WalkContinue, nil
		}
		text := proseOf(item, l.Markdown)
		for _, c := range p.Cards {
			for _, m := range c.Mentions {
				at, found := findWord(text, m.Value)
				if !c.Adults || !found || leftAlone(text) {
					continue
				}
				problems.Error(l.File, at, "adults-step", "a numbered step tells students about “"+m.Value+"”, which the card "+c.Name+" leaves to adults",
					"give the step to an adult by name, or move it to the mentor notes")
			}
		}
		return ast.WalkContinue, nil
	})
}

// leftAlone tells whether a step gives its work to somebody grown up, or forbids it.
func leftAlone(step []piece) bool {
	for _, word := range []string{"adult", "adults", "mentor", "mentors", "never", "not", "no", "don't"} {
		if _, found := findWord(step, word); found {
			return true
		}
	}
	return false
}

// cardsOf says which cards there are to choose from.
func cardsOf(names []string) string {
	if len(names) == 0 {
		return "with the name of a card that you write into the folder care/; a card may be for a task as plain as a damp cloth"
	}
	return "with one of " + strings.Join(names, ", ")
}

// cleaners are the words that call for a card whatever the pack's cards mention.
var cleaners = []string{"solvent", "solvents", "spray", "sprays", "cleaner", "cleaners", "aerosol", "aerosols"}

func mentions(p *lesson.Pack, l *lesson.Lesson, cards []*lesson.Card, text []piece, problems *problem.List) {
	has := func(c *lesson.Card) bool {
		for _, have := range cards {
			if have == c {
				return true
			}
		}
		return false
	}
	for _, c := range p.Cards {
		for _, m := range c.Mentions {
			if at, found := findWord(text, m.Value); found && !has(c) {
				problems.Error(l.File, at, "card-missing", "the lesson names “"+m.Value+"” and does not carry its care card",
					"add "+c.Name+" to the header's care")
			}
		}
	}
	for _, word := range cleaners {
		at, found := findWord(text, word)
		if found && !coveredBy(p.Cards, word) {
			problems.Error(l.File, at, "card-missing", "the lesson names a "+strings.TrimSuffix(word, "s")+", and no care card of the pack mentions it",
				"write a care card for it, with the word among its mentions, and add it to the header's care")
			continue
		}
		if found && !coveredBy(cards, word) {
			problems.Error(l.File, at, "card-missing", "the lesson names a "+strings.TrimSuffix(word, "s")+" and carries no care card for one",
				"add the card of that substance to the header's care")
		}
	}
}

func coveredBy(cards []*lesson.Card, word string) bool {
	word = strings.TrimSuffix(word, "s")
	for _, c := range cards {
		for _, m := range c.Mentions {
			if strings.Contains(strings.ToLower(m.Value), word) {
				return true
			}
		}
	}
	return false
}

// A piece is a run of prose in small letters, and where it starts in the file.
type piece struct {
	lower string
	at    int
}

// pieceOf is empty where small letters are of another length; such scripts have none of
// the words that are looked for.
func pieceOf(text string, at int) piece {
	lower := strings.ToLower(text)
	if len(lower) != len(text) {
		lower = ""
	}
	return piece{lower, at}
}

// proseOf gives the text of a document, a piece for each run of text.
func proseOf(body ast.Node, src []byte) []piece {
	var all []piece
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			s := t.Segment
			all = append(all, pieceOf(string(src[s.Start:s.Stop]), s.Start))
		}
		if block, ok := n.(*lesson.WorkBlock); ok && entering {
			for _, s := range block.Statements {
				all = append(all, pieceOf(s.Prompt, s.At.Start))
			}
		}
		return ast.WalkContinue, nil
	})
	return all
}

// findWord looks for a word or phrase that stands on its own, whatever its capitals.
func findWord(text []piece, phrase string) (source.Span, bool) {
	phrase = strings.ToLower(phrase)
	if phrase == "" {
		return source.Span{}, false
	}
	for _, p := range text {
		lower := p.lower
		for from := 0; ; {
			i := strings.Index(lower[from:], phrase)
			if i < 0 {
				break
			}
			i += from
			if alone(lower, i, i+len(phrase)) {
				return source.Span{Start: p.at + i, End: p.at + i + len(phrase)}, true
			}
			from = i + 1
		}
	}
	return source.Span{}, false
}

func alone(s string, start, end int) bool {
	before := strings.TrimRightFunc(s[:start], unicode.IsLetter)
	after := strings.TrimLeftFunc(s[end:], unicode.IsLetter)
	return len(before) == start && len(after) == len(s)-end
}
