// Package figure turns what a runs, chart, compare or readers block comes to into what a page shows of
// it: sentences, tables and a picture. It works no statistics out and knows no page.
package figure

import (
	"slices"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site/words"
)

// Figure is what a runs, chart, compare or readers block shows.
type Figure struct {
	ID      string
	Title   string
	Later   []string // finds that must be answered before it opens; none if it is open
	Picture string   // a chart
	Legend  []LegendEntry
	Tables  []Numbers
	Folded  bool   // the tables are for those who ask
	Note    string // what the sentences mean
	Veiled  string // what a hidden number means
	Ranking []string
	Source  string // the file
	Kit     string // the kit that it is drawn for
	How     bool   // mentors read how it is worked out
}

// LegendEntry is a line of a chart's legend.
type LegendEntry struct {
	Swatch string // SVG
	Label  string
}

// Numbers is a table, and what is to be said of it.
type Numbers struct {
	ID      string // in the page
	Caption string
	Heads   []string
	Rows    [][]string // the first cell of each is its head
	Look    []string   // runs to look at
	Says    []string
	Brief   []string // what of it paper says, if not all
}

// writer says and draws figures in one language for one edition.
type writer struct {
	words.Words
	mentors bool
}

// Of makes the figure of a block of a lesson, its ids starting with id.
func Of(in words.Words, l *work.Lesson, d *work.Data, mentors bool, id string) Figure {
	w := &writer{Words: in, mentors: mentors}
	f := Figure{ID: id, How: mentors && d.Name == lesson.RunsBlock}
	if !mentors {
		f.Later = d.Asked
	}
	switch d.Name {
	case lesson.RunsBlock:
		w.runs(&f, d)
	case lesson.CompareBlock:
		w.compare(&f, d)
	case lesson.ChartBlock:
		w.chart(&f, d)
	case lesson.ReadersBlock:
		w.readers(&f, d)
	case lesson.ShowBlock: // its figures are site/drawn's
	}
	if f.hides() {
		f.Veiled = w.Say("veiled")
	}
	if d.Varies && l.Kit != nil && (f.Picture != "" || len(f.Tables) > 0) {
		f.Kit = l.Kit.Title
	}
	f.nameTables()
	return f
}

// hides tells whether a number of the figure is hidden. What a picture does not draw stands in
// its table as well.
func (f *Figure) hides() bool {
	if strings.Contains(f.Picture, veiledClass) {
		return true
	}
	texts := slices.Clone(f.Ranking)
	for _, t := range f.Tables {
		texts = slices.Concat(texts, t.Look, t.Says, slices.Concat(t.Rows...))
	}
	return slices.ContainsFunc(texts, isVeiled)
}

// nameTables gives the figure's tables their ids.
func (f *Figure) nameTables() {
	for i := range f.Tables {
		f.Tables[i].ID = f.ID + "-" + strconv.Itoa(i)
	}
}
