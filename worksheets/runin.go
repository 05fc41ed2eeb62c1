package worksheets

// Lists of short points in running lines, each with its box to tick: what a head has of goals and materials where there
// is hardly room.

import "trundle/worksheets/pdf"

// A runPoint is a point of such a list, laid out, with its place from the top left corner of the list.
type runPoint struct {
	lines []textLine
	x, y  float64
}

// Room for the box of a point, and between two points of a line. Millimetres.
const (
	tickWide = 4.6
	runApart = 4.0
)

// runIn puts points one after the other behind a label, and a new line only for what has no room on the last.
func (s *sheet) runIn(word string, texts []string) {
	size, line := s.headSize(), s.line(s.headSize())
	label := printable(s.say(word))
	s.doc.SetFont(bold, size)
	points, height := s.runPoints(texts, s.doc.Width(label)+runApart)
	if height > s.foot()-Margin {
		s.label(word)
		s.tickedList(texts, 1)
		return
	}
	s.gap(1)
	s.put(height, func(y float64) {
		s.doc.In(pdf.P, func() {
			s.font(bold, size)
			s.lines(s.left(), y, []string{label}, line)
		})
		s.doc.In(pdf.L, func() {
			for _, p := range points {
				s.ticked(p.lines, s.left()+p.x, y+p.y, tickWide)
			}
		})
	})
}

// runPoints gives points their places, the first of them at x, and the height of all.
func (s *sheet) runPoints(texts []string, x float64) (points []runPoint, height float64) {
	line := s.line(s.headSize())
	y := 0.0
	for _, t := range texts {
		lines := s.setLines(s.wordsOf(t, regular), s.headSize(), s.width()-tickWide)
		if len(lines) == 0 {
			continue
		}
		wide := tickWide + s.widest(lines, s.headSize())
		if x > 0 && x+wide > s.width() {
			x, y = 0, y+line
		}
		points = append(points, runPoint{lines, x, y})
		y += line * float64(len(lines)-1)
		x += wide + runApart
	}
	return points, y + line
}
