package check

// This file looks for pairs of units in what a lesson says.

import (
	"trundle/generator/lesson"
	"trundle/generator/pairs"
	"trundle/generator/problem"
	"trundle/generator/prose"
)

// unitPairs reports one quantity given in two units that do not agree.
func unitPairs(l *lesson.Lesson, problems *problem.List) {
	words := prose.In(l.Language).PairWords()
	for _, r := range prose.Typed(l) {
		for _, w := range pairs.In(string(r.Text), words) {
			problems.Add(problem.Problem{
				Slug: "unit-pair", File: l.File, Span: r.Span(w.Start, w.End), What: w.What, Hint: w.Hint, Instead: w.Instead,
			})
		}
	}
}
