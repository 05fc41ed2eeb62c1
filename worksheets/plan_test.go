package worksheets_test

// The plan of a run sheet, whose parts have longer names in some languages than in others.

import (
	"os"
	"strings"
	"testing"

	"trundle/generator"
	"trundle/generator/lesson"
	"trundle/site"
	"trundle/worksheets"
)

func TestThePlanOfARunSheetPartsAndCutsNoWord(t *testing.T) {
	t.Parallel()
	for _, tag := range []string{"es", "fr", "de"} {
		p, err := generator.Prove(t.Context(), os.DirFS("../cmd/trundle/starter/"+tag+"/pack"))
		if err != nil || p.HasErrors() {
			t.Fatal(tag, err, p.Problems)
		}
		s, err := site.New(tag)
		if err != nil {
			t.Fatal(err)
		}
		about := worksheets.About{Language: tag, Words: s.Say, Forms: s.Notation(), Marks: s.Marks()}
		for _, l := range p.Lessons {
			said := oneLine(text(t, runSheet(t, about, l)))
			for _, part := range lesson.TimedParts(l.Lesson) {
				if !strings.Contains(said, oneLine(about.Marks.Text(part.Label))) {
					t.Errorf("%s: the run sheet of %s lacks %q: %s", tag, l.Title, part.Label, said)
				}
			}
		}
	}
}
