package parse_test

// Tests of the mark (if there is time).

import (
	"fmt"
	"slices"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// timesIn gives each heading of a lesson as "title|minutes|mark", and the problems.
func timesIn(md goldmark.Markdown, markdown string) (all []string, l *lesson.Lesson, problems []problem.Problem) {
	f := source.NewFile("x.md", []byte("---\ntitle: T\nweek: 1\nminutes: 60\n---\n"+markdown))
	l, found := parse.Lesson(md, f)
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && entering {
			minutes, _ := h.AttributeString("minutes")
			mark := ""
			if lesson.IfTime(h) {
				mark = "spare"
			}
			all = append(all, fmt.Sprintf("%s|%v|%s", lesson.TextOf(h, f.Text(), nil), minutes, mark))
		}
		return ast.WalkContinue, nil
	})
	return all, l, found.Sorted()
}

func TestAHeadingSaysThatItsPartIsForWhenThereIsTime(t *testing.T) {
	md := parse.NewMarkdown()
	for heading, want := range map[string]string{
		"## Again (9 min) (if there is time)":            "Again|9|spare",
		"## Again (if there is time) (9 min)":            "Again|9|spare",
		"### Again (on paper) (if there is time)(9 min)": "Again|9|spare",
		"### Again *(if  there is time)*":                "Again|<nil>|spare",
		"## Again (9 min)":                               "Again|9|",
		`## Again \(if there is time)`:                   "Again (if there is time)|<nil>|",
		"## Again (if the gate opens)":                   "Again (if the gate opens)|<nil>|",
		"## Again (in time)":                             "Again (in time)|<nil>|",
	} {
		if got, _, problems := timesIn(md, heading+"\n"); !slices.Equal(got, []string{want}) || problems != nil {
			t.Errorf("%q is read as %q with %v, want %q", heading, got, problems, want)
		}
	}
}

func TestAMarkOfTimeThatMeansNothingIsACaution(t *testing.T) {
	md := parse.NewMarkdown()
	for _, markdown := range []string{"## A (if time)", "## A (if there's time) (9 min)", "## A (If there is time)",
		"## A [if there is time]", "### A (time permitting)", "## A (only if there is time left)", "## A (if you have time)",
		"## A (if time allows)", "## A (if there is time) today", "## A (if there is still time)",
		"## A (when there is time)",
		"# A (if there is time)", "#### A (if there is time)", "> ## A (if there is time)",
		"## Mentor notes\n\n### A (if there is time)", "## Mentor notes (if there is time)"} {
		got, l, problems := timesIn(md, markdown+"\n")
		if len(problems) != 1 || problems[0].Slug != "if-time" || problems[0].Severity != problem.Caution {
			t.Errorf("%q is read as %q with %v, want a caution", markdown, got, problems)
		}
		if lesson.SpareMinutes(l) != 0 || slices.ContainsFunc(l.Sections, func(s *lesson.Section) bool { return s.IfTime }) {
			t.Errorf("%q has minutes for when there is time", markdown)
		}
	}
	card := source.NewFile("care/cloth.md",
		[]byte("---\ntitle: C\nwho: students\nwear: []\n---\n\n## Before (if there is time)\n"))
	if _, problems := parse.Card(md, card); len(problems.Sorted()) != 1 || problems.Sorted()[0].Slug != "if-time" {
		t.Errorf("a mark on a card's heading is reported as %+v", problems.Sorted())
	}
}

func TestWhatIsForWhenThereIsTimeIsAdded(t *testing.T) {
	_, l, problems := timesIn(parse.NewMarkdown(), "## A (20 min)\n\n### B (5 min) (if there is time)\n\n"+
		"### C (5 min)\n\n### D (3 min) (if there is time)\n\n### E (if there is time)\n\n"+
		"## F (30 min) (if there is time)\n\n"+
		"### G (4 min) (if there is time)\n\n## H (10 min)\n\n## Mentor notes\n")
	if problems != nil || lesson.SpareMinutes(l) != 38 {
		t.Errorf("%d minutes are for when there is time, with %v; want 38", lesson.SpareMinutes(l), problems)
	}
	want := []int{8, 30, 0}
	for i, part := range lesson.TimedParts(l) {
		if part.Spare != want[i] || part.IfTime != (i == 1) {
			t.Errorf("of %q %d minutes are for when there is time, want %d", part.Title, part.Spare, want[i])
		}
	}
}
