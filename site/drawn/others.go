package drawn

// Figures without a tape to measure on: runs from above, a part of a whole, cards dealt anew.

import (
	"math"
	"strconv"
)

// path draws runs seen from above, sideways so many times as large.
func (v *view) path() {
	const x0, middle = 20.0, 72.0
	v.p.path("z", "M", x0, middle, "H", v.width)
	v.p.path("b", "M", x0, 24.0, "V", 120.0)
	v.p.text("q a", x0+6, 16, saying(v.words, "left"))
	v.p.text("q a", x0+6, 140, saying(v.words, "rightward"))
	v.p.text("r e", v.width-4, 16, saying(v.words, "times", v.timesText()))
	if len(v.second) == 0 {
		v.empty()
		return
	}
	forward := v.second[0]
	k := (v.width - 60) / forward
	v.p.path("s", "M", x0+forward*k, 24.0, "V", 120.0)
	v.p.text("q e", v.width-4, 140, v.shown(1))
	if len(v.first) == 0 {
		v.empty()
		return
	}
	for _, s := range v.first {
		y := min(max(middle-s*k*v.Times, -500), 600) // out of sight, but not so far that a browser gives up on it
		v.p.path("o i", "M", x0, middle, "L", x0+forward*k, y)
		v.p.circle("d", x0+forward*k, y, 5)
	}
	v.say("path", strconv.Itoa(len(v.first)), v.shown(1), v.timesText())
}

func (v *view) timesText() string { return v.words.Number(strconv.FormatFloat(v.Times, 'f', -1, 64)) }

// part draws one as a piece of a bar that is the whole. The bar ends at 100 %; what is more is said and not drawn.
func (v *view) part() {
	const y, high = 8.0, 32.0
	wide := v.width - 48
	v.p.path("t", "M24 ", y, "h", wide, "v", high, "h", -wide, "z")
	if len(v.first) == 0 || len(v.second) == 0 {
		v.empty()
		return
	}
	part := math.Abs(v.first[0]) / v.second[0]
	v.p.path("p", "M24 ", y, "h", min(part, 1)*wide, "v", high, "h", -min(part, 1)*wide, "z")
	if !v.open {
		v.say("some", v.shown(0), v.shown(1))
		return
	}
	var ticks []any
	for i := range 11 {
		long := 5.0
		if i%5 == 0 {
			long = 9
			v.p.text("q", 24+wide*float64(i)/10, y+high+24, strconv.Itoa(i*10)+"\u00a0%")
		}
		ticks = append(ticks, "M", 24+wide*float64(i)/10, y+high, "v", long)
	}
	v.p.path("s", ticks...)
	v.say("part", v.shown(0), v.shown(1), v.to(part*100, 10))
}

// shuffle draws the axis on which deals fall, with the true difference. The picture has no deals: they come of chance,
// and a still picture has to be the same each time.
func (v *view) shuffle() {
	const x0, y = 36.0, 102.0
	a, b := v.Heaps[0], v.Heaps[1]
	far := 4 * chance(a.Numbers, b.Numbers) // beyond it falls less than one deal in ten thousand
	if v.open {
		far = max(far, v.Gap*1.15)
	}
	s := scale{k: (v.width - x0 - 12) / far, parts: 10, fine: true}
	s.from = -x0 / s.k
	v.p.tape(y, v.width, s, v.Unit.Symbol(), true)
	v.say("axis", a.Name, b.Name)
	if !v.open {
		return
	}
	v.p.path("h", "M", s.x(v.Gap), 24.0, "V", y+tapeHigh)
	v.p.text("r", v.within(s.x(v.Gap)), 16, saying(v.words, "real", v.amount(v.Gap, v.Unit)))
	v.sentence += " " + saying(v.words, "apart-by", v.amount(v.Gap, v.Unit))
}

// chance is the standard deviation of the difference of two means when all runs are dealt anew.
func chance(a, b []float64) float64 {
	all := append(append([]float64{}, a...), b...)
	sum, squares := 0.0, 0.0
	for _, x := range all {
		sum += x
	}
	for _, x := range all {
		squares += (x - sum/float64(len(all))) * (x - sum/float64(len(all)))
	}
	n, m, total := float64(len(a)), float64(len(b)), float64(len(all))
	return math.Sqrt(squares / (total - 1) * total / (n * m))
}
