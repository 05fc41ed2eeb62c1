package check

// This file looks for pairs of units in what a lesson says.

import (
	"trundle/generator/lesson"
	"trundle/generator/pairs"
	"trundle/generator/problem"
)

// unitPairs reports one quantity given in two units that do not agree.
func unitPairs(l *lesson.Lesson, problems *problem.List) {
	for _, r := range runsOf(l) {
		for _, w := range pairs.In(string(r.text)) {
			problems.Add(problem.Problem{
				Slug: "unit-pair", File: l.File, Span: r.span(w.Start, w.End), What: w.What, Hint: w.Hint, Instead: w.Instead,
			})
		}
	}
}
