package check

import (
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
)

// A task is what a card leaves to adults, by a word that it mentions.
type task struct {
	card, word string
	phrase     *phrase
}

// steps refuses a numbered step that tells students to do what a card leaves to adults. A step that names
// somebody grown up who does it, or forbids it, is welcome.
func steps(p *lesson.Pack, l *lesson.Lesson, s *seeker, problems *problem.List) {
	var tasks []task
	for _, c := range p.Cards {
		for _, m := range c.Mentions {
			if p := s.phrase(m.Value); c.Adults && p != nil {
				tasks = append(tasks, task{c.Name, m.Value, p})
			}
		}
	}
	if len(tasks) == 0 {
		return
	}
	for _, r := range stepsOf(l) {
		clauses := clausesOf(r)
		for _, t := range tasks {
			for _, c := range clauses {
				if at := t.phrase.where(c.text); at != nil && !leftAlone(string(c.text), at) {
					problems.Error(l.File, c.span(at[0], at[1]), "adults-step", "a numbered step tells students about “"+t.word+"”, which the card "+t.card+" leaves to adults",
						"begin the sentence with who does it, as in  Your mentor …, or with  Never …; or move it to the mentor notes")
					break
				}
			}
		}
	}
}

// A step by another name than an item of a list: "Step 2", "2." and the like at the start of a line.
var (
	numbered   = regexp.MustCompile(`(?im)^[^\pL\pN\n]*(?:steps? (?:\d+|one|two|three|four|five|six|seven|eight|nine|ten)\b|\d{1,2}[*_\\]*\s?[.):–—][*_]*(?:\s|$)|\d{1,2}\s-\s)`)
	onlyNumber = regexp.MustCompile(`(?i)^\W*(?:step )?\d{1,2}\W*$`)
)

// stepsOf gives the texts of the numbered steps that students see: items of numbered lists, blocks and rows of
// tables that start with a number, and what stands below a heading or a line that is a step's.
func stepsOf(l *lesson.Lesson) []run {
	var all []run
	below := 0 // the level of the heading whose step this is, 7 below a line of text
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if lesson.ForMentors(n) {
			return ast.WalkSkipChildren, nil
		}
		switch n := n.(type) {
		case *ast.ListItem:
			if n.Parent().(*ast.List).IsOrdered() {
				all = append(all, spokenRun(n, l.Markdown, ". "))
				return ast.WalkSkipChildren, nil
			}
		case *east.TableRow:
			for cell := n.FirstChild(); cell != nil; cell = cell.NextSibling() {
				if onlyNumber.Match(spokenRun(cell, l.Markdown, " ").text) {
					all = append(all, spokenRun(n, l.Markdown, " "))
					break
				}
			}
			return ast.WalkSkipChildren, nil
		case *ast.Heading:
			r := spokenRun(n, l.Markdown, ". ")
			if n.Level <= below {
				below = 0
			}
			if numbered.Match(r.text) {
				below = n.Level
			}
			if below > 0 {
				all = append(all, r)
			}
		case *ast.Paragraph, *ast.TextBlock, *ast.HTMLBlock:
			r := spokenRun(n, l.Markdown, ". ")
			if below > 0 || numbered.Match(linesOf(n, l.Markdown)) {
				all = append(all, r)
			}
			if below == 0 && onlyNumber.Match(r.text) {
				below = 7
			}
		}
		return ast.WalkContinue, nil
	})
	return all
}

// linesOf is the source of a block, lines kept apart, marks and all.
func linesOf(n ast.Node, src []byte) []byte {
	var all []byte
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		all = append(all, src[s.Start:s.Stop]...)
	}
	return all
}

var (
	// The group is what a thought ends with. An abbreviation is followed by no capital letter.
	thoughtEnd = regexp.MustCompile(`([.!?;]["”’)*]*\s+)\p{Lu}|(;\s+|(?:,\s*)?(?:\b(?i:and|but)\s+)?\b(?i:then)\s+|,\s+(?:and|but)\s+)|(\s(?:and|but)\s+)you\b`)
	stepNumber = regexp.MustCompile(`^[^\pL\pN]*(?:steps? [\pL\pN]+|\d{1,2})?[^\pL\pN]*`)
	grownUp    = regexp.MustCompile(`^(?:(?:your|the|an|a|one|only|some|our|another) )*(?:adults?|mentors?|teachers?|coach(?:es)?|parents?|volunteers?|instructors?|grown-?ups?)\b`)
	toldBy     = regexp.MustCompile(`^[\pL -]*?\b(?:says?|said|tells?|told|shows?|showed|asks?|asked|lets?|wants?|gives you)\b`)
	forbids    = regexp.MustCompile(`^(?:never|do not|don['’]t|no|nobody|avoid|stop|stay|(?:keep|step|stand) (?:away|off|out|back|clear)|leave|wait)\b`)
	bids       = regexp.MustCompile(`^(?:never|do not|don['’]t) forget\b`)
	passive    = regexp.MustCompile(`^ (?:(?:is|are|stays?|remains?) (?:not|never|forbidden|locked|put away|kept|for adults|only for adults|out of)|cards?\b)`)
)

// clausesOf cuts a step where a sentence or a thought of its own begins, in small letters, without its number.
func clausesOf(r run) []run {
	var all []run
	lower, start := small(r), 0
	cut := func(end int) {
		if end > start {
			all = append(all, run{lower.text[start:end], r.at[start:end], r.ends[start:end]})
		}
		start = end
	}
	for _, m := range thoughtEnd.FindAllSubmatchIndex(r.text, -1) {
		cut(max(m[3], m[5], m[7])) // of three groups one has matched
	}
	cut(len(r.text))
	return all
}

// leftAlone tells whether a clause gives what stands at a place to somebody grown up, forbids it, or only asks.
func leftAlone(clause string, at []int) bool {
	start := stepNumber.FindString(clause)
	said := clause[min(len(start), at[0]):]
	switch {
	case strings.HasSuffix(strings.TrimRight(clause, " "), "?"):
		return true
	case grownUp.MatchString(said) && !toldBy.MatchString(said[:max(0, at[0]-len(start))]):
		return true
	case forbids.MatchString(said) && !bids.MatchString(said):
		return true
	}
	return passive.MatchString(clause[at[1]:])
}
