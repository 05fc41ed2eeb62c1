package check

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// pairProblems parses Markdown as a lesson's body and looks for pairs in it.
func pairProblems(t *testing.T, markdown string) (*source.File, []problem.Problem) {
	t.Helper()
	f := source.NewFile("lesson.md", []byte(markdown))
	body, _, found := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	if found.HasErrors() {
		t.Fatalf("%q does not parse: %v", markdown, found.Sorted())
	}
	var problems problem.List
	unitPairs(&lesson.Lesson{File: f, Body: body, Markdown: f.Text()}, &problems)
	return f, problems.Sorted()
}

// TestUnitPairPlaces looks for one wrong pair in each kind of place, and at the span.
func TestUnitPairPlaces(t *testing.T) {
	work := "```work\ngiven L = 1 m \"x\"\nfind n in cm = L    \"Is the strip of 48 in\n  (120 cm) long?\"\n" +
		"slip L    \"It is 48 in (120 cm).\"\n```\n"
	for _, c := range []struct {
		name, markdown string
		spans          []string
	}{
		{"paragraph", "A strip of 48 in (120 cm).", []string{"120 cm"}},
		{"soft line break", "A strip of 48\nin (120\ncm).", []string{"120\ncm"}},
		{"quote with a soft break", "> A strip of 48 in\n> (120 cm).", []string{"120 cm"}},
		{"heading", "## The 48 in (120 cm) run (8 min)", []string{"120 cm"}},
		{"tight list", "- 48 in (120 cm)\n- 24 in (63 cm)\n", []string{"120 cm", "63 cm"}},
		{"table cell", "| a | b |\n|---|---|\n| 48 in (120 cm) | 2 |\n", []string{"120 cm"}},
		{"two cells", "| a | b |\n|---|---|\n| 48 in | 120 cm |\n", nil},
		{"emphasis", "*48* in (**120 cm**)", []string{"120 cm"}},
		{"link", "[48 in](#a) (120 cm)", []string{"120 cm"}},
		{"description of a picture", "![A bar, 48 in (120 cm)](a.png)", []string{"120 cm"}},
		{"escape", "48 in \\(120 cm\\)", []string{"120 cm"}},
		{"entity", "48 in (120&nbsp;cm)", []string{"120&nbsp;cm"}},
		{"mentor's note", "> Mentor: 48 in (120 cm).", []string{"120 cm"}},
		{"prompt and hint", work, []string{"120 cm", "120 cm"}},
		{"code", "```\n48 in (120 cm)\n```\n\n    48 in (120 cm)\n", nil},
		{"code marks", "`48 in (120 cm)`", nil},
		{"two blocks", "48 in\n\n(120 cm)\n", nil},
		{"a line's hard end", "48 in\\\n(120 cm)\n", nil},
	} {
		f, found := pairProblems(t, c.markdown)
		var spans []string
		for _, p := range found {
			spans = append(spans, f.Slice(p.Span))
		}
		if strings.Join(spans, "|") != strings.Join(c.spans, "|") {
			t.Errorf("%s: spans %q, not %q", c.name, spans, c.spans)
		}
	}
}
