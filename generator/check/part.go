package check

// Whether the parts of a pack are of use.

import (
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// unusedParts reports parts that no lesson puts in: a name was changed, or the line for it forgotten.
func unusedParts(p *lesson.Pack, problems *problem.List) {
	if p.LacksLesson() { // a lesson that could not be read may be the one
		return
	}
	for _, part := range p.Parts {
		if !part.Used {
			problems.Caution(part.File, source.Span{}, "unused-part", "no lesson puts this part in",
				"write  {{part "+part.Name+"}}  on a line of its own in a lesson, or delete the file")
		}
	}
}
