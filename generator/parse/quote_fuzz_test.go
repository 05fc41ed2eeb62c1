package parse_test

import (
	"regexp"
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// FuzzQuote looks for a quote that students see without "Students:" in the file, and for texts that break the tree.
func FuzzQuote(f *testing.F) {
	for _, text := range []string{"> Students: a\n> > b", "> **Students:**\n\n> c", "- > Student: d",
		"## Students: *e* (5 min)",
		"| Students: f: |\n|--|\n", "> Students:\n> ```\n> g"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		root, _, _ := parse.Markdown(parse.NewMarkdown(), source.NewFile("x.md", []byte(text)), []byte(text))
		_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if n.Parent() == nil && n != root {
				t.Fatal("a node has lost its parent")
			}
			if entering && n.Kind() == ast.KindBlockquote && !saysStudents.MatchString(text) && !lesson.ForMentors(n) {
				t.Fatalf("students see a quote of %q", text)
			}
			return ast.WalkContinue, nil
		})
	})
}

// saysStudents is the word as a coach may write it, in marks for bold and italic letters.
var saysStudents = regexp.MustCompile(`(?i)students[*_]*\s*:|\\|&`)
