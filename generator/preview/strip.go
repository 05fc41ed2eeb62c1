package preview

// The strip that an author sees beside a page: time plan, keys, links, and what is wrong.

import (
	_ "embed"
	"html/template"
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
	Sheets   map[string]string
	Problems []problem.Problem
	Notice   string // a word of the interface; "" for none
}

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
	for i, found := range v.Problems {
		if i == mostProblems {
			data.More = l.words.Say("live-more", len(v.Problems)-i)
			break
		}
		data.Problems = append(data.Problems, shownProblem(found))
	}
	if v.Lesson != nil {
		data.plan(v.Lesson)
	}
	var out strings.Builder
	err := l.strip.Execute(&out, data)
	return out.String(), err
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
	Place, Severity, What, Slug, Hint string
	Before, Marked, After             string
}

// shownProblem cuts the line by letters, as an excerpt counts; a problem at the end of a line marks a blank.
func shownProblem(p problem.Problem) liveProblem {
	out := liveProblem{
		Place: problem.Place("", p.File, p.Span), Severity: p.Severity.String(),
		What: p.What, Slug: p.Slug, Hint: p.Hint,
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
	return l.served.Notice(e, l.words.Say("live"), l.words.Say("live-nothing"))
}
