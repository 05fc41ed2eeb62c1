// Package check reads a worked pack and lists what is wrong in it: keys that do not agree,
// links to nowhere, lessons without a care card, times that do not add up.
// It changes nothing and stops at nothing.
package check

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/locale"
	"trundle/generator/picture"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// Pack checks what concerns the pack as a whole.
func Pack(p *lesson.Pack) problem.List {
	var problems problem.List
	if len(p.Lessons) == 0 && !p.LacksLesson() {
		problems.Error(p.File, source.Span{}, "empty-pack", "the pack has no lesson",
			"add a file such as 01-first-lesson.md beside pack.yaml; trundle takes names of a number, a hyphen "+
				"and a few words")
	}
	checkKit(p, &problems)
	for _, ref := range p.Driving {
		if _, ok := p.Card(ref.Value); !ok {
			unknownCard(p, p.File, ref, &problems)
		}
	}
	meantOtherwise(p, &problems)
	if all := locale.Tags(); !slices.Contains(all, p.Language) {
		hint := "write  language: " + locale.Either(all)
		if base, _, _ := strings.Cut(p.Language, "-"); slices.Contains(all, strings.ToLower(base)) {
			hint = "write  language: " + strings.ToLower(base) + ", which has the words for all who speak it"
		}
		problems.Error(p.File, p.LanguageAt, "language", "the interface has no words in “"+p.Language+"” yet", hint)
	}
	sameNumber(p, &problems)
	sheetTwice(p, &problems)
	unusedParts(p, &problems)
	idsAndRenames(p, &problems)
	return problems
}

// sameNumber reports two lessons that begin with one number: which of them comes first is then a matter of their
// other letters.
func sameNumber(p *lesson.Pack, problems *problem.List) {
	first := map[string]string{}
	for _, l := range p.Lessons {
		number, _, _ := strings.Cut(l.Slug, "-")
		number = strings.TrimLeft(number, "0")
		if l.Draft { // its number may be one that it will take over
			continue
		}
		if other, taken := first[number]; taken {
			problems.Caution(l.File, source.Span{}, "number-twice",
				"two lessons have this number; "+other+".md comes first", "give one of them another number")
			continue
		}
		first[number] = l.Slug
	}
}

// runSheetEnding is what the name of a run sheet has that its lesson has not; capitals make no difference on
// some disks.
const runSheetEnding = "-mentor"

// sheetTwice reports a lesson whose sheets would be named like the run sheet of another.
func sheetTwice(p *lesson.Pack, problems *problem.List) {
	for _, l := range p.Lessons {
		of, ends := strings.CutSuffix(strings.ToLower(l.Slug), runSheetEnding)
		if !ends {
			continue
		}
		for _, other := range p.Lessons {
			if strings.ToLower(other.Slug) == of {
				problems.Error(l.File, source.Span{}, "sheet-twice",
					"the sheet of this lesson would have the name of the run sheet of "+other.Slug+".md",
					"rename one of the two files, so that this one does not end in "+runSheetEnding)
			}
		}
	}
}

// checkKit reports a default kit that kits.yaml does not have. A pack without any is fine: its
// lessons then give every number themselves.
func checkKit(p *lesson.Pack, problems *problem.List) {
	if p.Kit.Value == "" || p.DefaultKit() != nil || p.IsUnread("kits.yaml") {
		return
	}
	var keys []string
	for _, k := range p.Kits {
		keys = append(keys, k.Key)
	}
	hint := cmp.Or(quantity.DidYouMean(p.Kit.Value, keys), "add it to kits.yaml")
	problems.Error(p.File, p.Kit.At, "unknown-kit", "there is no kit "+p.Kit.Value+" in kits.yaml", hint)
}

// Worked checks what a lesson came to. Text, Care and Links are apart because they need no values, so that they can be
// done meanwhile, and because the preview remembers what each of them found: an edit of a card, say, has only Care done
// again.
func Worked(l *work.Lesson) problem.List {
	var problems problem.List
	for _, s := range l.Finds {
		if k := l.Of(s).Key; k != nil && k.Compared && !k.Holds {
			problems.Add(keyProblem(l, s, k))
		}
		fineKey(l, s, &problems)
		coarseKey(l, s, &problems)
		doubt(l, s, &problems)
		slips(l, s, &problems)
	}
	doubtInProse(l, &problems)
	givenAway(l, &problems)
	lost(l, &problems)
	coarseSteps(l, &problems)
	paper(l, &problems)
	vapour(l, &problems)
	chooses(l, &problems)
	return problems
}

// Text checks what a lesson says, whatever it comes to.
func Text(l *lesson.Lesson) problem.List {
	var problems problem.List
	mentorCheck{l.File, l.Markdown, l, &problems}.mentorLike(l.Body)
	timePlan(l, &problems)
	spareTime(l, &problems)
	unitPairs(l, &problems)
	unprinted(l, &problems)
	plainCode(l, &problems)
	pictureTexts(l.File, l.Body, l.Markdown, &problems)
	return problems
}

