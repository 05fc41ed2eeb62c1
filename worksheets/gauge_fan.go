package worksheets

// The fan: drift angles from a start line. All numbers are millimetres unless they are named otherwise.

import (
	"math"
	"strconv"

	"trundle/generator/quantity"
)

const (
	widest   = 10 // degrees to each side
	fanHead  = 16 // room for the numbers above the far edge
	fanFoot  = 7  // room below the apex
	fanMost  = 200
	fanEvery = 160 // nearer, the numbers of single degrees run together, and
	fanLeast = 90  // nearer, those of every second

	fanRow, fanRowOdd = 1.6, 8.9 // from the far edge to the base lines of the numbers
)

// reach is how far the far edge lies from the start line.
func (g Gauge) reach(room place) float64 {
	return math.Floor(min(room.Height-g.captionRoom()-fanHead-fanFoot-2*gaugeEdge, fanMost))
}

func (g Gauge) leastFan() float64 {
	return g.captionRoom() + fanHead + fanLeast + fanFoot + 2*gaugeEdge
}

// fanHeight is the whole height of a fan on a page: as high as there is room, but no higher than fanMost.
func (g Gauge) fanHeight(room place) float64 {
	return g.captionRoom() + fanHead + g.reach(room) + fanFoot + 2*gaugeEdge
}

// drawFan draws rays from a point of the start line. Left is plus, as seen from behind the
// robot. Beneath each degree stands what it comes to over the lesson's distance.
func (g Gauge) drawFan(p pen, at place) {
	g.caption(p, at, at.Width)
	reach := at.Height - g.captionRoom() - fanHead - fanFoot - 2*gaugeEdge
	x, edge := at.X+at.Width/2, at.Y+g.captionRoom()+fanHead+gaugeEdge
	start := edge + reach
	side := reach * math.Tan(widest*math.Pi/180)
	p.line(x-side-4, edge, x+side+4, edge, firm, black)
	p.line(at.X+gaugeEdge, start, at.X+at.Width-gaugeEdge, start, firm, black)
	p.word(at.X+gaugeEdge, start+3.8, smallest, fromLeft, g.say("gauge-start"))
	unit, scale := "mm", 1.0
	if g.Inches {
		unit, scale = "in", inch
	}
	// Half degrees have a mark only; whole ones a ray and their numbers.
	for half := -2 * widest; half <= 2*widest; half++ {
		offset := math.Tan(float64(half) / 2 * math.Pi / 180)
		ex := x - reach*offset
		if half%2 != 0 {
			p.line(ex, edge, ex, edge+2.5, hair, black)
			continue
		}
		n := half / 2
		width, grey := hair, dark
		if n%5 == 0 {
			width, grey = thin, black
		}
		from := 0.0
		if n%5 != 0 { // so that the rays do not run together at the apex
			from = 0.35
		}
		p.line(x-from*(x-ex), start-from*reach, ex, edge, width, grey)
		// Each second number stands in a row above the others, so that all have room.
		every := 1
		if reach < fanEvery {
			every = 2
		}
		if n%every != 0 {
			continue
		}
		base := edge - fanRow
		if n/every%2 != 0 {
			base = edge - fanRowOdd
			p.line(ex, edge, ex, base+0.8, hair, black)
		}
		p.word(ex, base-3.1, smallest, centred, degrees(n))
		p.word(ex, base, smallest, centred, g.sideways(g.Size*math.Abs(offset)/scale))
	}
	right := x + side + 5
	after := p.short(smallest, unit+" "+g.say("gauge-after", g.sizeText()), at.X+at.Width-gaugeEdge-right)
	for _, base := range []float64{edge - fanRow, edge - fanRowOdd} {
		p.word(right, base-3.1, smallest, fromLeft, "°")
		p.word(right, base, smallest, fromLeft, after)
	}
	p.word(at.X+gaugeEdge, edge-1.6, smallest, fromLeft, g.say("gauge-left"))
	p.word(at.X+gaugeEdge, start-2, smallest, fromLeft, g.say("gauge-edge", strconv.FormatFloat(reach, 'f', 0, 64)))
}

// degrees writes an angle; which side is plus is said once, beside it.
func degrees(n int) string {
	if n < 0 {
		return quantity.Minus + strconv.Itoa(-n)
	}
	return strconv.Itoa(n)
}

// sideways writes a drift as short as its size allows.
func (g Gauge) sideways(x float64) string {
	if x >= 10 || x == 0 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return g.written(strconv.FormatFloat(x, 'f', 1, 64))
}
