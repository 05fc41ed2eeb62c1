package worksheets

// For tests from outside, which can build a pack: parts of a sheet on their own.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// Illustrated makes a document of a lesson's pictures and data alone, without what is for mentors.
func Illustrated(p Paper, about About, l *work.Lesson, mentors bool) ([]byte, error) {
	s := &sheet{paper: p, about: about, lesson: l, mentors: mentors, fit: fit{room: 25, picture: 60}}
	s.doc = newDocument(l.Title, about.Pack, "en")
	s.newPage()
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || lesson.ForMentors(n) {
			return ast.WalkSkipChildren, nil
		}
		switch n := n.(type) {
		case *ast.Image:
			s.picture(n)
		case *lesson.DataBlock:
			s.data(n)
		}
		return ast.WalkContinue, nil
	})
	s.gauges()
	return s.doc.Bytes()
}
