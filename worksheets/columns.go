package worksheets

// Two columns: where a part's blocks are narrow, they stand side by side, so that a lesson has few pages. Blocks are
// measured first, across the page and in half of it; what takes the least height is chosen.

import (
	"math"
	"slices"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
)

const (
	columnGap = 7.0   // between two columns
	bandGap   = 1.5   // below a band of two columns
	highest   = 160.0 // of a band: it stays on one page
)

// A unit is what stays in one column: a block with its heading and what introduces it, or a row of a work block.
type unit struct {
	draw       []func()
	wide       bool    // it takes the whole width
	full, half float64 // its height across the page, and in a column
}

// A band is a number of units, side by side from the split on; or one unit across the page if there is no split.
type band struct{ from, split, to int }

// flow puts blocks, in columns where the fit says so.
func (s *sheet) flow(blocks []ast.Node) {
	if !s.fit.columns {
		for _, n := range blocks {
			s.node(n)
		}
		return
	}
	for len(blocks) > 0 {
		end := 1 // a part's heading stands across the page
		for end < len(blocks) && !isPart(blocks[end]) {
			end++
		}
		s.bands(blocks[:end])
		blocks = blocks[end:]
	}
}

func isPart(n ast.Node) bool {
	h, ok := n.(*ast.Heading)
	return ok && h.Level <= 2
}

// units parts blocks into what may stand in a column of its own.
func (s *sheet) units(blocks []ast.Node) []unit {
	var all []unit
	var u unit
	for i, n := range blocks {
		_, heading := n.(*ast.Heading)
		u.wide = u.wide || s.isWide(n)
		if b, ok := n.(*lesson.WorkBlock); ok {
			for _, row := range s.rows(b) {
				u.draw, u.wide = append(u.draw, row.draw), u.wide || row.wide
				all, u = append(all, u), unit{}
			}
			continue
		}
		u.draw = append(u.draw, func() { s.node(n) })
		if heading || i+1 < len(blocks) && s.leads(n, blocks[i+1]) {
			continue
		}
		all, u = append(all, u), unit{}
	}
	if len(u.draw) > 0 {
		all = append(all, u)
	}
	return all
}

// leads tells whether a block must not be parted from the next: it introduces it, or is the picture of its steps.
func (s *sheet) leads(n, next ast.Node) bool {
	_, prose := n.(*ast.Paragraph)
	_, heading := next.(*ast.Heading)
	return prose && !heading
}

// isWide tells what is written in, or is too wide for a column.
func (s *sheet) isWide(n ast.Node) bool {
	switch n := n.(type) { // the others: they are measured
	case *ast.List:
		return s.chosen.written[n] && n.IsOrdered()
	case *tables.Table:
		return n.FirstChild() != nil && n.FirstChild().ChildCount() > 3
	case *lesson.DataBlock:
		return true
	}
	return false
}

// bands puts the blocks of a part in the way that takes the least height.
func (s *sheet) bands(blocks []ast.Node) {
	var heading ast.Node
	if isPart(blocks[0]) {
		heading, blocks = blocks[0], blocks[1:]
	}
	units := s.units(blocks)
	for i := range units {
		units[i].full = s.measured(units[i], false)
		units[i].half = math.Inf(1)
		if !units[i].wide {
			units[i].half = s.measured(units[i], true)
		}
	}
	for heading != nil || len(units) > 0 {
		b := band{}
		if len(units) > 0 {
			b = cheapest(units)[0]
		}
		if heading != nil {
			s.need(10 + min(s.heightOf(units, b), s.begun(b)))
			s.node(heading)
			heading = nil
		}
		if b.split < b.to && s.heightOf(units, b) > s.foot()-s.y {
			b = s.fitting(units, b)
		}
		s.putBand(units, b)
		units = units[b.to:]
	}
}

// begun is how much room there must be to begin a band on a page. What goes across the page may go on on the next.
func (s *sheet) begun(b band) float64 {
	if b.split < b.to {
		return 50
	}
	return 20
}

