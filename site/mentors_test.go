package site

import (
	"testing"

	"trundle/generator/work"
)

// TestWhatCountsIsRoundedInwards: everything that is said to count must count.
func TestWhatCountsIsRoundedInwards(t *testing.T) {
	for _, c := range []struct {
		y         float64
		tolerance work.Tolerance
		low, high string
	}{
		{20.4, work.Tolerance{Within: 0.05}, "20.35", "20.45"}, // both ends are in
		{20.4203522, work.Tolerance{Within: 0.05, Part: 0.001}, "20.35", "20.49"},
		{5.971, work.Tolerance{Within: 0.02, Part: 0.001}, "5.95", "5.99"},
		{-14, work.Tolerance{Within: 0.5}, "−14.5", "−13.5"},
		{-12.6667, work.Tolerance{Within: 0.1}, "−12.7", "−12.6"},
		{100, work.Tolerance{Part: 0.01}, "99", "101"},
		{0, work.Tolerance{Within: 0.05}, "−0.05", "0.05"},
		{0.01, work.Tolerance{Within: 0.05}, "−0.04", "0.06"},
		{7, work.Tolerance{}, "7", "7"},
		{36.53125, work.Tolerance{Within: 1.0 / 32}, "36.50", "36.56"},
		{0.04, work.Tolerance{Within: 0.5}, "−0.4", "0.5"},
		{1234567, work.Tolerance{Part: 0.01}, "1222222", "1246912"},
	} {
		low, high := countsBetween(c.y, c.tolerance)
		if low != c.low || high != c.high {
			t.Errorf("of %v within %v count %s to %s, not %s to %s", c.y, c.tolerance, low, high, c.low, c.high)
		}
	}
}
