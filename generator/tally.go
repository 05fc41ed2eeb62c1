package generator

// This file joins reading files of runs with putting them together, outside any pack.

import (
	"io/fs"
	"maps"

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

	pages *site.Site
}

// Tally reads files of runs, by the names that files knows them by, and puts them together; it speaks the
// language of the pack, if one is named.
func Tally(files fs.FS, names []string, o tally.Options) (*Tallied, error) {
	language := lesson.DefaultLanguage
	if o.Pack != nil {
		language = o.Pack.Language
	}
	s, err := site.New(language)
	if err != nil {
		return nil, err
	}
	if o.Pack != nil {
		pack := *o.Pack
		pack.Kits = map[string]string{lesson.OwnKit: s.Say("kit-ours")}
		maps.Copy(pack.Kits, o.Pack.Kits)
		o.Pack = &pack
	}
	texts, problems := read.Texts(files, names)
	report, found := tally.Of(texts, o)
	problems.Join(found)
	out := &Tallied{Report: report, Problems: problems.Sorted(), pages: s}
	if !problems.HasErrors() {
		out.Tables, out.Head, out.Warnings = s.TallyTables(report), s.TallyHead(report), s.TallyWarnings(report)
	}
	return out, nil
}

// Draw makes the page of the report. It is apart from Tally, as most reports are only read on the terminal.
func (t *Tallied) Draw() (map[string][]byte, error) { return t.pages.Tally(t.Report) }

// Records gives what a pack says of its lessons' records, for Tally.
func (p *Proved) Records() *tally.Pack {
	out := &tally.Pack{Language: p.Pack.Language, Words: p.Pack.Vocabulary, Kits: map[string]string{},
		Keys: append([]string{p.Pack.Key()}, p.Pack.EarlierKeys()...), Season: p.Pack.Season.Value}
	out.LessonsNow, out.BoxesNow = p.Pack.NamesNow()
	for _, k := range p.Pack.Kits {
		out.Kits[k.Key] = k.Title
	}
	for _, l := range p.Lessons {
		one := tally.Lesson{Slug: l.Slug, Key: l.Key()}
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
