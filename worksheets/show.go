package worksheets

// Figures of a show block on paper: blank tapes and axes to draw on, in grey. Of a team's numbers nothing is
// known here.

import (
	"math"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Height of a tape, in millimetres, and a grey that prints and is drawn over.
const (
	tapeHigh = 10.0
	grey     = 110
)

// roomFor is how high a figure is below its title.
func roomFor(kind lesson.FigureKind) float64 {
	switch kind {
	case lesson.PartFigure, lesson.ReadFigure:
		return 19
	case lesson.UnrollFigure, lesson.LapsFigure, lesson.TapeFigure, lesson.PathFigure, lesson.ShuffleFigure:
	}
	return 24
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
	height := s.font(bold, 10)
	title := short(wrap(s.doc, f.Text, s.width()), 3)
	s.gap(2)
	s.put(height*float64(len(title))+roomFor(f.Kind)+between, func(y float64) {
		s.font(bold, 10)
		s.lines(s.left(), y, title, height)
		y += height * float64(len(title))
		s.doc.Ink(grey)
		s.doc.Shade(grey)
		s.doc.LineWidth(0.25)
		s.font(regular, 9)
		s.blank(f, y)
		s.doc.Ink(0)
		s.doc.Shade(0)
	})
}

// blank draws what is there before anybody draws on it.
func (s *sheet) blank(f *work.Figure, y float64) {
	foot := y + roomFor(f.Kind) - 1
	switch f.Kind {
	case lesson.UnrollFigure:
		s.blankTape(foot-tapeHigh, f.Unit.Symbol())
		s.doc.Line(s.left()+15, y+6, s.left()+15, foot)
	case lesson.LapsFigure:
		s.blankTape(foot-tapeHigh, f.Unit.Symbol())
		s.doc.Line(s.left()+15, foot-tapeHigh-6, s.left()+15, foot)
		s.doc.Line(s.right()-10, y+6, s.right()-10, foot)
		s.told(f, 0, s.right()-10, y+5)
	case lesson.TapeFigure:
		s.blankTape(foot-tapeHigh, f.Unit.Symbol())
		if len(f.Values) > 1 {
			middle := s.left() + s.width()/2
			s.arrow(middle, y+6, foot-tapeHigh)
			s.told(f, 1, middle, y+5)
		}
	case lesson.PathFigure:
		s.blankPath(f, y, foot)
	case lesson.ReadFigure:
		s.trueTape(f, y+8)
	case lesson.PartFigure:
		s.blankPart(y + 2)
	case lesson.ShuffleFigure:
		s.blankTape(foot-tapeHigh, f.Unit.Symbol())
		s.doc.Line(s.left()+15, y+2, s.left()+15, foot)
	}
}

// told writes a value that the lesson gives, in the middle of x; one that is a team's own is for them to write.
func (s *sheet) told(f *work.Figure, i int, x, y float64) {
	if v := f.Values[i]; !v.OfStudents && !v.Varies {
		s.centred(regular, 9, v.Text, x-15, y, 30)
	}
}

// arrow is a hook over a tape.
func (s *sheet) arrow(x, from, to float64) {
	s.doc.Line(x, from, x, to)
	s.doc.Line(x-1.5, to-2, x, to)
	s.doc.Line(x+1.5, to-2, x, to)
}

// blankTape draws one whose marks have no numbers yet: what they stand for is for a team to choose.
func (s *sheet) blankTape(y float64, unit string) {
	s.doc.Rect(s.left(), y, s.width(), tapeHigh, pdf.Stroke)
	for i := range int(math.Floor((s.width()-15)/5)) + 1 {
		long := 2.0
		if i%2 == 0 {
			long = 3.5
		}
		s.doc.Line(s.left()+15+float64(i)*5, y, s.left()+15+float64(i)*5, y+long)
	}
	s.doc.Text(s.left()+1.5, y+tapeHigh-2.5, printable(unit))
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
			s.centred(regular, 8.5, strconv.Itoa(int(first+whole)), x-5, y+tapeHigh-0.8, 10)
		}
	}
	s.arrow(s.left()+(place-first)*unit, y-6, y)
	s.writing(s.left()+wide+6, s.right()-8, y+tapeHigh-1)
	s.doc.Text(s.right()-6, y+tapeHigh-1.5, printable(f.Unit.Symbol()))
}

// blankPath draws the start line and the straight way ahead.
func (s *sheet) blankPath(f *work.Figure, y, foot float64) {
	middle := (y + foot) / 2
	s.doc.Line(s.left()+4, y+2, s.left()+4, foot)
	s.doc.Line(s.right()-14, y+2, s.right()-14, foot)
	for x := s.left() + 4; x < s.right()-4; x += 5 {
		s.doc.Line(x, middle, x+3, middle)
	}
	s.doc.Text(s.left()+6, y+4.5, printable(s.say("drawn-left")))
	s.doc.Text(s.left()+6, foot-1, printable(s.say("drawn-rightward")))
	times := strings.Replace(s.say("drawn-times"), "{}", strconv.FormatFloat(f.Times, 'f', -1, 64), 1)
	s.centred(regular, 9, times, s.left()+s.width()/2-20, y+4.5, 40)
	s.told(f, 1, s.right()-26, foot-1)
}

// blankPart draws a bar that is the whole, in tenths.
func (s *sheet) blankPart(y float64) {
	s.doc.Rect(s.left()+5, y, s.width()-10, tapeHigh, pdf.Stroke)
	for i := range 11 {
		x := s.left() + 5 + (s.width()-10)*float64(i)/10
		s.doc.Line(x, y+tapeHigh, x, y+tapeHigh+2)
		if i%5 == 0 {
			s.centred(regular, 9, strconv.Itoa(i*10)+"\u00a0%", x-10, y+tapeHigh+6, 20)
		}
	}
}
