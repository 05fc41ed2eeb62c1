package worksheets

// For tests from outside, which can build a pack: parts of a sheet on their own.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// RowHeights are those of a lesson's rows on an endless page, with so much room for squares.
func RowHeights(about About, l *work.Lesson, blocks []*lesson.WorkBlock, mentors bool, room float64) []float64 {
	endless := Paper{"endless", 210, 1e6}
	s := &sheet{paper: endless, about: about, lesson: l, mentors: mentors, edgeless: true,
		fit: fit{room: room}}
	s.doc = newDocument("", "", "en")
	s.newPage()
	s.y++ // nothing is at the top of the page
	var all []float64
	for _, b := range blocks {
		for rest := s.questions(b); len(rest) > 0; {
			from := s.y
			rest = rest[s.row(rest):]
			all = append(all, s.y-from)
		}
	}
	return all
}

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
