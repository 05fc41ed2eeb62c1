package worksheets

// The rose: degrees about the middle of a robot's track. Millimetres.

import "math"

const (
	roseMost  = 85 // radius
	roseLeast = 65
	roseOuter = 8 // room for the numbers
)

// radius is that of the outer circle: as large as the page has room for, whatever the track is.
func (g Gauge) radius(room place) float64 {
	return math.Floor(min(room.Width/2-roseOuter, (room.Height-g.captionRoom())/2-roseOuter, roseMost))
}

// roseMarks is what the marks of degrees take within the outer circle.
const roseMarks = 12

// leastRose is as large as the marks of single degrees can be told apart, and the track has room if it can have.
func (g Gauge) leastRose() float64 {
	return 2*(max(roseLeast, min(math.Ceil(g.Size/2)+roseMarks, roseMost))+roseOuter) + g.captionRoom()
}

func (g Gauge) roseRoom(room place) (w, h float64) {
	side := 2 * (g.radius(room) + roseOuter)
	return side, side + g.captionRoom()
}

// drawRose draws degrees about the middle of the track: 0 ahead, plus to the left, as
// turns are counted, seen from above.
func (g Gauge) drawRose(p pen, at place) {
	g.caption(p, at, at.Width)
	r := at.Width/2 - roseOuter
	cx, cy := at.X+at.Width/2, at.Y+g.captionRoom()+at.Width/2
	for a := -179; a <= 180; a++ {
		length, width := 3.0, hair
		switch {
		case a%10 == 0:
			length, width = 8, thin
		case a%5 == 0:
			length = 5
		}
		sin, cos := math.Sincos(float64(a) * math.Pi / 180)
		p.line(cx-r*sin, cy-r*cos, cx-(r-length)*sin, cy-(r-length)*cos, width, black)
		if a%10 == 0 {
			p.word(cx-(r+4.5)*sin, cy-(r+4.5)*cos+0.9, smallest, centred, degrees(a))
		}
	}
	p.line(cx-6, cy, cx+6, cy, hair, black)
	p.line(cx, cy-6, cx, cy+6, hair, black)
	p.arrow(cx, cy-8, 0, -1, r*0.45)
	p.word(at.X+gaugeEdge, cy-at.Width/2+4, smallest, fromLeft, g.say("gauge-left"))
	track := g.Size / 2
	// A track that would run into the marks, or into the middle, is left out; the degrees are good all the same.
	if track > r-roseMarks || track < 8 {
		return
	}
	p.dashed(func() { p.circle(cx, cy, track, hair, dark) })
	const wheel = 14
	for _, side := range []float64{-1, 1} {
		p.rect(cx+side*track-1.5, cy-wheel/2, 3, wheel, thin, black)
	}
	base := cy + track + 4
	if track > 25 { // inside, away from the marks of degrees
		base = cy + track - 3
	}
	p.word(cx, base, smallest, centred, p.short(smallest, g.say("gauge-track", g.sizeText()), 40))
}
