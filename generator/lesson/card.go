package lesson

// A care card: whom it speaks to, its parts, and what it says in short.

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/source"
)

// Card is a care card: safety notes for one substance or task.
type Card struct {
	File        *source.File
	Name        string // "damp-cloth"
	Language    string // of its pack
	Title       string
	Adults      bool   // for adults alone; so is a card that does not say whom it is for
	Both        bool   // students may do a part of it, and leave the rest to adults
	StudentsMay string // of a card for both: what students may do
	AdultsMay   string // of a card for both: what they leave to adults
	First       Text   // what to take care of, if the header says it
	Hazards     []Text
	Precautions []Text
	Wear        []string
	Limit       *Limit // of the substance's vapour, for adults at work; nil if the card gives none
	Everybody   *Limit // the same for everybody in the room, children and sensitive people included
	Mentions    []Text
	HeaderAt    source.Span
	HasHeader   bool // the header could be read
	Body        ast.Node
	Markdown    []byte
	Sections    []*Section

	// Headings are those that its language has for the parts that every card has, by their English titles.
	Headings map[string][]string
}

// TitleOf gives the English title of a part that every card has by its heading, or the heading as it is.
func (c *Card) TitleOf(heading string) string {
	heading = strings.TrimRight(heading, " \u00a0.:?!…")
	for title, others := range c.Headings {
		if slices.ContainsFunc(others, func(one string) bool { return strings.EqualFold(one, heading) }) {
			return title
		}
	}
	return heading
}

// The parts of a card that more than the check needs to find.
const (
	CardBefore = "Before"
	CardDuring = "During"
	CardAfter  = "After"
	CardWrong  = "If something goes wrong"
)

// A CardPart is a heading of level 2 of a card, and the blocks up to the next.
type CardPart struct {
	Title   string // "" before the first heading
	known   string // the same, in English if every card has such a part
	Heading *ast.Heading
	Blocks  []ast.Node
}

// Is tells whether a part has one of the titles that every card has. Marks at the end and capitals do not matter.
func (p *CardPart) Is(title string) bool {
	return strings.EqualFold(strings.TrimRight(p.known, " .:?!…"), title)
}

// Parts cuts a card's body at its headings.
func (c *Card) Parts() []*CardPart {
	var all []*CardPart
	if c.Body == nil {
		return nil
	}
	for n := c.Body.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok && h.Level <= 2 {
			title := TextOf(h, c.Markdown, nil)
			all = append(all, &CardPart{Title: title, known: c.TitleOf(title), Heading: h})
			continue
		}
		if len(all) == 0 {
			all = append(all, &CardPart{})
		}
		last := all[len(all)-1]
		last.Blocks = append(last.Blocks, n)
	}
	return all
}

// TakeCare is what a lesson says of a card before its work starts: the header's field first, or the first sentence
// below Before that is not for mentors alone. "" if there is none.
func (c *Card) TakeCare() string {
	if c.First.Value != "" {
		return c.First.Value
	}
	for _, part := range c.Parts() {
		if !part.Is(CardBefore) {
			continue
		}
		for _, n := range part.Blocks {
			if ForMentors(n) {
				continue
			}
			if text := strings.TrimSpace(TextOf(firstText(n), c.Markdown, nil)); text != "" {
				return firstSentence(text)
			}
		}
	}
	return ""
}

// firstText is the first block below a node that holds text itself, so that of a list only its first point is read.
func firstText(n ast.Node) ast.Node {
	for n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeBlock {
		n = n.FirstChild()
	}
	return n
}

// firstSentence ends where a full stop, a question mark or an exclamation mark is followed by a blank and a capital
// letter. What is taken for too much of a text is still all of a caution; too little of it would not be.
func firstSentence(text string) string {
	for i, r := range text {
		if !strings.ContainsRune(".?!", r) {
			continue
		}
		rest := text[i+utf8.RuneLen(r):]
		next := strings.TrimLeftFunc(rest, unicode.IsSpace)
		if first, _ := utf8.DecodeRuneInString(next); len(next) < len(rest) && unicode.IsUpper(first) {
			return text[:len(text)-len(rest)]
		}
	}
	return text
}
