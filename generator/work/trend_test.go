package work_test

// Records whose readings follow each other.

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// A barge's places after six cycles differ because it moves. Taken for scatter they would make its step −20.3 ± 5.8 mm.
func TestReadingsInOrderClaimNoStandardError(t *testing.T) {
	for _, c := range []struct {
		words string
		sure  bool
	}{{"", false}, {"in order ", true}} {
		l, found := parse.Lesson(parse.NewMarkdown(), source.NewFile("l.md", []byte(
			"---\ntitle: T\nweek: 1\nminutes: 1\ncare: [cloth]\n---\n\n## A (1 min)\n\n"+
				"```work\nrecord first[3] in mm to 1 "+c.words+"= -22, -39, -66 \"F\"\nrecord last[3] in mm to 1 "+c.words+
				"= -81, -107, -122 \"L\"\nfind each in mm to 0.1 = (mean(last) - mean(first)) / 3 \"Each\"\n```\n")))
		w, more := work.ForKit(l, &lesson.Kit{}, nil)
		found.Join(more)
		for _, p := range found.Sorted() {
			if !strings.Contains(p.Slug, "care") {
				t.Fatal(p.What)
			}
		}
		q, _ := w.Of(w.Finds[0]).Quantity()
		if u := q.Uncertainty(); (u == 0) != c.sure {
			t.Errorf("%q: %v ± %v", c.words, q.Number, u)
		}
		if q.Number < -20.34 || q.Number > -20.33 {
			t.Errorf("%q: %v", c.words, q.Number)
		}
	}
	plain := quantity.Env{"r": quantity.Record{Name: "r", Numbers: []float64{1, 2, 4}, InOrder: true}}
	e, _ := quantity.ParseExpr("mean(r)")
	if v, errs := quantity.Eval(e, plain); len(errs) > 0 || v.(quantity.Quantity).Uncertainty() != 0 {
		t.Errorf("a record of plain numbers: %v %v", v, errs)
	}
}
