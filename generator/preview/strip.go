package preview

// The strip that an author sees beside a page: time plan, keys, links, and what is wrong.

import (
	_ "embed"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/work"
	"trundle/site"
	"trundle/site/words"
)

//go:embed strip.html
var stripText string

// strip is what the author's strip shows beside a page.
type strip struct {
	Lesson   *work.Lesson // nil on other pages
	Edition  site.Edition
	Other    string // the same page of the other edition; "" for none
	Sheets   []stripLink
	Runs     []stripLink // run sheets, of a mentors' lesson
	Problems []problem.Problem
	Pages    map[string]string // pages that are made from a file, by its name
	Nothing  bool              // there was never anything to show
	Notice   string            // a word of the interface; "" for none
}

// A stripLink leads to a file of the output.
type stripLink struct{ Label, Address string }

// stripTemplate lays the strip out in the words of a language.
func stripTemplate(w words.Words) (*template.Template, error) {
	return template.New("strip").Funcs(template.FuncMap{"say": w.Text}).Parse(stripText)
}

// mostProblems are as many as the strip shows one by one.
const mostProblems = 30

// stripOf makes the author's strip.
func (l *language) stripOf(v strip) (string, error) {
	data := stripData{strip: v, Mentors: v.Edition == site.Mentors, Summary: problem.Summary(v.Problems)}
	data.Errors, _ = problem.Counts(v.Problems)
	if v.Notice != "" {
		data.Notice = l.words.Say(v.Notice)
	}
	sorted := problem.ByWeight(v.Problems)
	for i, found := range sorted {
		if i == mostProblems {
			errors, cautions := problem.Counts(sorted[i:])
			data.More = l.words.Say("live-more", errors+cautions)
			break
		}
		one := shownProblem(found)
		one.Page = v.pageOf(found)
		data.Problems = append(data.Problems, one)
	}
	if v.Lesson != nil {
		data.plan(v.Lesson)
	}
	var out strings.Builder
	err := l.strip.Execute(&out, data)
	return out.String(), err
}

// pageOf is the page that has a problem's line, "" if none has. A part is on the pages of all its lessons; the one that
// is open is better than any other.
func (v strip) pageOf(found problem.Problem) string {
	if len(found.Lessons) == 0 {
		return v.Pages[found.File.Name]
	}
	if v.Lesson != nil && slices.Contains(found.Lessons, v.Lesson.File.Name) {
		return v.Pages[v.Lesson.File.Name]
	}
	return v.Pages[found.Lessons[0]]
}

// stripData is a strip as its template wants it, everything counted.
type stripData struct {
	strip
	Mentors, Off, Missed      bool
	Planned, Minutes          int
	Held, Keys, Finds, Errors int
	Summary, More, Notice     string
	Problems                  []liveProblem
}

// liveProblem is one problem with its line of the source, cut before and after what is meant.
type liveProblem struct {
	Page, Line                        string // the page that has the line, file:line; "" if none has
	Place, Severity, What, Slug, Hint string
	Before, Marked, After             string
}

// shownProblem cuts the line by letters, as an excerpt counts; a problem at the end of a line marks a blank.
func shownProblem(p problem.Problem) liveProblem {
	out := liveProblem{
		Place: problem.Place("", p.File, p.Span), Severity: p.Severity.String(),
		What: p.What, Slug: p.Slug, Hint: p.Hint,
		Line: fmt.Sprintf("%s:%d", p.File.Name, p.File.Position(p.Span.Start).Line),
	}
	text, before, marked := problem.Excerpt(p.File, p.File.Position(p.Span.Start), p.Span)
	line := []rune(text)
	if strings.TrimSpace(text) != "" {
		before = min(before, len(line))
		end := min(len(line), before+max(1, marked))
		out.Before, out.Marked, out.After = string(line[:before]), string(line[before:end]), string(line[end:])
		if out.Marked == "" {
			out.Marked = " "
		}
	}
	return out
}

// plan adds what the strip shows of a lesson: its time plan and its keys.
func (d *stripData) plan(l *work.Lesson) {
	d.Minutes = l.Minutes
	for _, s := range l.Sections {
		d.Planned += s.Minutes
	}
	for _, s := range l.Finds {
		d.Finds++
		if k := l.Of(s).Key; k != nil {
			d.Keys++
			if k.Holds {
				d.Held++
			}
		}
	}
	d.Off, d.Missed = d.Planned != d.Minutes, d.Held < d.Keys
}

// nothing makes the page of a pack that has never been right.
func (l *language) nothing(e site.Edition) ([]byte, error) {
	return l.served.Notice(e, site.Notice{Title: l.words.Say("live"), Text: l.words.Say("live-nothing")})
}

// gone makes the page that stands where another was, or never was: it leads to the lessons that there are.
func (l *language) gone(s state, name string) ([]byte, error) {
	edition, below, _ := strings.Cut(name, "/")
	notice := site.Notice{
		Title: l.words.Say("live-no-page"), Text: l.words.Say("live-no-file"), Lessons: s.good.Pack.Lessons,
	}
	slug := strings.TrimSuffix(below, ".html")
	if _, was := s.ids[slug]; was {
		notice.Text = l.words.Say("live-no-lesson", slug+".md")
	}
	return l.served.Notice(site.Edition(edition), notice)
}
