package check

// Whether the headings' times add up to the lesson's.

import (
	"bytes"
	"fmt"
	"strconv"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// timePlan compares the headings' minutes with the lesson's.
func timePlan(l *lesson.Lesson, problems *problem.List) {
	sum, timed := 0, false
	uncounted := uncountedTimes(l)
	for _, s := range l.Sections {
		sum += s.Minutes
		timed = timed || s.HasMinutes
	}
	sum += nearlyMarked(l)
	// A plan that adds up is right even if a heading was overlooked.
	if l.Minutes == 0 || sum == l.Minutes { // minutes that could not be read were reported
		return
	}
	if !timed {
		problems.Add(problem.Problem{
			Slug: "time-plan", File: l.File, Span: l.MinutesAt,
			What:    "no heading of this lesson says how long its part takes",
			Hint:    "write the minutes after each heading, as in  ## Warm-up (8 min)",
			Related: uncounted,
		})
		return
	}
	p := problem.Problem{
		Slug: "time-plan", File: l.File, Span: l.MinutesAt,
		What: "the lesson has " + strconv.Itoa(l.Minutes) + " minutes; its headings add up to " + strconv.Itoa(sum),
		Hint: "change a heading's minutes, or the lesson's",
	}
	if len(uncounted) == 1 { // it is where the mistake is
		p.Span, p.Hint = uncounted[0].Span, uncounted[0].What
		problems.Add(p)
		return
	}
	if len(uncounted) > 0 {
		p.Hint, p.Related = "the time of a heading is not counted because of how it is written: see below", uncounted
		problems.Add(p)
		return
	}
	for _, s := range l.Sections {
		if s.HasMinutes {
			minutes := strconv.Itoa(s.Minutes) + " min"
			p.Related = append(p.Related, problem.Related{File: l.File, Span: s.At, What: minutes})
		}
	}
	problems.Add(p)
}

// spareTime looks at what is for when there is time: without its minutes nobody knows what the lesson takes without it.
func spareTime(l *lesson.Lesson, problems *problem.List) {
	for _, s := range l.Sections {
		switch {
		case s.IfTime && !s.HasMinutes:
			problems.Caution(l.File, s.At, "if-time", "this part is for when there is time, and does not say how much it takes",
				"write its minutes, as in  ## Another run (10 min) (if there is time)")
		case s.HasMinutes && s.Spare > s.Minutes:
			problems.Caution(l.File, s.At, "if-time", fmt.Sprintf(
				"what is for when there is time takes %d min of this part, and all of the part %d", s.Spare, s.Minutes),
				"change the minutes of this heading, or of those below it")
		}
	}
}

// nearlyTime is a time that is not written as "(10 min)".
var nearlyTime = wording.New(`(?i)[(\[]\s*(?:about |ca\.? ` +
	`|~)?([0-9]{1,3})(?:\s*[–-]\s*[0-9]+)?\s*(?:min|mins|minute|` +
	`minuten|minutes|minutos|minuti|minuut)?\.?\s*[)\]]\s*$`)

// minutesWithin is a time that is not in brackets, or not at the end.
var minutesWithin = wording.New(`(?i)(?:^|[^0-9.])([0-9]{1,3})\s*min(?:s|ute|utes|uten)?(?:\PL|$)`)

// paperMark is a mark that may come after the time.
var paperMark = wording.New(`(?:\s*\((?:(?:not )?on paper|if there is time)\))+\s*$`)

// uncountedTimes are the headings that look as if they said how long their part takes, and are not counted: of
// another level, or written in another way.
func uncountedTimes(l *lesson.Lesson) []problem.Related {
	var all []problem.Related
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if p, isText := n.(*ast.Paragraph); isText && entering {
			stuckTime(l, p, &all)
		}
		h, ok := n.(*ast.Heading)
		if !ok || !entering || h.Lines().Len() == 0 {
			return ast.WalkContinue, nil
		}
		title := h.Lines().At(0)
		at := source.Span{Start: title.Start, End: title.Stop}
		minutes, timed := h.AttributeString("minutes")
		text := paperMark.Compiled().ReplaceAll(bytes.TrimSpace(title.Value(l.Markdown)), nil)
		switch m := nearlyTime.FindSubmatch(text); {
		case timed && h.Level != 2:
			all = append(all, problem.Related{File: l.File, Span: at,
				What: fmt.Sprintf("these %d min are not counted, since only headings with ## are", minutes)})
		case !timed && m == nil && h.Level <= 2 && minutesWithin.Match(text):
			m = minutesWithin.FindSubmatch(text)
			all = append(all, problem.Related{File: l.File, Span: at,
				What: fmt.Sprintf("this time is not counted; write it as  (%s min)  at the end of the heading", m[1])})
		case !timed && m != nil && h.Level <= 2:
			all = append(all, problem.Related{File: l.File, Span: at,
				What: fmt.Sprintf("this time is not counted; write it as  (%s min)  at the end of a heading with ##", m[1])})
		}
		return ast.WalkContinue, nil
	})
	return all
}

// nearMark is a mark in other words, which is a problem of its own.
var nearMark = wording.New(`(?i)\(([0-9]{1,3}) min\)(?:\s*\((?:(?:not )?on paper|if there is time)\))+\s*$`)

// nearlyMarked are the minutes that will count once such marks are right.
func nearlyMarked(l *lesson.Lesson) (minutes int) {
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering || h.Level != 2 || h.Lines().Len() == 0 {
			return ast.WalkContinue, nil
		}
		title := h.Lines().At(0)
		m := nearMark.FindSubmatch(bytes.TrimSpace(title.Value(l.Markdown)))
		if _, timed := h.AttributeString("minutes"); m != nil && !timed {
			n, _ := strconv.Atoi(string(m[1]))
			minutes += n
		}
		return ast.WalkContinue, nil
	})
	return minutes
}

// stuckTime adds a line that would be a heading with its time if it had a blank after its marks.
func stuckTime(l *lesson.Lesson, p *ast.Paragraph, all *[]problem.Related) {
	for i := range p.Lines().Len() {
		s := p.Lines().At(i)
		line := bytes.TrimSpace(s.Value(l.Markdown))
		if m := minutesWithin.FindSubmatch(line); m != nil && bytes.HasPrefix(line, []byte("##")) {
			*all = append(*all, problem.Related{File: l.File, Span: source.Span{Start: s.Start, End: s.Start + len(line)},
				What: "these " + string(m[1]) + " min are not counted, since this is no heading without a blank after ##"})
		}
	}
}
