package parse_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"

	"trundle/generator/parse"
	"trundle/generator/source"
)

// An example of the CommonMark specification.
type example struct {
	Number   int    `json:"example"`
	Section  string `json:"section"`
	Markdown string `json:"markdown"`
	HTML     string `json:"html"`
}

// differing are the examples that trundle's Markdown reads otherwise on purpose.
var differing = map[int]string{}

// rawHTML is how many examples hold raw HTML, which pages show as text.
const rawHTML = 72

// TestCommonMark holds our Markdown against every example of the specification, drawn
// by goldmark as goldmark tests itself. What differs must be listed with its reason.
func TestCommonMark(t *testing.T) {
	examples, raw := commonMark(t), 0
	for _, x := range examples {
		root, got := drawn(t, x.Markdown)
		if holdsHTML(root) {
			raw++
		}
		reason, listed := differing[x.Number]
		switch same := got == x.HTML; {
		case !same && !listed:
			t.Errorf("example %d (%s): %q\n got %q\nwant %q", x.Number, x.Section, x.Markdown, got, x.HTML)
		case same && listed:
			t.Errorf("example %d (%s) is listed as differing (%s) and does not differ", x.Number, x.Section, reason)
		}
	}
	if len(examples) != 652 {
		t.Errorf("%d examples; the specification has 652", len(examples))
	}
	if raw != rawHTML {
		t.Errorf("%d examples hold raw HTML, not %d", raw, rawHTML)
	}
}

// drawn parses Markdown as a lesson's body is parsed and draws it with goldmark.
func drawn(t *testing.T, markdown string) (ast.Node, string) {
	t.Helper()
	md := parse.NewMarkdown()
	md.Renderer().AddOptions(html.WithXHTML(), html.WithUnsafe())
	root, _, _ := parse.Markdown(md, source.NewFile("example.md", []byte(markdown)), []byte(markdown))
	removeHeadingNames(root)
	var b bytes.Buffer
	if err := md.Renderer().Render(&b, []byte(markdown), root); err != nil {
		t.Fatal(err)
	}
	return root, b.String()
}

// removeHeadingNames takes off the ids and minutes that headings get here; the
// specification says nothing of ids.
func removeHeadingNames(root ast.Node) {
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Kind() == ast.KindHeading && entering {
			n.RemoveAttributes()
		}
		return ast.WalkContinue, nil
	})
}

func holdsHTML(root ast.Node) bool {
	found := false
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		found = found || n.Kind() == ast.KindHTMLBlock || n.Kind() == ast.KindRawHTML
		return ast.WalkContinue, nil
	})
	return found
}

// commonMark reads the examples that goldmark's module carries.
func commonMark(t *testing.T) []example {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/yuin/goldmark").Output()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "_test", "spec.json"))
	if err != nil {
		t.Fatal(err)
	}
	var examples []example
	if err := json.Unmarshal(data, &examples); err != nil {
		t.Fatal(err)
	}
	return examples
}
