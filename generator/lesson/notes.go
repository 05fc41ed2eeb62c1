package lesson

// The notes for mentors by what they are for: which part of them is to be done beforehand, said first, asked, or looked
// for at the end. The mentors' page and the run sheet both take them from here.

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/wording"
)

// Notes are the parts of a lesson's notes whose use is known by their headings; a part that is not there is nil.
type Notes struct {
	Before    *NotePart // what to do before the students come
	First     *NotePart // what to say first
	Questions *NotePart // what to ask; see NotePart.Questions
	Worked    *NotePart // how to tell that the lesson worked
}

// NotePart is a heading within a section of notes with what follows it. What comes before the first such heading has
// none, and begins with the heading of the section.
type NotePart struct {
	Heading *ast.Heading
	Blocks  []ast.Node
}

// NoteParts cuts a section of notes at its headings of level 3; those below belong to the text.
func NoteParts(section ast.Node) []NotePart {
	parts := []NotePart{{}}
	for n := section.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok && h.Level == 3 {
			parts = append(parts, NotePart{Heading: h})
			continue
		}
		last := &parts[len(parts)-1]
		last.Blocks = append(last.Blocks, n)
	}
	return parts
}

// NotesOf finds the parts of a lesson's notes. say gives the words of the interface: the headings that each part may
// have, in small letters, "; " between them. Of two parts with the same use the first counts.
func NotesOf(l *Lesson, say func(name string, args ...any) string) Notes {
	var notes Notes
	uses := []struct {
		part     **NotePart
		headings []string
	}{
		{&notes.Before, strings.Split(say("before-headings"), "; ")},
		{&notes.First, strings.Split(say("first-headings"), "; ")},
		{&notes.Questions, strings.Split(say("questions-headings"), "; ")},
		{&notes.Worked, strings.Split(say("worked-headings"), "; ")},
	}
	for n := l.Body.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() != KindMentorSection {
			continue
		}
		for _, p := range NoteParts(n) {
			title := p.title(l.Markdown)
			for _, use := range uses {
				if *use.part == nil && slices.Contains(use.headings, title) {
					*use.part = &p
					break
				}
			}
		}
	}
	return notes
}

// title is what a part is known by: its heading in small letters, without the signs at its ends. A heading with a
// computed value in it is not one that words can name.
func (p NotePart) title(src []byte) string {
	if p.Heading == nil {
		return ""
	}
	text := TextOf(p.Heading, src, func(*Value) string { return "{}" })
	return strings.ToLower(strings.Trim(text, " .:?!…"))
}

// A Question is one that mentors ask, and what a good answer is, "" if the notes do not say.
type Question struct{ Ask, Answer string }

// Questions are those of a part: each point of its lists, and each paragraph that ends in a question. What stands in
// brackets at the end is the answer. value writes a computed value, as for TextOf.
func (p *NotePart) Questions(src []byte, value func(*Value) string) []Question {
	var all []Question
	if p == nil {
		return nil
	}
	read := func(n ast.Node) Question {
		return questionIn(strings.Join(strings.Fields(TextOf(n, src, value)), " "))
	}
	for _, n := range p.Blocks {
		switch n := n.(type) { // the others are not questions: tables, code, figures
		case *ast.List:
			for item := n.FirstChild(); item != nil; item = item.NextSibling() {
				if q := read(item); q.Ask != "" {
					all = append(all, q)
				}
			}
		case *ast.Paragraph:
			if q := read(n); asks.MatchString(q.Ask) {
				all = append(all, q)
			}
		}
	}
	return all
}

// asks matches a text that ends in a question; done, one that ends as a sentence does, so that a bracket after it is
// more than the last words of the question, such as "How wide is it (in mm)".
var (
	asks = wording.New(`\?["'”’»)]*$`)
	done = wording.New(`[.?!…]["'”’»]*$`)
)

// questionIn takes the answer off a question.
func questionIn(text string) Question {
	inside, closed := strings.CutSuffix(strings.TrimSuffix(text, "."), ")")
	if !closed {
		return Question{Ask: text}
	}
	open := opening(inside)
	if open < 0 {
		return Question{Ask: text}
	}
	ask, answer := strings.TrimSpace(inside[:open]), strings.TrimSpace(inside[open+1:])
	if answer == "" || !done.MatchString(ask) {
		return Question{Ask: text}
	}
	return Question{ask, answer}
}

// opening is where the bracket opens that would close right after a text, -1 if none does.
func opening(inside string) int {
	depth := 1
	for i, c := range slices.Backward([]byte(inside)) {
		switch c {
		case ')':
			depth++
		case '(':
			depth--
		}
		if depth == 0 {
			return i
		}
	}
	return -1
}
