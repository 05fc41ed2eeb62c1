// Package problem holds what is wrong in a pack, as data, and prints it. A Problem
// knows its place, what is wrong in the words of a coach, and what to do; how it is
// shown is another matter.
package problem

import (
	"cmp"
	"slices"

	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Severity tells what a problem does to the build.
type Severity int

const (
	// Error stops the build: nothing is written.
	Error Severity = iota
	// Caution is shown, and the build goes on.
	Caution
)

func (s Severity) String() string {
	if s == Caution {
		return "caution"
	}
	return "error"
}

// Problem is one thing wrong in a pack.
type Problem struct {
	Severity Severity
	Slug     string // stable name of the kind of problem, for looking it up
	File     *source.File
	Span     source.Span
	What     string
	Hint     string
	Instead  string // what would be right in the span's place, where a check knows it; may be empty
	Related  []Related
	Count    int      // how many problems it stands for, where a file has too many of a kind; else 0
	Lessons  []string // the files of the lessons that its place, in a part, is put into; none of any other place
}

// Related is a second place that helps to see what is wrong.
type Related struct {
	File *source.File
	Span source.Span
	What string
}

// List collects problems. The zero List is empty and ready.
type List struct{ problems []Problem }

// Add appends a problem. Its places become those of the files in which the text was written.
func (l *List) Add(p Problem) { l.problems = append(l.problems, atOrigin(p)) }

// Error adds an error.
func (l *List) Error(f *source.File, at source.Span, slug, what, hint string) {
	l.Add(Problem{Severity: Error, Slug: slug, File: f, Span: at, What: what, Hint: hint})
}

// Caution adds a caution.
func (l *List) Caution(f *source.File, at source.Span, slug, what, hint string) {
	l.Add(Problem{Severity: Caution, Slug: slug, File: f, Span: at, What: what, Hint: hint})
}

// FromQuantity adds an error of the ground floor, whose spans are offsets in f. One that only follows from another
// problem is left out.
func (l *List) FromQuantity(f *source.File, e *quantity.Error) {
	if e.Reported {
		return
	}
	l.Add(Problem{Severity: Error, Slug: e.Slug, File: f, Span: source.Span(e.Span), What: e.What, Hint: e.Hint,
		Instead: e.Instead})
}

// Join appends another list.
func (l *List) Join(m List) { l.problems = append(l.problems, m.problems...) }

// HasErrors tells whether the build must stop.
func (l *List) HasErrors() bool {
	return slices.ContainsFunc(l.problems, func(p Problem) bool { return p.Severity == Error })
}

// Count is how many problems there are so far.
func (l *List) Count() int { return len(l.problems) }

// ErrorsSince tells whether there is an error among those after the first so many.
func (l *List) ErrorsSince(count int) bool {
	return slices.ContainsFunc(l.problems[count:], func(p Problem) bool { return p.Severity == Error })
}

// Sorted gives the problems in source order, each once; of one that is an error and a caution, the error.
func (l *List) Sorted() []Problem {
	sorted := slices.Clone(l.problems)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		return cmp.Or(
			cmp.Compare(a.File.Name, b.File.Name),
			cmp.Compare(a.Span.Start, b.Span.Start),
			cmp.Compare(a.Slug, b.Slug),
			cmp.Compare(a.What, b.What),
			cmp.Compare(a.Severity, b.Severity),
		)
	})
	return eachOnce(sorted)
}

// ByWeight puts errors before cautions, and leaves the order of each as it is.
func ByWeight(problems []Problem) []Problem {
	sorted := slices.Clone(problems)
	slices.SortStableFunc(sorted, func(a, b Problem) int { return cmp.Compare(a.Severity, b.Severity) })
	return sorted
}

// Counts gives the number of errors and of cautions.
func Counts(problems []Problem) (errors, cautions int) {
	for _, p := range problems {
		if p.Severity == Error {
			errors += p.stands()
		} else {
			cautions += p.stands()
		}
	}
	return errors, cautions
}
