package parse

// Who reads what: block quotes are for mentors unless they say "Students:", and the section "Mentor notes"
// is theirs too. The word that says so comes off the text here.

import (
	"bytes"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/reading"
	"trundle/generator/wording"
)

// transformQuote turns a block quote into a note for mentors. Only a quote that says it is for students stays
// one: coaches label their notes in more ways than any list has, and a note that students read by mistake gives
// a key away, while a quote that they miss gives nothing away.
func transformQuote(n *ast.Blockquote, src []byte, m marks) {
	if takeLabel(n, src, m.students) {
		if first := n.FirstChild(); first != nil { // a label of its own may follow: Students: Leader: …
			lesson.Declare(first)
		}
		return
	}
	note := &lesson.MentorNote{}
	note.SetPos(n.Pos())
	note.SetBlankPreviousLines(n.HasBlankPreviousLines())
	takeLabel(n, src, m.mentors)
	for c := n.FirstChild(); c != nil; c = n.FirstChild() { // a node has one parent at a time
		n.RemoveChild(n, c)
		note.AppendChild(note, c)
	}
	n.Parent().ReplaceChild(n.Parent(), n, note)
}

// takeLabel takes one of some labels off the first paragraph of a quote, and is false if none is there.
func takeLabel(quote ast.Node, src []byte, labels []string) bool {
	first, ok := quote.FirstChild().(*ast.Paragraph)
	if !ok || !takePrefix(first, src, labels) {
		return false
	}
	tidyStart(first, src)
	if first.ChildCount() == 0 { // the label had a line of its own
		quote.RemoveChild(quote, first)
	}
	return true
}

// takePrefix takes a label off the start of a text, in whatever emphasis it is, and is
// false if none is there. The colon may be inside of the emphasis or after it.
func takePrefix(p ast.Node, src []byte, labels []string) bool {
	inline := p.FirstChild()
	if e, ok := inline.(*ast.Emphasis); ok {
		if isLabel(lesson.TextOf(e, src, nil), labels) {
			p.RemoveChild(p, inline)
			return true
		}
		next, isText := e.NextSibling().(*ast.Text)
		if isText && isLabel(lesson.TextOf(e, src, nil)+":", labels) &&
			bytes.HasPrefix(next.Segment.Value(src), []byte(":")) {
			p.RemoveChild(p, inline)
			next.Segment = next.Segment.WithStart(next.Segment.Start + 1)
			return true
		}
		return false
	}
	t, ok := inline.(*ast.Text)
	if !ok {
		return false
	}
	value := t.Segment.Value(src)
	i := bytes.IndexByte(value, ':')
	if i < 0 || !isLabel(string(value[:i+1]), labels) {
		return false
	}
	t.Segment = t.Segment.WithStart(t.Segment.Start + i + 1)
	return true
}

// tidyStart takes blanks off the start of a text, and a text that is left empty with the end of its line.
func tidyStart(p ast.Node, src []byte) {
	t, ok := p.FirstChild().(*ast.Text)
	if !ok {
		return
	}
	value := t.Segment.Value(src)
	blanks := len(value) - len(bytes.TrimLeft(value, " \t"))
	t.Segment = t.Segment.WithStart(t.Segment.Start + blanks)
	if t.Segment.Len() == 0 && (t.SoftLineBreak() || t.HardLineBreak() || t.NextSibling() == nil) {
		p.RemoveChild(p, t)
	}
}

// isLabel tells whether a text is one of some labels; capitals do not matter.
func isLabel(s string, labels []string) bool {
	label, found := strings.CutSuffix(strings.ToLower(strings.TrimSpace(s)), ":")
	return found && slices.Contains(labels, label)
}

// labelled is what follows "Students:" where a text has a label of its own, such as "Students: Leader: …".
var labelled = wording.New(`^[ \t]+\pL[\pL'’-]*(?:[ \t]+\pL[\pL'’-]*){0,3}[ \t]?[:：]`)

// declare takes "Students:" off a heading, and off a text that has a label after it, and marks the node: no check
// takes it for a note that was meant for mentors. Where a sentence follows, the word belongs to the sentence.
func declare(n ast.Node, src []byte, m marks) {
	_, heading := n.(*ast.Heading)
	if lesson.ForMentors(n) {
		return // nothing in there is for students, whatever it says
	}
	if _, plain := n.FirstChild().(*ast.Text); !plain && !heading {
		return
	}
	if label, rest, _ := strings.Cut(lesson.TextOf(n, src, nil), ":"); !heading &&
		!(isLabel(label+":", m.students) && labelled.MatchString(rest)) {
		return
	}
	if takePrefix(n, src, m.students) {
		tidyStart(n, src)
		lesson.Declare(n)
	}
}

// mentorSection is the heading of the part for mentors.
const mentorSection = "mentor notes"

// gatherMentorSections puts a section headed "Mentor notes", down to the next heading
// that is not below it, into a node of its own.
func gatherMentorSections(root ast.Node, src []byte, m marks) {
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		h, ok := n.(*ast.Heading)
		if !ok || lesson.Declared(h) {
			continue
		}
		if title := titleOf(h, src); !strings.EqualFold(title, mentorSection) && !reading.Has(m.notes, title) {
			continue
		}
		section := &lesson.MentorSection{}
		root.InsertBefore(root, h, section) // then the heading and what follows move into it
		for next := ast.Node(h); next != nil; {
			after := next.NextSibling()
			root.RemoveChild(root, next)
			section.AppendChild(section, next)
			if h2, ok := after.(*ast.Heading); ok && h2.Level <= h.Level {
				break
			}
			next = after
		}
		n = section
	}
}
