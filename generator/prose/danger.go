package prose

// What a care card says that is not for students alone: tasks that it gives to adults, and words of danger.

import (
	"sync"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/hazard"
	"trundle/generator/source"
	"trundle/generator/wording"
)

const grown = `(?:adults?|mentors?|teachers?|coach(?:es)?|instructors?|leaders?|parents?|grown[- ]?ups?)`

const someone = `(?:the |an? |one |any |your |each |every )?` + grown

// leavesToAdults finds what a sentence keeps from students by giving it to somebody grown up. "Wait for the adult" and
// "call an adult" are no such sentences.
var leavesToAdults = wording.New(`\b(?:the|an?|one|any|your|each|every) ` + grown + `['’]s?(?:[^\pL]|$)` +
	`|\b(?:is|are|was|be|stays?|remains?|jobs?|tasks?|work)(?: only)?(?: a)?(?: jobs?| tasks?| work)? for ` +
	someone + `\b` +
	`|^for ` + someone + `\b` +
	`|\bonly ` + someone + `\b|\b` + grown + ` (?:only|alone)\b` +
	`|\b(?:left|leave|leaves|leaving)\b[^.;]{0,40}? to ` + someone + `\b`)

// dangers are words of tasks, tools and dangers that no card gives to students alone, beside the substances of the
// table. Common practice, no source. The patterns are made when first needed.
var dangers = sync.OnceValue(func() []*wording.Pattern {
	var all []*wording.Pattern
	for _, word := range []string{
		"charging", "charger", "swollen", "leaking", "button cell", "coin cell", "mains", "high voltage",
		"craft knife", "utility knife", "knife", "scalpel", "razor blade", "hacksaw", "jigsaw", "drill", "side cutter",
		"soldering iron", "soldering", "glue gun", "hot glue", "heat gun", "blowtorch", "open flame",
		"alcohol", "thinner", "flammable", "toxic", "poisonous", "corrosive",
	} {
		all = append(all, patternOf(wordsOf(word)))
	}
	return all
})

// LeftToAdults finds in a text in small letters where it gives something to adults.
func LeftToAdults(r Run) (part source.Span, found bool) {
	at := leavesToAdults.FindIndex(r.Text)
	if at == nil {
		return source.Span{}, false
	}
	return source.Span{Start: at[0], End: at[1]}, true
}

// Danger finds the first word of danger in a text in small letters.
func Danger(r Run) (part source.Span, found bool) {
	for _, pattern := range dangers() {
		if m := pattern.FindSubmatchIndex(r.Text); m != nil {
			return source.Span{Start: m[2], End: m[3]}, true
		}
	}
	for _, h := range new(Phrases).In(r.Text) {
		if h.Word != nil && h.Word.Alarm == hazard.Stop && h.Word.Substance() {
			return h.Part(), true
		}
	}
	return source.Span{}, false
}

// InHeader is a text of a header in small letters, whose place is known as a whole.
func InHeader(text string, at source.Span) Run { return small(At(text, at)) }

// OfBlocks gives what stands in blocks, in small letters, notes for mentors included.
func OfBlocks(blocks []ast.Node, src []byte) []Run {
	var all []Run
	for _, block := range blocks {
		_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if !entering {
				return ast.WalkContinue, nil
			}
			switch n.Kind() {
			case ast.KindParagraph, ast.KindTextBlock, ast.KindHeading, ast.KindHTMLBlock, east.KindTableCell:
				all = append(all, small(spoken(n, src, " ")))
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}
