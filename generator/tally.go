package generator

// This file joins reading files of runs with putting them together, outside any pack.

import (
	"io/fs"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/generator/tally"
	"trundle/site"
	"trundle/site/figure"
)

// Tallied is several files of runs put together.
type Tallied struct {
	Report   *tally.Report    // as far as it got, if there are errors
	Tables   []figure.Numbers // what it says, in words
	Head     string
	Warnings []string
	Problems []problem.Problem
}

// Tally reads files of runs, by the names that files knows them by, and puts them together.
func Tally(files fs.FS, names []string, o tally.Options) (*Tallied, error) {
	s, err := site.New("en")
	if err != nil {
		return nil, err
	}
	texts, problems := read.Texts(files, names)
	report, found := tally.Of(texts, o)
	problems.Join(found)
	out := &Tallied{Report: report, Problems: problems.Sorted()}
	if !problems.HasErrors() {
		out.Tables, out.Head, out.Warnings = s.TallyTables(report), s.TallyHead(report), s.TallyWarnings(report)
	}
	return out, nil
}

// DrawTally makes the page of a report. It is apart from Tally, as most reports are only read on the terminal.
func DrawTally(r *tally.Report) (map[string][]byte, error) {
	s, err := site.New("en")
	if err != nil {
		return nil, err
	}
	return s.Tally(r)
}

// Records gives what a pack says of its lessons' records, for Tally.
func (p *Proved) Records() *tally.Pack {
	out := &tally.Pack{Keys: []string{p.Pack.Key(), lesson.KeyOfTitle(p.Pack.Title)}, Kits: map[string]string{},
		Words: p.Pack.Vocabulary}
	if p.Pack.Renamed != nil {
		for _, old := range p.Pack.Renamed.Packs {
			out.Keys = append(out.Keys, lesson.KeyOfTitle(old.Value), old.Value)
		}
	}
	for _, k := range p.Pack.Kits {
		out.Kits[k.Key] = k.Title
	}
	for _, l := range p.Lessons {
		one := tally.Lesson{Slug: l.Slug, Keys: []string{l.Key(), l.Slug}}
		for _, f := range l.Fields {
			if f.Statement.Kind == lesson.Record {
				one.Records = append(one.Records, tally.Record{Name: f.Statement.Name, Unit: f.Unit,
					Runs: len(f.Statement.Texts), Target: l.AimOf(f)})
			}
		}
		if len(one.Records) > 0 {
			out.Lessons = append(out.Lessons, one)
		}
	}
	return out
}
