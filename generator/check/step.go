package check

import (
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
)

// steps refuses a numbered step that tells students to do what a card leaves to adults. A
// step that gives it to an adult, or forbids it, is welcome.
func steps(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || lesson.ForMentors(n) {
			return ast.WalkContinue, nil
		}
		r, ok := step(n, l.Markdown)
		if !ok {
			return ast.WalkContinue, nil
		}
		for _, c := range p.Cards {
			for _, m := range c.Mentions {
				at := toStudents(r, m.Value)
				if !c.Adults || at == nil {
					continue
				}
				problems.Error(l.File, r.span(at[0], at[1]), "adults-step", "a numbered step tells students about “"+m.Value+"”, which the card "+c.Name+" leaves to adults",
					"give the step to an adult by name, or move it to the mentor notes")
			}
		}
		return ast.WalkContinue, nil
	})
}

// numbered starts a step that is no item of a list, as in a heading or a table.
var numbered = regexp.MustCompile(`(?i)^\W*(?:step \d+|\d{1,2}[.):](?:\W|$))`)

// step gives the text of a numbered step, false if the node is none.
func step(n ast.Node, src []byte) (run, bool) {
	switch n := n.(type) {
	case *ast.ListItem:
		return spokenRun(n, src), n.Parent().(*ast.List).IsOrdered()
	case *ast.Paragraph, *ast.Heading, *ast.TextBlock:
		if n.Parent().Kind() == ast.KindListItem {
			return run{}, false
		}
		r := spokenRun(n, src)
		return r, numbered.Match(r.text)
	case *east.TableRow:
		first := spokenRun(n.FirstChild(), src)
		return spokenRun(n, src), onlyNumber.Match(first.text)
	}
	return run{}, false
}

var onlyNumber = regexp.MustCompile(`(?i)^\W*(?:step )?\d{1,2}\W*$`)

// toStudents finds a phrase in a clause of a step that neither gives the work to somebody grown up
// nor forbids it; nil if there is none.
func toStudents(r run, words string) []int {
	r = small(r)
	start := 0
	for _, end := range append(clauseEnds(r.text), len(r.text)) {
		clause := run{r.text[start:end], r.at[start:end], r.ends[start:end]}
		if at := where(clause, words); at != nil && !leftAlone(string(clause.text), at[0]) {
			return []int{start + at[0], start + at[1]}
		}
		start = end
	}
	return nil
}

// clauseEnds are the places behind marks that end a thought.
func clauseEnds(text []byte) []int {
	var ends []int
	for _, m := range clauseMark.FindAllIndex(text, -1) {
		ends = append(ends, m[1])
	}
	return ends
}

var (
	clauseMark = regexp.MustCompile(`[.!?;:](?:\s|$)`)
	grownUp    = regexp.MustCompile(`(?i)\b(?:adults?|mentors?|teachers?|coach(?:es)?|parents?|volunteers?|grown-?ups?)\b`)
	forbids    = regexp.MustCompile(`(?i)\b(?:never|not|no|don['’]t|cannot|can['’]t|without|nobody|away|keep off)\b`)
	bids       = regexp.MustCompile(`(?i)\b(?:not|never|don['’]t) forget\b`)
)

// leftAlone tells whether a clause gives what stands at a place to somebody grown up, or forbids it.
func leftAlone(clause string, at int) bool {
	before := bids.ReplaceAllString(clause[:at], "")
	return grownUp.MatchString(clause) || forbids.MatchString(before) || strings.Contains(clause[at:], " away")
}
