package parse

// The pack's glossary, words.md: its terms, each a heading with its spellings, and what each means.

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// glossaryFields are the fields that its header may have. It needs no header.
var glossaryFields = []string{"title", "meant-otherwise"}

// Glossary reads words.md.
func Glossary(md goldmark.Markdown, f *source.File) (*lesson.Glossary, problem.List) {
	var problems problem.List
	g := &lesson.Glossary{File: f}
	header, body, at, ok := splitHeader(f)
	switch {
	case ok:
		if fs := readFields(f, &problems, header, at, glossaryFields...); fs != nil {
			g.Title = fs.title("title", false)
			g.Otherwise = fs.list("meant-otherwise")
			fs.done()
		}
	case isFence(f.Line(1)):
		problems.Error(f, source.Span{Start: 0, End: len("---")}, "no-header", "the header is not closed",
			"put  ---  alone on the line after its last field")
	}
	var inBody problem.List
	g.Markdown = body
	g.Body, _, inBody = Markdown(md, f, body)
	problems.Join(inBody)
	terms(g, &problems)
	g.Index()
	return g, problems
}

// terms cuts a glossary at its headings of level 2.
func terms(g *lesson.Glossary, problems *problem.List) {
	ids := map[string]int{}
	for n := g.Body.FirstChild(); n != nil; n = n.NextSibling() {
		h, isHeading := n.(*ast.Heading)
		switch last := len(g.Terms) - 1; {
		case isHeading && h.Level == 2:
			t := term(g, h, problems)
			t.ID = anchor(t.Name(), ids)
			g.Terms = append(g.Terms, t)
			g.Sections = append(g.Sections, &lesson.Section{ID: t.ID, Title: t.Name(), At: headingSpan(h)})
		case isHeading && h.Level == 1:
			problems.Error(g.File, headingSpan(h), "word-heading", "this heading is neither a word nor below one",
				"write  ## word  for each word; the title of the page is the field title of the header")
		case last < 0:
			g.Intro = append(g.Intro, n)
		default:
			g.Terms[last].Meaning = append(g.Terms[last].Meaning, n)
		}
	}
	renameHeadings(g, ids)
}

// term reads a heading.
func term(g *lesson.Glossary, h *ast.Heading, problems *problem.List) *lesson.Term {
	t := &lesson.Term{Heading: h, Spellings: spellings(h, g.Markdown)}
	if len(t.Spellings) == 0 {
		problems.Error(g.File, headingSpan(h), "word-heading", "this heading names no word",
			"write  ## word  and below it what the word means")
	}
	for _, s := range t.Spellings {
		if lesson.TooLong(s.Value) {
			problems.Error(g.File, s.At, "word-heading", "this is too long to be looked for in lessons",
				"write the word alone into its heading, and what it means below")
		}
	}
	return t
}

// renameHeadings gives the headings within meanings ids that no term has.
func renameHeadings(g *lesson.Glossary, ids map[string]int) {
	_ = ast.Walk(g.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && entering && h.Level > 2 {
			h.SetAttributeString("id", []byte(anchor(titleOf(h, g.Markdown), ids)))
		}
		return ast.WalkContinue, nil
	})
	for _, t := range g.Terms {
		t.Heading.SetAttributeString("id", []byte(t.ID))
	}
}

// spellings are those of a term's heading, between commas. Each has the place where it is typed, or that of the
// heading if it is typed with escapes.
func spellings(h *ast.Heading, src []byte) []lesson.Text {
	var all []lesson.Text
	whole := headingSpan(h)
	from := whole.Start
	for _, s := range strings.Split(titleOf(h, src), ",") {
		s = strings.TrimSpace(s)
		if s == "" {
			continue
		}
		at := whole
		if i := bytes.Index(src[from:whole.End], []byte(s)); i >= 0 {
			at = source.Span{Start: from + i, End: from + i + len(s)}
			from = at.End
		}
		all = append(all, lesson.Text{Value: s, At: at})
	}
	return all
}
