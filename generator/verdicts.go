package generator

// Which lessons were found to be in order, kept from one build to the next, so that one that stays as it was need not
// be worked out and checked again. Nothing is kept of a lesson with problems: each of them is found anew.

import (
	"encoding/json"
	"maps"
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/read"
	"trundle/generator/source"
	"trundle/generator/work"
)

// verdicts are looked up and kept by several goroutines. Of nil ones there are none.
type verdicts struct {
	store  Store
	pack   *lesson.Pack
	files  *read.Files
	shared Key // of all that working out and checking a lesson looks at beside its own text
}

// verdictsOf makes the key from whole files, since most of a pack is in its lessons. What links look at in other
// lessons and in pictures is in keys; what care looks at is in the files.
func verdictsOf(p *lesson.Pack, files *read.Files, keys keys, store Store) *verdicts {
	if store == nil {
		return nil
	}
	sum := newSum("verdicts", []byte(keys.links))
	sum.files(files)
	for _, name := range slices.Sorted(maps.Keys(p.Data)) {
		sum.file(p.Data[name].File)
	}
	return &verdicts{store, p, files, sum.key()}
}

// files adds those that concern the whole pack.
func (s sum) files(f *read.Files) {
	for _, one := range slices.Concat([]*source.File{f.Pack, f.Kits, f.Renamed, f.Words, f.Formulas}, f.Cards) {
		s.file(one)
	}
}

// key is that of a lesson: its text has its parts in it.
func (v *verdicts) key(l *lesson.Lesson) Key {
	if v == nil {
		return Key{}
	}
	sum := newSum("verdict", v.shared[:])
	sum.file(l.File)
	return sum.key()
}

// of gives what is left of a lesson that is known to be in order.
func (v *verdicts) of(key Key, l *lesson.Lesson) (*work.Lesson, bool) {
	if v == nil {
		return nil, false
	}
	data, ok := v.store.Get(key)
	if !ok {
		return nil, false
	}
	var counts work.Counts
	if json.Unmarshal(data, &counts) != nil {
		return nil, false
	}
	return work.NewOutline(l, v.pack.DefaultKit(), counts), true
}

// keep notes that a lesson is in order, unless a file was saved meanwhile: the key may be that of another text then.
func (v *verdicts) keep(key Key, l *work.Lesson) {
	if v == nil || unchanged(v.files) != nil {
		return
	}
	if data, err := json.Marshal(l.Counts()); err == nil {
		v.store.Put(key, data)
	}
}
