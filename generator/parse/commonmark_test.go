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
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
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
	md.Renderer().AddOptions(html.WithXHTML(), html.WithUnsafe(),
		renderer.WithNodeRenderers(util.Prioritized(asQuotes{}, 100)))
	root, _, _ := parse.Markdown(md, source.NewFile("example.md", []byte(markdown)), []byte(markdown))
	removeHeadingNames(root)
	var b bytes.Buffer
	if err := md.Renderer().Render(&b, []byte(markdown), root); err != nil {
		t.Fatal(err)
	}
	return root, b.String()
}

// asQuotes draws notes for mentors as the quotes that they are in Markdown: trundle decides who reads a quote, and
// leaves what is in it, and where it ends, to the specification.
type asQuotes struct{}

func (asQuotes) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(lesson.KindMentorNote,
		func(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
			if entering {
				_, _ = w.WriteString("<blockquote>\n")
			} else {
				_, _ = w.WriteString("</blockquote>\n")
			}
			return ast.WalkContinue, nil
		})
}

// TestEveryQuoteOfTheSpecificationIsForMentors looks at all examples: none says that it is for students.
func TestEveryQuoteOfTheSpecificationIsForMentors(t *testing.T) {
	notes := 0
	for _, x := range commonMark(t) {
		root, _ := drawn(t, x.Markdown)
		_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			switch {
			case !entering:
			case n.Kind() == ast.KindBlockquote:
				t.Errorf("example %d (%s): students see a quote of %q", x.Number, x.Section, x.Markdown)
			case n.Kind() == lesson.KindMentorNote:
				notes++
			}
			return ast.WalkContinue, nil
		})
	}
	if notes < 40 {
		t.Errorf("%d notes were found; does this test still see them?", notes)
	}
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
