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
	highest   = 200.0 // of a band: it stays on one page
)

// A unit is what stays in one column: a block with its heading and what introduces it, or a row of a work block.
type unit struct {
	draw       []func()
	wide       bool    // it takes the whole width
	whole      bool    // it stays on one page
	pictured   bool    // it begins with a picture
	tabled     bool    // it ends with a table or a program
	headed     bool    // it begins with a heading
	answered   bool    // it has questions with room below each
	least      float64 // what a page must have left for its beginning
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
		u.headed, u.answered = u.headed || heading, u.answered || s.chosen.written[n] && n.Kind() == ast.KindList
		u.wide = u.wide || s.isWide(n)
		if b, ok := n.(*lesson.WorkBlock); ok {
			for _, row := range s.rows(b) {
				u.draw, u.wide, u.whole = append(u.draw, row.draw), u.wide || row.wide, true
				all, u = append(all, u), unit{}
			}
			continue
		}
		if d, ok := n.(*lesson.DataBlock); ok && d.Name == lesson.ShowBlock {
			for _, f := range s.lesson.OfData(d).Figures {
				u.draw = append(u.draw, func() { s.pass(); s.figure(f) })
				u.wide, u.whole = u.wide || !s.fit.terse || !isTape(f.Kind), true
				all, u = append(all, u), unit{}
			}
			continue
		}
		u.draw = append(u.draw, func() { s.node(n) })
		_, data := n.(*lesson.DataBlock)
		u.tabled = isTableOrProgram(n)
		u.whole, u.pictured = u.whole || data, u.pictured || len(picturesOf(n)) > 0
		if heading || i+1 < len(blocks) && s.leads(n, blocks[i+1]) {
			continue
		}
		u.whole = u.whole || u.pictured && len(picturesOf(n)) > 0
		all, u = append(all, u), unit{}
	}
	if len(u.draw) > 0 {
		all = append(all, u)
	}
	return all
}

func isTableOrProgram(n ast.Node) bool {
	switch n.(type) { // the others: they may break anywhere
	case *tables.Table, *lesson.FilledCode, *ast.FencedCodeBlock:
		return true
	}
	return false
}

// isOnlyPicture tells whether a block is a picture, or several, without a word.
func isOnlyPicture(n ast.Node) bool {
	if len(picturesOf(n)) == 0 {
		return false
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); c.Kind() != ast.KindImage && (!ok || t.Segment.Len() > 0) {
			return false
		}
	}
	return true
}

// picturesOf are the pictures of a block that is a paragraph.
func picturesOf(n ast.Node) []*ast.Image {
	if n.Kind() != ast.KindParagraph {
		return nil
	}
	return picturesIn(n)
}

// leads tells whether a block must not be parted from the next: it introduces it, is the picture of its steps, or is
// the one item of a list, which its question follows.
func (s *sheet) leads(n, next ast.Node) bool {
	_, prose := n.(*ast.Paragraph)
	_, heading := next.(*ast.Heading)
	_, steps := next.(*ast.List)
	_, asked := next.(*lesson.WorkBlock)
	if n.Kind() == ast.KindList && n.ChildCount() == 1 && asked {
		return true
	}
	if s.fit.terse && isOnlyPicture(n) {
		return steps
	}
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
		return !s.chosen.pointed[n]
	}
	return false
}

// bands puts the blocks of a part in the way that ends highest, its pages filled.
func (s *sheet) bands(blocks []ast.Node) {
	var heading ast.Node
	if isPart(blocks[0]) {
		heading, blocks = blocks[0], blocks[1:]
	}
	units, at := s.units(blocks), -1.0
	for heading != nil || len(units) > 0 {
		if s.width() != at { // gauges beside the text of the first page leave it narrower
			at = s.width()
			s.measure(units)
		}
		b, above := band{}, 0.0
		if heading != nil {
			above = s.measured(unit{draw: []func(){func() { s.node(heading) }}}, false)
		}
		if len(units) > 0 {
			b = cheapest(units, s.pages(above))[0]
		}
		if heading != nil {
			s.need(above + leastOf(units, b))
			s.node(heading)
			heading = nil
		}
		s.putBand(units, b)
		units = units[b.to:]
	}
}

// measure gives units their heights.
func (s *sheet) measure(units []unit) {
	for i := range units {
		units[i].full = s.measured(units[i], false)
		units[i].least = s.begun(units[i])
		units[i].half = math.Inf(1)
		if !units[i].wide {
			units[i].half = s.measured(units[i], true)
		}
	}
}

