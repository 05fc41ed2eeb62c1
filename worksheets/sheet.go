package worksheets

// A lesson's worksheet from its head to its gauges: what is on it, in which order, for whom, and how it is made to fit
// its pages.

import (
	"trundle/generator/quantity"
	"trundle/generator/typography"
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
	Forms                   quantity.Notation // of numbers
	Marks                   typography.Marks  // of quotations
	Shown                   *Illustrations    // nil if there are none
}

// final lays out for good what has been tried. Sheets with keys have the same on each page.
func (try *sheet) final(cards []Card, mentors bool) (*pdf.Document, error) {
	try.texts.Lock()
	defer try.texts.Unlock()
	s := newSheet(try.paper, try.about, try.texts, try.lesson, mentors, try.fit)
	s.doc = newDocument(s.lesson.Title+" · "+s.about.Pack, s.about.Pack, s.about.Language)
	s.measures = try.measures.again()
	if err := s.all(cards); err != nil {
		return nil, err
	}
	s.footers()
	return s.doc, nil
}

// bestFit tries a students' sheet until it has few pages and the last of them is a third full.
func bestFit(p Paper, about About, l *work.Lesson, cards []Card) (*sheet, error) {
	texts := about.Shown.textsOf(l)
	texts.Lock()
	defer texts.Unlock()
	best, err := bestOn(p, func(p Paper, f fit) (outcome, error) {
		s := newSheet(p, about, texts, l, false, f)
		s.doc, s.measures = newDraft(), &measures{}
		err := s.all(cards)
		return outcome{fit: f, pages: s.doc.PageCount(), full: s.lastIsFull(), sheet: s}, err
	}, texts.best)
	return best.sheet, err
}

func newSheet(p Paper, about About, t *texts, l *work.Lesson, mentors bool, f fit) *sheet {
	return &sheet{paper: p, about: about, texts: t, lesson: l, mentors: mentors, lying: map[int]bool{}, fit: f,
		chosen: kept(t.chosen, f.brief, func() *selection { return selectionOf(l, f.brief) })}
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
