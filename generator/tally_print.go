package generator

// This file prints what several files of runs come to, as tables in columns.

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"trundle/generator/problem"
	"trundle/site/figure"
)

// Print writes a report for a terminal.
func (t *Tallied) Print(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, t.Head)
	for _, warning := range t.Warnings {
		fmt.Fprintln(&b, warning)
	}
	for _, table := range t.Tables {
		fmt.Fprintf(&b, "\n%s\n", problem.Printable(table.Caption))
		printTable(&b, table)
		for _, s := range slices.Concat(table.Look, table.Says) {
			fmt.Fprintln(&b, problem.Printable(s))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// printTable sets a table in columns: the first to the left, numbers to the right, so that their digits are one below
// the other.
func printTable(b *strings.Builder, t figure.Numbers) {
	rows := append([][]string{t.Heads}, t.Rows...)
	widths := make([]int, len(t.Heads))
	for _, row := range rows {
		for i := range row {
			row[i] = problem.Printable(row[i])
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, row := range rows {
		line := ""
		for i, cell := range row {
			blanks := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				line += cell + blanks
			} else {
				line += "  " + blanks + cell
			}
		}
		fmt.Fprintln(b, strings.TrimRight(line, " "))
	}
}
