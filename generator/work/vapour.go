package work

// The bound on an estimate of vapour, over all kits of the pack, that is compared with an exposure limit. Which limit
// applies is known to the care cards; what is said of it, to site.

import (
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// Vapour is the bound that is compared with an exposure limit: the greatest estimate among the
// lesson's kits, as it is shown or as it is, whichever is more, plus twice its ±. All of the ± is
// taken to lie in the room, by which the formula divides: x ÷ (1 − 2u/x), which is never less than x + 2u.
type Vapour struct {
	PPM     float64 // infinite if twice the ± is as large as the estimate
	Doubted bool    // it has a ±
}

// ppm is the unit of all limits.
var ppm, _ = quantity.LookupUnit("ppm")

// Vapour gives the estimate of a vapour find, false if it came to nothing.
func (l *Lesson) Vapour(s *lesson.Statement) (Vapour, bool) {
	var most Vapour
	for i, kit := range append([]*Lesson{l}, l.Others...) {
		v, ok := kit.vapour(s)
		if i == 0 && !ok {
			return most, false
		}
		if ok && (i == 0 || v.PPM > most.PPM) {
			most = v
		}
	}
	return most, true
}

// vapour is the bound for the lesson's own kit.
func (l *Lesson) vapour(s *lesson.Statement) (Vapour, bool) {
	r := l.Of(s)
	if r == nil {
		return Vapour{}, false
	}
	q, ok := r.Quantity()
	if !ok {
		return Vapour{}, false
	}
	// A value that was rounded up is what people read, so the bound must not be below it.
	shown := q
	if !r.Target.Step.IsZero() {
		shown.Number = r.Target.Step.Round(q.Number)
	}
	in, ok := q.In(ppm)
	if !ok {
		return Vapour{}, false
	}
	shown, _ = shown.In(ppm)
	u, most := in.Uncertainty(), max(in.Number, shown.Number)
	if 2*u >= in.Number {
		return Vapour{math.Inf(1), true}, true
	}
	return Vapour{most / (1 - 2*u/in.Number), u > 0}, true
}

// BelowTenth tells whether an estimate is below a tenth of a limit. One that only a double's
// last digits keep below it is not.
func (v Vapour) BelowTenth(limit float64) bool { return v.PPM > 0 && v.PPM < limit/10*(1-1e-9) }
