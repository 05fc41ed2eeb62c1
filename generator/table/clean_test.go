package table

import (
	"fmt"
	"strings"
	"testing"
)

// TestANumberThatMayMeanTwoThingsIsAsked covers a point among decimal commas, and groups of three
// where nothing in the file tells what a point is.
func TestANumberThatMayMeanTwoThingsIsAsked(t *testing.T) {
	for _, c := range []struct{ cells, want string }{
		{"119,5;12.5", "[3:3 point-or-comma]"},
		{"119,5;-12.5", "[3:3 point-or-comma]"},
		{"119,5;1.250", "[3:3 point-or-comma]"},
		{"119;1.250", "[3:3 point-or-comma]"},
		{"119,5;12,5", "[]"},
		{"119.5;12.5", "[]"},
		{"1.119,5;1.250", "[3:3 point-or-comma]"},
	} {
		var first, second string
		for i, b := range c.cells {
			if b == ';' {
				first, second = c.cells[:i], c.cells[i+1:]
			}
		}
		table, _ := read("base;stop (cm)\nA;" + first + "\nB;" + second + "\n")
		stop, _ := table.Column("stop")
		_, problems := table.Numbers(stop, unit(t, "cm"))
		if got := fmt.Sprint(told(problems)); got != c.want {
			t.Errorf("%s: %s; %s was expected", c.cells, got, c.want)
		}
	}
}

// TestMarksBetweenThousandsAreLeftOut is about those that can be nothing else, as our own pages write them.
func TestMarksBetweenThousandsAreLeftOut(t *testing.T) {
	for cells, want := range map[string]string{
		"1.119,5;12,5":       "[1119.5 12.5]",
		"1\u202f119,5;1 000": "[1119.5 1000]",
		"1,119.5;12.5":       "[1119.5 12.5]",
		"1.000.000;12,5":     "[1e+06 12.5]",
		"−1.119,25;3":        "[-1119.25 3]",
	} {
		first, second, _ := strings.Cut(cells, ";")
		table, _ := read("base;stop (cm)\nA;" + first + "\nB;" + second + "\n")
		stop, _ := table.Column("stop")
		numbers, problems := table.Numbers(stop, unit(t, "cm"))
		if got := fmt.Sprint(numbers); got != want || problems.Count() > 0 {
			t.Errorf("%s: %s %v; %s was expected", cells, got, told(problems), want)
		}
	}
	table, _ := read("base;stop (cm)\nA;1.119,5\nB;12\n")
	stop, _ := table.Column("stop")
	if got := table.Finest(stop, unit(t, "cm")); got != 0.1 {
		t.Errorf("1.119,5 is read to %g", got)
	}
}
