package lesson_test

import (
	"slices"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// notesOf reads a lesson and finds the parts of its notes.
func notesOf(markdown string) (*lesson.Lesson, lesson.Notes) {
	f := source.NewFile("x.md", []byte(markdown))
	root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	l := &lesson.Lesson{File: f, Body: root, Markdown: f.Text()}
	words := map[string]string{"before-headings": "before they come; to prepare", "first-headings": "say first",
		"questions-headings": "questions to ask", "worked-headings": "how to tell"}
	return l, lesson.NotesOf(l, func(name string, _ ...any) string { return words[name] })
}

// told is what a part comes to, for a test: its first block, or what it lacks.
func told(l *lesson.Lesson, p *lesson.NotePart) string {
	switch {
	case p == nil:
		return "none"
	case len(p.Blocks) == 0:
		return "nothing below it"
	}
	return lesson.TextOf(p.Blocks[0], l.Markdown, nil)
}

func TestNotesAreKnownByTheirHeadings(t *testing.T) {
	for _, c := range []struct{ name, markdown, before, first, questions, worked string }{
		{"all four", "## Mentor notes\n\n### Before they come\n\na\n\n### Say first:\n\nb\n\n### Questions to ask\n\nc\n\n" +
			"### How to TELL?\n\nd\n", "a", "b", "c", "d"},
		{"another heading of a list", "## Mentor notes\n\n### To prepare …\n\na\n", "a", "none", "none", "none"},
		{"no notes", "## Before they come\n\n### Say first\n\nb\n", "none", "none", "none", "none"},
		{"only headings of level 3", "## Mentor notes\n\n### X\n\n#### Say first\n\nb\n", "none", "none", "none", "none"},
		{"the first of two", "## Mentor notes\n\n### Say first\n\nb\n\n### Say first\n\nc\n", "none", "b", "none", "none"},
		{"two sections", "## Mentor notes\n\n### Say first\n\nb\n\n## Mentor notes\n\n### To prepare\n\na\n",
			"a", "b", "none", "none"},
		{"nothing below", "## Mentor notes\n\n### Say first\n", "none", "nothing below it", "none", "none"},
		{"a longer heading", "## Mentor notes\n\n### Say first to them\n\nb\n", "none", "none", "none", "none"},
		{"a value in it", "## Mentor notes\n\n### Say first {L}\n\nb\n", "none", "none", "none", "none"},
	} {
		l, n := notesOf(c.markdown)
		got := []string{told(l, n.Before), told(l, n.First), told(l, n.Questions), told(l, n.Worked)}
		if want := []string{c.before, c.first, c.questions, c.worked}; !slices.Equal(got, want) {
			t.Errorf("%s: before, first, questions and how it worked are %q, want %q", c.name, got, want)
		}
	}
}

func TestAnAnswerStandsInBracketsAfterItsQuestion(t *testing.T) {
	for _, c := range []struct{ item, ask, answer string }{
		{"Why by hand? (A turn adds\n  its own drift.)", "Why by hand?", "A turn adds its own drift."},
		{"Why by hand?", "Why by hand?", ""},
		{"Why? (It slips (a little), always.)", "Why?", "It slips (a little), always."},
		{"Why (or why not)? (It slips.)", "Why (or why not)?", "It slips."},
		{"Why (or why not)?", "Why (or why not)?", ""},
		{"How wide is it (in mm)", "How wide is it (in mm)", ""},
		{`What is "drift"? (Which way it goes)`, `What is "drift"?`, "Which way it goes"},
		{`They say "so what?" (Ask back.)`, `They say "so what?"`, "Ask back."},
		{"Name a cause. (The load.).", "Name a cause.", "The load."},
		{"Why? ()", "Why? ()", ""},
		{"Why? It slips.)", "Why? It slips.)", ""},
		{"How far is {L}? (About {L}.)", "How far is 120 cm?", "About 120 cm."},
		{"Why?\n\n  (It slips.)", "Why?", "It slips."},
		{"(It slips.)", "(It slips.)", ""},
	} {
		l, n := notesOf("## Mentor notes\n\n### Questions to ask\n\n- " + c.item + "\n")
		got := n.Questions.Questions(l.Markdown, func(*lesson.Value) string { return "120 cm" })
		if want := []lesson.Question{{Ask: c.ask, Answer: c.answer}}; !slices.Equal(got, want) {
			t.Errorf("%q is read as %q, want %q", c.item, got, want)
		}
	}
}

func TestQuestionsArePointsOfListsAndParagraphsThatAsk(t *testing.T) {
	l, n := notesOf("## Mentor notes\n\n### Questions to ask\n\nAsk while they measure.\n\n" +
		"Who goes first? (The skipper.)\n\n1. One?\n2. Two?\n\n- Three.\n-\n\n| a |\n|---|\n| b? |\n\n" +
		"### To prepare\n\n- Four?\n")
	want := []lesson.Question{{Ask: "Who goes first?", Answer: "The skipper."}, {Ask: "One?"}, {Ask: "Two?"},
		{Ask: "Three."}}
	if got := n.Questions.Questions(l.Markdown, nil); !slices.Equal(got, want) {
		t.Errorf("the questions are %q, want %q", got, want)
	}
	if got := n.Worked.Questions(l.Markdown, nil); got != nil {
		t.Errorf("a part that is not there has the questions %q", got)
	}
}
