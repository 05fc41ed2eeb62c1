package parse_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// headingsIn gives each heading of a lesson as "title|id|minutes|mark", and the slugs of the problems.
func headingsIn(markdown string) (all, slugs []string) {
	f := source.NewFile("x.md", []byte(markdown))
	root, _, problems := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && entering {
			id, _ := h.AttributeString("id")
			minutes, timed := h.AttributeString("minutes")
			if !timed {
				minutes = "-"
			}
			all = append(all, fmt.Sprintf("%s|%s|%v|%s", lesson.TextOf(h, f.Text(), nil), id, minutes, lesson.PaperMarkOf(h)))
		}
		return ast.WalkContinue, nil
	})
	for _, p := range problems.Sorted() {
		slugs = append(slugs, p.Slug)
	}
	return all, slugs
}

func TestTheMarkComesOffAHeadingInAnyOrderWithTheMinutes(t *testing.T) {
	for markdown, want := range map[string]string{
		"## Warm-up (9 min) (on paper)":       "Warm-up|warm-up|9|on",
		"## Warm-up (not on paper) (9 min)":   "Warm-up|warm-up|9|off",
		"## Warm-up (on paper)(9 min)":        "Warm-up|warm-up|9|on",
		"# Warm-up (on  paper )":              "Warm-up|warm-up|-|on",
		"###### Warm-up (not on paper) ##":    "Warm-up|warm-up|-|off",
		"Warm-up (on paper)\n---":             "Warm-up|warm-up|-|on",
		"Warm-up\n(on paper)\n---":            "Warm-up |warm-up|-|on",
		"## *Warm-up (on paper)*":             "Warm-up|warm-up|-|on",
		"## Warm-up *(on paper)* **(9 min)**": "Warm-up|warm-up|9|on",
		"## (on paper)":                       "|part|-|on",
		"## Warm-up (on paper) (on paper)":    "Warm-up|warm-up|-|on",
		"## Students: Warm-up (on paper)":     "Warm-up|warm-up|-|on",
		"## Warm-up":                          "Warm-up|warm-up|-|",
		`## Warm-up \(on paper)`:              "Warm-up (on paper)|warm-up-on-paper|-|",
		"## Warm-up `(on paper)`":             "Warm-up (on paper)|warm-up-on-paper|-|",
		"## Draw (on squared paper)":          "Draw (on squared paper)|draw-on-squared-paper|-|",
		"## Draw (pen, paper)":                "Draw (pen, paper)|draw-pen-paper|-|",
		"## The [lock](on) paper":             "The lock paper|the-lock-paper|-|",
	} {
		got, slugs := headingsIn(markdown + "\n")
		if !slices.Equal(got, []string{want}) || slugs != nil {
			t.Errorf("%q is read as %q with %v, want %q", markdown, got, slugs, want)
		}
	}
}

func TestWhatWasMeantAsAMarkIsACaution(t *testing.T) {
	for _, mark := range []string{"(on Paper)", "(On paper)", "(no paper)", "(off paper)", "(on the paper)", "[on paper]",
		"(not on Paper)", "(on papers)", "(paper)", "(in paper)", "(only on paper)", "(not-on-paper)", "(on-paper)",
		"(do not print on paper)", "(NOT ON PAPER)", "(on paper).", "(on paper) today", "(on\npaper)", "(without paper)"} {
		for _, heading := range []string{"## Warm-up " + mark, "## Warm-up " + mark + " (9 min)", "### *Warm-up* " + mark} {
			if mark == "(on\npaper)" {
				heading = "Warm-up " + mark + "\n---"
			}
			got, slugs := headingsIn(heading + "\n")
			if !slices.Equal(slugs, []string{"paper-mark"}) || len(got) != 1 || got[0][len(got[0])-1] != '|' {
				t.Errorf("%q is read as %q with %v, want no mark and a caution", heading, got, slugs)
			}
		}
	}
}

func TestANearMissSaysWhichMarkToWrite(t *testing.T) {
	for mark, want := range map[string]string{"(on Paper)": "(on paper)", "(paper only)": "(on paper)",
		"(no paper)": "(not on paper)", "(off paper)": "(not on paper)", "(not-on-paper)": "(not on paper)",
		"(isn't on paper)": "(not on paper)"} {
		f := source.NewFile("x.md", []byte("## A "+mark+"\n"))
		_, _, problems := parse.Markdown(parse.NewMarkdown(), f, f.Text())
		found := problems.Sorted()
		if len(found) != 1 || string(f.Slice(found[0].Span)) != mark {
			t.Errorf("%s: the problems are %+v", mark, found)
			continue
		}
		hint := "write  " + want + "  at the end; if they are part of the heading, write a \\ before the bracket"
		if found[0].Hint != hint {
			t.Errorf("%s: the hint is %q, want %q", mark, found[0].Hint, hint)
		}
	}
}

func TestMarksThatMeanNothingAreReported(t *testing.T) {
	for markdown, want := range map[string]string{
		"## A (on paper) (not on paper)":               "paper-marks",
		"## A (not on paper) (9 min) (on paper)":       "paper-marks",
		"## Mentor notes (on paper)":                   "paper-mark",
		"## Mentor notes\n\n### Before (not on paper)": "paper-mark",
		"> ## A (on paper)":                            "paper-mark",
	} {
		if got, slugs := headingsIn(markdown + "\n"); !slices.Equal(slugs, []string{want}) {
			t.Errorf("%q is read as %q with %v, want %s", markdown, got, slugs, want)
		}
	}
	card := source.NewFile("care/cloth.md",
		[]byte("---\ntitle: C\nwho: students\nwear: []\n---\n\n## Before (on paper)\n"))
	if _, problems := parse.Card(parse.NewMarkdown(), card); len(problems.Sorted()) != 1 ||
		problems.Sorted()[0].Slug != "paper-mark" {
		t.Errorf("a mark on a card's heading is reported as %+v", problems.Sorted())
	}
}

func TestAMarkHoldsForTheWholeOfItsPart(t *testing.T) {
	f := source.NewFile("x.md", []byte("a\n\n## B (not on paper)\n\nc\n\n### D\n\n### E (on paper)\n\nf\n\n"+
		"#### G\n\n### H\n\n## I\n\n# J (on paper)\n\n## K\n"))
	root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	got := ""
	for n, mark := range lesson.MarkedBlocks(root) {
		got += lesson.TextOf(n, f.Text(), nil) + ":" + string(mark) + " "
	}
	if want := "a: B:off c:off D:off E:on f:on G:on H:off I: J:on K:on "; got != want {
		t.Errorf("the marks are %q, want %q", got, want)
	}
}
