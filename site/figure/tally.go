package figure

// What the files of several teams come to, put together.

import (
	"path"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/tally"
	"trundle/site/chart"
	"trundle/site/words"
)

// TallyTables gives what a report says, a table a measured column, in words.
func TallyTables(in words.Words, r *tally.Report) []Numbers {
	w := &writer{Words: in}
	var f Figure
	for _, c := range r.Columns {
		w.column(&f, w.tallied(r, c))
	}
	return f.Tables
}

// TallyHead says what a report is made of.
func TallyHead(in words.Words, r *tally.Report) string {
	return in.Say("tally-head", len(r.Files), r.Teams, in.Count(r.Runs), groupedBy(in, r.By))
}

// groupedBy is what runs are grouped by, in words: the columns of a team's own file are called the same in all
// languages. Those of other names are the coach's.
func groupedBy(in words.Words, column string) string {
	switch strings.ToLower(column) {
	case "base":
		return in.Say("class-base")
	case "team":
		return in.Say("class-team")
	}
	return column
}

// TallyWarnings say what the way in which the runs were made keeps anybody from telling.
func TallyWarnings(in words.Words, r *tally.Report) []string {
	var all []string
	if r.Confounded {
		all = append(all, in.Say("tally-confounded"))
	}
	if r.Pooled {
		all = append(all, in.Say("tally-pooled"))
	}
	return all
}

// tallied is a column of a report as it is shown. A run is found by its file and line, as editors take them.
func (w *writer) tallied(r *tally.Report, c tally.Column) column {
	c.Groups = slices.Clone(c.Groups)
	for i := range c.Groups {
		if c.Groups[i].Name == "" {
			c.Groups[i].Name = w.Say("class-no-team")
		}
	}
	out := column{
		Column: c.Column, title: c.Name, group: groupedBy(w.Words, r.By), aim: aimOf(c.Column.Target, c.Unit),
		amounts: w.amountsOf(quantity.Rounding{}, c.Unit, c.Groups), // no step is asked for, and nothing is hidden
	}
	if c.Aimed {
		out.target = w.plain(c.Target.Number)
		if unit := c.Target.Unit.Symbol(); unit != "" {
			out.target += "\u00a0" + w.Unit(quantity.AfterNumber(out.target, unit))
		}
	}
	out.at = func(row int) string { return path.Base(c.Places[row].File) + ":" + strconv.Itoa(c.Places[row].Line) }
	return out
}

// Tally makes the figures of a report: for each measured column what is to be said, its dots
// and its bars.
func Tally(in words.Words, r *tally.Report) []Figure {
	w := &writer{Words: in}
	var figures []Figure
	for i, c := range r.Columns {
		col := w.tallied(r, c)
		id := "_fig" + strconv.Itoa(i)
		said := Figure{ID: id, Title: w.Say("runs-title"), How: true}
		w.column(&said, col)
		said.note(w, len(c.Aim) > 0)
		dots, bars := Figure{ID: id + "-dots"}, Figure{ID: id + "-bars"}
		dots.Title, bars.Title = w.Say("tally-dots", c.Name), w.Say("tally-bars", c.Name)
		w.dots(&dots, col, chart.Chart{ID: dots.ID, Title: dots.Title})
		w.bars(&bars, col, chart.Chart{ID: bars.ID, Title: bars.Title})
		for _, f := range []*Figure{&said, &dots, &bars} {
			f.nameTables()
			figures = append(figures, *f)
		}
	}
	return figures
}
