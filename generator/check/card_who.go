package check

// Whether "Students may do this" may stand above a card. What it says of adults, or of a danger, makes it a card for
// both. A card that speaks of a danger only to forbid it is stopped too: that costs its author two lines, and a card
// passed by mistake may cost more.

import (
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/source"
)

// studentsAlone looks through a card that is for students alone.
func studentsAlone(c *lesson.Card, problems *problem.List) {
	if c.Adults || c.Both || !c.HasHeader {
		return
	}
	const both = "write  who: both  with the lines  students: …  and  adults: …,  each a sentence on what they may do; "
	if at, word := dangerOf(c); word != "" {
		problems.Error(c.File, at, "card-danger-for-students",
			"the card says that students may do this, and it speaks of a danger: “"+word+"”",
			both+"or write a card of its own for the danger, with  who: adults")
	}
	for _, part := range c.Parts() {
		for _, r := range prose.OfBlocks(part.Blocks, c.Markdown) {
			if at, found := prose.In(c.Language).LeftToAdults(r); found {
				problems.Error(c.File, r.Span(at.Start, at.End), "card-leaves-to-adults",
					"the card says that students may do this, and leaves something to adults here",
					both+"what only adults need goes into a block quote that starts with  > Mentor:")
			}
		}
	}
}

// dangerOf finds the first word of danger in a card, "" if there is none. Its part for when something goes wrong may
// speak of any.
func dangerOf(c *lesson.Card) (source.Span, string) {
	texts := []prose.Run{prose.InHeader(c.Title, c.HeaderAt)}
	for _, m := range c.Mentions {
		texts = append(texts, prose.InHeader(m.Value, m.At))
	}
	for _, part := range c.Parts() {
		if !part.Is(lesson.CardWrong) {
			texts = append(texts, prose.OfBlocks(part.Blocks, c.Markdown)...)
		}
	}
	for _, r := range texts {
		if at, found := prose.In(c.Language).Danger(r); found {
			return r.Span(at.Start, at.End), string(r.Text[at.Start:at.End])
		}
	}
	return source.Span{}, ""
}
