package lesson

// Under which names a team's entries are kept on a device: ids that last, where the coach gave some, and otherwise
// titles and file names; and the table of names that have changed.

import (
	"cmp"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/source"
)

// Renamed is the file of old names: what a pack, its lessons and its boxes were called before.
type Renamed struct {
	File    *source.File
	Packs   []Text // earlier titles and ids of the pack
	Lessons []Rename
	Boxes   []BoxRenames
}

// Rename is one name that has changed. Lessons are named by their ids or by their files, without .md.
type Rename struct {
	Old, New Text
	IsFile   bool // the old name is one that a lesson's file may have, so that its page may have been printed
}

// BoxRenames are the boxes of one lesson that have other names now.
type BoxRenames struct {
	Lesson Text
	Boxes  []Rename
}

// Key is what a lesson's entries are kept under.
func (l *Lesson) Key() string { return cmp.Or(l.ID.Value, l.Slug) }

// Boxes are the names of what a lesson has boxes for, in their order.
func (l *Lesson) Boxes() []string {
	var names []string
	switch {
	case l.IsOutline():
		return l.outline.boxes.names()
	case l.Body == nil:
		return nil
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*WorkBlock)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		for _, s := range block.Statements {
			if s.Kind != Given && !s.Kind.BelongsAbove() {
				names = append(names, s.Name)
			}
		}
		return ast.WalkSkipChildren, nil
	})
	return names
}

// Questions are the names of what students work out in a lesson, in their order.
func (l *Lesson) Questions() []string {
	var names []string
	switch {
	case l.IsOutline():
		return l.outline.questions.names()
	case l.Body == nil:
		return nil
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*WorkBlock)
		if !ok || !entering || ForMentors(n) {
			return ast.WalkContinue, nil
		}
		for _, s := range block.Statements {
			if s.Kind == Find {
				names = append(names, s.Name)
			}
		}
		return ast.WalkSkipChildren, nil
	})
	return names
}

// Key is what the entries of a pack are kept under. It has no blank, so that a season can follow one.
func (p *Pack) Key() string { return cmp.Or(p.ID.Value, KeyOfTitle(p.Title)) }

// KeyOfTitle is what the entries of a pack without an id are kept under.
func KeyOfTitle(title string) string {
	return strings.ToLower(strings.Join(strings.Fields(title), "-"))
}

// Named finds a lesson by its id or its file, nil if there is none.
func (p *Pack) Named(name string) *Lesson {
	for _, l := range p.Lessons {
		if name != "" && (l.ID.Value == name || l.Slug == name) {
			return l
		}
	}
	return nil
}

// LessonNow finds a lesson by its name or an earlier one, nil if there is none.
func (p *Pack) LessonNow(name string) *Lesson {
	if p.Renamed != nil && p.Named(name) == nil {
		name = Follow(p.Renamed.Lessons, name)
	}
	return p.Named(name)
}

// BoxNames is how boxes were called, by lesson; one lesson may be listed under two of its names.
func (p *Pack) BoxNames() map[*Lesson][]Rename {
	all := map[*Lesson][]Rename{}
	if p.Renamed == nil {
		return all
	}
	for _, b := range p.Renamed.Boxes {
		if l := p.LessonNow(b.Lesson.Value); l != nil {
			all[l] = append(all[l], b.Boxes...)
		}
	}
	return all
}

// NamesNow gives the present names of lessons by those under which their entries may lie, and of boxes by lesson.
func (p *Pack) NamesNow() (lessons map[string]string, boxes map[string]map[string]string) {
	lessons, boxes = map[string]string{}, map[string]map[string]string{}
	if p.Renamed != nil {
		for _, r := range p.Renamed.Lessons {
			if l := p.LessonNow(r.Old.Value); l != nil {
				lessons[r.Old.Value] = l.Key()
			}
		}
	}
	for _, l := range p.Lessons {
		lessons[l.Slug] = l.Key() // from before it had an id
	}
	for l, renames := range p.BoxNames() {
		own := map[string]string{}
		for _, r := range renames {
			own[r.Old.Value] = Follow(renames, r.New.Value)
		}
		boxes[l.Key()] = own
	}
	return lessons, boxes
}

// EarlierKeys are the names under which the entries of a pack were kept before; some may be its present one.
func (p *Pack) EarlierKeys() []string {
	keys := []string{KeyOfTitle(p.Title)}
	if p.Renamed != nil {
		for _, old := range p.Renamed.Packs {
			keys = append(keys, KeyOfTitle(old.Value), old.Value)
		}
	}
	return keys
}

// Follow gives the name that a name has now: a name may have changed more than once. In a circle, which check reports,
// it stops somewhere.
func Follow(renames []Rename, name string) string {
	now := make(map[string]string, len(renames))
	for _, r := range renames {
		now[r.Old.Value] = r.New.Value
	}
	for range renames {
		next, again := now[name]
		if !again {
			break
		}
		name = next
	}
	return name
}

// A Move is the page of an old name, and the lesson that it leads to.
type Move struct {
	Old string
	To  *Lesson
}

// Moves are the pages that lessons had under other names of their files. Names are told apart as all disks do: where
// letters differ in case only, the present page stands in the earlier one's place.
func (p *Pack) Moves() []Move {
	var all []Move
	if p.Renamed == nil {
		return nil
	}
	taken := map[string]bool{}
	for _, l := range p.Lessons {
		taken[strings.ToLower(l.Slug)] = true
	}
	for _, r := range p.Renamed.Lessons {
		to, name := p.LessonNow(r.Old.Value), strings.ToLower(r.Old.Value)
		if to == nil || !r.IsFile || taken[name] {
			continue
		}
		taken[name] = true
		all = append(all, Move{r.Old.Value, to})
	}
	return all
}
