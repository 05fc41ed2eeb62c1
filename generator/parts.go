package generator

// Lessons with their parts put in, and what is remembered of that.

import (
	"context"
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/generator/source"
)

// putIn remembers lessons with their parts, for as long as no part is another.
type putIn struct {
	parts   []*source.File
	none    []string // those that could not be read
	lessons map[string]*kept[parse.Joined]
}

// into gives the texts of a pack's lessons with their parts put in, and the pack its parts.
func (m *putIn) into(ctx context.Context, p *lesson.Pack, files *read.Files, problems *problem.List) []*source.File {
	unread := files.Unread
	parts, found := parse.NewParts(files.Parts, unread)
	problems.Join(found)
	if !slices.Equal(m.parts, files.Parts) || !slices.Equal(m.none, unread) {
		*m = putIn{parts: files.Parts, none: unread}
	}
	joined, found := each(ctx, entries(&m.lessons, files.Lessons),
		func(e entry[kept[parse.Joined]]) (parse.Joined, problem.List) { return e.kept.of(e.file, parts.PutIn) })
	problems.Join(found)
	texts := make([]*source.File, len(joined))
	for i, j := range joined {
		texts[i] = j.File
	}
	p.Parts = parts.All(joined)
	return texts
}
