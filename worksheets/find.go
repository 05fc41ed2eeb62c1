package worksheets

// Rows of what is worked out: the prompt and the formula of its kind, and beside them squares to work on with the box
// for the answer at their foot. Mentors find the key in the box, and worked steps in place of the squares.

import (
	"cmp"
	"math"
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/worksheets/pdf"
)

// finds are the widths that a prompt may have beside its squares, and squareSide is that of a square.
var finds = []float64{58, 70, 82, 94}

const squareSide = 5.0

// A findRow is laid out for students. What mentors read has to fit in.
type findRow struct {
	asked
	width   float64 // of the prompt
	formula piece
	said    string  // the formula in one line
	fits    bool    // the formula has room in one line of a size that is easy to read
	text    float64 // height of prompt and formula
	height  float64
}

// find puts a row in the narrowest of the prompt's widths in which its formula has room and it is no higher than its
// squares should be, else in that in which it is lowest.
func (s *sheet) find(q question) {
	if s.inColumn() {
		s.narrowFind(q)
		return
	}
	best := findRow{height: math.Inf(1)}
	for _, width := range finds {
		r := s.findRow(q, width)
		if r.height < best.height || r.fits && !best.fits {
			best = r
		}
		if best.fits && best.height <= s.fit.room {
			break
		}
	}
	s.put(best.height+s.between(), func(y float64) {
		s.doc.In(pdf.Sect, func() { s.drawFind(q, best, y) })
	})
}

// findIn is a row whose prompt has a width, and is printed in the row or above it.
type findIn struct {
	of    *lesson.Statement
	above bool
	width float64
}

// findSize is what matters of a row that is not drawn.
type findSize struct {
	fits bool
	text float64
}

func (s *sheet) findRow(q question, width float64) findRow {
	var r findRow
	if s.doc.IsDraft() {
		size := kept(s.remembered().finds, findIn{q.Statement, q.text == "", width}, func() findSize {
			laid := s.laidFind(q, width)
			return findSize{laid.fits, laid.text}
		})
		r = findRow{width: width, fits: size.fits, text: size.text}
	} else {
		r = s.laidFind(q, width)
	}
	const over = 1.2 // what a text may reach into the gap below
	r.height = max(s.fit.room, math.Ceil((r.text-over)/squareSide)*squareSide)
	return r
}

// laidFind lays a row out but for its height.
func (s *sheet) laidFind(q question, width float64) findRow {
	const most, least = 10.5, 9 // points
	r := findRow{asked: s.asked(q, width), width: width, fits: true}
	r.text = r.asked.height
	if step, ok := quantity.RelationOf(q.Expr); ok {
		step = quantity.StepIn(s.about.Forms, step)
		r.said = step.Text()
		var b box
		b, r.fits = s.fitted(step, width, most, least)
		r.formula = piece{height: b.height() + 1, draw: func(x, y float64) { b.draw(x, y+0.7+b.up) }}
		beside := r.line*float64(len(r.lines)) + smallLine*float64(len(r.above)) + r.formula.height
		r.text = max(r.text, beside)
	}
	return r
}

// drawFind draws a row from the top y.
func (s *sheet) drawFind(q question, r findRow, y float64) {
	x := s.left() + symbolWide
	s.doc.In(pdf.P, func() { s.ask(r.asked, s.left(), y) })
	top := y + r.line*float64(len(r.lines)) + smallLine*float64(len(r.above))
	if r.said != "" {
		s.doc.In(pdf.Formula, func() { r.formula.draw(x, top) }, pdf.Alt(r.said), pdf.Actual(r.said))
	}
	width := math.Floor((s.right()-x-r.width-3)/squareSide) * squareSide
	left := s.right() - width
	s.doc.Apart(func() { s.ground(place{left, y, width, r.height}, s.mentors && len(q.Steps) > 0) })
	box := min(boxWidth, width)
	s.box(s.right()-box, y+r.height-boxHigh, box, boxHigh, s.answer(q))
	if s.mentors {
		s.working(q, place{left, y, width, r.height}, box)
		s.slipsBelow(q, r, y)
	}
}

// ground is what there is to work on: squares, or a frame alone where something is printed on it.
func (s *sheet) ground(at place, plain bool) {
	if !plain {
		s.squared(at.X, at.Y, at.Width, at.Height)
		return
	}
	s.doc.LineWidth(0.1)
	s.doc.Ink(120)
	s.doc.Rect(at.X, at.Y, at.Width, at.Height, pdf.Stroke)
	s.doc.Ink(0)
}

// answer is what stands in a find's box: for mentors the key, else what the lesson's own numbers come to.
func (s *sheet) answer(q question) entry {
	e := entry{about: s.nameOf(q), unit: s.unit(q.Asked()), style: bold}
	switch {
	case !s.mentors:
	case q.Key != nil:
		e.value = s.number(q.Key.Amount())
	case q.Guessed:
		e.value, e.style = s.say("guessed-"+string(q.Kind)), regular
	default:
		e.value, e.style = s.number(q.Text()), regular
	}
	return e
}

// givesWay are the steps that are left out first where there is no room for all. The last one always has room.
var givesWay = []quantity.StepKind{
	quantity.ConversionStep, quantity.ResultStep, quantity.FormulaStep, quantity.NumbersStep,
}

// working writes the steps of a find where students have squares, as many as have room.
func (s *sheet) working(q question, at place, answer float64) {
	if len(q.Steps) == 0 {
		return
	}
	steps := make([]quantity.WorkedStep, len(q.Steps))
	for i, step := range q.Steps {
		steps[i] = quantity.StepIn(s.about.Forms, step)
	}
	for ; ; steps = without(steps) {
		for _, size := range []float64{9.5, 8.5, 7.5} {
			least := size == 7.5
			if least && hasMore(steps) { // rather fewer than so small
				continue
			}
			if lines, ok := s.stepsIn(steps, size, at, answer); ok || least && len(steps) == 1 {
				for _, draw := range lines {
					draw()
				}
				return
			}
		}
	}
}

