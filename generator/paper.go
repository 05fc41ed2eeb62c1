package generator

// Which sheets there are, and what makes each: of a lesson the students' and the keyed sheet and the run sheet, and the
// sheets of the season in one file.

import (
	"bytes"
	"io"
	"path"
	"slices"
	"sync"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
	"trundle/worksheets"
)

// A printer makes the sheets of a pack.
type printer struct {
	site  *site.Site
	pack  *lesson.Pack
	start *int // when a lesson begins, nil if nobody has typed it

	logoOnce sync.Once
	logo     *worksheets.Logo // nil if the pack has none
	logoErr  error
	shown    *worksheets.Illustrations

	care  sync.Map // short forms of cards by card and edition, and all of a lesson's by lesson and edition
	pages sync.Map // from what they are to how they come: laid out once for all files that they are in
}

// printerOf makes what all lessons of a pack are printed by. Of the other lessons it knows the outlines.
func printerOf(p *Proved, s *site.Site) *printer {
	return &printer{site: s, pack: p.Pack.Outlined(), start: p.Start}
}

// wanted is what pages are of: a lesson's sheet in an edition, or its run sheet.
type wanted struct {
	lesson  *work.Lesson
	edition site.Edition
	run     bool
	paper   string
}

// laidOut are pages that are laid out when they are needed first.
type laidOut func() (*worksheets.Pages, error)

// lessonJobs gives the jobs of a lesson's sheets in an edition.
func (p *printer) lessonJobs(l *work.Lesson, e site.Edition) []Job {
	var jobs []Job
	for _, paper := range worksheets.Papers {
		name := path.Join(string(e), site.SheetName(l.Slug, paper.Name))
		jobs = append(jobs, Job{name, func() ([]byte, error) { return p.sheet(l, e, paper) }})
		if e == site.Mentors {
			name := path.Join(string(e), site.RunSheetName(l.Slug, paper.Name))
			jobs = append(jobs, Job{name, func() ([]byte, error) { return p.runSheet(l, paper) }})
		}
	}
	return jobs
}

// A season is a file of the sheets of all lessons.
type season struct {
	name   string
	paper  worksheets.Paper
	forWho site.Edition
}

// seasons are the students' worksheets and the mentors' run sheets, on each paper.
func seasons() []season {
	var all []season
	for _, e := range site.Editions {
		for _, paper := range worksheets.Papers {
			all = append(all, season{path.Join(string(e), site.SeasonSheetName(e, paper.Name)), paper, e})
		}
	}
	return all
}

// from is the name of a lesson's sheet, from which the season is bound.
func (s season) from(l *work.Lesson) string {
	name := site.SheetName(l.Slug, s.paper.Name)
	if s.forWho == site.Mentors {
		name = site.RunSheetName(l.Slug, s.paper.Name)
	}
	return path.Join(string(s.forWho), name)
}

// IsOfSeason tells by its name whether a file has the sheets of all lessons.
func IsOfSeason(name string) bool {
	return slices.ContainsFunc(seasons(), func(s season) bool { return s.name == name })
}

// bind writes a season, with read giving what it is bound from.
func (p *printer) bind(to io.Writer, s season, lessons []*work.Lesson, read func(name string) ([]byte, error)) error {
	about, err := p.about()
	if err != nil {
		return err
	}
	return worksheets.Season(to, s.paper, about, func(yield func([]byte, error) bool) {
		for _, l := range lessons {
			if !yield(read(s.from(l))) {
				return
			}
		}
	}, s.forWho == site.Mentors)
}

// SeasonJobs gives the jobs of the files that have the sheets of all lessons, each of which draws them for itself.
func SeasonJobs(p *Proved, s *site.Site) []Job {
	press := printerOf(p, s)
	var jobs []Job
	for _, one := range seasons() {
		jobs = append(jobs, Job{one.name, func() ([]byte, error) {
			var file bytes.Buffer
			drawn := map[string]func() ([]byte, error){}
			for _, l := range p.Lessons {
				for _, j := range press.lessonJobs(l, one.forWho) {
					drawn[j.Name] = j.Make
				}
			}
			err := press.bind(&file, one, p.Lessons, func(name string) ([]byte, error) { return drawn[name]() })
			return file.Bytes(), err
		}})
	}
	return jobs
}

// sheet draws a lesson's worksheet, for students or with keys, on one size of paper.
func (p *printer) sheet(l *work.Lesson, e site.Edition, paper worksheets.Paper) ([]byte, error) {
	return p.file(wanted{l, e, false, paper.Name}, paper)
}

