package figure

// A weighted choice: the points, the ranking, and how far each weight can move, in words.

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/work"
)

// compare shows a weighted choice: the points of each, the ranking, and how far each
// weight can move.
func (w *writer) compare(f *Figure, d *work.Data) {
	c := d.Comparison
	f.Title = w.Say("compare-title")
	heads := append([]string{w.Say("compare-criterion"), w.Say("compare-weight")}, c.Groups...)
	t := Numbers{Caption: w.Say("compare-points"), Heads: heads}
	var notes []string
	for _, k := range c.Criteria {
		row := []string{k.Line.Text, w.plain(k.Line.Weight)}
		if k.Judged() {
			notes = append(notes, w.Say("compare-by", k.Line.Text, k.Line.By))
		}
		for i, s := range k.Scores {
			cell := w.points(s, w.score(k, i))
			if k.Judged() {
				cell += secondLine("(" + w.Say("compare-of", w.plain(k.Values[i]), w.plain(k.Within)) + ")")
			} else {
				cell += secondLine("(" + w.Say("compare-"+k.Line.Keyword, w.off(k, i)) + ")")
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	total := []string{w.Say("compare-all"), ""}
	for i, p := range c.Points {
		total = append(total, w.points(p, w.total(c, i)))
	}
	t.Rows = append(t.Rows, total)
	for _, i := range c.Order {
		f.Ranking = append(f.Ranking, w.Say("compare-rank", c.Groups[i], w.points(c.Points[i], w.total(c, i))))
	}
	if c.Level > 1 {
		t.Says = []string{w.tied(c)}
	} else {
		for k, criterion := range c.Criteria {
			t.Says = append(t.Says, w.leeway(c, k, criterion.Line.Text, criterion.Line.Weight))
		}
		notes = append(notes, w.Say("compare-note"))
	}
	f.Note = strings.Join(notes, " ")
	f.Tables = append(f.Tables, t)
}

// tied names the groups that share the first place.
func (w *writer) tied(c *work.Comparison) string {
	var level []string
	for _, i := range c.Order[:c.Level] {
		level = append(level, c.Groups[i])
	}
	return w.Say("compare-tied", strings.Join(level, ", "))
}

// off writes how far off a group is in a criterion, or how much it scatters.
func (w *writer) off(k work.Criterion, i int) string {
	a := w.axis(k.Unit)
	a.step, a.places = k.Line.Target.Step, 0
	if x := k.Values[i]; x > 0 {
		a.places = twoDigits(x)
	}
	return a.sizeOf(k.Values[i], w.point(k.Answers, i))
}

// leeway says between which weights of a criterion the choice stays the same, and what is chosen beyond them.
func (w *writer) leeway(c *work.Comparison, k int, title string, weight float64) string {
	l, best := c.Weights[k], c.Groups[c.Order[0]]
	low, high := func() string { return w.bound(l.Low, weight) }, func() string { return w.bound(l.High, weight) }
	below, above := l.Below >= 0 && l.Low > 0, l.Above >= 0 && !math.IsInf(l.High, 1)
	switch {
	case below && above:
		return w.Say("compare-between", title, w.plain(weight), best, low(), c.Groups[l.Below], high(), c.Groups[l.Above])
	case below:
		return w.Say("compare-down-to", title, w.plain(weight), best, low(), c.Groups[l.Below])
	case above:
		return w.Say("compare-up-to", title, w.plain(weight), best, high(), c.Groups[l.Above])
	}
	return w.Say("compare-whatever", title, w.plain(weight), best)
}

// points are shown out of ten.
func (w *writer) points(score float64, asked *work.Answer) string {
	return amounts{places: 1, words: w.Words}.numberOf(10*score, asked.Then("10 *"))
}

// score is the answer that gives a group's score in a criterion: one that asks for it, or for how far
// off the group is, from which it follows.
func (w *writer) score(k work.Criterion, i int) *work.Answer {
	off := w.point(k.Answers, i)
	return cmp.Or(w.point(k.ScoreAnswers, i), off.Then(programmed(k.Within)+" / ~ 1 + 0 max:2"))
}

// total is the answer that gives a group's points in all, if some of its scores are asked for.
func (w *writer) total(c *work.Comparison, i int) *work.Answer {
	var all *work.Answer
	fixed, weights := 0.0, 0.0
	for _, k := range c.Criteria {
		weights += k.Line.Weight
		switch asked := w.score(k, i).Then(programmed(k.Line.Weight) + " *"); {
		case asked == nil:
			fixed += k.Line.Weight * k.Scores[i]
		default:
			all = all.Plus(asked)
		}
	}
	return all.Then(programmed(fixed) + " + " + programmed(weights) + " /")
}

// bound writes a weight at which the choice changes, with as many digits as it takes to see
// on which side of the present weight it lies.
func (w *writer) bound(x, weight float64) string {
	text := ""
	// 2.49 rounded to 2.5 would say that the choice changes at the present weight of 2.5.
	for digits := 2; digits <= 15; digits++ {
		text = quantity.FormatSignificant(x, digits)
		if shown, err := strconv.ParseFloat(text, 64); err != nil || cmp.Compare(shown, weight) == cmp.Compare(x, weight) {
			break
		}
	}
	return w.Number(text)
}

func (w *writer) plain(x float64) string { return w.Number(quantity.FormatPlain(x)) }