// pages are the heights that bands have from here on, below a heading.
func (s *sheet) pages(above float64) pages {
	return pages{first: max(0, s.foot()-s.y), others: s.paper.Height - 2*Margin - footerHeight, above: above}
}

// What a page must have left for a text that goes on over the next, and for a question with its room to write, which
// stay together.
const (
	leastBegun    = 20
	leastAnswered = 42
)

// begun is how much room there must be to begin a unit across a page, if it may go on over the next.
func (s *sheet) begun(u unit) float64 {
	switch {
	case u.whole:
		return u.full
	case u.tabled && u.full < shortTable+leastBegun:
		return u.full
	case u.answered:
		return min(u.full, leastAnswered)
	case u.pictured:
		return min(u.full, s.fit.picture+leastBegun)
	}
	return min(u.full, leastBegun)
}

// leastOf is what a page must have left for the beginning of a band.
func leastOf(units []unit, b band) float64 {
	if b.split < b.to || b.from == b.to {
		return heightOf(units, b)
	}
	return units[b.from].least
}

// heightOf is how high a band is.
func heightOf(units []unit, b band) float64 {
	if b.split == b.to {
		return fulls(units[b.from:b.to])
	}
	return max(halves(units[b.from:b.split]), halves(units[b.split:b.to])) + bandGap
}

// pages are the heights of what is left of a page, and of each that follows.
type pages struct {
	first, others float64
	above         float64 // of a heading that stays with what comes first
}

// after tells how far down, from the first page's place on, something ends that begins as far down as at. It
// goes to the next page where this one has not the least room that it needs.
func (p pages) after(at, height, least float64) float64 {
	end := p.first
	for end < at+1e-9 && p.others > 0 {
		end += p.others
	}
	if at+least > end && height <= p.others {
		at = end
	}
	return at + height
}

// cheapest finds the bands that end highest, pages broken where they must be. best[i] is how far down the units before
// i end: to end higher up is never worse for what follows.
func cheapest(units []unit, on pages) []band {
	best, last := make([]float64, len(units)+1), make([]band, len(units)+1)
	for to := 1; to <= len(units); to++ {
		above := 0.0
		if to == 1 {
			above = on.above
		}
		best[to] = on.after(best[to-1], above+units[to-1].full, above+units[to-1].least)
		last[to] = band{to - 1, to, to}
		for from := to - 2; from >= 0 && halves(units[from:to]) < 2*highest; from-- {
			b, height := lowest(units, from, to)
			if height >= highest || partsSection(units, from, to) {
				continue
			}
			if from == 0 {
				height += on.above
			}
			// A little is not worth columns, which are harder to read.
			if end := on.after(best[from], height, height); end < best[to]-2 {
				best[to], last[to] = end, b
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

// partsSection tells whether a band would end within what stands below one of its headings. What follows would be read
// as a part of the other column: the question of one station below the numbers of another.
func partsSection(units []unit, from, to int) bool {
	return to < len(units) && !units[to].headed &&
		slices.ContainsFunc(units[from+1:to], func(u unit) bool { return u.headed })
}

// lowest parts units into two columns, as low as can be.
func lowest(units []unit, from, to int) (band, float64) {
	best, height := band{}, math.Inf(1)
	left, right := 0.0, halves(units[from:to])
	for split := from + 1; split < to; split++ {
		left += units[split-1].half
		right -= units[split-1].half
		if high := max(left, right) + bandGap; high < height {
			best, height = band{from, split, to}, high
		}
	}
	return best, height
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
		s.need(leastOf(units, b))
		if height := fulls(units[b.from:b.to]); s.isKnown(height + farAhead) {
			s.y += height
			return
		}
		drawUnits(units[b.from:b.to])
		s.pass()
		return
	}
	left, right := units[b.from:b.split], units[b.split:b.to]
	s.pass()
	s.need(max(halves(left), halves(right)))
	if height := max(halves(left), halves(right)); s.isKnown(height) {
		s.y += height
		s.gap(bandGap)
		return
	}
	top := s.y
	s.column(0, func() { drawUnits(left) })
	foot := s.y
	s.y = top
	s.column(1, func() { drawUnits(right) })
	s.y = max(s.y, foot)
	s.gap(bandGap)
}

// farAhead is more than any block asks for below what it puts.
const farAhead = 60.0

// isKnown tells whether all that matters of what is put next is its height: a draft is not drawn, and has room for it.
func (s *sheet) isKnown(height float64) bool {
	return s.doc.IsDraft() && !s.measuring && s.y > Margin && s.y+height <= s.foot()
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
