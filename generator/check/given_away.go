package check

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// An answer is a find's number with its unit as somebody might write it in a text.
type answer struct {
	find    *lesson.Statement
	digits  string // that any such text must hold; looked for first, since it is quick
	pattern func() *regexp.Regexp
}

func (a answer) match(text string) []int {
	if !strings.Contains(text, a.digits) {
		return nil
	}
	return a.pattern().FindStringSubmatchIndex(text)
}

// givenAway looks for the number of a key or of a find, with its unit, in what
// students see: prose typed by hand, prompts, and values whose sum does not rest on a
// student's work and comes to the same.
func givenAway(l *work.Lesson, problems *problem.List) {
	answers := answersOf(l)
	if len(answers) == 0 {
		return
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if k := n.Kind(); k == lesson.KindMentorNote || k == lesson.KindMentorSection {
			return ast.WalkSkipChildren, nil
		}
		for _, r := range seen(l.Lesson, n) {
			typed(l, answers, r, problems)
		}
		switch n := n.(type) {
		case *lesson.FilledCode:
			for _, part := range n.Parts {
				if part.Value != nil {
					shownValue(l, answers, part.Value, problems)
				}
			}
		case *lesson.Value:
			shownValue(l, answers, n, problems)
		}
		return ast.WalkContinue, nil
	})
	for _, text := range slices.Concat([]string{l.Title}, l.Goals, l.Materials) {
		typed(l, answers, textAt(text, l.HeaderAt), problems)
	}
}

// seen gives the texts of a node, typed by hand, that students see.
func seen(l *lesson.Lesson, n ast.Node) []run {
	var runs []run
	switch n := n.(type) {
	case *ast.FencedCodeBlock, *ast.CodeBlock, *ast.HTMLBlock:
		for i := range n.Lines().Len() {
			s := n.Lines().At(i)
			runs = append(runs, rawRun(l.Markdown, s.Start, s.Stop))
		}
	case *ast.CodeSpan:
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			if t, ok := c.(*ast.Text); ok {
				runs = append(runs, rawRun(l.Markdown, t.Segment.Start, t.Segment.Stop))
			}
		}
	case *ast.Link:
		runs = append(runs, textAt(string(n.Title), source.Span{Start: n.Pos(), End: n.Pos() + 1}))
	case *ast.Image:
		runs = append(runs, runBelow(n, l.Markdown), textAt(string(n.Title), source.Span{Start: n.Pos(), End: n.Pos() + 1}))
	case *lesson.FilledCode:
		for _, part := range n.Parts {
			if part.Value == nil {
				runs = append(runs, textAt(part.Code, source.Span{Start: n.Pos(), End: n.Pos() + 1}))
			}
		}
	case *lesson.WorkBlock:
		for _, s := range n.Statements {
			if s.Kind != lesson.Key && s.Kind != lesson.Slip {
				runs = append(runs, promptRun(l, s))
			}
		}
	case *lesson.DataBlock:
		for _, line := range n.Entries {
			for _, text := range []string{line.Text, line.By} {
				if text != "" {
					runs = append(runs, textAt(text, line.At))
				}
			}
		}
	default:
		if first := n.FirstChild(); n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline {
			runs = append(runs, runBelow(n, l.Markdown))
		}
	}
	return runs
}

func answersOf(l *work.Lesson) []answer {
	var all []answer
	for _, s := range l.Finds {
		texts := []string{l.Of(s).Text()}
		if k := l.Of(s).Key; k != nil {
			texts = append(texts, k.Amount())
		}
		for _, text := range texts {
			if expr, digits := pattern(text); expr != "" {
				compiled := sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
				all = append(all, answer{s, digits, compiled})
			}
		}
	}
	return all
}

// unitPattern matches a unit that people read in any way to write it: "in", "inches", "″".
func unitPattern(unit string) string {
	factors := strings.Split(unit, "/")
	for i, factor := range factors {
		names := quantity.NamesOfUnit(factor)
		if names == nil { // such as m²
			names = []string{factor}
		}
		for j, name := range names {
			names[j] = regexp.QuoteMeta(name)
		}
		factors[i] = "(?:" + strings.Join(names, "|") + ")"
	}
	return strings.Join(factors, "/")
}

// pattern matches a number with its unit, whatever blank stands between. A number
// without a unit is too common in prose to tell anything.
func pattern(text string) (expr, digits string) {
	cut := strings.LastIndexByte(text, ' ')
	number, unit := text[:max(cut, 0)], text[cut+1:]
	if rest, ok := strings.CutSuffix(text, "°"); ok {
		number, unit = rest, "°"
	}
	if number == "" || strings.ContainsAny(unit, "0123456789") {
		return "", ""
	}
	sign := ""
	if rest, negative := strings.CutPrefix(number, quantity.Minus); negative {
		number, sign = rest, "[-−]"
	}
	digits, _, _ = strings.Cut(number, " ")
	body := strings.NewReplacer(" ", `[\s\x{a0}]+`, `\.`, "[.,]").Replace(regexp.QuoteMeta(number))
	return `(?:^|[^0-9.,/])(` + sign + body + `[\s\x{a0}\x{202f}-]?` + unitPattern(unit) + `)(?:$|[^\pL0-9])`, digits
}

func typed(l *work.Lesson, answers []answer, r run, problems *problem.List) {
	text := string(r.text)
	for _, a := range answers {
		m := a.match(text)
		if m == nil || isGiven(l, text[m[2]:m[3]]) {
			continue
		}
		problems.Caution(l.File, r.span(m[2], m[3]), "given-away",
			"students see this, and it is the answer to "+a.find.Name+" on line "+line(l, a.find),
			"write {"+a.find.Name+"}, which is a blank until it is answered, or move it into a Mentor: note")
	}
}

// isGiven tells whether the lesson itself gives a value of that text: then it is no
// secret.
func isGiven(l *work.Lesson, text string) bool {
	given := false
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*lesson.WorkBlock)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		for _, s := range block.Statements {
			if r := l.Of(s); r != nil && s.Kind == lesson.Given && !r.OfStudents && strings.ReplaceAll(r.Text(), " ", "") == strings.ReplaceAll(text, " ", "") {
				given = true
			}
		}
		return ast.WalkContinue, nil
	})
	return given
}

// shownValue looks at a computed value that students see.
func shownValue(l *work.Lesson, answers []answer, v *lesson.Value, problems *problem.List) {
	r := l.OfValue(v)
	if r.OfStudents || r.Text() == "" || isGiven(l, r.Text()) {
		return
	}
	for _, a := range answers {
		if a.match(r.Text()) != nil {
			problems.Caution(l.File, v.At, "given-away",
				"students see this value, "+r.Text()+", and it is the answer to "+a.find.Name+" on line "+line(l, a.find),
				"write {"+a.find.Name+"}, which is a blank until it is answered")
			return
		}
	}
}
