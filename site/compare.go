package site

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
func (b *body) compare(f *figure, d *work.Data) {
	c := d.Comparison
	w := b.words
	f.Title = w.must("compare-title")
	t := Numbers{Caption: w.must("compare-points"), Heads: append([]string{w.must("compare-criterion"), w.must("compare-weight")}, c.Groups...)}
	for _, k := range c.Criteria {
		row := []string{k.Line.Text, plain(k.Line.Weight)}
		if k.Judged() {
			row[0] += " (" + w.must("compare-by", k.Line.By) + ")"
		}
		for i, s := range k.Scores {
			cell := b.points(s)
			if k.Judged() {
				cell += " (" + w.must("compare-of", plain(k.Values[i]), plain(k.Within)) + ")"
			} else {
				cell += " (" + w.must("compare-"+k.Line.Keyword, b.off(k, i)) + ")"
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	total := []string{w.must("compare-all"), ""}
	for _, p := range c.Points {
		total = append(total, b.points(p))
	}
	t.Rows = append(t.Rows, total)
	defer func() { f.Tables = append(f.Tables, t) }()
	for _, i := range c.Order {
		f.Ranking = append(f.Ranking, w.must("compare-rank", c.Groups[i], b.points(c.Points[i])))
	}
	if c.Level > 1 {
		var level []string
		for _, i := range c.Order[:c.Level] {
			level = append(level, c.Groups[i])
		}
		t.Says = append(t.Says, w.must("compare-tied", strings.Join(level, ", ")))
		return
	}
	for k, criterion := range c.Criteria {
		t.Says = append(t.Says, b.leeway(c, k, criterion.Line.Text, criterion.Line.Weight))
	}
	f.Note = w.must("compare-note")
}

// off writes how far off a group is in a criterion, or how much it scatters.
func (b *body) off(k work.Criterion, i int) string {
	a := b.axis(k.Unit)
	a.step, a.places = k.Line.Target.Step, 0
	if x := k.Values[i]; x > 0 {
		a.places = twoDigits(x)
	}
	return a.size(k.Values[i])
}

func (b *body) leeway(c *work.Comparison, k int, title string, weight float64) string {
	w, l, best := b.words, c.Weights[k], c.Groups[c.Order[0]]
	low, high := func() string { return b.bound(l.Low, weight) }, func() string { return b.bound(l.High, weight) }
	below, above := l.Below >= 0 && l.Low > 0, l.Above >= 0 && !math.IsInf(l.High, 1)
	switch {
	case below && above:
		return w.must("compare-between", title, plain(weight), best, low(), c.Groups[l.Below], high(), c.Groups[l.Above])
	case below:
		return w.must("compare-down-to", title, plain(weight), best, low(), c.Groups[l.Below])
	case above:
		return w.must("compare-up-to", title, plain(weight), best, high(), c.Groups[l.Above])
	}
	return w.must("compare-whatever", title, plain(weight), best)
}

// points are shown out of ten.
func (b *body) points(score float64) string {
	return b.veil.over(10*score, quantity.FormatPlaces(10*score, 1), quantity.Unit{})
}

// bound writes a weight at which the choice changes, with as many digits as it takes to see
// on which side of the present weight it lies.
func (b *body) bound(x, weight float64) string {
	text := ""
	for digits := 2; digits <= 15; digits++ {
		text = quantity.FormatSignificant(x, digits)
		if shown, err := strconv.ParseFloat(text, 64); err != nil || cmp.Compare(shown, weight) == cmp.Compare(x, weight) {
			break
		}
	}
	return b.veil.over(x, text, quantity.Unit{})
}

func plain(x float64) string { return quantity.FormatPlain(x) }
