package worksheets

// A lesson's worksheet from its head to its gauges: what is on it, in which order, for whom, and how it is made to fit
// its pages.

import (
	"sort"

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
	try, err := bestFit(p, about, l, cards)
	if err != nil {
		return nil, err
	}
	return try.final(cards, mentors)
}

// final lays out for good what has been tried. Sheets with keys have the same on each page.
func (try *sheet) final(cards []Card, mentors bool) (*pdf.Document, error) {
	s := newSheet(try.paper, try.about, try.lesson, mentors, try.fit)
	s.doc = newDocument(s.lesson.Title+" · "+s.about.Pack, s.about.Pack, s.about.Language)
	s.texts, s.measures = try.texts, try.measures.again()
	s.texts.Lock()
	defer s.texts.Unlock()
	if err := s.all(cards); err != nil {
		return nil, err
	}
	s.footers()
	return s.doc, nil
}

// bestFit tries a students' sheet until it has few pages and the last of them is a third full.
func bestFit(p Paper, about About, l *work.Lesson, cards []Card) (*sheet, error) {
	tries := make([]*sheet, len(fits))
	texts := about.Shown.textsOf(l)
	texts.Lock()
	defer texts.Unlock()
	var failed error
	try := func(i int) *sheet {
		if tries[i] == nil {
			s := newSheet(p, about, l, false, fits[i])
			s.doc, s.texts, s.measures = newDraft(), texts, &measures{}
			if err := s.all(cards); err != nil {
				failed = err
			}
			tries[i] = s
		}
		return tries[i]
	}
	// Whoever has too many pages has them in what is roomier, too.
	first := sort.Search(len(fits), func(i int) bool { return try(i).doc.PageCount() <= mostPages })
	for i := first; i < len(fits); i++ {
		if try(i).isGood() {
			return try(i), failed
		}
	}
	var best *sheet
	for _, s := range tries {
		if s != nil && (best == nil || s.isBetter(best)) {
			best = s
		}
	}
	return best, failed
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

func newSheet(p Paper, about About, l *work.Lesson, mentors bool, f fit) *sheet {
	return &sheet{paper: p, about: about, lesson: l, mentors: mentors, lying: map[int]bool{}, fit: f,
		chosen: selectionOf(l, f.terse)}
}

// all puts all that is on a sheet.
func (s *sheet) all(cards []Card) error {
	s.newPage()
	s.labelPages()
	s.leaveStrip()
	if err := s.head(); err != nil {
		return err
	}
	s.care(cards)
	s.goals()
	s.flow(s.chosen.inPlace())
	s.pass()
	s.log()
	s.lookAfter()
	s.gauges()
	return nil
}

// short cuts a text that is absurdly long for its place.
func short(lines []string, most int) []string {
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] += " …"
	}
	return lines
}
