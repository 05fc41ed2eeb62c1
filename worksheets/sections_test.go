package worksheets

// What stands below a heading is not parted by what stands beside it.

import "testing"

func TestNoBandOfColumnsEndsWithinASection(t *testing.T) {
	headed := func(u unit) unit { u.headed = true; return u }
	row := stationRow
	// Two stations and a question of the second, for which a first page has no room beside them.
	stations := []unit{headed(row), row, headed(row), row}
	on := pages{first: 65, others: 200}
	for what, test := range map[string]struct {
		units []unit
		parts bool
	}{
		"a heading, and its question after the band":      {[]unit{headed(row), row, headed(row), row}, true},
		"a heading after the band":                        {[]unit{headed(row), row, row, headed(row)}, false},
		"one section that goes on, its heading the first": {[]unit{headed(row), row, row, row}, false},
		"a section whose heading stood earlier":           {[]unit{row, row, row, row}, false},
	} {
		if got := partsSection(test.units, 0, 3); got != test.parts {
			t.Errorf("%s: %v", what, got)
		}
	}
	if partsSection(stations, 0, len(stations)) {
		t.Error("a band at the end of a part ends within a section")
	}
	for _, b := range cheapest(stations, on) {
		if b.split < b.to && partsSection(stations, b.from, b.to) {
			t.Errorf("the band %v parts a section", b)
		}
	}
}

// stationRow is a unit that stays on one page, no lower in a column.
var stationRow = unit{full: 30, half: 30, least: 30}
