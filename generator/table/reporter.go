package table

// This file keeps a column with a thousand bad cells from making a thousand problems.

import (
	"strconv"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// mostReported are as many problems of a kind as are reported one by one.
const mostReported = 20

// Reporter reports the first problems of many cells, and counts the rest, so that a
// column of words where numbers should be does not bury the file's other problems.
type Reporter struct {
	file     *source.File
	at       source.Span
	problems *problem.List
	count    int
}

// Reporter reports problems of a column's cells.
func (t *Table) Reporter(c *Column, problems *problem.List) *Reporter {
	return &Reporter{file: t.File, at: c.At, problems: problems}
}

// Error adds an error, or counts it.
func (r *Reporter) Error(at source.Span, slug, what, hint string) {
	if r.count++; r.count <= mostReported {
		r.problems.Error(r.file, at, slug, what, hint)
	}
}

// None says whether there was no error.
func (r *Reporter) None() bool { return r.count == 0 }

// Rest reports how many more there are than were reported one by one. It points at
// the column's head: no single cell is the place of the rest.
func (r *Reporter) Rest(ofWhat string) {
	if more := r.count - mostReported; more > 0 {
		r.problems.Error(r.file, r.at, "more-cells", "there are "+strconv.Itoa(more)+" more "+ofWhat,
			"fix the ones above first; is it the right file, and the right column?")
	}
}
