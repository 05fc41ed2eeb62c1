package worksheets

import (
	"math"
	"strconv"
)

const (
	stripHeight = 26
	flap        = 10 // of the strip behind its scale, to hold it by
)

func (g Gauge) wrapRoom() (w, h float64) {
	return math.Pi*g.Size + flap + 2*gaugeEdge, g.captionRoom() + stripHeight + 2*gaugeEdge
}

func largestWrap(room place) float64 { return (room.Width - flap - 2*gaugeEdge) / math.Pi }

// drawWrap draws a strip whose left edge is its zero line. Laid round a wheel, that edge
// meets the scale at the circumference, on the upper side, and at the diameter, on the
// lower one: a diameter d stands π·d from the zero line.
func (g Gauge) drawWrap(p pen, at place) {
	g.caption(p, at, at.Width)
	x, top := at.X+gaugeEdge, at.Y+g.captionRoom()+gaugeEdge
	foot := top + stripHeight
	length := math.Pi * g.Size
	p.dashed(func() { p.rect(x, top, length+flap, stripHeight, hair, black) })
	p.line(x, top, x, foot, firm, black)
	unit, step, marks := g.units()
	for i := 1; float64(i)*step <= length+nearly; i++ {
		mx := x + float64(i)*step
		p.line(mx, top, mx, top+markLength(i, marks), hair, black)
		if i%marks == 0 {
			p.word(mx, top+9.6, 7, centred, strconv.Itoa(i/marks))
		}
	}
	g.diameters(p, x, foot)
	p.word(x+2, top+14, 6.5, fromLeft, g.say("gauge-round")+", "+unit+" ↑")
	across := "mm"
	if g.Inches {
		across = "in"
	}
	p.word(x+length, top+14, 6.5, toRight, g.say("gauge-across")+", "+across+" ↓")
}

// diameters draws the lower scale: a mark a millimetre of diameter, or a sixteenth of an inch.
func (g Gauge) diameters(p pen, x, foot float64) {
	step, marks := 1.0, 10
	if g.Inches {
		step, marks = inch/16, 16
	}
	for i := 1; float64(i)*step <= g.Size+nearly; i++ {
		mx := x + math.Pi*float64(i)*step
		p.line(mx, foot, mx, foot-markLength(i, marks), hair, black)
		if i%marks == 0 {
			n := i
			if g.Inches {
				n = i / marks
			}
			p.word(mx, foot-7.6, 7, centred, strconv.Itoa(n))
		}
	}
}
