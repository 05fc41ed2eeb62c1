package problem

// Floods: what somebody pasted by mistake can be wrong in ten thousand places, and must not bury what is wrong
// elsewhere.

import (
	"fmt"
	"io"

	"trundle/generator/quantity"
)

// MaxOfKind is how many problems of one kind a file may have; the rest are counted.
const MaxOfKind = 50

// MaxPrinted is how many problems are shown on a terminal, mostRelated how many further places of each.
const (
	MaxPrinted  = 100
	mostRelated = 10
)

// kindIn is a kind of problem in a file. Errors and cautions are counted apart, since only the former stop a build.
type kindIn struct {
	file, slug string
	severity   Severity
}

// Bounded puts a count in the place of what a file has too much of. Problems in source order stay so.
func Bounded(problems []Problem) []Problem {
	count, last := map[kindIn]int{}, map[kindIn]int{}
	var all []Problem
	for _, p := range problems {
		k := kindIn{p.File.Name, p.Slug, p.Severity}
		count[k] += p.stands()
		switch n := count[k]; {
		case n <= MaxOfKind:
			all = append(all, p)
		case last[k] == 0:
			last[k] = len(all) + 1 // so that 0 is none
			all = append(all, Problem{Severity: p.Severity, Slug: "more-of-kind", File: p.File, Span: p.Span, Lessons: p.Lessons,
				Hint: "fix the ones above first; one mistake may have made them all"})
		}
	}
	for k, i := range last {
		if i > 0 {
			more := &all[i-1]
			more.Count = count[k] - MaxOfKind
			more.What = fmt.Sprintf("from here on this file has %s of the kind %s",
				morePlural(more.Count, k.severity.String()), k.slug)
		}
	}
	return all
}

// morePlural writes "1 more error", "2,000 more errors".
func morePlural(n int, noun string) string {
	if n == 1 {
		return "1 more " + noun
	}
	return quantity.Grouped(n) + " more " + noun + "s"
}

// stands is how many problems one stands for.
func (p Problem) stands() int { return max(1, p.Count) }

// PrintMost is Print for a terminal, where nobody reads more than some: errors come first, and the rest are counted.
func PrintMost(w io.Writer, prefix string, problems []Problem) error {
	sorted := ByWeight(problems)
	shown := sorted[:min(len(sorted), MaxPrinted)]
	if err := Print(w, prefix, shown); err != nil || len(shown) == len(sorted) {
		return err
	}
	errors, cautions := Counts(sorted[len(shown):])
	_, err := fmt.Fprintf(w, "\n… and %s more\n", quantity.Grouped(errors+cautions))
	return err
}
