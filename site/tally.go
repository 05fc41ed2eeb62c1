package site

// The page of what several teams' files of runs come to.

import (
	"bytes"
	"path"

	"trundle/generator/tally"
	"trundle/site/figure"
	"trundle/site/words"
)

// TallyTables gives what a report says, a table a measured column, in words.
func (s *Site) TallyTables(r *tally.Report) []figure.Numbers { return figure.TallyTables(s.words, r) }

// TallyHead says what a report is made of.
func (s *Site) TallyHead(r *tally.Report) string { return figure.TallyHead(s.words, r) }

// TallyWarnings say what the runs cannot tell, whoever looks at them.
func (s *Site) TallyWarnings(r *tally.Report) []string { return figure.TallyWarnings(s.words, r) }

// Tally makes the page of a report, and its style sheet.
func (s *Site) Tally(r *tally.Report) (map[string][]byte, error) {
	var page bytes.Buffer
	data := tallyPage{Language: s.words[words.Language], Head: s.TallyHead(r), Warnings: s.TallyWarnings(r)}
	for _, f := range figure.Tally(s.words, r) {
		data.Figures = append(data.Figures, figureOf{Figure: f})
	}
	for _, name := range r.Files {
		data.Files = append(data.Files, path.Base(name)) // where a file lies is nobody's business
	}
	err := s.templates.ExecuteTemplate(&page, "tally.html", data)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{"index.html": s.marks.HTML(page.Bytes())}
	for _, name := range append([]string{StyleSheet, PrintSheet, BelowSheet, "assets/figures.css"}, Typeface...) {
		if files[name], err = s.Asset(nil, name); err != nil {
			return nil, err
		}
	}
	// The page has no scripts, which would ask for the typeface in time. It may come late: nobody is typing here.
	files[StyleSheet] = bytes.ReplaceAll(files[StyleSheet], []byte("font-display:optional"), []byte("font-display:swap"))
	return files, nil
}

// tallyPage is what the page of a report is made from; it belongs to no pack.
type tallyPage struct {
	Language, Head string
	Warnings       []string
	Files          []string
	Figures        []figureOf
}
