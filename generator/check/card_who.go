package check

import (
	"regexp"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// Whether "Students may do this" may stand above a card. What it says of adults, or of a danger,
// makes it a card for both. A card that speaks of a danger only to forbid it is stopped too: that costs its author
// two lines, and a card passed by mistake may cost more.

const grown = `(?:adults?|mentors?|teachers?|coach(?:es)?|instructors?|leaders?|parents?|grown[- ]?ups?)`

const someone = `(?:the |an? |one |any |your |each |every )?` + grown

// leavesToAdults finds what a sentence keeps from students by giving it to somebody grown up. "Wait for the adult" and
// "call an adult" are no such sentences.
var leavesToAdults = regexp.MustCompile(`\b(?:the|an?|one|any|your|each|every) ` + grown + `['’]s?(?:[^\pL]|$)` +
	`|\b(?:is|are|was|be|stays?|remains?|jobs?|tasks?|work)(?: only)?(?: a)?(?: jobs?| tasks?| work)? for ` + someone + `\b` +
	`|^for ` + someone + `\b` +
	`|\bonly ` + someone + `\b|\b` + grown + ` (?:only|alone)\b` +
	`|\b(?:left|leave|leaves|leaving)\b[^.;]{0,40}? to ` + someone + `\b`)

// dangers are words of tasks and substances that no card gives to students alone. Common practice, no source.
var dangers = func() []*regexp.Regexp {
	var all []*regexp.Regexp
	for _, word := range []string{
		"charging", "charger", "swollen", "leaking", "button cell", "coin cell", "mains", "high voltage",
		"craft knife", "utility knife", "knife", "scalpel", "razor blade", "hacksaw", "jigsaw", "drill", "side cutter",
		"soldering iron", "soldering", "glue gun", "hot glue", "heat gun", "blowtorch", "open flame",
		"solvent", "alcohol", "acetone", "white spirit", "thinner", "petrol", "gasoline", "bleach", "aerosol", "degreaser",
		"super glue", "flammable", "toxic", "poisonous", "corrosive",
	} {
		all = append(all, lesson.MentionPattern(lesson.MentionWords(word)))
	}
	return all
}()

// studentsAlone looks through a card that is for students alone.
func studentsAlone(c *lesson.Card, problems *problem.List) {
	if c.Adults || c.Both || !c.HasHeader {
		return
	}
	if at, word := dangerOf(c); word != "" {
		problems.Error(c.File, at, "card-danger-for-students",
			"the card says that students may do this, and it speaks of a danger: “"+word+"”",
			"write  who: both  with the lines  students: …  and  adults: …,  each a sentence on what they may do; "+
				"or write a card of its own for the danger, with  who: adults")
	}
	for _, part := range c.Parts() {
		for _, r := range textsOf(part.Blocks, c.Markdown) {
			if at := leavesToAdults.FindIndex(r.text); at != nil {
				problems.Error(c.File, r.span(at[0], at[1]), "card-leaves-to-adults",
					"the card says that students may do this, and leaves something to adults here",
					"write  who: both  with the lines  students: …  and  adults: …,  each a sentence on what they may do; "+
						"what only adults need goes into a block quote that starts with  > Mentor:")
			}
		}
	}
}

// dangerOf finds the first word of danger in a card, "" if there is none. Its part for when something goes wrong may
// speak of any.
func dangerOf(c *lesson.Card) (source.Span, string) {
	texts := []run{small(textAt(c.Title, c.HeaderAt))}
	for _, m := range c.Mentions {
		texts = append(texts, small(textAt(m.Value, m.At)))
	}
	for _, part := range c.Parts() {
		if !part.Is(lesson.CardWrong) {
			texts = append(texts, textsOf(part.Blocks, c.Markdown)...)
		}
	}
	for _, r := range texts {
		for _, pattern := range dangers {
			if m := pattern.FindSubmatchIndex(r.text); m != nil {
				return r.span(m[2], m[3]), string(r.text[m[2]:m[3]])
			}
		}
	}
	return source.Span{}, ""
}

// textsOf gives what stands in blocks, in small letters, notes for mentors included.
func textsOf(blocks []ast.Node, src []byte) []run {
	var all []run
	for _, block := range blocks {
		_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if !entering {
				return ast.WalkContinue, nil
			}
			switch n.Kind() {
			case ast.KindParagraph, ast.KindTextBlock, ast.KindHeading, ast.KindHTMLBlock, east.KindTableCell:
				all = append(all, small(spokenRun(n, src, " ")))
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}
