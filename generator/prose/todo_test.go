package prose_test

// Notes to oneself, which say nothing to a reader.

import (
	"testing"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"trundle/generator/prose"
)

func TestTodoIsAWordOfSpanishAndANoteInEnglish(t *testing.T) {
	for _, c := range []struct {
		language, words string
		says            bool
	}{
		{"en", "todo", false}, {"en", "TODO", false}, {"es", "todo", true}, {"es", "TODO", false}, {"es", "TBD", false},
	} {
		src := []byte(c.words)
		p := ast.NewParagraph()
		p.AppendChild(p, ast.NewTextSegment(text.NewSegment(0, len(src))))
		if got := prose.In(c.language).Says(p, src); got != c.says {
			t.Errorf("%s: that %q says something is %t", c.language, c.words, got)
		}
	}
}
