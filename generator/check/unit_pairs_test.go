package check

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/source"
)

// pairProblems parses Markdown as a lesson's body and looks for pairs in it.
func pairProblems(t *testing.T, markdown string) (*source.File, []problem.Problem) {
	t.Helper()
	f := source.NewFile("lesson.md", []byte(markdown))
	body, _, found := parse.Markdown(parse.NewMarkdown(), f, f.Text)
	if found.HasErrors() {
		t.Fatalf("%q does not parse: %v", markdown, found.Sorted())
	}
	var problems problem.List
	unitPairs(&lesson.Lesson{File: f, Body: body, Markdown: f.Text}, &problems)
	return f, problems.Sorted()
}

// TestUnitPairs holds the check against every row of testdata/prose/unit-pairs.csv: a
// right pair is silent and a wrong one told with the right figure; what is no pair is
// not even looked at.
func TestUnitPairs(t *testing.T) {
	file, err := os.Open("../../testdata/prose/unit-pairs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	pairs, others := 0, 0
	for _, row := range rows[1:] {
		text, verdict := row[0], row[1]
		_, found := pairProblems(t, text)
		figure, wrong := strings.CutPrefix(verdict, "wrong:")
		switch {
		case wrong && (len(found) != 1 || !strings.Contains(found[0].Hint, figure)):
			t.Errorf("%q is wrong, %s would be right; found %v", text, figure, hints(found))
		case !wrong && len(found) > 0:
			t.Errorf("%q is %s; found %v", text, verdict, hints(found))
		case verdict == "ok" && pairsSeen(t, text) == 0:
			t.Errorf("%q is a pair and not seen as one", text)
		case verdict == "none" && pairsSeen(t, text) > 0:
			t.Errorf("%q is no pair and seen as one", text)
		}
		if verdict == "none" {
			others++
		} else {
			pairs++
		}
	}
	t.Logf("%d pairs, %d of two things", pairs, others)
	if pairs < 45 || others < 45 {
		t.Errorf("%d pairs and %d others are too few: at least 45 each", pairs, others)
	}
}

// pairsSeen counts the pairs of a text, right or wrong.
func pairsSeen(t *testing.T, markdown string) int {
	t.Helper()
	f := source.NewFile("lesson.md", []byte(markdown))
	body, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text)
	n := 0
	for _, r := range prose.Typed(&lesson.Lesson{File: f, Body: body, Markdown: f.Text}) {
		amounts := amountsIn(string(r.Text))
		for i := 1; i < len(amounts); i++ {
			if _, ok := pairAt(string(r.Text), amounts, i); ok {
				n++
			}
		}
	}
	return n
}

func hints(found []problem.Problem) []string {
	var all []string
	for _, p := range found {
		all = append(all, p.What+"; "+p.Hint)
	}
	return all
}

// TestUnitPairPlaces looks for one wrong pair in each kind of place, and at the span.
func TestUnitPairPlaces(t *testing.T) {
	work := "```work\ngiven L = 1 m \"x\"\nfind n in cm = L    \"Is the strip of 48 in\n  (120 cm) long?\"\nslip L    \"It is 48 in (120 cm).\"\n```\n"
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

// TestUnitPairWords looks at what is said.
func TestUnitPairWords(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"48 in (120 cm)", "48 in is 121.92 cm, not 120 cm; write 122 cm (exactly 121.92 cm)"},
		{"100 in (252 cm)", "100 in is 254 cm, not 252 cm; write 254 cm, or say about"},
		{"60 inches, about 150 cm", "60 inches is 152.4 cm, not 150 cm; write 152 cm (exactly 152.4 cm)"},
		{"120 cm, or 48 in", "120 cm is 47.24 in, not 48 in; write 47 in (more closely 47.24 in)"},
		{"1.00 m (40 1/4 in)", "1.00 m is 39.37 in, not 40 1/4 in; write 39 1/4 in (more closely 39.37 in)"},
		{"1/4 rot (80°)", "1/4 rot is 90°, not 80°; write 90°"},
		{"165 cm (5 ft 3 in)", "165 cm is 5 ft 4.961 in, not 5 ft 3 in; write 5 ft 5 in (more closely 5 ft 4.961 in)"},
	} {
		_, found := pairProblems(t, c.text)
		if got := strings.Join(hints(found), " | "); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestUnitPairsLongText finds each pair of a very long paragraph.
func TestUnitPairsLongText(t *testing.T) {
	const many = 2000
	if _, found := pairProblems(t, strings.Repeat("A bar of 48 in (120 cm). ", many)); len(found) != many {
		t.Errorf("%d of %d found", len(found), many)
	}
}

// FuzzUnitPairs makes sure that no text stops the check, and that spans lie in the file.
func FuzzUnitPairs(f *testing.F) {
	for _, seed := range []string{"48 in (120 cm)", "5 ft 3 in (160 cm)", "½ in = 13&nbsp;mm", "−1,200.5 mm / 1\\.2 m", "an inch is 3 cm", "1/0 in (2 cm)"} {
		f.Add(seed)
	}
	md := parse.NewMarkdown()
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("lesson.md", []byte(text))
		body, _, _ := parse.Markdown(md, file, file.Text)
		var problems problem.List
		unitPairs(&lesson.Lesson{File: file, Body: body, Markdown: file.Text}, &problems)
		for _, p := range problems.Sorted() {
			if p.Span.Start < 0 || p.Span.End > len(text) || p.Span.Start >= p.Span.End {
				t.Errorf("%q: span %v", text, p.Span)
			}
		}
	})
}