// Care checks whether a lesson carries the care cards that it needs. Of the pack it looks
// at what CareKey writes.
func Care(p *lesson.Pack, l *lesson.Lesson) problem.List {
	var problems problem.List
	careCover(p, l, &problems)
	return problems
}

// CareKey writes what Care looks at in a pack. The preview judges a lesson anew only if it is
// another, so whatever Care begins to look at has to be in it.
func CareKey(p *lesson.Pack) string {
	var b strings.Builder
	for _, ref := range p.Driving {
		fmt.Fprintf(&b, "%q ", ref.Value)
	}
	b.WriteByte('\n')
	fmt.Fprintf(&b, "%q\n", p.Unread)
	for _, c := range p.Cards {
		fmt.Fprintf(&b, "%q %t %t %q %q", c.Name, c.Adults, c.Both, c.StudentsMay, c.AdultsMay)
		for _, m := range c.Mentions {
			fmt.Fprintf(&b, " %q", m.Value)
		}
		b.WriteByte('\n')
	}
	for _, m := range p.MeantOtherwise { // the reason is for readers
		fmt.Fprintf(&b, "%q\n", m.Phrase.Value)
	}
	return b.String()
}

// Links follows a lesson's links and pictures. Of the pack it looks at what LinksKey writes.
func Links(p *lesson.Pack, l *lesson.Lesson) problem.List {
	var problems problem.List
	links(p, l.File, l.Body, l.Markdown, &problems)
	picturesOnPaper(p, l, &problems)
	return problems
}

// LinksKey writes what Links looks at in a pack, for the same reason as CareKey.
func LinksKey(p *lesson.Pack) string {
	var b strings.Builder
	b.Grow(200 * len(p.Lessons)) // which most come to
	headings := func(name string, sections []*lesson.Section) {
		b.WriteString(name)
		for _, s := range sections {
			b.WriteByte('#')
			b.WriteString(s.ID)
		}
		b.WriteByte('\n')
	}
	for _, l := range p.Lessons {
		if l.Draft {
			b.WriteString("draft ")
		}
		headings(l.Slug, l.Sections)
	}
	b.WriteByte('\n')
	for _, c := range p.Cards {
		headings(c.Name, c.Sections)
	}
	if p.Words != nil {
		headings(lesson.WordsFile, p.Words.Sections)
	}
	for _, name := range slices.Sorted(maps.Keys(p.Pictures)) {
		fmt.Fprintf(&b, "%q", name)
		if shown := p.Pictures[name]; shown != nil && len(shown.Faults) > 0 {
			fmt.Fprintf(&b, " %+v", shown.Faults)
			if slices.ContainsFunc(shown.Faults, func(f picture.Fault) bool { return f.Inside }) {
				// Excerpts show the picture's own text, so another text is another problem.
				fmt.Fprintf(&b, " %x", sha256.Sum256(shown.File.Text()))
			}
		}
		b.WriteByte('\n')
	}
	for _, name := range slices.Sorted(maps.Keys(p.Refused)) {
		fmt.Fprintf(&b, "%q %q\n", name, p.Refused[name])
	}
	fmt.Fprintf(&b, "%q\n", p.Unread)
	return b.String()
}

// Card checks a care card. It needs no lesson: a card that none uses yet is checked all the same.
func Card(p *lesson.Pack, c *lesson.Card) problem.List {
	var problems problem.List
	cardCodes(c, &problems)
	studentsAlone(c, &problems)
	cardSections(c, &problems)
	cardGlyphs(c, &problems)
	nothingToWork(c.Body, c.HeaderAt, func(at source.Span) {
		problems.Error(c.File, at, "value-in-card", "a care card has no values to work with",
			`write the number out, or \{ for a brace; values and work blocks belong in lessons`)
	})
	mentorCheck{c.File, c.Markdown, nil, &problems}.mentorLike(c.Body)
	links(p, c.File, c.Body, c.Markdown, &problems)
	pictureTexts(c.File, c.Body, c.Markdown, &problems)
	return problems
}

// nothingToWork finds values and work blocks in a text that belongs to every lesson and has no values of its own, so
// that they could only come out as nothing.
func nothingToWork(body ast.Node, elsewhere source.Span, refuse func(at source.Span)) {
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) { // the others: notes for mentors hold nodes like any part
		case *lesson.Value:
			refuse(n.At)
		case *lesson.WorkBlock:
			if len(n.Statements) > 0 {
				refuse(n.Statements[0].At)
			} else { // its own place is not kept
				refuse(elsewhere)
			}
		case *lesson.GaugeBlock:
			refuse(elsewhere)
		case *lesson.DataBlock:
			refuse(n.At)
		case *lesson.FilledCode:
			refuse(source.Span{Start: n.Pos(), End: n.Pos() + 1})
		}
		return ast.WalkContinue, nil
	})
}

// lineNumber is the line of a statement, for a sentence about another place.
func lineNumber(l *work.Lesson, s *lesson.Statement, from source.Span) string {
	return l.File.LineSeenFrom(s.At.Start, from.Start)
}
