package generator

// This file joins reading files of runs with putting them together, outside any pack.

import (
	"io/fs"

	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/generator/tally"
	"trundle/site"
	"trundle/site/figure"
)

// Tallied is several files of runs put together.
type Tallied struct {
	Report   *tally.Report
	Tables   []figure.Numbers // what it says, in words
	Head     string
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
		out.Tables, out.Head = s.TallyTables(report), s.TallyHead(report)
	}
	return out, nil
}

// DrawTally makes the page of a report.
func DrawTally(r *tally.Report) (map[string][]byte, error) {
	s, err := site.New("en")
	if err != nil {
		return nil, err
	}
	return s.Tally(r)
}
