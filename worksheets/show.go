package worksheets

// Figures of a show block on paper: tapes and axes to draw on, black enough to be printed in grey. Of a team's numbers
// nothing is known here.

import (
	"math"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Height of a tape and width of a figure's lines, in millimetres.
const (
	tapeHigh   = 10.0
	figureLine = 0.3
)

// roomFor is how high a figure is below its title.
func roomFor(kind lesson.FigureKind) float64 {
	switch kind {
	case lesson.ReadFigure, lesson.PartFigure:
		return 20
	case lesson.PathFigure:
		return 34
	case lesson.UnrollFigure, lesson.LapsFigure, lesson.TapeFigure, lesson.ShuffleFigure:
	}
	return 26
}

// isTape tells which figures can be drawn on as well where they are half as wide.
func isTape(kind lesson.FigureKind) bool {
	switch kind {
	case lesson.UnrollFigure, lesson.LapsFigure, lesson.TapeFigure, lesson.ShuffleFigure, lesson.PartFigure:
		return true
	case lesson.PathFigure, lesson.ReadFigure:
	}
	return false
}

// figures puts the figures of a block, each with its title.
func (s *sheet) figures(b *lesson.DataBlock) {
	d := s.lesson.OfData(b)
	if d == nil {
		return
	}
	for _, f := range d.Figures {
		s.figure(f)
	}
}

// figure puts one, as a whole.
func (s *sheet) figure(f *work.Figure) {
	height := s.font(bold, labelSize+2)
	title := short(s.wrap(f.Text, s.width()), 3)
	s.gap(2)
	s.put(height*float64(len(title))+roomFor(f.Kind)+s.between(), func(y float64) {
		s.doc.In(pdf.Sect, func() {
			s.font(bold, labelSize+2)
			s.doc.In(pdf.P, func() { s.lines(s.left(), y, title, height) })
			y += height * float64(len(title))
			s.doc.In(pdf.Figure, func() {
				s.doc.LineWidth(figureLine)
				s.font(regular, labelSize)
				s.blank(f, y)
			}, pdf.Alt(s.figureInWords(f)), s.doc.Around(s.left(), y, s.width(), roomFor(f.Kind)))
		})
	})
}

// figureInWords says what there is to draw on.
func (s *sheet) figureInWords(f *work.Figure) string {
	unit := s.unit(f.Unit.Symbol())
	switch f.Kind {
	case lesson.PathFigure:
		return s.say("blank-path", s.number(strconv.FormatFloat(f.Times, 'f', -1, 64)))
	case lesson.ReadFigure:
		return s.say("blank-read", unit)
	case lesson.PartFigure:
		return s.say("blank-part")
	case lesson.LapsFigure:
		return s.tapeInWords(unit, s.known(f, 0))
	case lesson.TapeFigure:
		return s.tapeInWords(unit, s.known(f, 1))
	case lesson.UnrollFigure, lesson.ShuffleFigure:
	}
	return s.tapeInWords(unit, "")
}

func (s *sheet) tapeInWords(unit, mark string) string {
	if mark == "" {
		return s.say("blank-tape", unit)
	}
	return s.say("blank-tape-mark", unit, mark)
}

// blank draws what is there before anybody draws on it.
func (s *sheet) blank(f *work.Figure, y float64) {
	foot := y + roomFor(f.Kind) - 1
	top := foot - tapeHigh
	unit := s.unit(f.Unit.Symbol())
	switch f.Kind {
	case lesson.UnrollFigure, lesson.ShuffleFigure:
		s.tape(s.left(), top, s.width(), tapeHigh, unit)
		s.start(y+4, foot)
	case lesson.LapsFigure:
		s.tape(s.left(), top, s.width(), tapeHigh, unit)
		s.start(top-6, foot)
		last := s.left() + s.width() - firstMark(s.width())
		s.doc.Line(last, y+6, last, foot)
		s.told(s.known(f, 0), last, y+5)
	case lesson.TapeFigure:
		s.tape(s.left(), top, s.width(), tapeHigh, unit)
		if len(f.Values) > 1 {
			middle := s.left() + s.width()/2
			s.arrow(middle, y+6, top)
			s.told(s.known(f, 1), middle, y+5)
		}
	case lesson.PathFigure:
		s.blankPath(f, y, foot)
	case lesson.ReadFigure:
		s.trueTape(f, y+8)
	case lesson.PartFigure:
		s.blankPart(y + 2)
	}
}

// known is a value that the lesson gives; one that is a team's own is for them to write.
func (s *sheet) known(f *work.Figure, i int) string {
	if i >= len(f.Values) || f.Values[i].OfStudents || f.Values[i].Varies {
		return ""
	}
	return s.number(f.Values[i].Text)
}

// told writes a value in the middle of x.
func (s *sheet) told(text string, x, y float64) {
	s.centred(bold, labelSize, text, x-15, y, 30)
}

// start draws the line where a tape is laid on.
func (s *sheet) start(from, to float64) {
	x := s.left() + firstMark(s.width())
	s.doc.LineWidth(0.5)
	s.doc.Line(x, from, x, to)
	s.doc.LineWidth(figureLine)
	s.font(bold, labelSize)
	s.doc.Text(x+1.2, to-1.8, zero)
}

// arrow is a hook over a tape.
func (s *sheet) arrow(x, from, to float64) {
	s.doc.LineWidth(0.5)
	s.doc.Line(x, from, x, to)
	s.doc.Line(x-1.5, to-2, x, to)
	s.doc.Line(x+1.5, to-2, x, to)
	s.doc.LineWidth(figureLine)
}

// firstMark is where the marks of a blank tape begin: before them stands the unit.
func firstMark(width float64) float64 {
	const unit = 15
	return width/2 - math.Floor((width/2-unit)/5)*5
}

// tape draws one whose marks have no numbers yet: what they stand for is for a team to choose. Half of its width is at
// a mark, so that what stands there can be counted from.
func (s *sheet) tape(x, y, width, high float64, unit string) {
	s.doc.LineWidth(figureLine)
	s.doc.Rect(x, y, width, high, pdf.Stroke)
	for i := math.Round((firstMark(width) - width/2) / 5); i*5 < width/2-1; i++ {
		long := 2.0
		if math.Mod(i, 2) == 0 {
			long = 3.5
		}
		s.doc.Line(x+width/2+i*5, y, x+width/2+i*5, y+long)
	}
	s.font(bold, labelSize)
	s.doc.Text(x+1.5, y+high-1.8, printable(unit))
}

// trueTape draws a piece of tape at true scale with a hook, and a line for what it says.
func (s *sheet) trueTape(f *work.Figure, y float64) {
	unit, parts, units := 10.0, 10.0, 12.0 // a centimetre in millimetres, its parts, how many of them
	if f.Inches {
		unit, parts, units = 25.4, 16, 5
	}
	wide := unit * units
	s.doc.Rect(s.left(), y, wide, tapeHigh, pdf.Stroke)
	step := f.Target.Step.Float()
	place := math.Floor(math.Floor(f.Values[0].Numbers[0]/step)*0.62) * step
	first := max(0, math.Floor(place)-2)
	for i := range int(units*parts) + 1 {
		long := 2.5
		for _, mark := range []struct{ each, long float64 }{{2, 3.2}, {4, 4}, {parts / 2, 5}, {parts, 6.5}} {
			if parts == 10 && mark.each < 5 {
				continue
			}
			if math.Mod(float64(i), mark.each) == 0 {
				long = mark.long
			}
		}
		x := s.left() + float64(i)*unit/parts
		s.doc.Line(x, y, x, y+long)
		if whole := float64(i) / parts; whole == math.Floor(whole) && whole > 0 && whole < units {
			s.centred(regular, labelSize, strconv.Itoa(int(first+whole)), x-5, y+tapeHigh-0.8, 10)
		}
	}
	s.arrow(s.left()+(place-first)*unit, y-6, y)
	s.writing(s.left()+wide+6, s.right()-8, y+tapeHigh-1)
	s.font(bold, labelSize)
	s.doc.Text(s.right()-7, y+tapeHigh-1.5, printable(s.unit(f.Unit.Symbol())))
	if s.mentors {
		number := s.number(quantity.FormatStep(place, f.Target.Step))
		setter{s.doc, body}.amount(bold, number).draw(s.left()+wide+8, y+tapeHigh-2.5)
	}
}

// blankPath draws the start line, and the straight way ahead in the middle, which is zero sideways.
func (s *sheet) blankPath(f *work.Figure, y, foot float64) {
	top, middle := y+6, (y+6+foot)/2
	begin, end := s.left()+4, s.right()-14
	s.doc.LineWidth(0.5)
	s.doc.Line(begin, middle, end+6, middle)
	s.doc.LineWidth(figureLine)
	s.doc.Line(begin, top, begin, foot)
	s.doc.Line(end, top, end, foot)
	for i := 1.0; i*5 < (foot-top)/2; i++ { // marks to both sides
		for _, side := range []float64{-1, 1} {
			s.doc.Line(begin, middle+side*i*5, begin+2, middle+side*i*5)
			s.doc.Line(end, middle+side*i*5, end-2, middle+side*i*5)
		}
	}
	s.font(bold, labelSize)
	s.doc.Text(end+7, middle+1.1, zero)
	s.doc.Text(begin+3, top+3, printable(s.say("drawn-left")))
	s.doc.Text(begin+3, foot-0.5, printable(s.say("drawn-rightward")))
	times := strings.Replace(s.say("drawn-times"), "{}", s.number(strconv.FormatFloat(f.Times, 'f', -1, 64)), 1)
	s.centred(regular, labelSize, times, (begin+end)/2-20, y+4, 40)
	s.told(s.known(f, 1), end, y+4)
}

// blankPart draws a bar that is the whole, in tenths.
func (s *sheet) blankPart(y float64) {
	s.doc.Rect(s.left()+5, y, s.width()-10, tapeHigh, pdf.Stroke)
	for i := range 11 {
		x := s.left() + 5 + (s.width()-10)*float64(i)/10
		s.doc.Line(x, y+tapeHigh, x, y+tapeHigh+2)
		if i%5 == 0 {
			s.centred(regular, labelSize, strconv.Itoa(i*10)+"\u00a0%", x-10, y+tapeHigh+6, 20)
		}
	}
}
