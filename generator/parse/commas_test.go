package parse_test

import (
	"slices"
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// germanLesson reads a body in a pack whose language has decimal commas.
func germanLesson(body string) (*lesson.Lesson, []problem.Problem) {
	p, _ := parse.PackFile(source.NewFile("pack.yaml", []byte("title: P\nversion: 1\nlanguage: de\n")))
	text := "---\ntitle: T\nweek: 1\nminutes: 10\n---\n\n" + body
	l, problems := parse.LessonWith(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)), p.Vocabulary)
	return l, problems.Sorted()
}

// TestReadingsAreSetApartBySemicolonsOrByCommasWithABlank, and so are points of groups.
func TestReadingsAreSetApartBySemicolonsOrByCommasWithABlank(t *testing.T) {
	l, problems := germanLesson("```work\nrecord s[4] in cm to 0,5 = 20,5, 21; 19,25, 20.5 \"Halt\"\n```\n\n" +
		"```compare data/r.csv\ngroup base\nnear stop = 120,5 cm within 6,5 cm weight 2,5 \"Nah\"\n" +
		"judged A 3,5, B 2; C 1 von oben 4,25 of 5,5 weight 0,5 \"Platz\"\nby \"Zwei\"\n```\n")
	if len(problems) > 0 {
		t.Fatalf("%s: %s", problems[0].Slug, problems[0].What)
	}
	var readings []string
	var scores []lesson.Score
	var line lesson.DataLine
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *lesson.WorkBlock:
			readings = n.Statements[0].Texts
		case *lesson.DataBlock:
			for _, other := range n.Entries {
				if len(other.Scores) > 0 {
					line, scores = *other, other.Scores
				}
			}
		}
		return ast.WalkContinue, nil
	})
	if !slices.Equal(readings, []string{"20.5", "21", "19.25", "20.5"}) {
		t.Errorf("readings %v", readings)
	}
	if len(scores) != 3 || scores[0].Points != 3.5 || scores[2].Points != 4.25 || scores[2].Group != "C 1 von oben" ||
		line.Of != 5.5 || line.Weight != 0.5 {
		t.Errorf("scores %+v of %v, weight %v", scores, line.Of, line.Weight)
	}
}

func TestACommaWithoutABlankIsNoListOfReadings(t *testing.T) {
	for statement, want := range map[string]string{
		"record s[2] in cm = 3,4 \"S\"":   "record-count",
		"record s[3] in cm = 3,4,5 \"S\"": "comma-unclear",
		"given L = 1.000 cm \"L\"":        "comma-unclear",
		"given L = 1 cm; 2 cm \"L\"":      "syntax",
	} {
		_, problems := germanLesson("```work\n" + statement + "\n```\n")
		if len(problems) != 1 || problems[0].Slug != want {
			t.Errorf("%s: %+v; %s was expected", statement, problems, want)
		}
	}
}

// TestALimitOfACardIsReadWithAComma holds what the page shows of it, too.
func TestALimitOfACardIsReadWithAComma(t *testing.T) {
	p, _ := parse.PackFile(source.NewFile("pack.yaml", []byte("language: de\n")))
	card := "---\ntitle: C\nwho: adults\nwear: []\nlimit: 1,5 ppm\nlimit-source: S\n---\n"
	c, _ := parse.CardIn("en", parse.NewMarkdown(), source.NewFile("care/c.md", []byte(card)), p.Vocabulary)
	if c.Limit == nil || c.Limit.PPM != 1.5 || c.Limit.Text != "1.5 ppm" {
		t.Errorf("the limit is %+v", c.Limit)
	}
}
