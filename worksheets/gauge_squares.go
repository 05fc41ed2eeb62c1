package worksheets

// Squared paper for a plot. Millimetres.

import "math"

const (
	square     = 5
	besideUp   = 7 // room for the text along the side
	belowFoot  = 7 // and for that along the foot
	arrowSpace = 4
)

// squaresRoom is two thirds as high as it is wide, in whole squares.
func (g Gauge) squaresRoom() (w, h float64) {
	width, height := g.squaresSize()
	return width + besideUp + arrowSpace, height + belowFoot + arrowSpace
}

func (g Gauge) squaresSize() (width, height float64) {
	width = max(math.Floor((g.Size+nearly)/square), 2) * square
	return width, max(math.Round(width*2/3/square), 1) * square
}

func largestSquares(room place) float64 {
	width := min(room.Width-besideUp-arrowSpace, (room.Height-belowFoot-arrowSpace-square/2)*3/2)
	return math.Floor(width/square) * square
}

// drawSquares draws squared paper with two axes; the numbers are for the students to write.
func (g Gauge) drawSquares(p pen, at place) {
	width, height := g.squaresSize()
	x, top := at.X+besideUp, at.Y+arrowSpace
	foot := top + height
	for i := 0; float64(i)*square <= width+nearly; i++ {
		g.rule(p, i, x+float64(i)*square, top, x+float64(i)*square, foot)
	}
	for i := 0; float64(i)*square <= height+nearly; i++ {
		g.rule(p, i, x, foot-float64(i)*square, x+width, foot-float64(i)*square)
	}
	p.arrow(x, foot, 1, 0, width+arrowSpace-gaugeEdge)
	p.arrow(x, foot, 0, -1, height+arrowSpace-gaugeEdge)
	p.note(x, foot+4.5, width, 9, 1, g.Text)
	p.doc.Upwards(x-2.5, foot, func() { p.note(x-2.5, foot, height, 9, 1, g.Up) })
}

// rule draws a line of the paper; each second one is bolder.
func (g Gauge) rule(p pen, i int, x1, y1, x2, y2 float64) {
	if i%2 == 0 {
		p.line(x1, y1, x2, y2, thin, dark)
	} else {
		p.line(x1, y1, x2, y2, hair, pale)
	}
}
