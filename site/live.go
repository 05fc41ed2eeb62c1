package site

import (
	"bytes"
	_ "embed"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/work"
)

//go:embed live.css
var liveStyle []byte

// LiveFiles are what a page that follows its source refers to, by name.
func LiveFiles() (map[string][]byte, error) {
	script, err := scriptFiles.ReadFile("scripts/live.js")
	return map[string][]byte{"live.js": script, "live.css": liveStyle}, err
}

// Live lets a page follow its source: below the folder named it finds the files of LiveFiles, and
// the page's policy lets it listen to its server. Nothing else is changed.
func Live(page []byte, folder string) []byte {
	page = bytes.Replace(page, []byte("script-src 'self';"), []byte("script-src 'self'; connect-src 'self';"), 1)
	head := `<link rel="stylesheet" href="` + folder + `live.css"><script src="` + folder + `live.js" defer></script>` + "\n<script"
	return bytes.Replace(page, []byte("<script"), []byte(head), 1)
}

// Strip is what the author's strip shows beside a page.
type Strip struct {
	Lesson   *work.Lesson // nil on other pages
	Edition  Edition
	Other    string // the same page of the other edition; "" for none
	Sheets   map[string]string
	Problems []problem.Problem
	Notice   string // a word of the interface; "" for none
}

// mostProblems are as many as the strip shows one by one.
const mostProblems = 30

// Strip makes the author's strip.
func (s *Site) Strip(v Strip) (string, error) {
	data := stripData{Strip: v, Mentors: v.Edition == Mentors, Summary: problem.Summary(v.Problems)}
	data.Errors, _ = problem.Counts(v.Problems)
	if v.Notice != "" {
		data.Notice = s.words.Say(v.Notice)
	}
	for i, p := range v.Problems {
		if i == mostProblems {
			data.More = s.words.Say("live-more", len(v.Problems)-i)
			break
		}
		data.Problems = append(data.Problems, shownProblem(p))
	}
	if l := v.Lesson; l != nil {
		data.plan(l)
	}
	var out strings.Builder
	err := s.templates.ExecuteTemplate(&out, "live.html", data)
	return out.String(), err
}

type stripData struct {
	Strip
	Mentors, Off, Missed      bool
	Planned, Minutes          int
	Held, Keys, Finds, Errors int
	Summary, More, Notice     string
	Problems                  []liveProblem
}

type liveProblem struct {
	Place, Severity, What, Slug, Hint string
	Before, Marked, After             string
}

func shownProblem(p problem.Problem) liveProblem {
	out := liveProblem{Place: problem.Place("", p.File, p.Span), Severity: p.Severity.String(), What: p.What, Slug: p.Slug, Hint: p.Hint}
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

// plan adds what the strip tells of a lesson: its time plan and its keys.
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

// Nothing makes the page of a pack that has never been right.
func (s *Site) Nothing(e Edition) ([]byte, error) {
	page, err := s.page("live-nothing.html", frame{Edition: e, Title: s.words.Say("live"), Pack: &lesson.Pack{Title: s.words.Say("live"), Language: "en"}})
	return bytes.Replace(page, []byte("<body "), []byte(`<body data-live="nothing" `), 1), err
}
