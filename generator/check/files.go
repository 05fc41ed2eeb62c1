package check

// Names of a pack's files: whether every computer can keep them, and tells them apart.

import (
	"maps"
	"slices"

	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// FileNames checks the names of the files that a pack is made of. A picture counts only if something shows it, and the
// place that does is told of a name that cannot be handed out. The names alone decide whether there is a problem.
func FileNames(p *lesson.Pack, names []string) problem.List {
	var problems problem.List
	first := map[string]string{}
	for _, name := range names {
		at := source.NewFile(name, nil)
		if why := bundle.Unsafe(name); why != "" && p.Pictures[name] == nil {
			problems.Caution(at, source.Span{}, "file-name", "this file cannot be kept on every computer: "+why,
				"rename it, and change what leads to it")
		}
		key := bundle.Folded(name)
		if other, taken := first[key]; taken {
			problems.Error(at, source.Span{}, "file-names-alike",
				"many computers take this file for "+other+", and would keep only one of the two",
				"rename one of them, so that they differ in more than capitals and the way accents are stored")
			continue
		}
		first[key] = name
	}
	for _, l := range p.Lessons {
		if len(l.Slug) > MaxSlug {
			problems.Error(l.File, source.Span{}, "file-name",
				"this name is too long: those of pages and sheets begin with it and go on", "write a few words")
		}
	}
	return problems
}

// MaxSlug is in bytes. Names of up to 255 can be kept, and a run sheet's has some twenty more than its lesson's.
const MaxSlug = 200

// NamesOf are the names of all files that matter, in order.
func NamesOf(p *lesson.Pack) []string {
	var all []string
	for _, l := range p.Lessons {
		all = append(all, l.File.Name)
	}
	for _, c := range p.Cards {
		all = append(all, c.File.Name)
	}
	for _, part := range p.Parts {
		all = append(all, part.File.Name)
	}
	all = slices.AppendSeq(all, maps.Keys(p.Data))
	for name, shown := range p.Pictures {
		if shown != nil {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}
