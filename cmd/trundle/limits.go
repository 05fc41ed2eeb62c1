package main

// This file prints how much there may be at most of what.

import (
	"fmt"
	"io"

	"trundle/generator"
)

// printLimits lists all limits by what they are of.
func printLimits(w io.Writer, words []string) (unknown string) {
	if len(words) > 0 {
		return words[0]
	}
	fmt.Fprintln(w, wrapped("As much as this there may be. Whatever is more is a problem with its place, or is said "+
		"where it happens. A season of lessons comes nowhere near.", 0))
	for _, about := range generator.AllLimits() {
		fmt.Fprintf(w, "\nOf %s:\n\n", about.Of)
		var rows [][2]string
		for _, l := range about.Rows {
			rows = append(rows, [2]string{l.Most, l.Of})
		}
		printRows(w, rows)
	}
	return ""
}
