package worksheets

// Tables for the runs that a team records, and a strip of tape below them for a dot a run.

import (
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Sizes of a table of runs, in millimetres.
const (
	runWidth  = 17.0 // least width of a cell
	runWidest = 28.0
	runHead   = 5.5
	runHigh   = 10.0
	stripHigh = 10.0
)

// A runTable is a record laid out in a width.
type runTable struct {
	asked
	cells  int // the runs, and their mean where nobody is asked for it
	perRow int // in as few rows as will do, and those as full as each other
	rows   int
	width  float64 // of a cell
}

func (s *sheet) runTable(q question, width float64) runTable {
	t := runTable{asked: s.asked(q, width-symbolWide), cells: len(q.Numbers)}
	if s.hasMeanBox(q) {
		t.cells++
	}
	most := max(int((width-symbolWide+0.01)/runWidth), 1)
	t.rows = int(math.Ceil(float64(t.cells) / float64(most)))
	t.perRow = int(math.Ceil(float64(t.cells) / float64(t.rows)))
	t.width = min((width-symbolWide)/float64(t.perRow), runWidest)
	return t
}

// hasMeanBox tells whether the mean has a box in the table: not if a find asks for it, and not of places that follow
// each other, whose mean is where nothing ever was.
func (s *sheet) hasMeanBox(q question) bool {
	if q.InOrder {
		return false
	}
	for _, f := range s.lesson.Fields {
		call, ok := f.Statement.Expr.(*quantity.Call)
		if !ok || f.Statement.Kind != lesson.Find || call.Name != "mean" || len(call.Args) != 1 {
			continue
		}
		if n, ok := call.Args[0].(*quantity.Name); ok && n.Text == q.Name {
			return false
		}
	}
	return true
}

// runs lays a record out as one piece. It is false if its runs take several rows.
func (s *sheet) runs(q question, width float64) (piece, bool) {
	t := s.runTable(q, width)
	strip := s.stripRoom(q)
	height := t.height + 1 + runHead + runHigh + strip + s.between()
	return piece{height, len(t.lines), func(x, y float64) {
		s.doc.In(pdf.Sect, func() {
			s.doc.In(pdf.P, func() { s.ask(t.asked, x, y) })
			s.band(q, t, 0, x, y+t.height+1)
			if strip > 0 {
				s.strip(q, x, y+t.height+runHead+runHigh+2, width)
			}
		})
	}}, t.rows == 1
}

// record puts a table of runs; many take several rows, which may be on several pages.
func (s *sheet) record(q question) {
	if p, ok := s.runs(q, s.width()); ok {
		s.piece(p)
		return
	}
	t := s.runTable(q, s.width())
	s.doc.In(pdf.Sect, func() {
		for row := range t.rows {
			height := runHead + runHigh + 2
			if row == 0 {
				height += t.height + 1
			}
			s.put(height, func(y float64) {
				if row == 0 {
					s.doc.In(pdf.P, func() { s.ask(t.asked, s.left(), y) })
					y += t.height + 1
				}
				s.band(q, t, row, s.left(), y)
			})
		}
		if room := s.stripRoom(q); room > 0 {
			s.put(room, func(y float64) { s.strip(q, s.left(), y, s.width()) })
		}
	})
	s.gap(s.between())
}

// band draws a row of runs under their numbers.
func (s *sheet) band(q question, t runTable, row int, x, y float64) {
	from, to := row*t.perRow, min((row+1)*t.perRow, t.cells)
	at := func(i int) float64 { return x + symbolWide + float64(i-from)*t.width }
	s.doc.Apart(func() {
		s.doc.Shade(236)
		s.doc.LineWidth(0.25)
		for i := from; i < to; i++ {
			s.doc.Rect(at(i), y, t.width, runHead, pdf.FillAnd)
		}
		s.doc.Shade(0)
	})
	s.doc.In(pdf.Table, func() {
		s.doc.In(pdf.TR, func() {
			for i := from; i < to; i++ {
				s.doc.In(pdf.TH, func() {
					s.centred(regular, labelSize, s.runName(q, i), at(i), y+runHead*0.72, t.width)
				}, pdf.Scope(pdf.Column))
			}
		})
		s.doc.In(pdf.TR, func() {
			for i := from; i < to; i++ {
				s.doc.In(pdf.TD, func() { s.run(q, i, at(i), y+runHead, t.width) })
			}
		})
	})
}

// runName heads the column of a run, or of the mean after the last one.
func (s *sheet) runName(q question, i int) string {
	if i == len(q.Numbers) {
		return s.say("mean")
	}
	return s.say("run-number", i+1)
}

// run draws the box of a run. Its unit is said once, beside the table.
func (s *sheet) run(q question, i int, x, y, width float64) {
	s.doc.In(pdf.Form, func() {
		s.doc.LineWidth(0.35)
		s.doc.Rect(x, y, width, runHigh, pdf.Stroke)
		if !s.mentors {
			return
		}
		text := q.MeanText()
		if i < len(q.Texts) {
			text = strings.Replace(q.Texts[i], "-", quantity.Minus, 1)
		}
		s.fill(s.number(text), regular, x+1, y, width-2, runHigh)
	}, pdf.Alt(s.boxFor(entry{about: s.nameOf(q) + ", " + s.runName(q, i), unit: s.unit(q.Unit())})))
}

// centred writes a text in the middle of a width.
func (s *sheet) centred(style pdf.Style, size float64, text string, x, y, width float64) {
	s.font(style, size)
	text = printable(text)
	s.doc.Text(x+(width-s.doc.Width(text))/2, y, text)
}

// stripRoom is how high the strip of tape below a table is, with the gap above it; 0 if there is none: the lesson has a
// figure of these runs, or the pages are full.
func (s *sheet) stripRoom(q question) float64 {
	if q.Unit() == "" || s.isTight() || s.isDrawn(q.Name) {
		return 0
	}
	return stripHigh + 2
}

// isDrawn tells whether a figure of the lesson has the runs of a record.
func (s *sheet) isDrawn(record string) bool {
	for _, d := range s.lesson.Data {
		for _, f := range d.Figures {
			for _, v := range f.Values {
				if v.Record == record {
					return true
				}
			}
		}
	}
	return false
}

// strip draws a tape without numbers for a dot a run. In the middle is zero if runs go to both sides, else what the
// lesson tells students to aim at.
func (s *sheet) strip(q question, x, y, width float64) {
	middle := s.mark(q)
	about := s.say("strip-of", s.nameOf(q), s.unit(q.Unit()))
	if middle != "" {
		about = s.say("strip-mark", s.nameOf(q), s.unit(q.Unit()), middle)
	}
	s.font(regular, small)
	s.doc.Shade(soft)
	s.doc.In(pdf.P, func() {
		s.lines(x, y, s.wrap(s.say("dot-each-run"), symbolWide-2), smallLine)
	})
	s.doc.Shade(0)
	x, width = x+symbolWide, width-symbolWide
	s.doc.In(pdf.Figure, func() {
		s.tape(x, y, width, stripHigh, s.unit(q.Unit()))
		if middle == "" {
			return
		}
		s.middle(x+width/2, y, stripHigh, middle)
		if middle == zero {
			s.sides(x, y, width)
		}
	}, pdf.Alt(about), s.doc.Around(x, y, width, stripHigh))
}

const zero = "0"

// mark is what stands at the middle of a record's tape: zero, or a place that the lesson gives to students; "" if
// nothing does.
func (s *sheet) mark(q question) string {
	if s.goesToBothSides(q) {
		return zero
	}
	field := s.field(q.Statement)
	if field == nil {
		return ""
	}
	if number, _, _ := strings.Cut(field.Mark, " "); number == zero {
		return zero
	}
	return field.Mark
}

// goesToBothSides tells whether readings have signs, or could have for another team: those of the lesson come nearer to
// zero than to each other.
func (s *sheet) goesToBothSides(q question) bool {
	least, most := slices.Min(q.Numbers), slices.Max(q.Numbers)
	return least < most-least && !s.lesson.Plain(q.Statement)
}

func (s *sheet) field(st *lesson.Statement) *work.Field {
	for _, f := range s.lesson.Fields {
		if f.Statement == st {
			return f
		}
	}
	return nil
}

// middle draws a bold mark across a tape, its text at its foot.
func (s *sheet) middle(x, y, high float64, text string) {
	s.doc.LineWidth(0.7)
	s.doc.Line(x, y, x, y+high)
	s.font(bold, labelSize)
	s.doc.Text(x+1.2, y+high-1.5, printable(text))
}

// sides tells minus from plus.
func (s *sheet) sides(x, y, width float64) {
	s.font(bold, 11)
	s.doc.Text(x+width*0.25, y+stripHigh-1.5, quantity.Minus)
	s.doc.Text(x+width*0.75, y+stripHigh-1.5, "+")
}
