package worksheets

// The edge: a ruler down the right margin of every page, so that each sheet measures. Millimetres.

import (
	"strconv"
	"sync"

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
	s.doc.Stamp(s.about.Shown.edgeOf(s.paper, s.edgeLength()))
	if s.doc.PageCount() == 1 {
		s.doc.Apart(func() {
			pen{s.doc}.turned(s.paper.Width-Margin-edgeTen-0.9, Margin+50, smallest, s.say("edge-check"))
		})
	}
}

// edgeOf is the edge of all pages on a paper.
func (i *Illustrations) edgeOf(paper Paper, length float64) *pdf.Stamp {
	draw := func() *pdf.Stamp {
		return pdf.NewStamp(letters(), paper.Width, paper.Height, func(d *pdf.Document) {
			drawEdge(pen{d}, paper.Width-Margin, length)
		})
	}
	if i == nil {
		return draw()
	}
	made, _ := i.made.LoadOrStore(paper, sync.OnceValue(draw))
	return made.(func() *pdf.Stamp)()
}

// drawEdge draws its line, marks and numbers.
func drawEdge(p pen, x, length float64) {
	const top = float64(Margin)
	p.line(x, top, x, top+length, thin, black)
	p.doc.LineWidth(hair)
	for mm := range int(length) + 1 {
		mark := edgeOne
		switch {
		case mm%10 == 0:
			mark = edgeTen
		case mm%5 == 0:
			mark = edgeHalf
		}
		y := top + float64(mm)
		p.doc.MoveTo(x, y)
		p.doc.LineTo(x-mark, y)
	}
	p.doc.Paint(pdf.Stroke)
	for cm := range int(length) / 10 {
		p.word(x-edgeNumber, top+float64(cm)*10+3.1, smallest, toRight, strconv.Itoa(cm))
	}
}
