package worksheets

// What a coach wants on paper and paper cannot show.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// Unprintable gives the blocks of parts marked for paper that have no form there: HTML, and data that only pages show.
// Of pictures, wide tables and programs the checks know themselves.
func Unprintable(l *work.Lesson) []ast.Node {
	s := selectionOf(l, false)
	var all []ast.Node
	for _, n := range s.blocks {
		_, gauge := n.(*lesson.GaugeBlock) // those have places of their own
		if s.marks[n] == lesson.OnPaper && !gauge && s.isOnlyOnPages(n) && n.Kind() != ast.KindThematicBreak {
			all = append(all, n)
		}
	}
	return all
}
