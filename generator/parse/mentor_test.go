package parse_test

import (
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

func TestAQuoteIsForMentorsUnlessItSaysStudents(t *testing.T) {
	for _, c := range []struct {
		markdown, text string // of the first block
		note           bool
	}{
		{"> Mentor: look", "look", true},
		{"> Mentors: look", "look", true},
		{"> MENTOR:look", "look", true},
		{"> **Mentor:** look", "look", true},
		{"> **Mentors**: look", "look", true},
		{"> **Mentor:** look", "look", true},
		{"> Mentor look", "Mentor look", true},
		{"> A mentor: look", "A mentor: look", true},
		{"> Leader: look", "Leader: look", true},
		{"> look", "look", true},
		{"> Student: look", "Student: look", true},
		{"> Students look", "Students look", true},
		{"> - Students: look", "Students: look", true},
		{"> Students: look", "look", false},
		{"> STUDENTS:look", "look", false},
		{"> **Students:** look", "look", false},
		{"> **Students**: look", "look", false},
		{"> Students:\n> look", "look", false},
		{"> Students:\n>\n> look", "look", false},
		{"Mentor: look", "Mentor: look", false},
	} {
		t.Run(c.markdown, func(t *testing.T) {
			f := source.NewFile("x.md", []byte(c.markdown+"\n"))
			root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
			n := root.FirstChild()
			if got := n.Kind() == lesson.KindMentorNote; got != c.note {
				t.Errorf("it is a note: %v", got)
			}
			for n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeBlock {
				n = n.FirstChild()
			}
			if got := lesson.TextOf(n, f.Text(), nil); got != c.text {
				t.Errorf("it says %q", got)
			}
		})
	}
}

func TestATextThatSaysStudentsBeforeALabelIsDeclared(t *testing.T) {
	for _, c := range []struct {
		markdown, text string
		declared       bool
	}{
		{"## Students: Answers", "Answers", true},
		{"## **Students:** Answers (5 min)", "Answers", true},
		{"## Students and answers", "Students and answers", false},
		{"Students: Leader: look", "Leader: look", true},
		{"Students: **Team leader**: look", "Team leader: look", true},
		{"Students: look", "Students: look", false},
		{"Students: look here. An adult: look", "Students: look here. An adult: look", false},
		{"The students: Leader: look", "The students: Leader: look", false},
		{"> Students: Leader: look", "Leader: look", true},
	} {
		t.Run(c.markdown, func(t *testing.T) {
			f := source.NewFile("x.md", []byte(c.markdown+"\n"))
			root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
			n := root.FirstChild()
			if n.FirstChild().Type() == ast.TypeBlock {
				n = n.FirstChild()
			}
			if got := lesson.TextOf(n, f.Text(), nil); got != c.text {
				t.Errorf("it says %q", got)
			}
			if got := lesson.Declared(n); got != c.declared {
				t.Errorf("it is declared: %v", got)
			}
		})
	}
}
