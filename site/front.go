package site

// The page of the season: a tape down the page, a week after the other, with each lesson's first goal, its parts as a
// bar, a ring for each question, and its sheets.

import (
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"time"

	"trundle/generator/lesson"
)

// front is the content of the page of the season.
type front struct {
	Length  string // "Twelve weeks, 12 h 20 min."
	Columns [][]week
	Common  []need         // cards of every lesson, for mentors
	Kits    []*lesson.Kit  // to choose from, for students
	Facts   []lesson.Field // that a team can measure of a robot of its own
	Sheet   template.HTML  // what the page's script works with, for students
	Sheets  seasonSheets
}

// week is a week of the season, or several without a lesson.
type week struct {
	Number, Last int
	Day, Date    string // "7 Sept" and 2026-09-07; "" if nobody says when the season starts
	Lessons      []weekLesson
}

// Several tells whether it stands for more than one week.
func (w week) Several() bool { return w.Last > w.Number }

// weekLesson is a lesson on the tape.
type weekLesson struct {
	*lesson.Lesson
	Goal   string
	Bar    template.HTML
	Cards  []need // for mentors
	Sheets []sheetsOf
}

// sheetsOf are a lesson's sheets of one kind, with the word for it.
type sheetsOf struct {
	Word  string
	Links []paperLink
}

// beside leads from the mentors' folder to the students': in a bundle, too, their sheets are there.
const beside = "../" + string(Students) + "/"

// Front makes the page of the season of an edition.
func (s *Site) Front(p *lesson.Pack, e Edition) ([]byte, error) {
	common := commonCards(p)
	weeks := s.weeks(p, e, common)
	half := (len(weeks) + 1) / 2 // a wide screen has two columns, the first never shorter
	content := front{Length: s.length(p), Columns: [][]week{weeks[:half]}, Sheets: s.seasonSheetsOf(e, "", "")}
	if half < len(weeks) {
		content.Columns = append(content.Columns, weeks[half:])
	}
	if e == Mentors {
		content.Common = cardsOf(p, common)
		content.Sheets = s.seasonSheetsOf(e, beside, "")
	} else {
		var err error
		if content.Sheet, err = s.seasonSheet(p); err != nil {
			return nil, err
		}
		content.Kits = p.Kits
		if k := p.DefaultKit(); k != nil {
			content.Facts = k.Fields
		}
	}
	return s.page("front.html", frame{Edition: e, Title: p.Title, Pack: p, Season: true, Weeks: true,
		Search: e == Mentors, Content: content})
}

// seasonSheet is what the page's script needs to find the teams' entries.
func (s *Site) seasonSheet(p *lesson.Pack) (template.HTML, error) {
	table, err := s.names.of(p)
	if err != nil {
		return "", err
	}
	data, err := json.Marshal(map[string]string{"pack": PackID(p), "names": table.Sum}) // which writes < > & as \u…
	return trusted(`<script type="application/json" id="_season">` + string(data) + `</script>`), err
}

// weeks lays the lessons along the tape. Weeks left out are on it, too: a tape leaves no mark out.
func (s *Site) weeks(p *lesson.Pack, e Edition, common []string) []week {
	var all []week
	for _, l := range p.Lessons {
		last := len(all) - 1
		if last < 0 || all[last].Number != l.Week {
			if last >= 0 && l.Week > all[last].Last+1 {
				all = append(all, s.week(p, all[last].Last+1, l.Week-1))
			}
			all = append(all, s.week(p, l.Week, l.Week))
			last = len(all) - 1
		}
		all[last].Lessons = append(all[last].Lessons, s.weekOf(p, l, e, common))
	}
	return all
}

// week is one without lessons yet, with the day on which it begins.
func (s *Site) week(p *lesson.Pack, number, last int) week {
	w := week{Number: number, Last: last}
	if !p.Start.IsZero() {
		const days = 7
		day := p.Start.AddDate(0, 0, days*(number-1))
		w.Date = day.Format(time.DateOnly)
		w.Day = s.words.Say("day", day.Day(), strings.Fields(s.words.Say("months"))[day.Month()-1])
	}
	return w
}

