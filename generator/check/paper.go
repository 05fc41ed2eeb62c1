package check

// What does not fit on paper, or cannot be printed.

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/worksheets"
)

// paper says which gauges do not fit a sheet, and what its font cannot print. Both papers are tried, whatever the coach
// uses: a pack is handed on to other countries.
func paper(l *work.Lesson, problems *problem.List) {
	for _, g := range l.Gauges {
		var limits []string // one for each paper that is too small: of a problem that is one
		for _, p := range worksheets.Papers {
			if _, err := worksheets.Of(g, worksheets.About{}).Room(p); err != nil {
				limits = append(limits, err.Error())
			}
		}
		slug, hint := "gauge-too-large", "ask for a smaller one, or split it"
		switch {
		case len(limits) == 0:
			continue
		case g.Size.Number <= 0:
			slug, hint = "gauge-size", "write how long it is to be, such as 25 cm"
		case len(limits) > 1:
			_, most, _ := strings.Cut(limits[1], " fit on ")
			hint += "; it has to fit on " + most
		}
		problems.Error(l.File, source.Span(g.Expr.Span()), slug, limits[0], hint)
	}
	glyphs(l, problems)
	formless(l, problems)
}

// formless reports what a coach wants on paper that has no form there; of HTML another check tells.
func formless(l *work.Lesson, problems *problem.List) {
	for _, n := range worksheets.Unprintable(l) {
		if d, ok := n.(*lesson.DataBlock); ok {
			problems.Caution(l.File, d.At, "no-form-on-paper",
				"this "+string(d.Name)+" is in a part that is marked (on paper), and paper has no form for it",
				"say in words or in a table what it shows, or leave it if every team has a device")
		}
	}
}

// glyphs says what the worksheets' font lacks of a lesson's header, headings, questions, gauges and of what is printed
// as it is written: one character for each block.
func glyphs(l *work.Lesson, problems *problem.List) {
	lacks := func(text string, at source.Span, where string) { noGlyph(l.File, text, at, where, problems) }
	lacks(l.Title, l.HeaderAt, "the title")
	for _, text := range slices.Concat(l.Lesson.Goals, l.Materials) {
		lacks(text, l.HeaderAt, "the header")
	}
	for _, s := range l.Sections {
		lacks(s.Title, s.At, "this heading")
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if block, ok := n.(*lesson.WorkBlock); ok && entering {
			for _, s := range block.Statements {
				lacks(s.Name+" "+s.Prompt, s.At, "this "+string(s.Kind))
				for _, a := range s.Answers {
					lacks(a.Text, a.At, "this answer")
				}
			}
		}
		return ast.WalkContinue, nil
	})
	for _, g := range l.Gauges {
		lacks(g.Text, g.At, "this "+string(g.Kind))
	}
	value := func(v *lesson.Value) string { return l.OfValue(v).Text() }
	for _, n := range worksheets.Printed(l) {
		switch n := n.(type) { // the others: text
		case *lesson.FilledCode:
			lacks(codeOf(n), placeBelow(l.Markdown, n.Pos(), 1), "this program")
		case *ast.FencedCodeBlock:
			lacks(string(n.Lines().Value(l.Markdown)), beginOf(n, l.Markdown), "this program")
		default:
			lacks(lesson.TextOf(n, l.Markdown, value), beginOf(n, l.Markdown), "this part of the sheet")
		}
	}
}

// beginOf is the first line of a block.
func beginOf(n ast.Node, src []byte) source.Span {
	for ; n != nil && n.Type() == ast.TypeBlock; n = n.FirstChild() {
		if lines := n.Lines(); lines != nil && lines.Len() > 0 {
			return placeBelow(src, lines.At(0).Start, 0)
		}
	}
	return source.Span{}
}

// cardGlyphs does the same for what worksheets print of a care card.
func cardGlyphs(c *lesson.Card, problems *problem.List) {
	for _, text := range append([]string{c.Title, c.TakeCare(), c.StudentsMay, c.AdultsMay}, c.Wear...) {
		noGlyph(c.File, text, c.HeaderAt, "the header or the first sentence of Before", problems)
	}
}

// noGlyph reports the first character that the font lacks. One is enough: texts in another script
// would give hundreds.
func noGlyph(f *source.File, text string, at source.Span, where string, problems *problem.List) {
	if r, ok := worksheets.Lacks(text); ok {
		problems.Caution(f, at, "no-glyph",
			fmt.Sprintf("the worksheet's font has no %q (U+%04X), which is in %s; an empty square is printed", r, r,
				where),
			"write it with letters of European languages, or in words")
	}
}
