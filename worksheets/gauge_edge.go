package worksheets

// Rulers that need no drawing of their own: the centimetre edge of the last page is one already.

import (
	"math"

	"trundle/worksheets/pdf"
)

// edgeLength is how long the centimetre edge of a page is.
func (s *sheet) edgeLength() float64 {
	return math.Floor((s.paper.Height-2*Margin-footerHeight)/10) * 10
}

// isEdge tells whether a page's edge does what a ruler is for.
func (s *sheet) isEdge(g fitted) bool {
	return g.Kind == Ruler && !g.Inches && g.Size <= s.edgeLength()+nearly
}

// edgeRulers writes along the edge of the last page that it is a ruler to be cut out, and what for. It is checked as
// that of the first page is.
func (s *sheet) edgeRulers(rulers []fitted) {
	const halves = 2 * 50 // as far down as the check of the first page goes
	from, page := float64(Margin), s.doc.PageCount()
	if page == 1 {
		from += halves
	}
	length := Margin + s.edgeLength() - from
	s.doc.SetPage(page)
	for _, g := range rulers {
		p, share := pen{s.doc}, length/float64(len(rulers))
		text := p.short(smallest, s.say("edge-ruler", g.sizeText(), g.Text), share-2)
		s.doc.In(pdf.P, func() { p.turned(s.paper.Width-Margin-edgeTen-0.9, from+share/2, smallest, text) })
		from += share
	}
	pen{s.doc}.down()
}
