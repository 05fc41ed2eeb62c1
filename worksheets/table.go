package worksheets

// Tables of a lesson: widths of columns, cells that wrap, heads that come again on the next page.

import (
	"slices"

	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/worksheets/pdf"
)

// Room around what stands in a cell, and the least height of one that is written in. Millimetres.
const (
	cellAcross = 1.8
	cellDown   = 0.6
	cellToFill = 9.0
	cellTight  = 7.5 // where there is hardly room
)

// shortTable is how high a table is at most that stays on one page.
const shortTable = 40.0

// A laidTable is a table that is laid out.
type laidTable struct {
	widths []float64
	rows   []tableRow // the first is the head
	align  []tables.Alignment
}

type tableRow struct {
	cells  [][]textLine
	height float64
}

// tableNeeds is what a page must have left for the beginning of a table: for its head and first row, or all of a short
// one.
func (s *sheet) tableNeeds(g laidTable) float64 {
	if whole := g.height(); whole <= shortTable || len(g.rows) == 1 {
		return whole
	}
	return g.rows[0].height + g.rows[1].height
}

// height is that of all rows.
func (g laidTable) height() float64 {
	sum := 0.0
	for _, r := range g.rows {
		sum += r.height
	}
	return sum
}

// table puts a table. Its head stays with its first row, and comes again where the table goes on over a page.
func (s *sheet) table(n *tables.Table) {
	g := s.lay(n)
	if len(g.rows) == 0 {
		return
	}
	s.gap(1.5)
	head := g.rows[0]
	s.need(s.tableNeeds(g))
	s.doc.In(pdf.Table, func() {
		for i, row := range g.rows {
			if i > 1 && s.y+row.height > s.foot() && !s.measuring {
				s.newPage()
				s.apart = true
				s.doc.Apart(func() { s.drawRow(g, head, headAgain, s.y) })
				s.apart = false
				s.y += head.height
			}
			s.put(row.height, func(y float64) {
				kind := bodyRow
				if i == 0 {
					kind = headRow
				}
				s.doc.In(pdf.TR, func() { s.drawRow(g, row, kind, y) })
			})
		}
	})
	s.gap(2)
}

// lay lays a table out in the width of the page.
func (s *sheet) lay(n *tables.Table) laidTable {
	g := laidTable{align: n.Alignments}
	var cells [][][]span
	columns := 0
	for r := n.FirstChild(); r != nil; r = r.NextSibling() {
		var row [][]span
		style := regular
		if r.Kind() == tables.KindTableHeader {
			style = bold
		}
		for c := r.FirstChild(); c != nil; c = c.NextSibling() {
			row = append(row, s.spansOf(c, style))
		}
		cells, columns = append(cells, row), max(columns, len(row))
	}
	if columns == 0 {
		return laidTable{}
	}
	g.widths = s.columnWidths(cells, columns)
	for _, row := range cells {
		g.rows = append(g.rows, s.laidRow(row, g.widths))
	}
	return g
}

func (s *sheet) laidRow(row [][]span, widths []float64) tableRow {
	out := tableRow{height: s.line(body) + 2*cellDown}
	for i, width := range widths {
		var lines []textLine
		if i < len(row) {
			lines = s.setLines(row[i], body, width-2*cellAcross)
		}
		if len(lines) == 0 || isBlank(lines) {
			out.height = max(out.height, s.cellToFill())
		}
		out.cells = append(out.cells, lines)
		out.height = max(out.height, s.line(body)*float64(len(lines))+2*cellDown)
	}
	return out
}

// cellToFill is the least height of a cell that is written in.
func (s *sheet) cellToFill() float64 {
	if s.fit.terse {
		return cellTight
	}
	return cellToFill
}

// isBlank tells whether a cell has something to be written in.
func isBlank(lines []textLine) bool {
	for _, l := range lines {
		for _, p := range l {
			if p.value != nil && p.value.blank {
				return true
			}
		}
	}
	return false
}

// columnWidths gives each column what its text takes, and more to columns that are written in. Where that is too much,
// each keeps its widest word, and the rest is shared out by what they would need; if even those are too wide, words of
// the widest columns are parted.
func (s *sheet) columnWidths(cells [][][]span, columns int) []float64 {
	most, least, empty := make([]float64, columns), make([]float64, columns), make([]int, columns)
	sum, sumLeast, open := 0.0, 0.0, 0
	for i := range columns {
		for _, row := range cells {
			if i >= len(row) || len(row[i]) == 0 {
				empty[i]++
				continue
			}
			most[i] = max(most[i], s.widest([]textLine{row[i]}, body)+2*cellAcross+0.1)
			least[i] = max(least[i], s.widestWord(row[i], body)+2*cellAcross)
		}
		most[i] = max(most[i], 12)
		sum, sumLeast = sum+most[i], sumLeast+least[i]
		if empty[i]*2 > len(cells) {
			open++
		}
	}
	widths := make([]float64, columns)
	room := s.width()
	for i := range widths {
		switch {
		case sum <= room && open > 0 && empty[i]*2 > len(cells):
			widths[i] = most[i] + (room-sum)/float64(open)
		case sum <= room:
			widths[i] = most[i]
		case sumLeast < room && sum > sumLeast:
			widths[i] = least[i] + (room-sumLeast)*(most[i]-least[i])/(sum-sumLeast)
		}
	}
	if sumLeast >= room && sum > room {
		shareOut(widths, least, room)
	}
	return widths
}

// shareOut gives columns whose widest words together have no room what each needs, and to those that need more than
// their share the same.
func shareOut(widths, least []float64, room float64) {
	inOrder := slices.Clone(least)
	slices.Sort(inOrder)
	share := 0.0
	for i, need := range inOrder {
		if share = room / float64(len(inOrder)-i); need > share {
			break
		}
		room -= need
	}
	for i := range widths {
		widths[i] = min(least[i], share)
	}
}

// What a row is.
type rowKind int

const (
	bodyRow rowKind = iota
	headRow
	headAgain // on a further page, where it is not read once more
)

// drawRow draws a row from the top y. A head is shaded, and its cells are heads of columns.
func (s *sheet) drawRow(g laidTable, row tableRow, kind rowKind, y float64) {
	x := s.left()
	for i, lines := range row.cells {
		width := g.widths[i]
		s.doc.Apart(func() {
			s.doc.LineWidth(0.25)
			if kind != bodyRow {
				s.doc.Shade(232)
				s.doc.Rect(x, y, width, row.height, pdf.FillAnd)
				s.doc.Shade(0)
			} else {
				s.doc.Rect(x, y, width, row.height, pdf.Stroke)
			}
		})
		draw := func() {
			top := y + max(cellDown, (row.height-s.line(body)*float64(len(lines)))/2)
			for n, l := range lines {
				at := x + cellAcross
				if i < len(g.align) && g.align[i] == tables.AlignRight {
					at = x + width - cellAcross - s.widest([]textLine{l}, body)
				}
				s.drawLine(l, at, top+s.line(body)*float64(n), body)
			}
		}
		switch kind {
		case headRow:
			s.doc.In(pdf.TH, draw, pdf.Scope(pdf.Column))
		case bodyRow:
			s.doc.In(pdf.TD, draw)
		case headAgain:
			draw()
		}
		x += width
	}
}
