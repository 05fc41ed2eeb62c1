package drawn

// Figures along a tape: a wheel unrolled, rotations that fit a distance, where runs stopped, a place to read.

import (
	"math"
	"strconv"

	"trundle/generator/quantity"
)

// Places of the tape in each picture, from its top.
const (
	unrollGround = 76.0
	lapsTape     = 66.0
	stopsTape    = 100.0
	readTape     = 54.0
)

// unroll draws a wheel and the way that it lays down in one rotation.
func (v *view) unroll() {
	symbol := v.Unit.Symbol()
	if len(v.first) == 0 {
		v.p.tape(unrollGround+2, v.width, scale{parts: v.parts(), k: 1}, symbol, false)
		v.p.path("h", "M48 ", unrollGround-18, "v62")
		v.empty()
		return
	}
	d := v.first[0]
	round := math.Pi * d
	// As large as the picture's width allows, with half a wheel before and after the way; but no higher than the room
	// above the ground.
	k := min((v.width-16)/(round+d), 68/d)
	r := d * k / 2
	x0 := 8 + r
	x, turned := x0+round*k*v.roll, 2*math.Pi*v.roll
	rim := func(t, r float64) (float64, float64) { return x + r*math.Sin(t), unrollGround - d*k/2 + r*math.Cos(t) }
	v.p.tape(unrollGround+2, v.width, scale{from: -x0 / k, k: k, parts: v.parts()}, symbol, v.open)
	v.p.path("o", "M", x0, unrollGround-1, "H", x)
	if v.roll > 0 {
		v.p.circle("g", x0, unrollGround-r, r)
	}
	v.p.circle("w", x, unrollGround-r, r)
	sx, sy := rim(-turned, r)
	v.p.path("b", "M", x, unrollGround-r, "L", sx, sy, "M", x-5, unrollGround-r, "h10")
	v.p.path("h", "M", x0, unrollGround-18, "v62")
	if v.roll < 1 {
		v.paint(rim, r-3, 2*math.Pi-turned)
		v.say("rolled", v.shown(0), v.to(v.roll*100, 1))
		return
	}
	// That π is three and a bit is what the figure is for: three wheels side by side, and what is left.
	for i := range 4 {
		from, long := x0+float64(i)*d*k, min(d, round-float64(i)*d)*k
		v.p.path("s", "M", from, unrollGround+46, "v7h", long, "v-7")
		if i < 3 {
			v.p.text("q", from+long/2, unrollGround+68, saying(v.words, "wheel"))
		} else {
			v.p.text("q a", min(from+long+6, v.width-52), unrollGround+68, saying(v.words, "bit"))
		}
	}
	if !v.open {
		v.say("rolled", v.shown(0), "100")
		return
	}
	v.say("unroll", v.shown(0), v.near(round), v.near(round-3*d))
}

// paint is what is still on the rim.
func (v *view) paint(rim func(t, r float64) (float64, float64), r, rest float64) {
	x, y := rim(0, r)
	if v.roll == 0 {
		v.p.circle("o", x, y-r, r)
		return
	}
	large := "0"
	if rest > math.Pi {
		large = "1"
	}
	endX, endY := rim(rest, r)
	v.p.path("o", "M", x, y, "A", r, r, " 0 "+large+" 0 ", endX, endY)
}

// near writes a length as one reads it off the tape.
func (v *view) near(x float64) string {
	many := int64(10)
	if v.Inches {
		many = 100
	}
	return quantity.Shown{Number: v.to(x, many), Unit: v.Unit.Symbol()}.Text()
}

// mostLaps bounds the picture; nobody counts more.
const mostLaps = 200

// laps draws how many rotations fit a distance.
func (v *view) laps() {
	const x0 = 36.0
	if len(v.first) == 0 {
		v.p.tape(lapsTape, v.width, scale{parts: v.parts(), k: 1}, v.Unit.Symbol(), false)
		v.empty()
		return
	}
	long := v.first[0]
	s := scale{k: (v.width - x0 - 16) / long, parts: v.parts()}
	s.from = -x0 / s.k
	v.p.tape(lapsTape, v.width, s, v.Unit.Symbol(), v.open && len(v.second) > 0)
	end := s.x(long)
	v.p.path("h", "M", x0, lapsTape-30, "v", 30.0+tapeHigh, "M", end, lapsTape-44, "v", 44.0+tapeHigh)
	v.p.text("r e", v.width-4, lapsTape-50, v.shown(0))
	if len(v.second) == 0 {
		v.empty()
		return
	}
	lap := v.second[0]
	fit := long / lap
	whole := math.Floor(fit + 1e-9) // so that 120 / 0.1 is not one less
	shown := 1.0                    // one alone does not give their number away
	if v.open {
		shown = min(math.Ceil(fit-1e-9), mostLaps)
	}
	for i := range int(shown) {
		from, wide := s.x(float64(i)*lap), min(lap, long-float64(i)*lap)*s.k
		class := "p"
		if i%2 == 1 {
			class = "p a"
		}
		v.p.path(class, "M", from, lapsTape-26, "h", wide, "v22h", -wide, "z")
		if float64(i) < whole && wide >= 18 {
			v.p.text("m", from+wide/2, lapsTape-9, strconv.Itoa(i+1))
		}
	}
	if !v.open {
		v.say("lap", v.shown(1), v.shown(0))
		return
	}
	v.say("laps", v.to(whole, 1), v.shown(0), v.to(max(0, fit-whole), 100))
}

