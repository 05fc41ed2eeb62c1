package site

// What mentors see of all lessons together, on a page beside that of the season: materials, standards, care cards, and
// which words are meant otherwise than they sound.

import (
	"slices"
	"strconv"
	"strings"

	"trundle/generator/lesson"
)

// MaterialsPage is the name of the mentors' page of what all lessons need.
const MaterialsPage = "materials.html"

// Materials makes it.
func (s *Site) Materials(p *lesson.Pack) ([]byte, error) {
	content := seasonOf(p)
	content.Sheets = s.seasonSheetsOf(Mentors, beside, "")
	return s.page("materials.html", frame{Edition: Mentors, Title: s.words.Say("materials-page"), Pack: p,
		Content: content})
}

// season is what mentors need to see of all lessons together.
type season struct {
	Materials []need
	Standards []need
	Cards     []need
	Otherwise []lesson.MeantOtherwise // phrases with a word for a substance or tool that mean something else
	Sheets    seasonSheets
}

// need is something that some lessons need.
type need struct {
	Name    string
	Address string // of a card
	Most    int    // in any one lesson; 0 if nobody counted
	Total   int    // of all lessons, for what is used up
	Lessons []*lesson.Lesson
}

// seasonOf adds up over the lessons of a pack.
func seasonOf(p *lesson.Pack) season {
	s := season{Otherwise: p.MeantOtherwise}
	for _, l := range p.Lessons {
		for _, text := range l.Materials {
			n, name := counted(text)
			s.Materials = noted(s.Materials, name, n, l)
		}
		for _, code := range l.Standards {
			s.Standards = noted(s.Standards, code, 0, l)
		}
		for _, ref := range l.Care {
			if c, ok := p.Card(ref.Value); ok {
				s.Cards = noted(s.Cards, c.Title, 0, l)
				// noted does not know of addresses, which only cards have.
				for i := range s.Cards {
					if s.Cards[i].Name == c.Title {
						s.Cards[i].Address = "care.html#" + c.Name
					}
				}
			}
		}
	}
	slices.SortStableFunc(s.Standards, func(a, b need) int { return strings.Compare(a.Name, b.Name) })
	return s
}

// noted adds a lesson to what it needs: in the order in which things are first needed, each lesson once.
func noted(all []need, name string, n int, l *lesson.Lesson) []need {
	for i := range all {
		if all[i].Name == name {
			all[i].Most, all[i].Total = max(all[i].Most, n), all[i].Total+n
			if last := all[i].Lessons; last[len(last)-1] != l {
				all[i].Lessons = append(last, l)
			}
			return all
		}
	}
	return append(all, need{Name: name, Most: n, Total: n, Lessons: []*lesson.Lesson{l}})
}

// counted reads "2 paper cups"; without a number in front nobody has counted.
func counted(text string) (n int, name string) {
	first, rest, found := strings.Cut(strings.TrimSpace(text), " ")
	if n, err := strconv.Atoi(first); err == nil && found && n > 0 && n < 10000 {
		return n, strings.TrimSpace(rest)
	}
	return 0, strings.TrimSpace(text)
}
