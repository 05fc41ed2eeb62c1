package worksheets

// The edge: a ruler down the right margin of every page, so that each sheet measures. Millimetres.

import (
	"strconv"

	"trundle/worksheets/pdf"
)

// How long its marks are, and where its numbers stand, left of its line.
const (
	edgeOne, edgeHalf, edgeTen = 2.0, 3.2, 5.0

	edgeNumber = 2.3 // to the right of a number
)

// edge draws centimetres and millimetres from the top margin down. What is at the edge is nothing to read, so that it
// is no part of the document's text. The first page asks to check it.
func (s *sheet) edge() {
	s.doc.Apart(func() {
		p, x, top := pen{s.doc}, s.paper.Width-Margin, float64(Margin)
		length := s.edgeLength()
		p.line(x, top, x, top+length, thin, black)
		s.doc.LineWidth(hair)
		for mm := range int(length) + 1 {
			mark := edgeOne
			switch {
			case mm%10 == 0:
				mark = edgeTen
			case mm%5 == 0:
				mark = edgeHalf
			}
			y := top + float64(mm)
			s.doc.MoveTo(x, y)
			s.doc.LineTo(x-mark, y)
		}
		s.doc.Paint(pdf.Stroke)
		for cm := range int(length) / 10 {
			p.word(x-edgeNumber, top+float64(cm)*10+3.1, smallest, toRight, strconv.Itoa(cm))
		}
		if s.doc.PageCount() == 1 {
			p.turned(x-edgeTen-0.9, top+50, smallest, s.say("edge-check"))
		}
		p.down()
	})
}
