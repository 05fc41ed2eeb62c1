package worksheets

// Which way of laying a sheet out is taken, with layouts that are only numbers.

import (
	"errors"
	"slices"
	"testing"
)

// ways are so many fits, told apart by their room.
func ways(n int) []fit {
	all := make([]fit, n)
	for i := range all {
		all[i].room = float64(i)
	}
	return all
}

func TestTheFirstWayThatFitsIsTakenElseTheNearest(t *testing.T) {
	full, empty := true, false
	type page struct {
		pages int
		full  bool
	}
	for what, test := range map[string]struct {
		come  []page
		taken int
		tried []int
	}{
		"the first that fits":           {[]page{{5, full}, {4, full}, {3, full}}, 1, []int{0, 1}},
		"not one that ends nearly bare": {[]page{{4, empty}, {4, full}}, 1, []int{0, 1}},
		"none fits: the fewest pages":   {[]page{{5, full}, {5, empty}, {4, empty}}, 2, []int{0, 1, 2}},
		"none fits: the fuller one":     {[]page{{5, empty}, {5, full}, {5, full}}, 1, []int{0, 1, 2}},
		"far too many pages":            {[]page{{7, full}, {6, full}, {6, full}, {5, full}, {4, full}}, 4, []int{0, 3, 4}},
		"the tightest, even if hardly":  {[]page{{9, full}, {4, empty}, {3, full}}, 2, []int{0, 2}},
	} {
		var tried []int
		got, err := bestOf(ways(len(test.come)), func(f fit) (outcome, error) {
			tried = append(tried, int(f.room))
			is := test.come[int(f.room)]
			return outcome{fit: f, pages: is.pages, full: is.full}, nil
		})
		if err != nil || int(got.fit.room) != test.taken || !slices.Equal(tried, test.tried) {
			t.Errorf("%s: way %g is taken after %v, not %d after %v (%v)", what, got.fit.room, tried, test.taken,
				test.tried, err)
		}
	}
}

func TestALayoutThatFailsEndsTheSearch(t *testing.T) {
	failed := errors.New("no")
	if _, err := bestOf(ways(3), func(fit) (outcome, error) { return outcome{}, failed }); !errors.Is(err, failed) {
		t.Errorf("the error is %v", err)
	}
}
