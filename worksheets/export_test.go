package worksheets

// What tests look at from outside, since the packs that they build use this package.

import (
	"trundle/generator/lesson"
	"trundle/generator/work"
)

// RowHeights are those of a lesson's rows on an endless page, with so much room for squares.
func RowHeights(about About, l *work.Lesson, blocks []*lesson.WorkBlock, mentors bool, room float64) []float64 {
	endless := Paper{"endless", 210, 1e6}
	s := &sheet{paper: endless, about: about, lesson: l, mentors: mentors, lying: map[int]bool{}, fit: fit{room: room}}
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
