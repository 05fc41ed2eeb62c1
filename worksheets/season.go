package worksheets

// Pages that go into more than one file: the lesson's own, and the season's, which is printed at a stroke.

import (
	"path"
	"strings"

	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Pages are a lesson's sheet laid out. They can be used by several at a time.
type Pages struct {
	doc *pdf.Document
	fit fit
}

// LayOut lays a lesson out on paper for students.
func LayOut(p Paper, about About, l *work.Lesson, cards []Card) (*Pages, error) {
	fit, err := bestFit(p, about, l, cards)
	if err != nil {
		return nil, err
	}
	return (&Pages{fit: fit}).again(p, about, l, cards, false)
}

// WithKeys lays the same out with keys and worked steps for mentors.
func (students *Pages) WithKeys(p Paper, about About, l *work.Lesson, cards []Card) (*Pages, error) {
	return students.again(p, about, l, cards, true)
}

func (like *Pages) again(p Paper, about About, l *work.Lesson, cards []Card, mentors bool) (*Pages, error) {
	doc, err := layOutIn(like.fit, p, about, l, cards, mentors)
	return &Pages{doc, like.fit}, err
}

// LayOutRun lays out the page with which a mentor runs a lesson.
func LayOutRun(p Paper, about About, l *work.Lesson, cards []Card) (*Pages, error) {
	doc, err := layOutRun(p, about, l, cards)
	return &Pages{doc: doc}, err
}

// File gives the pages as a file of their own. The same lesson always gives the same bytes.
func (p *Pages) File() ([]byte, error) { return p.doc.Bytes() }

// Season puts the pages of all lessons into one file: students' sheets, or run sheets if it is for mentors.
func Season(p Paper, about About, lessons []*Pages, mentors bool) ([]byte, error) {
	title := about.Pack + " · " + about.Words("season")
	if mentors {
		title += " · " + about.Words("mentors-sheet")
	}
	var all []*pdf.Document
	for _, l := range lessons {
		all = append(all, l.doc)
	}
	if len(all) == 0 { // a file must have a page
		all = append(all, newDocument(title, about.Pack, about.Language))
		all[0].AddPage(p.Width, p.Height)
	}
	return pdf.Join(information(title, about.Pack, about.Language), all).Bytes()
}

// labelPages names the pages after the number of the lesson's file: 3-1, 3-2. In the season's file no two have one name, and a
// page that lies about can be put back.
func (s *sheet) labelPages() {
	name := path.Base(s.lesson.Slug)
	number := name[:len(name)-len(strings.TrimLeft(name, "0123456789"))]
	s.doc.Label(strings.TrimLeft(number, "0") + "-")
}
