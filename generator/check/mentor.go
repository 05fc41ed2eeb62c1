package check

import (
	"bytes"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
)

// These look as if they were meant for mentors and stand where students read them.
var (
	likeNote    = regexp.MustCompile(`(?i)^[^\pL]*(?:(?:a )?(?:for|to|(?:notes?|hints?) (?:to|for)) (?:the |our )?)?mentors?(?:\b[^.!?\]]{0,12}?[:：\]]| only\b|\s*[—–]\s|\s+-\s|[^\pL]*$)`)
	likeSection = regexp.MustCompile(`(?i)\bmentors?\b.*\bnotes?\b|\bnotes?\b.*\bmentors?\b|^\W*(?:for )?mentors?\b`)

	// These may be meant for students all the same: a box for answers, a coach who speaks in a story.
	likeAnswer  = regexp.MustCompile(`(?i)^[^\pL]*(?:(?:(?:correct |right )?answers?|answer keys?|solutions?)\s*(?:[:：]|\s[—–-]\s)\s*[\pL\pN−-]|(?:(?:for|to|(?:notes?|hints?) (?:to|for)) (?:the |our )?)?(?:coach(?:es)?|teachers?|tutors?|instructors?)\s*(?:[:：]|\s[—–-]\s))`)
	likeAnswers = regexp.MustCompile(`(?i)^\W*(?:the )?(?:answers?|answer keys?)\W*$|\bnotes? (?:for|to) (?:the |our )?(?:coach|teacher|tutor|instructor)`)
)

// mentorLike finds notes and sections that were meant for mentors and are not marked
// so: shown to students they could give everything away.
func mentorLike(l *lesson.Lesson, problems *problem.List) {
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if k := n.Kind(); k == lesson.KindMentorNote || k == lesson.KindMentorSection {
			return ast.WalkSkipChildren, nil
		}
		if html := htmlOf(n, l.Markdown); bytes.Contains(html.text, []byte("<!--")) {
			problems.Caution(l.File, html.span(0, len(html.text)), "comment-shown", "students would read this comment; trundle shows HTML as text",
				"delete it, or make it a note for mentors: a block quote that starts with  > Mentor:")
		}
		if _, quote := n.(*ast.Blockquote); quote && n.PreviousSibling() != nil && n.PreviousSibling().Kind() == lesson.KindMentorNote {
			if r := wholeRun(n, l.Markdown); len(r.text) > 0 {
				problems.Caution(l.File, r.span(0, len(r.text)), "mentor-like", "students see this quote; the note for mentors above ends at the empty line",
					"put  >  into the empty line if this belongs to the note")
			}
		}
		first := n.FirstChild()
		if n.Type() != ast.TypeBlock || first == nil || first.Type() != ast.TypeInline {
			return ast.WalkContinue, nil
		}
		r := wholeRun(n, l.Markdown)
		if len(r.text) == 0 {
			return ast.WalkContinue, nil
		}
		if _, heading := n.(*ast.Heading); heading && likeSection.Match(r.text) {
			problems.Error(l.File, r.span(0, len(r.text)), "mentor-like", "this section looks as if it were for mentors, and students would see it",
				"head it  ## Mentor notes, at the top level of the lesson")
			return ast.WalkContinue, nil
		}
		if _, heading := n.(*ast.Heading); heading && likeAnswers.Match(r.text) {
			mayBeForMentors(l, r, problems)
			return ast.WalkContinue, nil
		}
		for _, line := range lines(r) {
			if likeAnswer.Match(line.text) {
				mayBeForMentors(l, line, problems)
			}
			if likeNote.Match(line.text) {
				problems.Error(l.File, line.span(0, len(line.text)), "mentor-like", "this looks like a note for mentors, and students would see it",
					"start a block quote of its own with  > Mentor:")
				return ast.WalkContinue, nil
			}
		}
		return ast.WalkContinue, nil
	})
}

func mayBeForMentors(l *lesson.Lesson, r run, problems *problem.List) {
	problems.Caution(l.File, r.span(0, len(r.text)), "mentor-like", "students see this, and it looks as if it were for mentors or an answer",
		"if it is, put it into a block quote that starts with  > Mentor:  or below  ## Mentor notes")
}

// htmlOf is the HTML of a node, empty of any other.
func htmlOf(n ast.Node, src []byte) run {
	switch n := n.(type) {
	case *ast.HTMLBlock:
		var r run
		for i := range n.Lines().Len() {
			r.markdown(src, n.Lines().At(i).Start, n.Lines().At(i).Stop)
		}
		if n.HasClosure() {
			r.markdown(src, n.ClosureLine.Start, n.ClosureLine.Stop)
		}
		return r
	case *ast.RawHTML:
		var r run
		for i := range n.Segments.Len() {
			r.markdown(src, n.Segments.At(i).Start, n.Segments.At(i).Stop)
		}
		return r
	}
	return run{}
}

// wholeRun is the text below a node with code and the like in it, lines kept apart.
func wholeRun(top ast.Node, src []byte) run {
	var r run
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			r.markdown(src, t.Segment.Start, t.Segment.Stop)
			if t.SoftLineBreak() || t.HardLineBreak() {
				r.write("\n", t.Segment.Stop, t.Segment.Stop)
			}
		}
		return ast.WalkContinue, nil
	})
	return r
}

// lines cuts a run at its line breaks.
func lines(r run) []run {
	var all []run
	start := 0
	for _, text := range strings.SplitAfter(string(r.text), "\n") {
		end := start + len(text)
		stop := start + len(strings.TrimSuffix(text, "\n"))
		if stop > start {
			all = append(all, run{r.text[start:stop], r.at[start:stop], r.ends[start:stop]})
		}
		start = end
	}
	return all
}