// hasMore tells whether there are steps that may well be left out.
func hasMore(steps []quantity.WorkedStep) bool {
	return slices.ContainsFunc(steps[:len(steps)-1], func(s quantity.WorkedStep) bool {
		return s.Kind == quantity.ConversionStep || s.Kind == quantity.ResultStep
	})
}

// without leaves one step out, never the last. What the steps begin with stays.
func without(steps []quantity.WorkedStep) []quantity.WorkedStep {
	last := len(steps) - 1
	for _, kind := range givesWay {
		for i := last - 1; i >= 0; i-- {
			if steps[i].Kind == kind {
				left := steps[0].Left
				steps = slices.Delete(steps, i, i+1)
				if !isAside(steps[0]) {
					steps[0].Left = left
				}
				return steps
			}
		}
	}
	return steps[max(last, 0):]
}

// stepsIn lays steps out in a place, side by side like text, the lower ones beside the answer's box. It is false if
// they have no room. A conversion is an aside, and has a line of its own.
func (s *sheet) stepsIn(steps []quantity.WorkedStep, size float64, at place, answer float64) (draw []func(), ok bool) {
	y, ok := at.Y+0.8, true
	for from := 0; from < len(steps); {
		line, n := s.stepBox(steps[from], size), 1
		room := func(high float64) float64 {
			if y+high > at.Y+at.Height-boxHigh {
				return at.Width - 3 - answer
			}
			return at.Width - 3
		}
		boxes := []box{line}
		for from+n < len(steps) && !isAside(steps[from+n-1]) && !isAside(steps[from+n]) {
			next := s.stepBox(steps[from+n], size)
			longer := beside(line, next)
			if longer.width > room(longer.height()) {
				break
			}
			line, boxes = longer, append(boxes, next)
			n++
		}
		ok = ok && line.width <= room(line.height()) && y+line.height() <= at.Y+at.Height
		next, base := at.X+1.5, y+line.up
		for i, b := range boxes {
			x, said := next, steps[from+i].Text()
			draw = append(draw, func() {
				s.doc.In(pdf.Formula, func() { b.draw(x, base) }, pdf.Alt(said), pdf.Actual(said))
			})
			next += b.width
		}
		y += line.height() + 0.8
		from += n
	}
	return draw, ok
}

func isAside(step quantity.WorkedStep) bool { return step.Kind == quantity.ConversionStep }

// stepBox sets a line of a worked calculation.
func (s *sheet) stepBox(line quantity.WorkedStep, size float64) box {
	parts := []quantity.Math{quantity.Sign{Sign: line.Relation}, line.Right}
	if line.Left != nil {
		parts = append([]quantity.Math{line.Left}, parts...)
	}
	set := setter{s.doc, size}
	b := set.set(quantity.Row{Parts: parts})
	if isAside(line) {
		b = beside(set.space(1.5), b)
	}
	return b
}

// fitted sets a line no wider than a width, smaller if need be, at worst as text in lines.
func (s *sheet) fitted(line quantity.WorkedStep, width, most, least float64) (b box, fits bool) {
	for size := most; size >= least; size -= 0.5 {
		if b := s.stepBox(line, size); b.width <= width {
			return b, true
		}
	}
	height := s.font(regular, least)
	lines := s.wrap(line.Text(), width)
	return box{width, height * 0.76, height * (float64(len(lines)) - 0.76), func(x, y float64) {
		s.font(regular, least)
		s.lines(x, y-height*0.76, lines, height)
	}}, false
}

// slipsBelow writes the first two below the prompt, each if it has room there.
func (s *sheet) slipsBelow(q question, r findRow, y float64) {
	const size, most = 8.0, 2
	line := s.font(regular, size) * 0.92
	at := y + r.text + 0.5
	for _, slip := range q.Slips[:min(most, len(q.Slips))] {
		s.font(regular, size)
		lines := s.wrap(s.slipText(slip), r.width)
		high := line * float64(len(lines))
		if at+high > y+r.height+1 {
			return
		}
		s.doc.In(pdf.P, func() { s.lines(s.left()+symbolWide, at, lines, line) })
		at += high
	}
}

func (s *sheet) slipText(slip *lesson.Statement) string {
	return s.number(cmp.Or(s.lesson.Of(slip).Text(), slip.Expr.String())) + s.colon() + slip.Prompt
}

// narrowFind puts a row into a column: the squares come below the prompt.
func (s *sheet) narrowFind(q question) {
	r := s.findRow(q, s.width()-symbolWide)
	high := max(s.fit.room-5, boxHigh)
	s.put(r.text+0.5+high+s.between(), func(y float64) {
		s.doc.In(pdf.Sect, func() {
			x := s.left() + symbolWide
			s.doc.In(pdf.P, func() { s.ask(r.asked, s.left(), y) })
			top := y + r.line*float64(len(r.lines)) + smallLine*float64(len(r.above))
			if r.said != "" {
				s.doc.In(pdf.Formula, func() { r.formula.draw(x, top) }, pdf.Alt(r.said), pdf.Actual(r.said))
			}
			y += r.text + 0.5
			width := math.Floor((s.right()-s.left())/squareSide) * squareSide
			left := s.right() - width
			s.doc.Apart(func() { s.ground(place{left, y, width, high}, s.mentors && len(q.Steps) > 0) })
			s.box(s.right()-leastBox, y+high-boxHigh, leastBox, boxHigh, s.answer(q))
			if s.mentors {
				s.working(q, place{left, y, width, high}, leastBox)
			}
		})
	})
}