// stops draws where runs stopped, and what they were to reach.
func (v *view) stops() {
	all := append(append([]float64{}, v.first...), v.second...)
	if len(all) == 0 {
		v.p.tape(stopsTape, v.width, scale{parts: v.parts(), k: 1}, v.Unit.Symbol(), false)
		v.empty()
		return
	}
	least, most := all[0], all[0]
	for _, x := range all {
		least, most = min(least, x), max(most, x)
	}
	pad := max((most-least)*0.12, 0.6) // runs that are all the same still have some tape around them
	if v.Inches {
		pad = max((most-least)*0.12, 0.3)
	}
	s := scale{from: least - pad, k: v.width / (most - least + 2*pad), parts: v.parts()}
	v.p.tape(stopsTape, v.width, s, v.Unit.Symbol(), v.open)
	if len(v.second) > 0 {
		x := s.x(v.second[0])
		v.p.path("h", "M", x, stopsTape-48, "v48m-8-10l8 10l8-10")
		v.p.text("r", v.within(x), stopsTape-54, saying(v.words, "target", v.shown(1)))
	}
	if len(v.first) == 0 {
		v.empty()
		return
	}
	v.dots(s)
	v.spread(s)
	u := v.Unit
	least, most = v.first[0], v.first[0]
	for _, x := range v.first {
		least, most = min(least, x), max(most, x)
	}
	v.say("stops", strconv.Itoa(len(v.first)), v.amount(least, u), v.amount(most, u))
}

// dots piles up runs that stopped at nearly the same place. Those of one column are within a dot's width of each other.
func (v *view) dots(s scale) {
	pile := map[float64]int{}
	for _, x := range v.first {
		column := math.Floor(s.x(x)/14 + 0.5)
		v.p.circle("d", s.x(x), stopsTape-8-14*float64(pile[column]), 7)
		pile[column]++
	}
}

// spread draws how far the runs lie apart, and their mean.
func (v *view) spread(s scale) {
	if !v.told || len(v.first) < 2 {
		return
	}
	sum, least, most := 0.0, v.first[0], v.first[0]
	for _, x := range v.first {
		sum, least, most = sum+x, min(least, x), max(most, x)
	}
	v.p.path("b", "M", s.x(least), 30.0, "v-7H", s.x(most), "v7")
	v.p.text("q", v.within((s.x(least)+s.x(most))/2), 16, saying(v.words, "apart", v.amount(most-least, v.Unit)))
	v.p.path("b f", "M", s.x(sum/float64(len(v.first))), stopsTape, "l-7-13h14z")
}

// within keeps a label inside the picture.
func (v *view) within(x float64) float64 { return min(max(x, 64), v.width-64) }

// readAcross is how much of a tape is seen when it is to be read.
func readAcross(inches bool) float64 {
	if inches {
		return 2.2
	}
	return 4
}

// read draws a piece of tape with a hook on it. The still picture has it at a place that is as good as any other.
func (v *view) read() {
	if len(v.first) == 0 {
		v.p.tape(readTape, v.width, scale{parts: v.parts(), k: 1}, v.Unit.Symbol(), false)
		v.empty()
		return
	}
	step := v.Target.Step.Float()
	steps := math.Floor(v.first[0] / step)
	v.hook(math.Floor(steps*0.62)*step, 0.4) // neither at an end nor in the middle, which would be easy to guess
}

// hook draws the hook at a place that lies at some part of what is seen. Its sentence names the whole units on both
// sides and no more, since to read what is between them is the task.
func (v *view) hook(place, part float64) {
	across := readAcross(v.Inches)
	s := scale{from: place - across*part, k: v.width / across, parts: v.parts()}
	v.p.tape(readTape, v.width, s, v.Unit.Symbol(), v.open)
	v.p.path("h", "M", s.x(place), 6.0, "v48m-8-10l8 10l8-10")
	v.say("between", v.to(math.Floor(place), 1), v.to(math.Floor(place)+1, 1))
}
