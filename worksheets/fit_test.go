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

func TestASmallerPaperBeginsWithWhatWasGoodOnTheFirst(t *testing.T) {
	for what, test := range map[string]struct {
		first, smaller []int // pages, by the fit
		tried          []int // on the smaller paper
	}{
		"good there":   {[]int{5, 5, 4, 4, 4, 4, 4}, []int{4, 5, 5, 4, 4, 4, 4}, []int{2, 3}},
		"good nowhere": {[]int{5, 5, 5, 5, 5, 5, 5}, []int{5, 4, 4, 4, 4, 4, 4}, []int{0, 1}},
	} {
		var tried []int
		lay := func(p Paper, f fit) (outcome, error) {
			i := min(slices.Index(fits, f), len(test.first)-1) // the tightest ones are alike
			if p == Papers[0] {
				return outcome{fit: f, pages: test.first[i], full: true}, nil
			}
			tried = append(tried, i)
			return outcome{fit: f, pages: test.smaller[i], full: true}, nil
		}
		found := map[Paper]outcome{}
		if _, err := bestOn(Papers[1], lay, found); err != nil || !slices.Equal(tried, test.tried) {
			t.Errorf("%s: %v are tried, not %v (%v)", what, tried, test.tried, err)
		}
		if len(found) != 2 {
			t.Errorf("%s: %d papers are remembered", what, len(found))
		}
	}
}