// runSheet draws the page with which a mentor runs a lesson.
func (p *printer) runSheet(l *work.Lesson, paper worksheets.Paper) ([]byte, error) {
	return p.file(wanted{l, site.Mentors, true, paper.Name}, paper)
}

func (p *printer) file(w wanted, paper worksheets.Paper) ([]byte, error) {
	pages, err := p.layOut(w, paper)
	if err != nil {
		return nil, err
	}
	return pages.File()
}

// layOut lays pages out, or gives those that have been.
func (p *printer) layOut(w wanted, paper worksheets.Paper) (*worksheets.Pages, error) {
	made, _ := p.pages.LoadOrStore(w, laidOut(sync.OnceValues(func() (*worksheets.Pages, error) {
		about, err := p.about()
		if err != nil {
			return nil, err
		}
		if w.run {
			return worksheets.LayOutRun(paper, about, w.lesson, p.cards(w.lesson, w.edition))
		}
		// Both editions have the same on each page; what is for adults is on the run sheet.
		cards := p.cards(w.lesson, site.Students)
		if w.edition == site.Students {
			return worksheets.LayOut(paper, about, w.lesson, cards)
		}
		students, err := p.layOut(wanted{w.lesson, site.Students, false, paper.Name}, paper)
		if err != nil {
			return nil, err
		}
		return students.WithKeys(cards)
	})))
	return made.(laidOut)()
}

// forget lets go of what was laid out of a lesson, if it is not nil.
func (p *printer) forget(l *work.Lesson) {
	if l == nil {
		return
	}
	p.pages.Range(func(key, _ any) bool {
		if key.(wanted).lesson == l {
			p.pages.Delete(key)
		}
		return true
	})
	for _, e := range site.Editions {
		p.care.Delete(readersOf{l, e})
	}
	if p.shown != nil {
		p.shown.Forget(l)
	}
}

// about is what all sheets say.
func (p *printer) about() (worksheets.About, error) {
	p.logoOnce.Do(func() { // when the first sheet needs it, and for all of them
		if logo := p.pack.Pictures[p.pack.LogoName()]; logo != nil {
			p.logo, p.logoErr = worksheets.NewLogo(logo.Handed())
		}
		p.shown = illustrations(p.site, p.pack)
	})
	return worksheets.About{Pack: p.pack.Title, Version: p.pack.Version, Language: p.pack.Language,
		Address: p.pack.Address, Club: p.pack.Club, Start: p.start, Logo: p.logo, Shown: p.shown,
		Words: p.site.Say, Forms: p.site.Notation(), Marks: p.site.Marks()}, p.logoErr
}

// illustrations are what all sheets of a pack draw from: its pictures, and the figures of its data.
func illustrations(s *site.Site, p *lesson.Pack) *worksheets.Illustrations {
	return worksheets.NewIllustrations(func(name string) []byte {
		if picture := p.Pictures[name]; picture != nil {
			return picture.Handed()
		}
		return nil
	}, s.Figure)
}

// cards are the short forms of a lesson's care cards.
func (p *printer) cards(l *work.Lesson, e site.Edition) []worksheets.Card {
	made, ok := p.care.Load(readersOf{l, e})
	if !ok {
		var cards []worksheets.Card
		for _, c := range site.CardsOf(p.pack, l.Lesson, e) {
			cards = append(cards, p.shortForm(c, e))
		}
		made, _ = p.care.LoadOrStore(readersOf{l, e}, cards)
	}
	return made.([]worksheets.Card)
}

// readersOf are those of a lesson's sheets.
type readersOf struct {
	lesson  *work.Lesson
	edition site.Edition
}

// shortForm is a card's, which many lessons have.
func (p *printer) shortForm(c *lesson.Card, e site.Edition) worksheets.Card {
	type readers struct {
		card    *lesson.Card
		edition site.Edition
	}
	made, ok := p.care.Load(readers{c, e})
	if !ok {
		made, _ = p.care.LoadOrStore(readers{c, e}, shortForm(c, e))
	}
	return made.(worksheets.Card)
}

// shortForm is a care card's short form for the readers of an edition.
func shortForm(c *lesson.Card, e site.Edition) worksheets.Card {
	return worksheets.Card{Title: c.Title, Own: e == site.Mentors || !c.Adults, Adults: c.Adults, Both: c.Both,
		StudentsMay: c.StudentsMay, AdultsMay: c.AdultsMay, SignalWord: site.SignalWord(c),
		TakeCare: c.TakeCare(), Wear: c.Wear}
}
