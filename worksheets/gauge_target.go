package worksheets

// The stop target: a grid about the place where a robot was to stop. Millimetres.

import (
	"math"
	"strconv"

	"trundle/generator/quantity"
)

// A grid is a stop target's lines: so many to each side of the middle ones.
type grid struct {
	step         float64 // millimetres from line to line
	bold         int     // each so many is bold and numbered
	worth        float64 // of a line, in the unit of the numbers
	unit         string
	across, over int // lines to each side, and before and beyond
	captions     float64
}

const (
	numbers    = 11 // room for the numbers at the sides
	farthestBy = 80 // millimetres of drift that a target shows at most
	beyondBy   = 100

	leastBeyond = 40
)

// targetOn chooses the lines that a page has room for.
func (g Gauge) targetOn(room place) grid {
	t := grid{step: 5, bold: 2, worth: 5, unit: "mm", captions: captionHeight + g.captionRoom()}
	if g.Inches {
		t.step, t.bold, t.worth, t.unit = inch/4, 4, 0.25, "in"
	}
	half := min((room.Width-2*numbers)/2, farthestBy)
	t.across = int(half/t.step + nearly)
	half = min((room.Height-t.captions-numbers-2*gaugeEdge)/2, beyondBy)
	t.over = int(half/t.step + nearly)
	return t
}

// leastTarget has room for the lines that stops of a careful run need.
func (g Gauge) leastTarget() float64 {
	return 2*leastBeyond + captionHeight + g.captionRoom() + numbers + 2*gaugeEdge
}

// room is what the lines take, with the numbers at their sides and the captions above.
func (t grid) room() (w, h float64) {
	return 2*float64(t.across)*t.step + 2*numbers, 2*float64(t.over)*t.step + t.captions + numbers + 2*gaugeEdge
}

// drawTarget draws the lines. Left of the way is plus, as seen from behind the robot; so
// is beyond the zero line.
func (g Gauge) drawTarget(p pen, at place, t grid) {
	g.caption(p, at, at.Width)
	zero := g.say("gauge-zero", g.sizeText())
	p.note(at.X+gaugeEdge, at.Y+g.captionRoom()+3.4, at.Width-2*gaugeEdge, captionSize, 1, zero)
	width, height := float64(t.across)*t.step, float64(t.over)*t.step
	cx, cy := at.X+numbers+width, at.Y+t.captions+gaugeEdge+height
	for kind := range 3 { // the bolder over the lighter
		for i := -t.across; i <= t.across; i++ {
			if x := cx + float64(i)*t.step; t.kind(i) == kind {
				t.line(p, kind, x, cy-height, x, cy+height)
			}
		}
		for j := -t.over; j <= t.over; j++ {
			if y := cy - float64(j)*t.step; t.kind(j) == kind {
				t.line(p, kind, cx-width, y, cx+width, y)
			}
		}
	}
	for i := -t.across / t.bold * t.bold; i <= t.across; i += t.bold {
		p.word(cx+float64(i)*t.step, cy+height+4, smallest, centred, g.signed(-float64(i)*t.worth))
	}
	for j := -t.over / t.bold * t.bold; j <= t.over; j += t.bold {
		p.word(cx-width-1.5, cy-float64(j)*t.step+0.9, smallest, toRight, g.signed(float64(j)*t.worth))
	}
	p.word(cx+width+4, cy+height+4, smallest, fromLeft, t.unit)
	p.turned(cx+width+5, cy, smallest, p.short(smallest, g.say("gauge-travel"), height))
	p.arrow(cx+width+7.5, cy+14, 0, -1, 28)
}

// kind tells a light line (0) from a bold one (1) and from a middle one (2).
func (t grid) kind(i int) int {
	switch {
	case i == 0:
		return 2
	case i%t.bold == 0:
		return 1
	}
	return 0
}

// line draws a line of a kind.
func (t grid) line(p pen, kind int, x1, y1, x2, y2 float64) {
	p.line(x1, y1, x2, y2, [...]float64{hair, thin, thick}[kind], [...]int{pale, dark, black}[kind])
}

// signed writes a number with the sign that says on which side of the middle it is.
func (g Gauge) signed(x float64) string {
	text := g.written(strconv.FormatFloat(math.Abs(x), 'g', -1, 64))
	switch {
	case x > 0:
		return "+" + text
	case x < 0:
		return quantity.Minus + text
	}
	return "0"
}
