package worksheets

// A work block on paper: which statements have a row, which share one, and what rows begin with. The rows themselves
// are in given.go, amount.go, record.go, find.go, choose.go and inwords.go. Mentors' rows have the height of students',
// so that both editions have the same pages.

import (
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// Sizes of a row, in millimetres and points.
const (
	symbolWide = 18.0 // the strip for a row's symbol and what is to be done
	boxWidth   = 44.0 // of a box with its unit
	leastBox   = 40.0 // of one that shares a row
	boxHigh    = 10.0
	apart      = 5.0  // from one half of a row to the other
	digits     = 14.0 // points, of what is written into boxes
	small      = 8.5  // points, of what is said beside them
	soft       = 70   // its grey
)

// between is the gap below a row, less where the pages are full.
func (s *sheet) between() float64 {
	if s.isTight() {
		return 2.5
	}
	return 4
}

// isTight tells whether the pages are so full that what is nice to have gives way.
func (s *sheet) isTight() bool { return s.fit.room < 20 }

// A question is a statement that people see, with what there is to say of it.
type question struct {
	*lesson.Statement
	*work.Result
	text string // the prompt; "" if it is too long for a row and has been printed before
}

// A piece of a row has a height and is drawn from its top left corner.
type piece struct {
	height float64
	lines  int // of its prompt
	draw   func(x, y float64)
}

// block puts the statements of a work block that people see.
func (s *sheet) block(b *lesson.WorkBlock) {
	s.gap(1)
	for rest := s.questions(b); len(rest) > 0; {
		rest = rest[s.row(rest):]
	}
}

// questions are the statements that people see; the others are printed with what they belong to.
func (s *sheet) questions(b *lesson.WorkBlock) []question {
	var all []question
	for _, st := range b.Statements {
		if r := s.lesson.Of(st); !st.Broken && r != nil && !st.Kind.BelongsAbove() {
			all = append(all, question{st, r, st.Prompt})
		}
	}
	return all
}

// row puts the first of several questions, and those after it that share its row. It gives how many that were.
func (s *sheet) row(rest []question) int {
	if n := s.givens(rest); n > 0 {
		return n
	}
	if n := s.pair(rest); n > 0 {
		return n
	}
	s.one(rest[0])
	return 1
}

// one puts a question in a row of its own.
func (s *sheet) one(q question) {
	switch q.Kind {
	case lesson.Given, lesson.Measure, lesson.Predict:
		if s.inColumn() {
			s.piece(s.stacked(s.short(q, s.width()-symbolWide, mostLines)))
			return
		}
		s.piece(s.amount(s.short(q, s.width()-symbolWide-boxWidth-2, mostLines), s.width(), boxWidth))
	case lesson.Record:
		s.record(s.short(q, s.width()-symbolWide, mostLines/2))
	case lesson.Find:
		s.find(s.short(q, finds[len(finds)-1], mostLines/2))
	case lesson.Choose:
		s.choose(s.short(q, s.width()-symbolWide, mostLines))
	case lesson.Say:
		s.inWords(s.short(q, s.width()-symbolWide, mostLines))
	case lesson.Key, lesson.Slip, lesson.Listen: // questions has none
	}
}

// piece puts one, as a whole.
func (s *sheet) piece(p piece) {
	s.put(p.height, func(y float64) { p.draw(s.left(), y) })
}

// short prints a prompt that is too long for a row before it, over pages, so that the row is left without one.
func (s *sheet) short(q question, width float64, most int) question {
	s.font(regular, body)
	if len(s.wrap(q.text, width)) > most {
		s.paragraph(regular, body, symbolWide, q.text)
		q.text = ""
	}
	return q
}

// pair puts two boxes, or two short tables of runs, side by side if that takes less room than one below the other. It
// gives 0 if it has put nothing.
func (s *sheet) pair(rest []question) int {
	if len(rest) < 2 || s.inColumn() && rest[0].Kind != lesson.Record {
		return 0
	}
	half := (s.width() - apart) / 2
	made := func(q question, width, box float64) (piece, bool) {
		switch q.Kind {
		case lesson.Given, lesson.Measure, lesson.Predict:
			return s.amount(q, width, box), !s.isTold(q)
		case lesson.Record:
			return s.runs(q, width)
		case lesson.Find, lesson.Choose, lesson.Say, lesson.Key, lesson.Slip, lesson.Listen: // as wide as the page
		}
		return piece{}, false
	}
	a, fitsLeft := made(rest[0], half, s.narrowBox(rest[0]))
	b, fitsRight := made(rest[1], half, s.narrowBox(rest[1]))
	const most = 3 // lines of a prompt; more are hard to read in a narrow column
	alike := (rest[0].Kind == lesson.Record) == (rest[1].Kind == lesson.Record)
	if !fitsLeft || !fitsRight || !alike || max(a.lines, b.lines) > most {
		return 0
	}
	wideA, _ := made(rest[0], s.width(), boxWidth)
	wideB, _ := made(rest[1], s.width(), boxWidth)
	height := max(a.height, b.height)
	if height >= wideA.height+wideB.height {
		return 0
	}
	s.put(height, func(y float64) {
		a.draw(s.left(), y)
		b.draw(s.left()+half+apart, y)
	})
	return 2
}

// narrowBox is how wide the box of one of two in a row is: where there is hardly room, as wide as a number of five
// digits needs beside its unit.
func (s *sheet) narrowBox(q question) float64 {
	const digits = 17.0
	if !s.fit.terse {
		return leastBox
	}
	s.font(bold, body)
	return min(leastBox, digits+s.doc.Width(printable(s.unit(q.Asked()))))
}

// asked is what a row begins with, laid out: symbol, what to do, and the prompt beside them.
type asked struct {
	symbol  box
	above   []string // a symbol too long for its strip, over the prompt
	kind    []string
	lines   []string
	line    float64 // height of a line of the prompt
	height  float64 // of the whole
	isAlone bool    // there is no symbol: what is said has none
}

const smallLine = small * point * 1.2

// asked lays the beginning of a row out, its prompt in a width.
func (s *sheet) asked(q question, width float64) asked {
	a := asked{isAlone: q.Kind == lesson.Say || q.Kind == lesson.Choose}
	if !a.isAlone {
		a.symbol = s.symbol(q.Name)
	}
	if a.symbol.width > symbolWide-2 {
		s.font(bold, small)
		a.symbol, a.above = box{}, s.wrap(q.Name, symbolWide+width)
		a.isAlone = true
	}
	s.font(regular, small)
	a.kind = s.wrap(s.kindOf(q), symbolWide-2)
	a.line = s.font(regular, body)
	a.lines = s.wrap(q.text, width)
	column := smallLine * float64(len(a.kind))
	if !a.isAlone {
		column += a.line
	}
	if q.Kind == lesson.Record { // what to do goes on beside the table
		column = min(column, a.line)
	}
	a.height = max(a.line*float64(len(a.lines)), column) + smallLine*float64(len(a.above))
	return a
}

// symbol sets a name as formulas have it, smaller if it is a long one.
func (s *sheet) symbol(name string) box {
	var b box
	for size := body + 1; size >= small; size -= 0.5 {
		if b = (setter{s.doc, size}).set(quantity.SymbolOf(name)); b.width <= symbolWide-2 {
			break
		}
	}
	return b
}

// kindOf is what to do, as the page says it.
func (s *sheet) kindOf(q question) string {
	if unit := s.unit(q.Unit()); q.Kind == lesson.Record && unit != "" {
		return s.say("record-in", unit)
	}
	return s.say(string(q.Kind))
}

// ask draws the beginning of a row from the top left corner.
func (s *sheet) ask(a asked, x, y float64) {
	s.font(bold, small)
	s.lines(x, y, a.above, smallLine)
	y += smallLine * float64(len(a.above))
	first := y + a.line*0.76 // the base line of the prompt, and of the symbol
	low := y + a.line
	if a.isAlone {
		low = first - small*point*0.76
	}
	s.font(regular, small)
	s.doc.Shade(soft)
	s.lines(x, low, a.kind, smallLine)
	s.doc.Shade(0)
	if !a.isAlone {
		a.symbol.draw(x, first)
		s.font(regular, body) // italic has no blank
		s.doc.Text(x+a.symbol.width, first, " ")
	}
	s.font(regular, body)
	s.lines(x+symbolWide, y, a.lines, a.line)
}

// nameOf is how a box is called by who cannot see it: its prompt, or its symbol if that has been said before.
func (s *sheet) nameOf(q question) string {
	if q.Kind == lesson.Say || q.Kind == lesson.Choose {
		return q.Prompt
	}
	return strings.TrimSpace(quantity.SymbolOf(q.Name).Text())
}
