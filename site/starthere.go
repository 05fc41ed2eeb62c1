package site

// What lies above an edition's folder in a bundle: the page to start with, and the list of contents.

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/worksheets"
)

// startPage is the content of the page that a bundle starts with.
type startPage struct {
	Lessons []*lesson.Lesson
	Other   string // the folder of the students' worksheets, for mentors: "students/"
	Season  seasonSheets
}

// A paperLink leads to a lesson's worksheet on one size of paper.
type paperLink struct{ Address, Title, Word string }

// papersOf gives those of a lesson in an edition's folder.
func papersOf(base string, l *lesson.Lesson) []paperLink {
	var all []paperLink
	for _, paper := range worksheets.Papers {
		all = append(all, paperLink{base + SheetName(l.Slug, paper.Name), l.Title, "paper-" + paper.Name})
	}
	return all
}

// runPapersOf gives those of its run sheet, whose titles say so, since they stand beside the others.
func (s *Site) runPapersOf(base string, l *lesson.Lesson) []paperLink {
	var all []paperLink
	for _, paper := range worksheets.Papers {
		title := s.labelled("start-run", l.Title)
		all = append(all, paperLink{base + RunSheetName(l.Slug, paper.Name), title, "paper-" + paper.Name})
	}
	return all
}

// seasonPapers gives the files with all sheets of an edition: worksheets of the students', run sheets of the mentors'.
func (s *Site) seasonPapers(base string, e Edition) []paperLink {
	var all []paperLink
	for _, paper := range worksheets.Papers {
		title := s.words.Say(seasonWord(e))
		all = append(all, paperLink{base + SeasonSheetName(e, paper.Name), title, "paper-" + paper.Name})
	}
	return all
}

// seasonWord names the word for such a file.
func seasonWord(e Edition) string {
	if e == Mentors {
		return "season-run"
	}
	return "season-blank"
}

// seasonSheets are all such files that an edition may lead to. Students get no way to the mentors'.
type seasonSheets struct {
	Blank []paperLink
	Run   []paperLink // for mentors
}

// seasonSheetsOf gives them by what leads from a page to the students' and the mentors' folder.
func (s *Site) seasonSheetsOf(e Edition, students, mentors string) seasonSheets {
	out := seasonSheets{Blank: s.seasonPapers(students, Students)}
	if e == Mentors {
		out.Run = s.seasonPapers(mentors, Mentors)
	}
	return out
}

// StartHere makes the page that leads into an edition from above its folder.
func (s *Site) StartHere(p *lesson.Pack, e Edition) ([]byte, error) {
	content := startPage{Lessons: p.Lessons,
		Season: s.seasonSheetsOf(e, string(Students)+"/", string(Mentors)+"/")}
	if e == Mentors {
		content.Other = string(Students) + "/"
	}
	return s.page("start.html", frame{
		Edition: e, Base: string(e) + "/", Title: s.words.Say("start-here"), Pack: p, Start: true,
		Content: content,
	})
}

// StartAssets are the files of an edition's folder that this page is made of.
func StartAssets() []string {
	return []string{
		StyleSheet, PrintSheet, BelowSheet, "assets/start.css", "assets/mentors.css", "assets/icon.svg", "assets/start.js",
		"assets/type.js", Typeface[0], Typeface[1],
	}
}

// Contents lists the files of a bundle by their sizes in bytes, with what each is.
func (s *Site) Contents(p *lesson.Pack, e Edition, sizes map[string]int) []byte {
	var b strings.Builder
	title := strings.Join(strings.Fields(p.Title), " ") // on one line, whatever the source has
	fmt.Fprintf(&b, "%s · %s %s\n", title, s.words.Say("version"), p.Version)
	fmt.Fprintf(&b, "%s\n%s\n\n", s.words.Say("edition-"+string(e)), s.words.Say("start-print"))
	wide := 0
	for name := range sizes {
		wide = max(wide, len([]rune(name)))
	}
	known := map[Edition]map[string]string{}
	for _, e := range Editions {
		known[e] = s.known(p, e)
	}
	for _, name := range slices.Sorted(maps.Keys(sizes)) {
		fmt.Fprintf(&b, "%9d  %-*s  %s\n", sizes[name], wide, name, s.whatIs(name, known))
	}
	return []byte(b.String())
}

// known says what files of an edition's folder are, by their names below it.
func (s *Site) known(p *lesson.Pack, e Edition) map[string]string {
	is := map[string]string{"index.html": s.words.Say("front"), "care.html": s.words.Say("care-page")}
	if p.Words != nil {
		is[WordsPage] = s.wordsTitle(p)
	}
	printed := "start-blank"
	if e == Mentors {
		is[ClassPage] = s.words.Say("class-page")
		is[SurePage] = s.words.Say("sure-page")
		is[MaterialsPage] = s.words.Say("materials-page")
		printed = "start-keyed"
	}
	for _, m := range p.Moves() {
		is[m.Old+".html"] = s.labelled("moved", m.To.Title)
	}
	for _, l := range p.Lessons {
		is[l.Slug+".html"] = l.Title
		for _, paper := range papersOf("", l) {
			is[paper.Address] = s.labelled(printed, l.Title)
		}
		if e == Mentors {
			for _, paper := range s.runPapersOf("", l) {
				is[paper.Address] = paper.Title
			}
		}
	}
	for _, paper := range s.seasonPapers("", e) {
		is[paper.Address] = paper.Title
	}
	return is
}

// whatIs says what a file of a bundle is.
func (s *Site) whatIs(name string, known map[Edition]map[string]string) string {
	edition, below, inside := strings.Cut(name, "/")
	if !inside && strings.HasSuffix(name, ".html") {
		return s.words.Say("start-here")
	}
	if is := known[Edition(edition)][below]; is != "" {
		return is
	}
	if strings.HasPrefix(below, "class/") {
		return s.words.Say("class-page")
	}
	if strings.HasPrefix(below, "pictures/") {
		return s.words.Say("start-picture")
	}
	return s.words.Say("start-part")
}
