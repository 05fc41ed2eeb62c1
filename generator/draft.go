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
	ready := &Proved{Pack: &pack, Start: p.Start, open: p.open, Store: p.Store, files: p.files}
	ready.Lessons = slices.DeleteFunc(slices.Clone(p.Lessons), func(l *work.Lesson) bool { return l.Draft })
	var problems problem.List
	for _, found := range p.Problems {
		if found, ok := outsideDrafts(found, draft); ok {
			problems.Add(found)
		}
	}
	if len(ready.Lessons) == 0 && !pack.LacksLesson() {
		problems.Error(pack.File, source.Span{}, "empty-pack", "every lesson of the pack is a draft",
			"take  draft: true  out of the header of a lesson that is ready")
	}
	ready.Problems = problems.Sorted()
	return ready
}

// outsideDrafts gives what of a problem concerns lessons that are no drafts; a problem in a part may be one of both.
func outsideDrafts(found problem.Problem, draft map[string]bool) (problem.Problem, bool) {
	isDraft := func(name string) bool { return draft[name] }
	if isDraft(found.File.Name) {
		return found, false
	}
	if len(found.Lessons) == 0 {
		return found, true
	}
	found.Lessons = slices.DeleteFunc(slices.Clone(found.Lessons), isDraft)
	found.Related = slices.DeleteFunc(slices.Clone(found.Related), func(r problem.Related) bool {
		return isDraft(r.File.Name)
	})
	return found, len(found.Lessons) > 0
}
