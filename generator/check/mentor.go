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
	likeNote    = regexp.MustCompile(`(?i)^[^\pL]*(?:(?:for|notes? (?:to|for)) (?:the |our )?)?(?:mentors?|coach(?:es)?|teachers?|answers?|solutions?)\b[^.!?\]]{0,12}?[:：—–\]-]`)
	likeSection = regexp.MustCompile(`(?i)\b(?:mentors?|coach(?:es)?|teachers?)\b.*\bnotes?\b|\bnotes?\b.*\b(?:mentors?|coach(?:es)?|teachers?)\b|^\W*(?:for )?mentors?\b|^\W*(?:answers?|answer key|solutions?)\W*$`)
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
		for _, line := range lines(r) {
			if likeNote.Match(line.text) {
				problems.Error(l.File, line.span(0, len(line.text)), "mentor-like", "this looks like a note for mentors, and students would see it",
					"start a block quote of its own with  > Mentor:")
				return ast.WalkContinue, nil
			}
		}
		return ast.WalkContinue, nil
	})
}

// htmlOf is the HTML of a node, empty of any other.
func htmlOf(n ast.Node, src []byte) run {
	switch n := n.(type) {
	case *ast.HTMLBlock:
		return htmlRun(n, src)
	case *ast.RawHTML:
		return rawRun(src, n.Segments.At(0).Start, n.Segments.At(n.Segments.Len()-1).Stop)
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
