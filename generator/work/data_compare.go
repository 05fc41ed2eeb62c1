package work

// The compare block: scores of each group by measured and judged criteria. The choice itself is made by
// package runs.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/source"
)

// Comparison is a choice among groups by weighted criteria.
type Comparison struct {
	Groups   []string
	Criteria []Criterion
	runs.Choice
}

// Criterion is one of them.
type Criterion struct {
	Line   *lesson.DataLine
	Unit   quantity.Unit // of a measured one
	Values []float64     // of each group: how far off, how large a spread, or the score given
	Within float64       // where the points of a measured one end; the most of a judged one
	Scores []float64     // of each group, from 0 to 1

	Answers, ScoreAnswers []*Answer // finds that ask for a measured one's values and scores
}

// Judged tells whether people gave the scores.
func (c Criterion) Judged() bool { return c.Line.Keyword == "judged" }

// compareBlock scores the groups by each criterion and ranks them.
func (w *worker) compareBlock(d *Data, t *dataTable) {
	out := &Comparison{}
	if t != nil {
		for _, g := range t.groups {
			out.Groups = append(out.Groups, g.Name)
		}
	}
	var scores [][]float64
	var weights []float64
	for _, l := range d.All("near", "steady", "judged") {
		var c Criterion
		var ok bool
		if l.Keyword == "judged" {
			c, ok = w.judged(out, l)
		} else {
			c, ok = w.criterion(d, t, l)
		}
		if !ok {
			continue
		}
		out.Criteria = append(out.Criteria, c)
		scores, weights = append(scores, c.Scores), append(weights, l.Weight)
	}
	// A criterion with a problem cannot simply be left out: the ranking would be another.
	if len(scores) < len(d.All("near", "steady", "judged")) {
		return
	}
	if len(out.Groups) < 2 {
		w.problems.Error(w.out.File, d.At, "one-group", "there is only one group to choose from", "compare at least two")
		return
	}
	out.Choice = runs.Choose(scores, weights)
	d.Comparison = out
}

// criterion scores a measured criterion: all points at 0, none at within or more.
func (w *worker) criterion(d *Data, t *dataTable, l *lesson.DataLine) (c Criterion, ok bool) {
	m := w.measuredColumn(d, t, l, false)
	if m == nil {
		return c, false
	}
	c = Criterion{Line: l, Unit: m.Unit}
	if c.Within, ok = w.amount(d, l.Within, m.Unit); !ok {
		return c, false
	}
	if !(c.Within > 0) {
		w.problems.Error(w.out.File, source.Span(l.Within.Span()), "bad-within",
			"this must be more than zero: it is how far off gives no point", "write it as in  within 6 cm")
		return c, false
	}
	for _, g := range m.Groups {
		x := math.Abs(g.Bias)
		if l.Keyword == "steady" {
			x = g.SD
		}
		if math.IsNaN(x) {
			what := g.Name + " has no run to judge this by"
			if l.Keyword == "steady" && g.N == 1 {
				what = g.Name + " has one run only, and one run has no spread"
			}
			w.problems.Error(w.out.File, l.At, "too-few-runs", what, "make more runs, or leave the criterion out")
			ok = false
		}
		c.Values = append(c.Values, x)
		c.Scores = append(c.Scores, max(0, 1-x/c.Within))
	}
	w.showCriterion(d, &c, m, l)
	return c, ok
}

// judged takes the scores that people gave. Without a file, the first judged line names the groups.
func (w *worker) judged(out *Comparison, l *lesson.DataLine) (Criterion, bool) {
	if out.Groups == nil {
		for _, s := range l.Scores {
			out.Groups = append(out.Groups, s.Group)
		}
		if len(out.Groups) > MaxGroups {
			w.problems.Error(w.out.File, l.At, "too-many-groups",
				itoa(len(out.Groups))+" groups are more than can be compared; "+itoa(MaxGroups)+" are the most", "leave some out")
			return Criterion{}, false
		}
	}
	c, ok := Criterion{Line: l, Within: l.Of}, true
	given := map[string]float64{}
	for _, s := range l.Scores {
		given[s.Group] = s.Points
		if !slices.Contains(out.Groups, s.Group) {
			hint := cmp.Or(quantity.DidYouMean(s.Group, out.Groups), "the groups are "+strings.Join(out.Groups, ", "))
			w.problems.Error(w.out.File, s.At, "unknown-group", "there is no group "+s.Group, hint)
			ok = false
		}
	}
	unknown := !ok // a name that is wrong is why another group has no score
	for _, g := range out.Groups {
		points, known := given[g]
		if !known && !unknown {
			w.problems.Error(w.out.File, l.At, "judged-score", "this line has no score for "+g, "give every group its points")
			ok = false
		}
		c.Values, c.Scores = append(c.Values, points), append(c.Scores, points/l.Of)
	}
	return c, ok
}
