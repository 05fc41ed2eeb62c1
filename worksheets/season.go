package worksheets

// The sheets of all lessons in one file, to be printed at once.

import (
	"strconv"

	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// SeasonLesson is a lesson with the short forms of its care cards.
type SeasonLesson struct {
	Lesson *work.Lesson
	Cards  []Card
}

// Season puts the students' sheets of all lessons into one file, or the run sheets if it is for mentors. A bookmark leads
// to each lesson, and its pages are labelled with its week: 3-1, 3-2.
func Season(p Paper, about About, lessons []SeasonLesson, mentors bool) ([]byte, error) {
	var all []*pdf.Document
	for i, l := range lessons {
		draw := layOut
		if mentors {
			draw = func(p Paper, about About, l *work.Lesson, cards []Card, _ bool) (*pdf.Document, error) {
				return layOutRun(p, about, l, cards)
			}
		}
		doc, err := draw(p, about, l.Lesson, l.Cards, false)
		if err != nil {
			return nil, err
		}
		if i == 0 || lessons[i-1].Lesson.Week != l.Lesson.Week { // two in a week are counted on
			doc.SetPage(1)
			doc.Label(strconv.Itoa(l.Lesson.Week) + "-")
		}
		all = append(all, doc)
	}
	title := about.Pack + " · " + about.Words("season")
	if mentors {
		title += " · " + about.Words("mentors-sheet")
	}
	if len(all) == 0 { // a file must have a page
		all = append(all, newDocument(title, about.Pack, about.Language))
		all[0].AddPage(p.Width, p.Height)
	}
	return pdf.Join(information(title, about.Pack, about.Language), all).Bytes()
}
