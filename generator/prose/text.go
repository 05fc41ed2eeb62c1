package prose

// Which texts a lesson has: those that a coach typed as prose, those that students see, and
// all that it says of substances.

import (
	"bytes"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// Typed gives the prose of a lesson and its prompts. Code is left out; a slip of the pen in a
// program is its own business, and code marks keep an example out of a check.
func Typed(l *lesson.Lesson) []Run {
	var all []Run
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if block, ok := n.(*lesson.WorkBlock); ok {
			for _, s := range block.Statements {
				for _, a := range s.Answers {
					if a.Right { // a wrong one may be wrong
						all = append(all, pieces(l.File.Text(), a.Pieces))
					}
				}
				all = append(all, prompt(l, s))
			}
		}
		if n.Kind() == ast.KindImage || hasInlines(n) {
			all = append(all, typed(n, l.Markdown))
		}
		return ast.WalkContinue, nil
	})
	return all
}

// hasInlines tells whether a node is a block of text.
func hasInlines(n ast.Node) bool {
	first := n.FirstChild()
	return n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline
}

// prompt is the text in quotes of a statement.
func prompt(l *lesson.Lesson, s *lesson.Statement) Run { return pieces(l.File.Text(), s.PromptAt) }

// answers are those to choose from.
func answers(l *lesson.Lesson, s *lesson.Statement) []Run {
	var all []Run
	for _, a := range s.Answers {
		all = append(all, pieces(l.File.Text(), a.Pieces))
	}
	return all
}

// OfHeader gives the texts of a lesson's header that students see.
func OfHeader(l *lesson.Lesson) []Run {
	var all []Run
	for _, text := range slices.Concat([]string{l.Title}, l.Goals, l.Materials) {
		all = append(all, inHeader(l, text))
	}
	return all
}

// inHeader finds a text of the header where it is, if it is there letter for letter.
func inHeader(l *lesson.Lesson, text string) Run {
	text = strings.TrimSpace(text)
	_, rest, _ := bytes.Cut(l.File.Text(), []byte("\n"))
	header, _, _ := bytes.Cut(rest, []byte("\n---"))
	if i := bytes.Index(header, []byte(text)); i >= 0 && text != "" {
		i += len(l.File.Text()) - len(rest)
		return pieces(l.File.Text(), []source.Span{{Start: i, End: i + len(text)}})
	}
	return At(text, l.HeaderAt)
}

// Seen gives the texts of a node itself, typed by hand, that students see. What a key or slip
// says is not among them.
func Seen(l *lesson.Lesson, n ast.Node) []Run {
	switch n := n.(type) {
	case *ast.FencedCodeBlock, *ast.CodeBlock, *ast.HTMLBlock:
		return linesAsTheyAre(n, l.Markdown)
	case *ast.CodeSpan:
		return codeSpan(n, l.Markdown)
	case *ast.Link:
		return []Run{titleOf(n, n.Title)}
	case *ast.Image:
		return []Run{typed(n, l.Markdown), titleOf(n, n.Title)}
	}
	if runs, ours := seenOfOurs(l, n); ours {
		return runs
	}
	if hasInlines(n) {
		return []Run{typed(n, l.Markdown)}
	}
	return nil
}

// seenOfOurs does so for the nodes that trundle adds.
func seenOfOurs(l *lesson.Lesson, n ast.Node) (runs []Run, ours bool) {
	switch n := n.(type) { // the others: a value is not typed, and what is for mentors holds other nodes
	case *lesson.FilledCode:
		for _, part := range n.Parts {
			if part.Value == nil {
				runs = append(runs, At(part.Code, placeOf(n)))
			}
		}
	case *lesson.WorkBlock:
		for _, s := range n.Statements {
			if !s.Kind.BelongsAbove() {
				runs = append(runs, answers(l, s)...)
				runs = append(runs, prompt(l, s))
			}
		}
	case *lesson.GaugeBlock:
		for _, g := range n.Gauges {
			runs = append(runs, pieces(l.File.Text(), g.TextAt))
		}
	case *lesson.DataBlock:
		for _, line := range n.Entries {
			runs = append(runs, pieces(l.File.Text(), line.TextAt))
			if line.By != "" {
				runs = append(runs, At(line.By, line.At))
			}
			if line.Matters != nil {
				runs = append(runs, pieces(l.File.Text(), line.Matters.TextAt))
			}
		}
	default:
		return nil, false
	}
	return runs, true
}

// linesAsTheyAre gives a block of code or HTML line by line: a word does not go on over the end
// of a line there.
func linesAsTheyAre(n ast.Node, src []byte) []Run {
	var runs []Run
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		runs = append(runs, pieces(src, []source.Span{{Start: s.Start, End: s.Stop}}))
	}
	return runs
}

// codeSpan gives the lines of code within a sentence.
func codeSpan(n *ast.CodeSpan, src []byte) []Run {
	var runs []Run
	for p := range lesson.Pieces(n, src) {
		if p.Kind == lesson.Verbatim {
			runs = append(runs, pieces(src, []source.Span{p.At}))
		}
	}
	return runs
}

// titleOf is the title of a link or picture, which is shown where somebody points at it.
func titleOf(n ast.Node, title []byte) Run { return At(lesson.Plain(title), placeOf(n)) }

// placeOf is where a node begins, for a text of it whose own place goldmark does not keep.
func placeOf(n ast.Node) source.Span { return source.Span{Start: n.Pos(), End: n.Pos() + 1} }

// everythingSaid gives all that a lesson says of substances, in small letters: its header, its prose,
// prompts and hints, titles, code and HTML. Nodes that are left out are not walked.
func everythingSaid(l *lesson.Lesson, leftOut func(ast.Node) bool) []Run {
	all := OfHeader(l)
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if leftOut(n) {
			return ast.WalkSkipChildren, nil
		}
		block, isWork := n.(*lesson.WorkBlock)
		switch {
		case isWork:
			for _, s := range block.Statements {
				all = append(all, answers(l, s)...)
				all = append(all, prompt(l, s))
			}
		case n.Kind() == ast.KindHTMLBlock:
			all = append(all, HTML(n, l.Markdown))
		case hasInlines(n):
			all = append(all, spoken(n, l.Markdown, ". "))
		case n.Kind() != ast.KindCodeSpan: // a part of the prose around it
			all = append(all, Seen(l, n)...)
		}
		return ast.WalkContinue, nil
	})
	for i, r := range all {
		all[i] = small(r)
	}
	return all
}
