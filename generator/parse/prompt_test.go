package parse_test

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// workBlock parses the lines of a work block and gives its statements, the file and the slugs of its problems.
func workBlock(t *testing.T, lines string) ([]*lesson.Statement, *source.File, string) {
	t.Helper()
	f := source.NewFile("x.md", []byte("```work\n"+lines+"\n```\n"))
	root, _, problems := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	var slugs []string
	for _, p := range problems.Sorted() {
		slugs = append(slugs, p.Slug)
	}
	return root.FirstChild().(*lesson.WorkBlock).Statements, f, strings.Join(slugs, " ")
}

func TestAPromptKnowsThePlacesOfItsPieces(t *testing.T) {
	for _, c := range []struct{ name, lines, prompt, pieces string }{
		{"on one line", `given x = 3 cm  "How far?"`, "How far?", "How far?"},
		{"in curly quotes", `given x = 3 cm  “How far?”`, "How far?", "How far?"},
		{"after a comment with quotes", "given x = 3 cm   # acetone \"solvent\"\n  \"Note\"", "Note", "Note"},
		{"before a comment with quotes", "given x = 3 cm \"Note\" # the \"20.4 cm\"", "Note", "Note"},
		{"over two lines", "given x = 3 cm \"How far\n   is it?\"", "How far is it?", "How far|is it?"},
		{"over lines with a blank one and a comment", "given x = 3 cm \"How far\n\n# not this\n   is it?\"",
			"How far is it?", "How far|is it?"},
		{"with a number sign on its first line", `given x = 3 cm "Robot #3"`, "Robot #3", "Robot #3"},
		{"with a number sign on its second line", "given x = 3 cm \"Which robot:\n   # 3?\"", "Which robot: # 3?",
			"Which robot:|# 3?"},
		{"opened at the end of a line", "given x = 3 cm \"\n  Note\"", "Note", "Note"},
		{"none", "given x = 3 cm", "", ""},
		{"blanks alone", "given x = 3 cm \"  \"", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			all, f, slugs := workBlock(t, c.lines)
			if slugs != "" || len(all) != 1 {
				t.Fatalf("%d statements, problems %q", len(all), slugs)
			}
			var pieces []string
			for _, at := range all[0].PromptAt {
				pieces = append(pieces, f.Slice(at))
			}
			if got := strings.Join(pieces, "|"); all[0].Prompt != c.prompt || got != c.pieces {
				t.Errorf("the prompt is %q in pieces %q; want %q in %q", all[0].Prompt, got, c.prompt, c.pieces)
			}
		})
	}
}

func TestQuotesThatAreNotInOrder(t *testing.T) {
	for _, c := range []struct{ name, lines, slug, at string }{
		{"never closed", `given x = 3 cm "How far?`, "open-quote", `"How far?`},
		{"never closed before the next statement", "given x = 3 cm \"How far?\ngiven y = 4 cm \"Why?\"", "open-quote",
			`"How far?`},
		{"two", `given x = 3 cm "How" "far?"  # why`, "two-prompts", `"far?"  `},
		{"two with a word between", `given x = 3 cm "How" or "far?"`, "two-prompts", `"far?"`},
		{"something after it", `given x = 3 cm "How far?" cm`, "after-prompt", " cm"},
		{"something after it on the next line", "given x = 3 cm \"How far?\"\n  cm", "after-prompt", "  cm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("x.md", []byte("```work\n"+c.lines+"\n```\n"))
			root, _, problems := parse.Markdown(parse.NewMarkdown(), f, f.Text())
			sorted := problems.Sorted()
			if len(sorted) != 1 || sorted[0].Slug != c.slug || f.Slice(sorted[0].Span) != c.at {
				t.Fatalf("problems are %+v", sorted)
			}
			if s := root.FirstChild().(*lesson.WorkBlock).Statements[0]; s.Name != "x" || !s.Broken {
				t.Errorf("the statement is %+v", s)
			}
		})
	}
}

func TestAStatementEndsBeforeItsComment(t *testing.T) {
	all, f, _ := workBlock(t, "  given x = 3 cm   # why\nfind y = x  \n   + 1 cm \"Sum\"  # end\nkey y = 4 cm")
	var got []string
	for _, s := range all {
		got = append(got, f.Slice(s.At))
	}
	want := []string{"given x = 3 cm", "find y = x  \n   + 1 cm \"Sum\"", "key y = 4 cm"}
	for i := range want {
		if i >= len(got) || got[i] != want[i] {
			t.Fatalf("the statements are %q, want %q", got, want)
		}
	}
}
