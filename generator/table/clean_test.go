package table

import (
	"fmt"
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
