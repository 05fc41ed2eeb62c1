package generator

// Drafts: lessons that are checked and previewed, and that no build and no bundle has.

import (
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/work"
)

// Drafts is how many lessons are not ready yet.
func (p *Proved) Drafts() int {
	n := 0
	for _, l := range p.Lessons {
		if l.Draft {
			n++
		}
	}
	return n
}

// WithoutDrafts gives what of a pack may be handed out: no draft, and none of the problems in one. If nothing but
// drafts is there, that is a problem.
func (p *Proved) WithoutDrafts() *Proved {
	if p.Drafts() == 0 {
		return p
	}
	pack, draft := *p.Pack, map[string]bool{}
	pack.Lessons = slices.DeleteFunc(slices.Clone(pack.Lessons), func(l *lesson.Lesson) bool {
		draft[l.File.Name] = l.Draft
		return l.Draft
	})
	ready := &Proved{Pack: &pack, Start: p.Start}
	ready.Lessons = slices.DeleteFunc(slices.Clone(p.Lessons), func(l *work.Lesson) bool { return l.Draft })
	var problems problem.List
	for _, found := range p.Problems {
		if !draft[found.File.Name] {
			problems.Add(found)
		}
	}
	if len(ready.Lessons) == 0 && pack.Unread == 0 {
		problems.Error(pack.File, source.Span{}, "empty-pack", "every lesson of the pack is a draft",
			"take  draft: true  out of the header of a lesson that is ready")
	}
	ready.Problems = problems.Sorted()
	return ready
}
