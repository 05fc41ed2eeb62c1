package check

// Notes and sections that were meant for mentors and are not marked so: shown to students they
// could give everything away.

import (
	"bytes"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// A mentorCheck looks at one lesson or care card.
type mentorCheck struct {
	file     *source.File
	markdown []byte
	lesson   *lesson.Lesson // nil for a card
	problems *problem.List
}

// mentorLike is strict: what looks as if it were for mentors is an error until its coach says for whom it is,
// since nobody else can know.
func (c mentorCheck) mentorLike(body ast.Node) {
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if k := n.Kind(); k == lesson.KindMentorNote {
			c.nearlyStudents(n)
			return ast.WalkSkipChildren, nil
		} else if k == lesson.KindMentorSection {
			c.endsAtOnce(n)
			c.quotesWithin(n)
			return ast.WalkSkipChildren, nil
		}
		c.html(n)
		if first := n.FirstChild(); n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline {
			c.text(n)
		}
		c.typed(n)
		return ast.WalkContinue, nil
	})
}

// html reports HTML, which pages show as the text that it is. A comment has a word of its own: it was not meant
// to be seen by anybody.
func (c mentorCheck) html(n ast.Node) {
	html := prose.HTML(n, c.markdown)
	switch {
	case len(html.Text) == 0:
	case bytes.Contains(html.Text, []byte("<!--")):
		c.problems.Caution(c.file, html.Whole(), "comment-shown",
			"students would read this comment; trundle shows HTML as text",
			"delete it, or make it a note for mentors: a block quote that starts with  > Mentor:")
	case !bytes.HasPrefix(html.Text, []byte("</")): // its opening tag was reported
		c.problems.Caution(c.file, html.Whole(), "html-shown",
			"students would read this tag; trundle shows HTML as text",
			`write it in Markdown, or \< for a sign that is only text`)
	}
}

// nearlyStudents reports a quote that nearly says it is for students, and is not shown to them.
func (c mentorCheck) nearlyStudents(quote ast.Node) {
	c.quotesWithin(quote)
	first := quote
	for first.FirstChild() != nil && first.FirstChild().Type() == ast.TypeBlock {
		first = first.FirstChild()
	}
	shown := prose.Shown(first, c.markdown)
	if lines := shown.Lines(); len(lines) > 0 && prose.NearlyStudents(lines[0]) {
		c.problems.Caution(c.file, lines[0].Whole(), "students-label",
			"this quote is for mentors, and students do not see it",
			"start it with  > Students:  if they are to read it")
	}
}

// endsAtOnce reports a section for mentors that the next heading ends before anything is in it, so that students would
// read what was to be below it.
func (c mentorCheck) endsAtOnce(section ast.Node) {
	head, isHeading := section.FirstChild().(*ast.Heading)
	next, ends := section.NextSibling().(*ast.Heading)
	if !isHeading || !ends || section.ChildCount() > 1 || lesson.Declared(next) || head.Level <= 2 {
		return
	}
	if shown := prose.Shown(head, c.markdown); len(shown.Text) > 0 && next.Level <= head.Level {
		c.problems.Error(c.file, shown.Whole(), "mentor-like",
			"nothing is in this section, since the next heading is of the same level, and students would see what is below that",
			"head it  ## Mentor notes, or give the headings below it one  #  more")
	}
}

// quotesWithin reports a quote that says it is for students where only mentors read.
func (c mentorCheck) quotesWithin(top ast.Node) {
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || n.Kind() != ast.KindBlockquote {
			return ast.WalkContinue, nil
		}
		if shown := prose.Shown(n, c.markdown); len(shown.Text) > 0 {
			c.problems.Caution(c.file, shown.Whole(), "students-label",
				"this quote says that it is for students, and what is around it is for mentors only",
				"move it out of there if students are to read it")
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
}

// text looks at a heading or a block of text, line by line: a note may begin in the middle of a paragraph.
func (c mentorCheck) text(n ast.Node) {
	whole := prose.Shown(n, c.markdown)
	if len(whole.Text) == 0 { // a picture or a value alone
		return
	}
	declared := lesson.Declared(n)
	if level := headingLevel(n); level > 0 {
		if !declared && prose.HeadingForMentors(whole) {
			c.problems.Error(c.file, whole.Whole(), "mentor-like",
				"this section looks as if it were for mentors, and students would see it",
				"head it  ## Mentor notes, at the top level of the lesson, or move it below that heading; "+
					"if it is for students, head it  "+"######"[:level]+" Students: …")
			return
		}
		if n.Kind() == ast.KindHeading {
			return
		}
	}
	for i, line := range whole.Lines() {
		if declared && i == 0 {
			continue
		}
		if c.line(line) {
			return
		}
	}
}

// headingLevel is that of a heading, 0 of any other text. A paragraph that is bold or italic as a whole is meant
// as one.
func headingLevel(n ast.Node) int {
	if h, ok := n.(*ast.Heading); ok {
		return h.Level
	}
	first := n.FirstChild()
	if n.Kind() == ast.KindParagraph && n.ChildCount() == 1 && first.Kind() == ast.KindEmphasis && n.Lines().Len() == 1 {
		return 3
	}
	return 0
}

// line reports a line that begins as a note for mentors would.
func (c mentorCheck) line(line prose.Run) bool {
	if !prose.LineForMentors(line) {
		return false
	}
	c.problems.Error(c.file, line.Whole(), "mentor-like",
		"this looks like a note for mentors or an answer, and students would see it",
		"start a block quote of its own with  > Mentor:, or move it below  ## Mentor notes; "+
			"if it is for students, write  Students:  before it")
	return true
}

// codeNote is where a program may say something to people: in a comment or a text of several lines, as most languages
// mark them, or in a line that begins with whom it is for.
var codeNote = wording.New("(?:^|\\s)(?:#+|//+|--+|/\\*+|\"\"\"|''')\\s*(\\pL)|^\\s*((?i)mentors?\\s*[:;])")

// typed looks at what students read beside prose: prompts, texts of gauges and charts, comments of programs, and what
// appears over a picture or a link.
func (c mentorCheck) typed(n ast.Node) {
	if c.lesson == nil {
		return
	}
	switch n.(type) { // the others: they are prose, and text looks at them
	case *lesson.WorkBlock, *lesson.GaugeBlock, *lesson.DataBlock:
		for _, r := range prose.Seen(c.lesson, n) {
			c.line(r)
		}
	case *lesson.FilledCode, *ast.FencedCodeBlock, *ast.CodeBlock:
		for _, r := range prose.Seen(c.lesson, n) {
			for _, line := range r.Lines() {
				c.codeLine(line)
			}
		}
	case *ast.Image, *ast.Link:
		seen := prose.Seen(c.lesson, n)
		c.line(seen[len(seen)-1]) // the title
	}
}

// codeLine looks at what a line of a program says to people.
func (c mentorCheck) codeLine(line prose.Run) {
	for _, m := range codeNote.FindAllSubmatchIndex(line.Text, -1) {
		if c.line(line.From(max(m[2], m[4]))) {
			return
		}
	}
}
