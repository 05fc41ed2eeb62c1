package runs

// The geometry of a robot whose wheels travel unequally: where an arc ends, and which mismatch explains an offset.

import "math"

// Arc is where a robot ends that starts forward along X and drives a way with a mismatch of its wheels (the difference
// of their travel over its mean), in the unit of way and track; left is +. The right wheel leads if mismatch is
// more than 0. Exact for an arc (circle geometry): with the turn θ, x = way·sin(θ) ÷ θ and
// y = way·sin²(θ/2) ÷ (θ/2), which loses no digits however straight the arc is.
func Arc(mismatch, way, track float64) Point {
	turned := mismatch * way / track
	half := turned / 2
	if half == 0 {
		return Point{way, 0}
	}
	return Point{way * math.Sin(turned) / turned, way * math.Sin(half) * (math.Sin(half) / half)}
}

// OutAndBack is how far sideways of its start, seen along the way out, a robot comes home
// that drives a leg out, turns by exactly half a turn on the spot, and drives the leg back.
// A robot that pulls left comes home to the right: what it turned on the way out counts
// twice on the way back. Exact for arcs: −2·R·(1 − cos θ)·cos θ with θ = mismatch·leg ÷ track.
func OutAndBack(mismatch, leg, track float64) float64 {
	return -2 * Arc(mismatch, leg, track).Y * math.Cos(mismatch*leg/track)
}

// MismatchOutAndBack is the mismatch that brings a robot home so far sideways; ok is false
// for an offset that no arc explains, more than the robot can turn away by.
func MismatchOutAndBack(offset, leg, track float64) (mismatch float64, ok bool) {
	// Up to θ = 0.6 the offset grows with the mismatch; beyond, a robot would turn in circles.
	const most = 0.6
	bound := most * track / leg
	wanted := -math.Abs(offset)
	if !(leg > 0) || !(track > 0) || !(OutAndBack(bound, leg, track) <= wanted) {
		return 0, false
	}
	low, high := 0.0, bound
	for range 200 {
		middle := (low + high) / 2
		if middle == low || middle == high {
			break
		}
		if OutAndBack(middle, leg, track) > wanted {
			low = middle
		} else {
			high = middle
		}
	}
	return math.Copysign((low+high)/2, -offset), true
}
