package check

// Notes and sections that were meant for mentors and are not marked so: shown to students they
// could give everything away.

import (
	"bytes"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
)

// mentorLike is strict where a text can only be meant for mentors, and a caution where students
// may be meant: a false error would stop a coach whose lesson is right.
func mentorLike(l *lesson.Lesson, problems *problem.List) {
	c := mentorCheck{l, problems}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if k := n.Kind(); k == lesson.KindMentorNote || k == lesson.KindMentorSection {
			return ast.WalkSkipChildren, nil
		}
		c.comment(n)
		c.quoteBelowNote(n)
		if first := n.FirstChild(); n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline {
			c.text(n)
		}
		return ast.WalkContinue, nil
	})
}

// A mentorCheck looks at one lesson.
type mentorCheck struct {
	lesson   *lesson.Lesson
	problems *problem.List
}

// comment reports an HTML comment, which pages show as text.
func (c mentorCheck) comment(n ast.Node) {
	if html := prose.HTML(n, c.lesson.Markdown); bytes.Contains(html.Text, []byte("<!--")) {
		c.problems.Caution(c.lesson.File, html.Whole(), "comment-shown",
			"students would read this comment; trundle shows HTML as text",
			"delete it, or make it a note for mentors: a block quote that starts with  > Mentor:")
	}
}

// quoteBelowNote reports a block quote that looks like the second half of a note above it.
func (c mentorCheck) quoteBelowNote(n ast.Node) {
	above := n.PreviousSibling()
	if n.Kind() != ast.KindBlockquote || above == nil || above.Kind() != lesson.KindMentorNote {
		return
	}
	if r := prose.Shown(n, c.lesson.Markdown); len(r.Text) > 0 {
		c.problems.Caution(c.lesson.File, r.Whole(), "mentor-like",
			"students see this quote; the note for mentors above ends at the empty line",
			"put  >  into the empty line if this belongs to the note")
	}
}

// text looks at a heading or a block of text, line by line.
func (c mentorCheck) text(n ast.Node) {
	whole := prose.Shown(n, c.lesson.Markdown)
	if len(whole.Text) == 0 { // a picture or a value alone
		return
	}
	if n.Kind() == ast.KindHeading {
		switch prose.HeadingFor(whole) {
		case prose.CertainlyMentors:
			c.problems.Error(c.lesson.File, whole.Whole(), "mentor-like",
				"this section looks as if it were for mentors, and students would see it",
				"head it  ## Mentor notes, at the top level of the lesson")
			return
		case prose.PerhapsMentors:
			c.perhaps(whole)
			return
		case prose.Students:
		}
	}
	// Each line is looked at: a note may begin in the middle of a paragraph.
	for _, line := range whole.Lines() {
		switch prose.LineFor(line) {
		case prose.CertainlyMentors:
			c.problems.Error(c.lesson.File, line.Whole(), "mentor-like",
				"this looks like a note for mentors, and students would see it",
				"start a block quote of its own with  > Mentor:")
			return
		case prose.PerhapsMentors:
			c.perhaps(line)
		case prose.Students:
		}
	}
}

// perhaps reports what a coach should look at.
func (c mentorCheck) perhaps(r prose.Run) {
	c.problems.Caution(c.lesson.File, r.Whole(), "mentor-like",
		"students see this, and it looks as if it were for mentors or an answer",
		"if it is, put it into a block quote that starts with  > Mentor:  or below  ## Mentor notes")
}