// commonCards are the names of the cards that every lesson carries: mentors read them once, above the tape.
func commonCards(p *lesson.Pack) []string {
	if len(p.Lessons) < 2 {
		return nil
	}
	common := cardNames(p.Lessons[0])
	for _, l := range p.Lessons {
		own := cardNames(l)
		common = slices.DeleteFunc(common, func(name string) bool { return !slices.Contains(own, name) })
	}
	return common
}

func cardNames(l *lesson.Lesson) []string {
	var names []string
	for _, ref := range l.Care {
		names = append(names, ref.Value)
	}
	return names
}

// cardsOf are cards by their names, as mentors are led to them.
func cardsOf(p *lesson.Pack, names []string) []need {
	var all []need
	for _, name := range names {
		if c, ok := p.Card(name); ok {
			all = append(all, need{Name: c.Title, Address: "care.html#" + c.Name})
		}
	}
	return all
}

// weekOf is what the tape shows of a lesson.
func (s *Site) weekOf(p *lesson.Pack, l *lesson.Lesson, e Edition, common []string) weekLesson {
	out := weekLesson{Lesson: l, Bar: partsBar(tapeParts(l)), Sheets: []sheetsOf{{"start-sheet", papersOf("", l)}}}
	if len(l.Goals) > 0 {
		out.Goal = l.Goals[0]
	}
	if e == Mentors {
		out.Sheets = []sheetsOf{{"week-blank", papersOf(beside, l)}, {"week-keyed", papersOf("", l)},
			{"week-run", s.runPapersOf("", l)}}
		isCommon := func(name string) bool { return slices.Contains(common, name) }
		out.Cards = cardsOf(p, slices.DeleteFunc(cardNames(l), isCommon))
	}
	return out
}

// partsBar draws the parts of a lesson as a bar of so many pixels a minute, so that lessons can be compared.
func partsBar(parts []tapePart) template.HTML {
	const minute, height = 2, 10
	if len(parts) == 0 {
		return ""
	}
	long := parts[len(parts)-1].To
	var cuts strings.Builder
	for _, part := range parts[1:] {
		fmt.Fprintf(&cuts, "M%d 0v%d", part.From*minute, height)
	}
	size := fmt.Sprintf(`width="%d" height="%d"`, long*minute, height)
	return trusted(`<svg class="parts" aria-hidden="true" ` + size + `><rect ` + size + `/><path d="` +
		cuts.String() + `"/></svg>`)
}

// length says how long the season is.
func (s *Site) length(p *lesson.Pack) string {
	var weeks []int
	minutes := 0
	for _, l := range p.Lessons {
		minutes += l.Minutes
		if !slices.Contains(weeks, l.Week) {
			weeks = append(weeks, l.Week)
		}
	}
	time := s.duration(minutes)
	switch n := len(weeks); {
	case n == 0:
		return ""
	case n == 1 && len(p.Lessons) == 1:
		return s.words.Say("length-one", time)
	case n < len(p.Lessons):
		return s.words.SayOf(n, "length-lessons", upperFirst(s.count(n)), s.count(len(p.Lessons)), time)
	default:
		return s.words.Say("length", upperFirst(s.count(n)), time)
	}
}

// count writes a small number as a word.
func (s *Site) count(n int) string {
	if names := strings.Fields(s.words.Say("numbers")); n > 0 && n <= len(names) {
		return names[n-1]
	}
	return fmt.Sprint(n)
}

// duration writes minutes as people say them.
func (s *Site) duration(minutes int) string {
	const hour = 60
	switch h, m := minutes/hour, minutes%hour; {
	case h == 0:
		return s.words.Say("min", m)
	case m == 0:
		return s.words.Say("hours", h)
	default:
		return s.words.Say("hours-min", h, m)
	}
}
