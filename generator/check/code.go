package check

// Programs that are shown in one colour, because they are too long for more.

import (
	"fmt"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// plainCode reports code that would be coloured if it were shorter.
func plainCode(l *lesson.Lesson, problems *problem.List) {
	var colouring lesson.Colouring
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		var language, code string
		at := 0
		switch n := n.(type) { // the others: hold no code that is coloured
		case *ast.FencedCodeBlock:
			if n.Info == nil {
				return ast.WalkContinue, nil
			}
			language, code, at = string(n.Language(l.Markdown)), string(n.Lines().Value(l.Markdown)), n.Info.Segment.Start
		case *lesson.FilledCode:
			language, code, at = n.Language, filledText(n), n.Pos()
		}
		if _, known := lesson.CodeLanguage(language); known && !colouring.Takes(language, code) {
			problems.Caution(l.File, source.Span{Start: at, End: at + len(language)}, "code-plain",
				"this program is too long to be coloured, and is shown in one colour",
				fmt.Sprintf("show a part of it: %d kB (Go, Java and HTML: %d), lines of %d characters, and %d kB in all of "+
					"a lesson are the most that is coloured", lesson.MaxColoured>>10, lesson.MaxColouredSlow>>10,
					lesson.MaxColouredLine, lesson.MaxColouredPage>>10))
		}
		return ast.WalkContinue, nil
	})
}

// filledText is a program with a number in the place of each of its values.
func filledText(n *lesson.FilledCode) string {
	var code strings.Builder
	for _, p := range n.Parts {
		if code.WriteString(p.Code); p.Value != nil {
			code.WriteString("000")
		}
	}
	return code.String()
}
