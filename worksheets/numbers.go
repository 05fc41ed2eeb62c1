package worksheets

// Tables of numbers: what the runs of a file come to, the points of a choice.

import (
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site/figure"
	"trundle/worksheets/pdf"
)

const (
	headText   = 9.0
	secondText = 9.0 // of the second line of a cell
	cellSide   = 1.5 // free at each side of a cell's text, in millimetres
	cellAbove  = 1.0
)

// ownColumns adds to the table of a choice empty columns for what a team thinks.
func (s *sheet) ownColumns(d *work.Data, t figure.Numbers) figure.Numbers {
	if d.Name != lesson.CompareBlock {
		return t
	}
	t.Heads = append(t.Heads[:len(t.Heads):len(t.Heads)], s.say("compare-own-weight"), s.say("compare-own-points"))
	rows := make([][]string, len(t.Rows))
	for i, row := range t.Rows {
		rows[i] = append(row[:len(row):len(row)], "", "")
	}
	t.Rows = rows
	return t
}

// numbers puts a table and what is said of it; other is the same of the other edition, so that both are laid out alike.
func (s *sheet) numbers(t, other figure.Numbers) {
	widths := s.columns(t, other)
	line := s.font(bold, cellText)
	caption := short(s.wrap(t.Caption, s.width()), 2)
	head := s.headHeight(t.Heads, widths)
	s.gap(2)
	s.keep(t, other, line*float64(len(caption))+head)
	s.doc.In(pdf.Table, func() {
		first := 0.0 // of the rows, so that no head ends a page
		if len(t.Rows) > 0 {
			first = s.rowHeight(t.Rows[0], other.Rows[0])
		}
		s.put(line*float64(len(caption))+head+first, func(y float64) {
			s.doc.In(pdf.Caption, func() {
				s.font(bold, cellText)
				s.lines(s.left(), y, caption, line)
			})
			s.heads(t.Heads, widths, y+line*float64(len(caption)), head)
		})
		s.y -= first
		for i, row := range t.Rows {
			height := s.rowHeight(row, other.Rows[i])
			s.put(height, func(y float64) { s.numbersRow(row, widths, y, height) })
		}
	})
	s.sentences(saidOf(t), saidOf(other), " ")
}

// keep makes sure that a short table is on one page; above is the height of its caption and heads.
func (s *sheet) keep(t, other figure.Numbers, above float64) {
	for i, row := range t.Rows {
		above += s.rowHeight(row, other.Rows[i])
	}
	if above < (s.foot()-Margin)/3 {
		s.need(above)
	}
}

// saidOf is what a sheet says below a table.
func saidOf(t figure.Numbers) []string {
	if t.Brief != nil {
		return slices.Concat(t.Look, t.Brief)
	}
	return slices.Concat(t.Look, t.Says)
}

// cell is a cell's text in lines.
func cell(text string) []string {
	lines := strings.Split(figure.Written(text, hiddenNumber), "\n")
	for i, l := range lines {
		lines[i] = printable(l)
	}
	return lines
}

// columns are the widths of a table's columns: each as wide as its numbers and the longest word of its head, the rest
// shared among heads that are longer.
func (s *sheet) columns(t, other figure.Numbers) []float64 {
	widths := make([]float64, len(t.Heads))
	for _, table := range []figure.Numbers{t, other} {
		for _, row := range table.Rows {
			for i, text := range row {
				for n, l := range cell(text) {
					s.cellFont(i, n)
					widths[i] = max(widths[i], s.doc.Width(l)+2*cellSide)
				}
			}
		}
	}
	s.font(bold, headText)
	wanted, free := make([]float64, len(widths)), s.width()
	for i, head := range t.Heads {
		for word := range strings.FieldsSeq(head) {
			widths[i] = max(widths[i], s.doc.Width(printable(word))+2*cellSide)
		}
		wanted[i] = max(0, s.doc.Width(printable(head))+2*cellSide-widths[i])
		free -= widths[i]
	}
	return s.shared(widths, wanted, free)
}

// shared gives columns of what is free what they want, or as much of it as there is. What does not fit is made narrower
// alike.
func (s *sheet) shared(widths, wanted []float64, free float64) []float64 {
	sum, all := 0.0, 0.0
	for i := range widths {
		sum, all = sum+wanted[i], all+widths[i]
	}
	for i := range widths {
		switch {
		case free < 0:
			widths[i] *= s.width() / all
		case sum > 0:
			widths[i] += wanted[i] * min(1, free/sum)
		}
	}
	return widths
}

// cellFont sets the type of a cell's line and gives its height.
func (s *sheet) cellFont(column, line int) float64 {
	switch {
	case line > 0:
		return s.font(regular, secondText)
	case column == 0:
		return s.font(bold, cellText)
	}
	return s.font(regular, cellText)
}

// headHeight is the height of a row of heads.
func (s *sheet) headHeight(heads []string, widths []float64) float64 {
	line, most := s.font(bold, headText), 1
	for i, h := range heads {
		most = max(most, len(s.wrap(h, widths[i]-2*cellSide)))
	}
	return line*float64(most) + 2*cellAbove
}

// heads draws a table's first row.
func (s *sheet) heads(heads []string, widths []float64, y, height float64) {
	s.doc.In(pdf.TR, func() {
		x := s.left()
		for i, h := range heads {
			s.framed(x, y, widths[i], height)
			s.doc.In(pdf.TH, func() {
				line := s.font(bold, headText)
				s.lines(x+cellSide, y+cellAbove, s.wrap(h, widths[i]-2*cellSide), line)
			}, pdf.Scope(pdf.Column))
			x += widths[i]
		}
	})
}

// framed draws a cell's frame, which is nothing to read.
func (s *sheet) framed(x, y, w, h float64) {
	s.doc.Apart(func() {
		s.doc.LineWidth(0.2)
		s.doc.Ink(90)
		s.doc.Rect(x, y, w, h, pdf.Stroke)
		s.doc.Ink(0)
	})
}

// rowHeight is how high a row is in both editions.
func (s *sheet) rowHeight(row, other []string) float64 {
	high := 0.0
	for _, cells := range [][]string{row, other} {
		for i, text := range cells {
			sum := 2 * cellAbove
			for n := range cell(text) {
				sum += s.cellFont(i, n)
			}
			high = max(high, sum)
		}
	}
	return high
}

// numbersRow draws a row whose first cell is its head.
func (s *sheet) numbersRow(row []string, widths []float64, y, height float64) {
	s.doc.In(pdf.TR, func() {
		x := s.left()
		for i, text := range row {
			tag, detail := pdf.TD, func(*pdf.Element) {}
			if i == 0 {
				tag, detail = pdf.TH, pdf.Scope(pdf.Row)
			}
			s.framed(x, y, widths[i], height)
			s.doc.In(tag, func() {
				top := y + cellAbove
				for n, l := range cell(text) {
					line := s.cellFont(i, n)
					s.lines(x+cellSide, top, []string{l}, line)
					top += line
				}
			}, detail)
			x += widths[i]
		}
	})
}