// heightOf is how high a band is.
func (s *sheet) heightOf(units []unit, b band) float64 {
	if b.split == b.to {
		return fulls(units[b.from:b.to])
	}
	return max(halves(units[b.from:b.split]), halves(units[b.split:b.to]))
}

// fitting is as much of a band as has room on the rest of the page, or all of it if that is next to nothing: then it
// begins the next page.
func (s *sheet) fitting(units []unit, whole band) band {
	for to := whole.to - 1; to > whole.from+1; to-- {
		for split := whole.from + 1; split < to; split++ {
			b := band{whole.from, split, to}
			if s.heightOf(units, b) <= s.foot()-s.y {
				return b
			}
		}
	}
	if first := (band{whole.from, whole.from + 1, whole.from + 1}); units[0].full <= s.foot()-s.y {
		return first
	}
	return whole
}

// cheapest finds the bands that take the least height together. best[i] is the height of all units before i.
func cheapest(units []unit) []band {
	best, last := make([]float64, len(units)+1), make([]band, len(units)+1)
	for to := 1; to <= len(units); to++ {
		best[to] = best[to-1] + units[to-1].full
		last[to] = band{to - 1, to, to}
		for from := to - 2; from >= 0 && units[from].half < highest; from-- {
			for split := from + 1; split < to; split++ {
				height := max(halves(units[from:split]), halves(units[split:to]))
				// A little is not worth columns, which are harder to read.
				if sum := best[from] + height + bandGap; height < highest && sum < best[to]-2 {
					best[to], last[to] = sum, band{from, split, to}
				}
			}
		}
	}
	var all []band
	for to := len(units); to > 0; to = last[to].from {
		all = append(all, last[to])
	}
	slices.Reverse(all)
	return all
}

func fulls(units []unit) float64 {
	sum := 0.0
	for _, u := range units {
		sum += u.full
	}
	return sum
}

func halves(units []unit) float64 {
	sum := 0.0
	for _, u := range units {
		sum += u.half
	}
	return sum
}

// putBand puts units across the page, or side by side.
func (s *sheet) putBand(units []unit, b band) {
	if b.split == b.to {
		s.need(min(fulls(units[b.from:b.to]), s.begun(b)))
		drawUnits(units[b.from:b.to])
		s.pass()
		return
	}
	left, right := units[b.from:b.split], units[b.split:b.to]
	s.pass()
	s.need(max(halves(left), halves(right)))
	top := s.y
	s.column(0, func() { drawUnits(left) })
	foot := s.y
	s.y = top
	s.column(1, func() { drawUnits(right) })
	s.y = max(s.y, foot)
	s.gap(bandGap)
}

func drawUnits(units []unit) {
	for _, u := range units {
		for _, d := range u.draw {
			d()
		}
	}
}

// column draws in the left or the right half of the page.
func (s *sheet) column(which int, draw func()) {
	half := (s.width() + columnGap) / 2
	before := [2]float64{s.columnFrom, s.columnTo}
	if which == 0 {
		s.columnTo = half
	} else {
		s.columnFrom = half
	}
	draw()
	s.pass()
	s.columnFrom, s.columnTo = before[0], before[1]
}

// inColumn tells whether the page is halved here.
func (s *sheet) inColumn() bool { return s.columnFrom+s.columnTo > 0 }

// measured is the height of a unit.
func (s *sheet) measured(u unit, half bool) float64 {
	return s.measures.next(s.measuring, func() (height float64) {
		s.unseen(func() {
			from := s.y
			if half {
				s.column(0, func() { drawUnits([]unit{u}) })
			} else {
				drawUnits([]unit{u})
				s.pass()
			}
			height = s.y - from
		})
		return height
	})
}

// unseen lays something out on a page that nobody sees, and leaves the sheet as it was.
func (s *sheet) unseen(draw func()) {
	before := *s
	s.doc = newDraft()
	s.doc.AddPage(s.paper.Width, s.paper.Height)
	s.y, s.measuring = Margin+1, true // a gap at the very top would not count
	draw()
	*s = before
}
