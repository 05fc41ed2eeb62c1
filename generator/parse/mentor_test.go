package parse_test

import (
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

func TestAQuoteForMentorsIsANote(t *testing.T) {
	for _, c := range []struct {
		markdown, text string // of the first block
		note           bool
	}{
		{"> Mentor: look", "look", true},
		{"> Mentors: look", "look", true},
		{"> MENTOR:look", "look", true},
		{"> **Mentor:** look", "look", true},
		{"> **Mentors**: look", "look", true},
		{"> Mentor look", "Mentor look", false},
		{"> A mentor: look", "A mentor: look", false},
		{"Mentor: look", "Mentor: look", false},
	} {
		t.Run(c.markdown, func(t *testing.T) {
			f := source.NewFile("x.md", []byte(c.markdown+"\n"))
			root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text)
			n := root.FirstChild()
			if got := n.Kind() == lesson.KindMentorNote; got != c.note {
				t.Errorf("it is a note: %v", got)
			}
			for n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeBlock {
				n = n.FirstChild()
			}
			if got := lesson.TextOf(n, f.Text, nil); got != c.text && got != " "+c.text {
				t.Errorf("it says %q", got)
			}
		})
	}
}
