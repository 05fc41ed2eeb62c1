package site

import (
	"bytes"
	"path"
	"strconv"

	"trundle/generator/quantity"
	"trundle/generator/tally"
	"trundle/site/chart"
)

// TallyTables gives what a report says, a table a measured column, in words.
func (s *Site) TallyTables(r *tally.Report) []Numbers {
	var f figure
	for _, c := range r.Columns {
		s.words.column(&f, tallied(r, c))
	}
	return f.Tables
}

// TallyHead says what a report is made of.
func (s *Site) TallyHead(r *tally.Report) string {
	return s.words.must("tally-head", len(r.Files), r.Teams, grouped(r.Runs), r.By)
}

func tallied(r *tally.Report, c tally.Column) column {
	out := column{Column: c.Column, title: c.Name, group: r.By, asks: asked(c.Column.Target, c.Unit), amounts: amountsOf(quantity.Rounding{}, c.Unit, c.Groups)}
	if c.Aimed {
		out.target = plain(c.Target.Number)
		if unit := c.Target.Unit.Symbol(); unit != "" {
			out.target += "\u00a0" + quantity.AfterNumber(out.target, unit)
		}
	}
	out.at = func(row int) string { return path.Base(c.Places[row].File) + ":" + strconv.Itoa(c.Places[row].Line) }
	return out
}

// Tally makes the page of a report, and its style sheet.
func (s *Site) Tally(r *tally.Report) (map[string][]byte, error) {
	var figures []figure
	for i, c := range r.Columns {
		col := tallied(r, c)
		id := "_fig" + strconv.Itoa(i)
		said := figure{ID: id, Title: s.words.must("runs-title"), How: true}
		s.words.column(&said, col)
		said.note(s.words)
		dots, bars := figure{ID: id + "-dots"}, figure{ID: id + "-bars"}
		dots.Title, bars.Title = s.words.must("tally-dots", c.Name), s.words.must("tally-bars", c.Name)
		s.words.dots(&dots, col, chart.Chart{ID: dots.ID, Title: dots.Title})
		s.words.bars(&bars, col, chart.Chart{ID: bars.ID, Title: bars.Title})
		for _, f := range []*figure{&said, &dots, &bars} {
			f.name()
			figures = append(figures, *f)
		}
	}
	var page bytes.Buffer
	data := tallyPage{Language: "en", Head: s.TallyHead(r), Figures: figures}
	for _, name := range r.Files {
		data.Files = append(data.Files, path.Base(name)) // where a file lies is nobody's business
	}
	err := s.templates.ExecuteTemplate(&page, "tally.html", data)
	if err != nil {
		return nil, err
	}
	style, err := s.style(nil)
	return map[string][]byte{"index.html": page.Bytes(), StyleSheet: style}, err
}

type tallyPage struct {
	Language, Head string
	Files          []string
	Figures        []figure
}
