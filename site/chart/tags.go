package chart

// The labels of marks, above the curves.

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// tagRows are the labels of marks. They are above the curves like flags beside the ends of the marks' lines: to the
// right, where there is room. The mark farthest to the right has the lowest one, so that no line goes through another's
// flag.
type tagRows struct {
	text   []string // a label for each mark, "" for none
	level  []int    // how high it hangs, from 0; -1 where there is none
	left   []bool   // hangs to the left of its line
	levels int
}

const (
	tagHeight  vg.Length = 18
	tagGap     vg.Length = 4
	tagLimit             = 0.6 // of the width of the axis
	mostLevels           = 4
)

// tags places the labels, as far as there are levels for them. The axes must be set.
func (f *frame) tags(marks []Mark) tagRows {
	t := tagRows{make([]string, len(marks)), make([]int, len(marks)), make([]bool, len(marks)), 0}
	c := f.DataCanvas(f.area)
	toX, _ := f.Transforms(&c)
	order := make([]int, 0, len(marks))
	for i, m := range marks {
		t.level[i] = -1
		if text := tidy(m.Label); text != "" && drawable(m.X) {
			t.text[i] = f.text.fit(text, tagLimit*c.Size().X)
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(marks[j].X, marks[i].X) })
	var taken [mostLevels][][2]vg.Length
	for _, i := range order {
		x, w := toX(marks[i].X), tagGap+f.text.width(t.text[i])
		t.left[i] = x+w > c.Max.X+side
		from, to := x, x+w+tagGap
		if t.left[i] {
			from, to = x-w-tagGap, x
		}
		level := 0
		for l := range taken {
			if slices.ContainsFunc(taken[l], func(o [2]vg.Length) bool { return from <= o[1] && o[0] <= to }) {
				level = l + 1
			}
		}
		if level < mostLevels {
			t.level[i] = level
			t.levels = max(t.levels, level+1)
			taken[level] = append(taken[level], [2]vg.Length{from, to})
		}
	}
	return t
}

// end is how high the line of a mark with a label goes.
func (t tagRows) end(i int, c *draw.Canvas) vg.Length {
	return c.Max.Y + vg.Length(t.level[i]+1)*tagHeight
}

// draw writes the label of a mark whose line stands at x.
func (t tagRows) draw(c *draw.Canvas, text lettering, i int, x vg.Length) {
	at := vg.Point{X: x + tagGap, Y: t.end(i, c) - tagHeight + 4}
	sty := text.style(draw.XLeft, draw.YBottom)
	if t.left[i] {
		at.X = x - tagGap
		sty = text.style(draw.XRight, draw.YBottom)
	}
	c.FillText(sty, at, t.text[i])
}
