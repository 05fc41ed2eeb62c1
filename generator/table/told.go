package table

// This file keeps a column with a thousand bad cells from making a thousand problems.

import (
	"strconv"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// mostTold are as many problems of a kind as are told one by one.
const mostTold = 20

// Told tells of the first problems of many cells, and counts the rest.
type Told struct {
	file     *source.File
	at       source.Span
	problems *problem.List
	count    int
}

// Tell starts to tell of a column's cells.
func (t *Table) Tell(c *Column, problems *problem.List) *Told {
	return &Told{file: t.File, at: c.At, problems: problems}
}

// Error adds an error, or counts it.
func (t *Told) Error(at source.Span, slug, what, hint string) {
	if t.count++; t.count <= mostTold {
		t.problems.Error(t.file, at, slug, what, hint)
	}
}

// None tells whether there was no error.
func (t *Told) None() bool { return t.count == 0 }

// Rest says how many there are more than were told.
func (t *Told) Rest(ofWhat string) {
	if more := t.count - mostTold; more > 0 {
		t.problems.Error(t.file, t.at, "more-cells", "there are "+strconv.Itoa(more)+" more "+ofWhat,
			"fix the ones above first; is it the right file, and the right column?")
	}
}
