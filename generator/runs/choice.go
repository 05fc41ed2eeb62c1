package runs

// Choosing among groups by weighted criteria, and how far each weight can move before the choice changes.

import (
	"cmp"
	"math"
	"slices"
)

// Choice is a choice among several by weighted criteria.
type Choice struct {
	Points  []float64 // of each: the weighted mean of its scores
	Order   []int     // the best first; equals in the order given
	Level   int       // as many as share the first place; 1 if the best stands alone
	Weights []Leeway  // of each criterion
}

// Leeway is how far a criterion's weight can move, the others unchanged, until another one
// is chosen: between Low and High. Below stands the one chosen under Low and above the one
// over High; −1 for none, where Low is 0 or High infinite.
type Leeway struct {
	Low, High    float64
	Below, Above int
}

// same is the difference below which points count as equal: sums of a few scores in double precision.
const same = 1e-9

// Choose ranks by scores[criterion][one], each from 0 to 1, and weights, none negative and
// one at least above 0. The weighted sum is the plain one of decision tables; the leeway is
// exact, since the points are linear in each weight.
func Choose(scores [][]float64, weights []float64) Choice {
	n := len(scores[0])
	total := 0.0
	for _, w := range weights {
		total += w
	}
	sums := make([]float64, n)
	for k, row := range scores {
		for i, s := range row {
			sums[i] += weights[k] * s
		}
	}
	c := Choice{Points: make([]float64, n), Order: make([]int, n)}
	for i := range sums {
		c.Points[i], c.Order[i] = sums[i]/total, i
	}
	slices.SortStableFunc(c.Order, func(a, b int) int {
		if math.Abs(c.Points[a]-c.Points[b]) < same {
			return 0
		}
		return cmp.Compare(c.Points[b], c.Points[a])
	})
	best := c.Order[0]
	for c.Level = 1; c.Level < n && math.Abs(c.Points[best]-c.Points[c.Order[c.Level]]) < same; {
		c.Level++
	}
	for k, row := range scores {
		c.Weights = append(c.Weights, leeway(row, weights[k], sums, best))
	}
	return c
}

// leeway moves one weight w: one j overtakes the best where the lead, which is linear in w,
// is used up.
func leeway(row []float64, w float64, sums []float64, best int) Leeway {
	l := Leeway{High: math.Inf(1), Below: -1, Above: -1}
	for j := range sums {
		ahead := row[j] - row[best] // what j gains for each unit of weight
		if j == best || math.Abs(ahead) < same {
			continue
		}
		at := w + max(0, sums[best]-sums[j])/ahead
		switch {
		case ahead > 0 && at < l.High:
			l.High, l.Above = at, j
		case ahead < 0 && at > l.Low:
			l.Low, l.Below = at, j
		}
	}
	return l
}
