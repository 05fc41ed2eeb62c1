package worksheets

// A lesson's pages, for students and with keys, and the files of all lessons in one, which is printed at a stroke.

import (
	"io"
	"iter"
	"path"
	"strings"

	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Pages are a lesson's sheet laid out. They can be used by several at a time.
type Pages struct {
	doc *pdf.Document
	try *sheet // that it was found with; nil for a run sheet
}

// LayOut lays a lesson out on paper for students.
func LayOut(p Paper, about About, l *work.Lesson, cards []Card) (*Pages, error) {
	try, err := bestFit(p, about, l, cards)
	if err != nil {
		return nil, err
	}
	doc, err := try.final(cards, false)
	return &Pages{doc, try}, err
}

// WithKeys lays the same out with keys and worked steps for mentors.
func (students *Pages) WithKeys(cards []Card) (*Pages, error) {
	doc, err := students.try.final(cards, true)
	return &Pages{doc, students.try}, err
}

// LayOutRun lays out the page with which a mentor runs a lesson.
func LayOutRun(p Paper, about About, l *work.Lesson, cards []Card) (*Pages, error) {
	doc, err := layOutRun(p, about, l, cards)
	return &Pages{doc: doc}, err
}

// File gives the pages as a file of their own. The same lesson always gives the same bytes.
func (p *Pages) File() ([]byte, error) { return p.doc.Bytes() }

// Season binds the files of all lessons into one, which is written as they are read: students' sheets, or run sheets
// if it is for mentors.
func Season(to io.Writer, p Paper, about About, lessons iter.Seq2[[]byte, error], mentors bool) error {
	title := about.Pack + " · " + about.Words("season")
	if mentors {
		title += " · " + about.Words("mentors-sheet")
	}
	info := information(title, about.Pack, about.Language)
	return pdf.Bind(to, info, letters(), func(yield func([]byte, error) bool) {
		none := true
		for file, err := range lessons {
			if none = false; !yield(file, err) {
				return
			}
		}
		if none { // a file must have a page
			blank := newDocument(title, about.Pack, about.Language)
			blank.AddPage(p.Width, p.Height)
			yield(blank.Bytes())
		}
	})
}

// labelPages names the pages after the number of the lesson's file: 3-1, 3-2. In the season's file no two have
// one name, and a page that lies about can be put back.
func (s *sheet) labelPages() {
	name := path.Base(s.lesson.Slug)
	number := name[:len(name)-len(strings.TrimLeft(name, "0123456789"))]
	s.doc.Label(strings.TrimLeft(number, "0") + "-")
}
