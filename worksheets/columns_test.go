package worksheets

// How blocks are parted into columns and over pages, with blocks that are only heights.

import (
	"math"
	"slices"
	"testing"
)

// tall is a unit of a height that stays on one page, no lower in a column.
func tall(height float64) unit { return unit{full: height, half: height, least: height} }

// across is one that has no room in a column, and may go on over a page.
func across(height float64) unit {
	return unit{full: height, half: math.Inf(1), least: min(height, leastBegun)}
}

func TestUnitsStandWhereTheyEndHighest(t *testing.T) {
	endless := pages{first: 1000, others: 1000}
	for what, test := range map[string]struct {
		units []unit
		on    pages
		bands []band
	}{
		"two of a height stand side by side": {[]unit{tall(30), tall(30)}, endless, []band{{0, 1, 2}}},
		"what is wide does not":              {[]unit{across(30), tall(30)}, endless, []band{{0, 1, 1}, {1, 2, 2}}},
		"columns are even":                   {[]unit{tall(20), tall(20), tall(40)}, endless, []band{{0, 2, 3}}},
		"a little is not worth columns":      {[]unit{tall(3), tall(40)}, endless, []band{{0, 1, 1}, {1, 2, 2}}},
		"a page's rest takes what it has room for": {[]unit{tall(30), tall(30), tall(30), tall(30)},
			pages{first: 40, others: 200}, []band{{0, 1, 2}, {2, 3, 4}}},
		"alone on the rest rather than all on the next": {[]unit{tall(50), across(60)},
			pages{first: 55, others: 200}, []band{{0, 1, 1}, {1, 2, 2}}},
	} {
		if got := cheapest(test.units, test.on); !slices.Equal(got, test.bands) {
			t.Errorf("%s: %v, not %v", what, got, test.bands)
		}
	}
}

func TestWhatHasNoRoomGoesToTheNextPage(t *testing.T) {
	on := pages{first: 50, others: 100}
	for what, test := range map[string]struct{ at, height, least, end float64 }{
		"room":                          {10, 40, 40, 50},
		"none":                          {11, 40, 40, 90},
		"none on the second page":       {120, 40, 40, 190},
		"some, and it may go on":        {20, 60, 20, 80},
		"too little for its beginning":  {40, 60, 20, 110},
		"more than a page holds at all": {40, 130, 130, 170},
	} {
		if got := on.after(test.at, test.height, test.least); got != test.end {
			t.Errorf("%s: it ends at %g, not at %g", what, got, test.end)
		}
	}
}

// TestAHeadingStaysWithWhatComesFirst leaves no room for the first block below its heading.
func TestAHeadingStaysWithWhatComesFirst(t *testing.T) {
	units := []unit{tall(30), across(10)}
	without := cheapest(units, pages{first: 35, others: 100})
	with := pages{first: 35, others: 100, above: 10}
	if end := with.after(0, 10+units[0].full, 10+units[0].least); end != 35+40 {
		t.Errorf("heading and block end at %g", end)
	}
	if got := cheapest(units, with); len(got) != len(without) {
		t.Errorf("the heading changes the bands: %v", got)
	}
}
