package worksheets

// The statements of a work block on paper: prompts, boxes, tables for runs, room to work, and for mentors the key with
// its steps. How formulas are set is in formula.go.

import (
	"cmp"
	"math"
	"strconv"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Where the parts of a question stand, in millimetres from the left margin.
const (
	promptAt = 20 // behind the symbol
	boxWidth = 44 // of a box with its unit
	boxHigh  = 9
	between  = 3
	roomHigh = 25 // squared paper to work on
)

// block puts the statements of a work block that people see, each as a whole.
func (s *sheet) block(b *lesson.WorkBlock) {
	s.gap(1)
	for _, st := range b.Statements {
		r := s.lesson.Of(st)
		if st.Broken || r == nil {
			continue
		}
		switch st.Kind {
		case lesson.Given, lesson.Measure, lesson.Predict:
			s.amount(st, r)
		case lesson.Record:
			s.record(st, r)
		case lesson.Find:
			s.find(st, r)
		case lesson.Say:
			s.inWords(st)
		case lesson.Key, lesson.Slip, lesson.Listen: // they are printed with what they belong to
		}
	}
}

// asked is a prompt laid out beside its symbol.
type asked struct {
	symbol box
	lines  []string
	line   float64 // height of a line
	height float64 // of the whole
}

// asked lays a prompt out in a width. A very long one is drawn straight away, over pages, and only the box is left.
func (s *sheet) asked(st *lesson.Statement, width float64) asked {
	a := asked{symbol: setter{s.doc, 12}.set(quantity.SymbolOf(st.Name))}
	a.line = s.font(regular, 10)
	text := s.say(string(st.Kind)) + ": " + st.Prompt
	if st.Prompt == "" {
		text = s.say(string(st.Kind))
	}
	a.lines = wrap(s.doc, text, width-promptAt)
	if len(a.lines) > mostLines {
		s.paragraph(regular, 10, promptAt, text)
		a.lines = nil
	}
	a.height = a.line * float64(len(a.lines))
	if a.symbol.width > promptAt-2 { // a long name stands above its prompt
		a.height += a.line
	}
	return a
}

// ask draws a prompt from the top y.
func (s *sheet) ask(a asked, y float64) {
	a.symbol.draw(s.left(), y+a.line*0.78)
	if a.symbol.width > promptAt-2 {
		y += a.line
	}
	s.font(regular, 10)
	s.lines(s.left()+promptAt, y, a.lines, a.line)
}

// box draws a box to write in, its unit at its end.
func (s *sheet) box(x, y, width float64, unit string) {
	s.doc.LineWidth(0.35)
	s.doc.Rect(x, y, width, boxHigh, pdf.Stroke)
	if unit == "" {
		return
	}
	s.font(bold, 10)
	unit = printable(unit)
	s.doc.Text(x+width-s.doc.Width(unit)-2, y+boxHigh*0.66, unit)
}

// value writes a value that the reader is given, against the right margin.
func (s *sheet) value(y float64, text string) {
	s.font(bold, 11)
	text = printable(text)
	s.doc.Text(s.right()-s.doc.Width(text), y+4, text)
}

// amount puts a given with its value, a measure with a box, or a prediction with a dashed one.
func (s *sheet) amount(st *lesson.Statement, r *work.Result) {
	told := ""
	switch {
	case s.mentors && r.Guessed:
		told = s.say("guessed-" + string(st.Kind))
	case st.Kind == lesson.Given && (!r.OfStudents || s.mentors):
		told = r.Text()
	case s.mentors:
		told = s.say("sample") + " " + r.Text()
	}
	s.font(bold, 11)
	room := min(max(boxWidth, s.doc.Width(printable(told))), s.width()/2)
	a := s.asked(st, s.width()-room-between)
	height := max(a.height, boxHigh) + between
	s.put(height, func(y float64) {
		s.ask(a, y+1)
		if told != "" {
			s.value(y+1, told)
			return
		}
		if st.Kind == lesson.Predict {
			s.doc.Dashes(1.4, 1.1)
			defer s.doc.Dashes()
		}
		s.box(s.right()-boxWidth, y, boxWidth, r.Unit())
	})
}

// inWords puts a question with lines to write on, or for mentors what to listen for. What is said has no symbol.
func (s *sheet) inWords(st *lesson.Statement) {
	const answers, apart = 3, 7.5 // lines, and millimetres from one to the next
	height := s.font(regular, 10)
	prompt := wrap(s.doc, s.say(string(st.Kind))+": "+st.Prompt, s.width())
	room := apart * answers
	if s.mentors {
		room = 0
	}
	s.put(height*float64(len(prompt))+room, func(y float64) {
		s.font(regular, 10)
		s.lines(s.left(), y, prompt, height)
		for line := apart; line <= room; line += apart {
			s.writing(s.left(), s.right(), y+height*float64(len(prompt))+line)
		}
	})
	if s.mentors {
		for _, l := range st.Listens {
			s.paragraph(regular, 8.5, promptAt, s.say(string(l.Kind))+": "+l.Prompt)
		}
	}
	s.gap(between + 2)
}

// runWidth is the least width of a run's cell.
const runWidth = 17

// record puts a table with room for the runs and their mean; many runs take several rows.
func (s *sheet) record(st *lesson.Statement, r *work.Result) {
	a := s.asked(st, s.width())
	unit := r.Unit()
	perRow := int(s.width()-promptAt) / runWidth
	cells := len(st.Numbers) + 1 // and the mean
	if st.InOrder {              // whose mean is where nothing ever was
		cells--
	}
	// As few rows as will do, and those as full as each other.
	rows := int(math.Ceil(float64(cells) / float64(perRow)))
	perRow = int(math.Ceil(float64(cells) / float64(rows)))
	width := min((s.width()-promptAt)/float64(perRow), 28)
	const head, cell = 5.5, 9.0
	for row := range rows {
		height := head + cell + 2
		if row == 0 {
			height += a.height + 2
		}
		if row == rows-1 {
			height += between
		}
		s.put(height, func(y float64) {
			if row == 0 {
				s.ask(a, y+1)
				y += a.height + 2
			}
			for i := row * perRow; i < min((row+1)*perRow, cells); i++ {
				x := s.left() + promptAt + float64(i%perRow)*width
				s.cell(st, r, i, x, y, width, head, cell)
			}
			if row == 0 && unit != "" {
				s.font(bold, 9)
				s.doc.Text(s.left()+promptAt-s.doc.Width(unit)-2, y+head+cell*0.62, printable(unit))
			}
		})
	}
}

// cell draws a run's cell, or the mean's behind the last run.
func (s *sheet) cell(st *lesson.Statement, r *work.Result, i int, x, y, width, head, cell float64) {
	label := s.say("run") + " " + strconv.Itoa(i+1)
	if i == len(st.Numbers) {
		label = s.say("mean")
	}
	s.doc.Shade(236)
	s.doc.LineWidth(0.25)
	s.doc.Rect(x, y, width, head, pdf.FillAnd)
	s.doc.Rect(x, y+head, width, cell, pdf.Stroke)
	s.centred(regular, 8.5, label, x, y+head*0.72, width)
	if !s.mentors {
		return
	}
	text := r.MeanText()
	if i < len(st.Texts) {
		text = st.Texts[i]
	}
	s.centred(regular, 10, text, x, y+head+cell*0.65, width)
}

// centred writes a text in the middle of a width.
func (s *sheet) centred(style pdf.Style, size float64, text string, x, y, width float64) {
	s.font(style, size)
	text = printable(text)
	s.doc.Text(x+(width-s.doc.Width(text))/2, y, text)
}

// find puts room to work and a box for the answer, or the key with its steps.
func (s *sheet) find(st *lesson.Statement, r *work.Result) {
	a := s.asked(st, s.width())
	if s.mentors {
		s.answer(a, st, r)
		return
	}
	s.put(a.height+2+roomHigh+between, func(y float64) {
		s.ask(a, y+1)
		y += a.height + 2
		// Whole squares only.
		width := math.Floor((s.width()-promptAt-boxWidth-between)/5) * 5
		s.squared(s.left()+promptAt, y, width, roomHigh)
		s.box(s.right()-boxWidth, y+roomHigh-boxHigh, boxWidth, r.Unit())
	})
}

// answer puts what a mentor needs: the key, the steps, the slips to expect.
func (s *sheet) answer(a asked, st *lesson.Statement, r *work.Result) {
	result := r.Text()
	if r.Guessed {
		result = s.say("guessed-" + string(st.Kind))
	}
	if r.Key != nil {
		result = s.say("key") + " " + r.Key.Text()
	}
	var steps []box
	height := a.height + 3
	for _, line := range r.Steps {
		b := s.step(line)
		steps = append(steps, b)
		height += b.height() + 1.2
	}
	together := steps
	if height > s.foot()-Margin { // longer than a page: the steps may be parted
		together, height = nil, a.height+10
	}
	s.put(height, func(y float64) {
		s.ask(a, y+1)
		y += a.height + 2
		s.value(y, result)
		for _, b := range together {
			b.draw(s.left()+promptAt, y+b.up)
			y += b.height() + 1.2
		}
	})
	for _, b := range steps[len(together):] {
		s.put(b.height()+1.2, func(y float64) { b.draw(s.left()+promptAt, y+b.up) })
	}
	for _, slip := range st.Slips {
		s.paragraph(regular, 8.5, promptAt, cmp.Or(s.lesson.Of(slip).Text(), slip.Expr.String())+": "+slip.Prompt)
	}
	s.gap(between)
}

// step sets a line of a worked calculation, smaller if it is too wide, at worst as text.
func (s *sheet) step(line quantity.WorkedStep) box {
	parts := []quantity.Math{quantity.Sign{Sign: line.Relation}, line.Right}
	if line.Left != nil {
		parts = append([]quantity.Math{line.Left}, parts...)
	}
	indent := 0.0
	if line.Kind == quantity.ConversionStep {
		indent = 6
	}
	room := s.width() - promptAt - boxWidth - indent
	var b box
	for size := 10.0; size >= 5; size -= 0.5 {
		if b = (setter{s.doc, size}).set(quantity.Row{Parts: parts}); b.width <= room {
			break
		}
	}
	if b.width > room {
		b = s.textStep(line.Text(), room)
	}
	return beside(box{indent, 0, 0, func(float64, float64) {}}, b)
}

// textStep sets a step as plain text in lines, where no size of type makes the formula fit.
func (s *sheet) textStep(text string, room float64) box {
	height := s.font(regular, 8)
	lines := wrap(s.doc, text, room)
	return box{room, height, height * float64(len(lines)-1), func(x, y float64) {
		s.font(regular, 8)
		s.lines(x, y-height*0.76, lines, height)
	}}
}
