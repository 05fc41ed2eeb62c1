package worksheets

// A lesson's worksheet from its head to its gauges: what is on it, in which order, for whom, and how it is made to fit
// its pages.

import (
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// About is what the sheets of a pack share.
type About struct {
	Pack, Version, Language string
	Address                 string // of the folder with the students' pages, ending in a slash; "" if there is none
	Club                    string
	Start                   *int  // when a lesson begins, in minutes after midnight; nil if nobody has said it
	Logo                    *Logo // nil if the club has none
	Words                   func(name string, args ...any) string
	Shown                   *Illustrations // nil if there are none
}

// Make lays a lesson out on paper, for students or with keys and worked steps for
// mentors. The same lesson always gives the same bytes.
func Make(p Paper, about About, l *work.Lesson, cards []Card, mentors bool) ([]byte, error) {
	doc, err := layOut(p, about, l, cards, mentors)
	if err != nil {
		return nil, err
	}
	return doc.Bytes()
}

// layOut draws a lesson's worksheet; the season's file has the same pages. Mentors' is laid out as students' is, so
// that both have the same on each page.
func layOut(p Paper, about About, l *work.Lesson, cards []Card, mentors bool) (*pdf.Document, error) {
	var best *sheet
	f, err := about.Shown.fitOf(sheetKey{l, p.Name}, func() (fit, error) {
		o, err := bestOf(fits, func(f fit) (outcome, error) { return tried(p, about, l, cards, f) })
		best = o.sheet
		return o.fit, err
	})
	if err == nil && (mentors || best == nil) {
		best, err = laidOut(p, about, l, cards, mentors, f)
	}
	if err != nil {
		return nil, err
	}
	best.footers()
	return best.doc, nil
}

// laidOut lays a sheet out in one way.
func laidOut(p Paper, about About, l *work.Lesson, cards []Card, mentors bool, f fit) (*sheet, error) {
	s := &sheet{paper: p, about: about, lesson: l, mentors: mentors, lying: map[int]bool{}, fit: f,
		chosen: selectionOf(l, f.brief)}
	s.doc = newDocument(l.Title+" · "+about.Pack, about.Pack, about.Language)
	s.newPage()
	s.labelPages()
	s.leaveStrip()
	if err := s.head(); err != nil {
		return nil, err
	}
	s.care(cards)
	s.goals()
	s.flow(s.chosen.inPlace())
	s.pass()
	s.log()
	s.lookAfter()
	s.gauges()
	return s, nil
}

// short cuts a text that is absurdly long for its place.
func short(lines []string, most int) []string {
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] += " …"
	}
	return lines
}
