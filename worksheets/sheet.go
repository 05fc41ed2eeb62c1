package worksheets

// A lesson's worksheet from its head to its gauges: what is on it, in which order, for whom, and how it is made to fit
// its pages.

import (
	"fmt"
	"os"
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

// mostPages is how many pages a sheet has at most, if it can be had.
const mostPages = 4

// fits are the ways in which a sheet is laid out until it fits, from roomy to tight.
var fits = []fit{
	{room: 30, picture: 60, leading: 1.35},
	{room: 25, picture: 50, leading: 1.3},
	{room: 20, picture: 50, leading: 1.3, columns: true},
	{room: 15, picture: 45, leading: 1.25, columns: true},
	{room: 15, picture: 40, leading: 1.22, columns: true, terse: true},
	{room: 10, picture: 34, leading: 1.15, columns: true, terse: true},
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
	best, err := bestFit(p, about, l, cards)
	if err == nil && mentors {
		best, err = laidOut(p, about, l, cards, true, best.fit)
	}
	if err != nil {
		return nil, err
	}
	best.footers()
	return best.doc, nil
}

// bestFit lays a students' sheet out until it has few pages and the last of them is a third full.
func bestFit(p Paper, about About, l *work.Lesson, cards []Card) (*sheet, error) {
	var best *sheet
	for _, f := range fits {
		s, err := laidOut(p, about, l, cards, false, f)
		if err != nil {
			return nil, err
		}
		if os.Getenv("TIGHT") != "" {
			fmt.Fprintf(os.Stderr, "%s %s room %g: %d pages, last %.0f of %.0f\n", l.Slug, p.Name, f.room, s.doc.PageCount(), s.y-Margin, s.foot()-Margin)
		}
		if s.isGood() {
			return s, nil
		}
		if best == nil || s.isBetter(best) {
			best = s
		}
	}
	return best, nil
}

// isGood tells whether a sheet has few pages and the last of them is full enough.
func (s *sheet) isGood() bool { return s.doc.PageCount() <= mostPages && s.lastIsFull() }

// lastIsFull tells whether at least a third of the last page is used.
func (s *sheet) lastIsFull() bool { return s.y-Margin >= (s.foot()-Margin)/3 }

// isBetter tells which of two sheets that are not good is the better one.
func (s *sheet) isBetter(other *sheet) bool {
	if s.doc.PageCount() != other.doc.PageCount() {
		return s.doc.PageCount() < other.doc.PageCount()
	}
	return s.lastIsFull() && !other.lastIsFull()
}

// laidOut lays a sheet out in one way.
func laidOut(p Paper, about About, l *work.Lesson, cards []Card, mentors bool, f fit) (*sheet, error) {
	s := &sheet{paper: p, about: about, lesson: l, mentors: mentors, lying: map[int]bool{}, fit: f,
		chosen: selectionOf(l, f.terse)}
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
	if os.Getenv("TIGHT") != "" {
		fmt.Fprintf(os.Stderr, "%s %s room %g text: %d pages, last %.0f\n", l.Slug, p.Name, f.room, s.doc.PageCount(), s.y-Margin)
	}
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
