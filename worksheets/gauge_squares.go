package worksheets

// Squared paper for a plot. Millimetres.

import (
	"math"

	"trundle/generator/quantity"
)

const (
	square     = 5
	besideUp   = 7 // room for the text along the side
	belowFoot  = 7 // and for that along the foot
	arrowSpace = 4
	fewest     = 10 // squares from top to bottom
)

// squaresRoom is as wide as the place is, and two thirds as high if there is room, in whole squares. With a line of
// zero it is of two halves.
func (g Gauge) squaresRoom(on place) (w, h float64) {
	across := math.Floor((max(on.Width-besideUp-arrowSpace, g.Size) + nearly) / square)
	height := min(across*square*2/3+square/2, on.Height-belowFoot-arrowSpace)
	up := max(math.Floor((height+nearly)/square), 2)
	if g.Signed {
		up = math.Floor(up/4) * 4 // so that zero is on one of the bolder lines
	}
	return across*square + besideUp + arrowSpace, up*square + belowFoot + arrowSpace
}

func (g Gauge) leastSquares() float64 {
	return max(math.Round(g.Size*2/3/square)-6, fewest)*square + belowFoot + arrowSpace
}

func largestSquares(room place) float64 {
	width := min(room.Width-besideUp-arrowSpace, (room.Height-belowFoot-arrowSpace-square/2)*3/2)
	return math.Floor(width/square) * square
}

// drawSquares draws squared paper with two axes; the numbers are for the students to write, but for zero where values
// have signs.
func (g Gauge) drawSquares(p pen, at place) {
	width, height := at.Width-besideUp-arrowSpace, at.Height-belowFoot-arrowSpace
	x, top := at.X+besideUp, at.Y+arrowSpace
	foot := top + height
	for i := 0; float64(i)*square <= width+nearly; i++ {
		g.rule(p, i, x+float64(i)*square, top, x+float64(i)*square, foot)
	}
	for i := 0; float64(i)*square <= height+nearly; i++ {
		g.rule(p, i, x, foot-float64(i)*square, x+width, foot-float64(i)*square)
	}
	zero := foot
	if g.Signed {
		zero = foot - height/2
		for _, m := range []struct {
			y    float64
			text string
		}{{zero, "0"}, {top + 3, "+"}, {foot - 1, quantity.Minus}} {
			p.word(x-0.8, m.y+1, captionSize, toRight, m.text)
		}
	}
	p.arrow(x, zero, 1, 0, width+arrowSpace-gaugeEdge)
	p.arrow(x, foot, 0, -1, height+arrowSpace-gaugeEdge)
	p.note(x, foot+4.5, width, captionSize, 1, g.Text)
	above := foot - 6 // of the sign
	p.doc.Upwards(x-3, above, func() { p.note(x-3, above, height-10, captionSize, 1, g.Up) })
}

// rule draws a line of the paper; each second one is bolder.
func (g Gauge) rule(p pen, i int, x1, y1, x2, y2 float64) {
	if i%2 == 0 {
		p.line(x1, y1, x2, y2, thin, dark)
	} else {
		p.line(x1, y1, x2, y2, hair, pale)
	}
}
