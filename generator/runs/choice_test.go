package runs

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestChoiceIsAsWorkedByHand: points (3·0.9 + 1·0.2) ÷ 4 = 0.725 against (3·0.5 + 1·1) ÷ 4 = 0.625.
// The second's weight w puts them level at 2.7 + 0.2·w = 1.5 + w, so w = 1.5; the first's
// at 0.9·w + 0.2 = 0.5·w + 1, so w = 2.
func TestChoiceIsAsWorkedByHand(t *testing.T) {
	c := Choose([][]float64{{0.9, 0.5}, {0.2, 1}}, []float64{3, 1})
	if !slices.Equal(c.Order, []int{0, 1}) || c.Level != 1 || math.Abs(c.Points[0]-0.725) > 1e-12 ||
		math.Abs(c.Points[1]-0.625) > 1e-12 {
		t.Errorf("the choice is %+v", c)
	}
	first, second := c.Weights[0], c.Weights[1]
	if math.Abs(first.Low-2) > 1e-12 || first.Below != 1 || !math.IsInf(first.High, 1) || first.Above != -1 {
		t.Errorf("the first weight has %+v", first)
	}
	if math.Abs(second.High-1.5) > 1e-12 || second.Above != 1 || second.Low != 0 || second.Below != -1 {
		t.Errorf("the second weight has %+v", second)
	}
}

func TestEqualsAreTied(t *testing.T) {
	c := Choose([][]float64{{0.3, 0.1}, {0.1, 0.3}}, []float64{1, 1})
	if c.Level != 2 || !slices.Equal(c.Order, []int{0, 1}) {
		t.Errorf("the choice is %+v", c)
	}
}

// TestTheLeewayIsWhereTheChoiceChanges ranks anew on both sides of each bound.
func TestTheLeewayIsWhereTheChoiceChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ones, criteria := rapid.IntRange(2, 5).Draw(t, "ones"), rapid.IntRange(1, 4).Draw(t, "criteria")
		scores, weights := make([][]float64, criteria), make([]float64, criteria)
		for k := range scores {
			weights[k] = float64(rapid.IntRange(1, 20).Draw(t, "weight")) / 4
			for range ones {
				scores[k] = append(scores[k], float64(rapid.IntRange(0, 10).Draw(t, "score"))/10)
			}
		}
		c := Choose(scores, weights)
		if c.Level > 1 {
			return
		}
		chosen := func(k int, w float64) int {
			moved := slices.Clone(weights)
			moved[k] = w
			return Choose(scores, moved).Order[0]
		}
		for k, l := range c.Weights {
			const bit = 1e-3
			if got := chosen(k, max(1e-6, l.Low+bit)); got != c.Order[0] && l.Low+bit < l.High {
				t.Fatalf("just above %g another is chosen", l.Low)
			}
			if l.Below >= 0 && l.Low > bit && chosen(k, l.Low-bit) == c.Order[0] {
				t.Fatalf("just below %g the choice is the same", l.Low)
			}
			if l.Above >= 0 && chosen(k, l.High+bit) == c.Order[0] && l.High < 1e3 {
				t.Fatalf("just above %g the choice is the same", l.High)
			}
			if l.Above < 0 && chosen(k, 1e4) != c.Order[0] {
				t.Fatalf("criterion %d: with all the weight another is chosen", k)
			}
		}
	})
}
