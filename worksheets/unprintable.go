package worksheets

// What is printed of a lesson as it is written, and what a coach wants on paper and paper cannot show.

import (
	"slices"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// Printed gives the blocks for students that their sheet has as they are written: prose, steps, tables, programs.
// Questions, data and gauges are set in forms of their own.
func Printed(l *work.Lesson) []ast.Node {
	s := selectionOf(l, false)
	return slices.DeleteFunc(slices.Clone(s.blocks), func(n ast.Node) bool {
		switch n.(type) { // the others: prose, steps, tables, programs
		case *lesson.WorkBlock, *lesson.DataBlock, *lesson.GaugeBlock, *ast.Heading:
			return true
		}
		return !s.printed[n]
	})
}

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
