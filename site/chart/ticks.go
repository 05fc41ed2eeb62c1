package chart

// What an axis shows, and at which round numbers it is marked. Numbers that cannot be drawn are sorted out here.

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// largestDrawn is the largest number that is drawn: differences of two stay finite.
const largestDrawn = 1e300

// drawable tells a number that has a place on an axis.
func drawable(vs ...float64) bool {
	for _, v := range vs {
		if !(math.Abs(v) <= largestDrawn) {
			return false
		}
	}
	return true
}

// A span is what an axis must show.
type span struct {
	low, high float64
}

// nothing is the span that any number widens to itself.
var nothing = span{math.Inf(1), math.Inf(-1)}

// with is the span that holds these numbers too.
func (s span) with(vs ...float64) span {
	for _, v := range vs {
		if drawable(v) {
			s.low, s.high = min(s.low, v), max(s.high, v)
		}
	}
	return s
}

// closest is the smallest span an axis has, as a share of its numbers: finer ticks would need too many digits.
const closest = 1e-6

// roomy is the span with a share of room at both ends, but none beyond zero, where there is nothing.
func (s span) roomy(share float64) span {
	if s.low > s.high {
		return span{0, 1}
	}
	largest := max(math.Abs(s.low), math.Abs(s.high))
	if largest < 1/largestDrawn {
		return span{-1, 1}
	}
	if s.high-s.low <= largest*closest {
		return span{s.low - largest/20, s.high + largest/20}
	}
	room := (s.high - s.low) * share
	wide := span{s.low - room, s.high + room}
	if s.low >= 0 {
		wide.low = max(wide.low, 0)
	}
	if s.high <= 0 {
		wide.high = min(wide.high, 0)
	}
	return wide
}

// A ruler marks an axis at round numbers (1, 2 or 5 times a power of ten), as many as there is room for.
type ruler struct {
	length vg.Length // about that of the axis
	room   func(label string) vg.Length
	whole  bool                     // no marks between whole numbers, if it has a whole number at all
	number func(text string) string // see Axis
}

// Ticks makes a ruler a plot.Ticker.
func (r ruler) Ticks(low, high float64) []plot.Tick {
	power := int(math.Floor(math.Log10((high - low) / 20)))
	if r.whole && math.Ceil(low) <= math.Floor(high) {
		power = max(power, 0)
	}
	var finer []plot.Tick
	for i := 0; ; i++ {
		first := []int{1, 2, 5}[i%3]
		ticks := r.roundTicks(low, high, first, power+i/3)
		if len(ticks) < 2 && len(finer) > 0 {
			return r.some(finer, low, high)
		}
		if len(ticks) < 2 || r.needs(ticks) <= r.between(ticks, low, high) {
			return ticks
		}
		finer = ticks
	}
}

// needs is the room that a mark must have to the next.
func (r ruler) needs(ticks []plot.Tick) vg.Length {
	widest := vg.Length(0)
	for _, t := range ticks {
		widest = max(widest, r.room(t.Label))
	}
	return widest
}

// between is how far a mark is from the next.
func (r ruler) between(ticks []plot.Tick, low, high float64) vg.Length {
	return vg.Length((ticks[1].Value-ticks[0].Value)/(high-low)) * r.length
}

// some leaves out marks between others, where the next round step would be too large.
func (r ruler) some(ticks []plot.Tick, low, high float64) []plot.Tick {
	nth := max(1, int(math.Ceil(float64(r.needs(ticks)/r.between(ticks, low, high)))))
	if last := len(ticks) - 1; nth < last && nth > last/2 {
		nth = last // Two marks say more at the ends.
	}
	var kept []plot.Tick
	for i := 0; i < len(ticks); i += nth {
		kept = append(kept, ticks[i])
	}
	return kept
}

// roundTicks are all multiples of first·10^power between low and high.
func (r ruler) roundTicks(low, high float64, first, power int) []plot.Tick {
	step := float64(first) * math.Pow10(power)
	const almost = 1e-9
	var ticks []plot.Tick
	for k := math.Ceil(low/step - almost); k <= math.Floor(high/step+almost); k++ {
		v := k * float64(first)
		if power < 0 {
			v /= math.Pow10(-power)
		} else {
			v *= math.Pow10(power)
		}
		// gonum forgets a mark that lies beyond the end by less than a float64 can tell.
		label := tickLabel(v, max(-low, high), power)
		if r.number != nil {
			label = r.number(label)
		}
		ticks = append(ticks, plot.Tick{Value: min(high, max(low, v)), Label: label})
	}
	return ticks
}

// tickLabel writes a mark's number with the digits that the step 10^power asks for; very large and small ones as 2×10⁷.
func tickLabel(v, largest float64, power int) string {
	if v == 0 {
		return "0"
	}
	if power >= -5 && largest < 1e7 {
		return strings.Replace(strconv.FormatFloat(v, 'f', max(0, -power), 64), "-", "\u2212", 1)
	}
	digits := max(0, int(math.Floor(math.Log10(math.Abs(v))))-power)
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', digits, 64), "e")
	if strings.Contains(mantissa, ".") {
		mantissa = strings.TrimRight(strings.TrimRight(mantissa, "0"), ".")
	}
	n, _ := strconv.Atoi(exponent)
	return strings.Replace(mantissa, "-", "\u2212", 1) + "×10" + raised.Replace(strconv.Itoa(n))
}

var raised = strings.NewReplacer(
	"-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹",
)
