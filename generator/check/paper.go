package check

import (
	"fmt"

	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/worksheets"
)

// paper says which gauges do not fit a sheet, and what the sheets' font cannot print.
func paper(l *work.Lesson, problems *problem.List) {
	for _, g := range l.Gauges {
		for _, p := range worksheets.Papers {
			if _, _, _, err := worksheets.Of(g, nil).Room(p); err != nil {
				problems.Error(l.File, source.Span(g.Expr.Span()), "gauge-too-large", err.Error(), "ask for a smaller one, or split it")
				break
			}
		}
	}
	lacks := func(text string, at source.Span, where string) {
		if r, ok := worksheets.Lacks(text); ok {
			problems.Caution(l.File, at, "no-glyph", fmt.Sprintf("the worksheet's font has no %q (U+%04X), which stands in %s; an empty square is printed", r, r, where),
				"write it with letters of European languages, or in words")
		}
	}
	lacks(l.Title, l.HeaderAt, "the title")
	for _, text := range append(append([]string{}, l.Lesson.Goals...), l.Materials...) {
		lacks(text, l.HeaderAt, "the header")
	}
	for _, f := range l.Fields {
		lacks(f.Statement.Name+" "+f.Statement.Prompt, f.Statement.At, "this "+string(f.Statement.Kind))
	}
	for _, g := range l.Gauges {
		lacks(g.Text, g.At, "this "+g.Kind)
	}
}
