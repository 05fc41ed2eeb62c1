package worksheets

// The wrap strip: laid round a wheel, it shows circumference and diameter. Millimetres.

import (
	"math"
	"strconv"
	"strings"
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
			p.word(mx, top+9.8, smallest, centred, strconv.Itoa(i/marks))
		}
	}
	g.diameters(p, x, foot)
	name := func(name, unit, edge string) string { // of a scale; both stand side by side
		if text := p.short(smallest, g.say(name)+", "+unit, (length-10)/2); text != "" {
			return text + " " + edge
		}
		return ""
	}
	p.word(x+2, top+14.4, smallest, fromLeft, name("gauge-round", unit, "↑"))
	across := "mm"
	if g.Inches {
		across = "in"
	}
	p.word(x+length, top+14.4, smallest, toRight, name("gauge-across", across, "↓"))
}

// diameters draws the lower scale: a mark a millimetre of diameter, or a sixteenth of an inch.
func (g Gauge) diameters(p pen, x, foot float64) {
	step, marks, numbered, number := 1.0, 10, 10, strconv.Itoa
	if g.Inches {
		step, marks, numbered, number = inch/16, 16, 4, quarters
	}
	for i := 1; float64(i)*step <= g.Size+nearly; i++ {
		mx := x + math.Pi*float64(i)*step
		p.line(mx, foot, mx, foot-markLength(i, marks), hair, black)
		if i%numbered == 0 {
			p.word(mx, foot-7.6, smallest, centred, number(i))
		}
	}
}

// quarters writes sixteenths of an inch that make quarters as a tape does: inches of diameter
// stand 80 mm apart, too far to count from one to the next.
func quarters(sixteenths int) string {
	text := [...]string{"", "1/4", "1/2", "3/4"}[sixteenths%16/4]
	if whole := sixteenths / 16; whole > 0 {
		text = strings.TrimSpace(strconv.Itoa(whole) + " " + text)
	}
	return text
}
