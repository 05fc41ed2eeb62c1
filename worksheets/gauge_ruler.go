package worksheets

// The ruler, and the marks and numbers that it shares with the wrap strip. Millimetres.

import (
	"math"
	"strconv"
)

const rulerHeight = 14

func (g Gauge) rulerRoom() (w, h float64) {
	return g.Size + 2*gaugeEdge, g.captionRoom() + rulerHeight
}

func largestRuler(room place) float64 { return room.Width - 2*gaugeEdge }

// drawRuler draws an edge with marks below it, zero at its very left.
func (g Gauge) drawRuler(p pen, at place) {
	g.caption(p, at, at.Width)
	x, y := at.X+gaugeEdge, at.Y+g.captionRoom()+gaugeEdge
	p.line(x, y, x+g.Size, y, thin, black)
	unit, step, marks := g.units()
	for i := 0; float64(i)*step <= g.Size+nearly; i++ {
		mx := x + float64(i)*step
		p.line(mx, y, mx, y+markLength(i, marks), hair, black)
		if i%marks == 0 {
			g.number(p, x, mx, y+10.2, i/marks)
		}
	}
	p.word(x+2.2, y+13.2, smallest, fromLeft, p.short(smallest, unit, g.Size-2.2))
}

// number writes a number below its mark, moved in where the gauge ends.
func (g Gauge) number(p pen, x, mx, y float64, n int) {
	const size = captionSize
	text := strconv.Itoa(n)
	p.doc.SetFont(regular, size)
	half := p.doc.Width(text) / 2
	p.word(math.Min(math.Max(mx, x+half), x+g.Size-half+gaugeEdge/2), y, size, centred, text)
}

// markLength is how long a mark is: of centimetres, halves and millimetres, or of inches and
// their halves, quarters, eighths and sixteenths.
func markLength(i, marks int) float64 {
	switch {
	case i%marks == 0:
		return 7
	case i%(marks/2) == 0:
		return 5
	case marks == 16 && i%4 == 0:
		return 4
	case marks == 16 && i%2 == 0:
		return 3
	case marks == 16:
		return 2.2
	}
	return 3.4
}
