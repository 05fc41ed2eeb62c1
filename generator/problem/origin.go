package problem

// Problems in a part, whose text is put into lessons: each stands where the part was written, and says for which
// lessons it is one.

import "slices"

// atOrigin moves a problem of a joined text to the file where its place was written.
func atOrigin(p Problem) Problem {
	joined, offset := p.File, p.Span.Start
	p.File, p.Span = joined.Origin(p.Span)
	if len(p.Related) > 0 {
		p.Related = slices.Clone(p.Related)
	}
	for i, r := range p.Related {
		p.Related[i].File, p.Related[i].Span = r.File.Origin(r.Span)
	}
	if p.File.Name == joined.Name {
		return p
	}
	p.Lessons = []string{joined.Name}
	lesson, at := joined.PutIn(offset)
	p.Related = append(p.Related, Related{File: lesson, Span: at, What: "the part is put into this lesson here"})
	return p
}

// eachOnce takes the second of two equal problems out of sorted ones. A problem of a part is one however many
// lessons it is found in, and names them all.
func eachOnce(sorted []Problem) []Problem {
	var all []Problem
	for _, p := range sorted {
		last := len(all) - 1
		if last < 0 || !sameProblem(all[last], p) {
			all = append(all, p)
			continue
		}
		for _, name := range p.Lessons {
			if !slices.Contains(all[last].Lessons, name) {
				all[last].Lessons = append(slices.Clip(all[last].Lessons), name)
				all[last].Related = append(slices.Clip(all[last].Related), p.Related[len(p.Related)-1])
			}
		}
	}
	return all
}

// sameProblem compares files by their names: the same file may have been read twice.
func sameProblem(a, b Problem) bool {
	return a.File.Name == b.File.Name && a.Span == b.Span && a.Slug == b.Slug && a.What == b.What
}
