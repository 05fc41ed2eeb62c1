package worksheets

// A thin stub, to be replaced: what the run sheet and the season in one file will be made by, so that others can call it.

import (
	"bytes"
	"strconv"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// SeasonLesson is a lesson with the short forms of its care cards.
type SeasonLesson struct {
	Lesson *work.Lesson
	Cards  []Card
}

// RunSheet makes the page with which a mentor runs a lesson: here its title and when each of its parts begins.
func RunSheet(p Paper, about About, l *work.Lesson, cards []Card) ([]byte, error) {
	lines := []string{l.Title}
	for _, part := range lesson.TimedParts(l.Lesson) {
		lines = append(lines, lesson.ClockAt(about.Start, part.From)+"  "+part.Label)
	}
	return page1(p, about, lines)
}

// Season puts the sheets of all lessons into one file, the run sheets if it is for mentors: here their titles.
func Season(p Paper, about About, lessons []SeasonLesson, mentors bool) ([]byte, error) {
	lines := []string{about.Pack}
	for _, l := range lessons {
		lines = append(lines, strconv.Itoa(l.Lesson.Week)+"  "+l.Lesson.Title)
	}
	return page1(p, about, lines)
}

// page1 is one page with some lines on it.
func page1(p Paper, about About, lines []string) ([]byte, error) {
	s := &sheet{paper: p, about: about}
	s.pdf = newPDF(p, lines[0], about.Pack, about.Language)
	s.newPage()
	height := s.font(regular, 12)
	for i, line := range lines {
		lines[i] = printable(line)
	}
	s.lines(s.left(), s.y, lines, height)
	var out bytes.Buffer
	err := s.pdf.Output(&out)
	return out.Bytes(), err
}
