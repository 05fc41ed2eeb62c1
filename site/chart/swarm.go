package chart

// Where the dots of a row lie, so that none hides another; or the band that is drawn instead of too many.

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A swarm is a row's dots: where each lies.
type swarm struct {
	middle   vg.Length
	run, odd []vg.Point
}

// swarms places all dots, and gives their diameter; where they are too many, they lie in the middle of their row, and
// it is 0.
func (d Dots) swarms(p *plot.Plot, c *draw.Canvas) ([]swarm, vg.Length) {
	toX, toY := p.Transforms(c)
	rows := make([]swarm, len(d.Groups))
	total, largest := 0, 0
	for i, g := range d.Groups {
		rows[i].middle = toY(rowAt(i, len(d.Groups)))
		for k, v := range g.Values {
			if !drawable(v) {
				continue
			}
			at := vg.Point{X: toX(v), Y: rows[i].middle}
			if k < len(g.Odd) && g.Odd[k] {
				rows[i].odd = append(rows[i].odd, at)
			} else {
				rows[i].run = append(rows[i].run, at)
			}
		}
		n := len(rows[i].run) + len(rows[i].odd)
		total, largest = total+n, max(largest, n)
	}
	if total > mostDots || largest > mostInRow {
		return rows, 0
	}
	for _, diameter := range diameters {
		if placed, ok := place(rows, diameter); ok {
			return placed, diameter
		}
	}
	return rows, 0
}

// place moves the dots of each row up and down, the smallest value first, until none lies on another. Where the row is
// not high enough for as many equal values, the smallest dots may also move aside, by their own width. ok is false if
// there is no room for all.
func place(rows []swarm, diameter vg.Length) ([]swarm, bool) {
	columns := []vg.Length{0}
	if diameter <= widestAside {
		columns = append(columns, -diameter, diameter)
	}
	out := make([]swarm, len(rows))
	for i, row := range rows {
		all := append(slices.Clone(row.run), row.odd...)
		order := make([]int, len(all))
		for k := range order {
			order[k] = k
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(all[a].X, all[b].X) })
		var taken []vg.Point
		for _, k := range order {
			at, ok := free(all[k], taken, columns, diameter)
			if !ok {
				return nil, false
			}
			all[k], taken = at, append(taken, at)
		}
		n := len(row.run)
		out[i] = swarm{row.middle, all[:n:n], all[n:]}
	}
	return out, true
}

// free finds a place near at that no dot has.
func free(at vg.Point, taken []vg.Point, columns []vg.Length, diameter vg.Length) (vg.Point, bool) {
	for _, aside := range columns {
		for k := 0; vg.Length((k+1)/2)*diameter <= rowHalf-diameter/2; k++ {
			try := vg.Point{X: at.X + aside, Y: at.Y + vg.Length((k+1)/2)*diameter}
			if k%2 == 0 {
				try.Y = 2*at.Y - try.Y
			}
			if !slices.ContainsFunc(taken, func(o vg.Point) bool {
				return max(o.X-try.X, try.X-o.X) < diameter-0.01 && max(o.Y-try.Y, try.Y-o.Y) < diameter-0.01
			}) {
				return try, true
			}
		}
	}
	return at, false
}

// A band's columns are this wide, and at most so high.
const (
	column   vg.Length = 2
	bandHalf vg.Length = 10
)

// bands draws each row's runs as a band that is the higher the more runs lie there.
func (f *frame) bands(rows []swarm, words DotWords) []Entry {
	f.Add(drawing(func(c draw.Canvas, _ *plot.Plot) {
		for _, row := range rows {
			band(&c, row)
		}
	}))
	for i, row := range rows {
		rows[i].odd = apart(row.odd, 5)
	}
	legend := f.odd(rows, 2.6, words.Odd)
	return append(entry(words.Many, func(c *draw.Canvas, m vg.Point) {
		for i, h := range []vg.Length{1, 1, 2, 4, 6, 4, 2, 1, 1} {
			bandColumn(c, m.X+column*vg.Length(i-4), m.Y, h)
		}
	}), legend...)
}

// band draws one row: its columns' heights stand for how many runs lie in them.
func band(c *draw.Canvas, row swarm) {
	counts := make([]int, int((c.Max.X-c.Min.X)/column)+1)
	for _, p := range row.run {
		counts[min(max(0, int((p.X-c.Min.X)/column)), len(counts)-1)]++
	}
	most := slices.Max(counts)
	for i, n := range counts {
		if n > 0 {
			bandColumn(c, c.Min.X+column*(vg.Length(i)+0.5), row.middle, max(1, bandHalf*vg.Length(n)/vg.Length(most)))
		}
	}
}

// bandColumn is a little wider than its place, so that no light comes through between two.
func bandColumn(c *draw.Canvas, x, y, half vg.Length) {
	c.StrokeLine2(draw.LineStyle{Color: paint("c1"), Width: column + 0.3}, x, y-half, x, y+half)
}

// apart leaves out points that lie in one square of a grid with another.
func apart(points []vg.Point, cell vg.Length) []vg.Point {
	seen := map[[2]int]bool{}
	var kept []vg.Point
	for _, p := range points {
		at := [2]int{int(p.X / cell), int(p.Y / cell)}
		if !seen[at] {
			seen[at] = true
			kept = append(kept, p)
		}
	}
	return kept
}
