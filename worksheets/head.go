package worksheets

// The head of a sheet: title, where the lesson belongs, names, the parts of the evening as a tape, what is needed, what
// it is for.

import (
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// codeSize is the side of the QR code, in millimetres.
const codeSize = 18

// headSize is the type of what stands in the head for reference: points.
func (s *sheet) headSize() float64 {
	if s.fit.terse {
		return labelSize
	}
	return 10
}

// head puts the title, where the lesson belongs, the code of its page, and room for names.
func (s *sheet) head() error {
	width, low := s.width(), 0.0 // low is how far down what stands on the right goes
	if s.about.Address != "" {
		width -= codeSize + 6
		low = Margin + codeSize
	}
	logo, high := s.logo(s.left() + width)
	if logo > 0 {
		width, low = width-logo-4, max(low, Margin+high)
	}
	s.doc.Bookmark(1, s.lesson.Title, s.y)
	s.level = 1
	title := s.setLines(s.wordsOf(s.lesson.Title, bold), titleSize, width)
	s.doc.In(pdf.H1, func() { s.putLines(title, 0, titleSize) })
	s.small(s.belongs(), width)
	err := s.webAddress(width)
	s.y = max(s.y, low)
	s.names()
	s.timeTape()
	return err
}

// belongs says what a lesson is part of.
func (s *sheet) belongs() string {
	about := s.about.Pack + " · " + s.say("week") + " " + strconv.Itoa(s.lesson.Week) + " · " +
		s.say("minutes", s.lesson.Minutes)
	if s.about.Club != "" {
		about = s.about.Club + " · " + about
	}
	if s.lesson.Draft {
		about += " · " + s.say("draft")
	}
	return about
}

// small puts a paragraph in small type.
func (s *sheet) small(text string, width float64) {
	lines := s.setLines(s.wordsOf(text, regular), labelSize, width)
	s.doc.In(pdf.P, func() { s.putLines(lines, 0, labelSize) })
}

// webAddress puts the address of the lesson's page, as a code at the right and in letters.
func (s *sheet) webAddress(width float64) (err error) {
	if s.about.Address == "" {
		return nil
	}
	x := s.right() - codeSize
	s.doc.In(pdf.P, func() {
		s.doc.Link(x, Margin, codeSize, codeSize, s.address(), s.say("on-the-web")+" "+s.address(), func() {
			s.addressInLetters(width)
			s.doc.In(pdf.Figure, func() { err = s.code(s.address(), x, Margin, codeSize) },
				pdf.Alt(s.say("on-the-web")+" "+s.address()), s.doc.Around(x, Margin, codeSize, codeSize))
		})
	})
	return err
}

// names leaves room for who fills the sheet in. A mentors' sheet says there what it is.
func (s *sheet) names() {
	const high = 9.0
	s.put(high+2, func(y float64) {
		y += high
		if s.mentors {
			s.font(bold, body)
			label := printable(s.say("mentors-sheet"))
			s.doc.Apart(func() {
				s.doc.LineWidth(0.4)
				s.doc.Rect(s.left(), y-5.6, s.doc.Width(label)+4, 7.4, pdf.Stroke)
			})
			s.doc.In(pdf.P, func() { s.doc.Text(s.left()+2, y-0.4, label) })
			return
		}
		s.font(regular, s.headSize())
		x := s.left()
		for i, name := range []string{"team", "robot", "date"} {
			share := []float64{0.44, 0.3, 0.26}[i] * s.width()
			label := printable(s.say(name))
			s.doc.In(pdf.P, func() {
				s.font(regular, s.headSize())
				s.doc.Text(x, y, label)
				wide := s.doc.Width(label)
				s.doc.In(pdf.Form, func() { s.writing(x+wide+2, x+share-4, y+0.8) }, pdf.Alt(s.say(name)))
			})
			x += share
		}
	})
}

// timeTape draws the parts of the lesson as a tape, each as long as its minutes.
func (s *sheet) timeTape() {
	const high, tick = 8.5, 1.4
	parts := lesson.TimedParts(s.lesson.Lesson)
	if len(parts) == 0 {
		return
	}
	total := parts[len(parts)-1].To
	var said []string
	for _, p := range parts {
		said = append(said, p.Title+" "+s.say("min", p.Minutes))
	}
	s.gap(2.5)
	s.put(high, func(y float64) {
		at := func(minute int) float64 { return s.left() + s.width()*float64(minute)/float64(total) }
		s.doc.In(pdf.Figure, func() {
			s.doc.LineWidth(0.3)
			s.doc.Rect(s.left(), y, s.width(), high, pdf.Stroke)
			for m := 5; m < total; m += 5 {
				s.doc.Line(at(m), y+high-tick, at(m), y+high)
			}
			for _, p := range parts {
				if p.From > 0 {
					s.doc.Line(at(p.From), y, at(p.From), y+high)
				}
				s.tapeLabel(p.Label, p.Minutes, at(p.From), at(p.To), y)
			}
		}, pdf.Alt(s.led("plan")+strings.Join(said, ", ")), s.doc.Around(s.left(), y, s.width(), high))
	})
}

// tapeLabel writes a part's name and minutes between two places of the tape, as much of them as fits.
func (s *sheet) tapeLabel(title string, minutes int, from, to, y float64) {
	const size = 8.0
	line := s.font(regular, size)
	room := to - from - 1.6
	if room <= 0 {
		return
	}
	number := strconv.Itoa(minutes)
	lines := s.wrap(title, room)
	switch {
	case len(lines) == 1:
		lines = append(lines, number)
	case s.doc.Width(printable(title)) > 2*room || len(lines) > 2 || widestOf(s.doc, strings.Fields(title)) > room:
		lines = []string{number}
	default:
		if last := lines[1] + " " + number; s.doc.Width(last) <= room {
			lines[1] = last
		}
	}
	s.lines(from+0.8, y+0.2, lines, line)
}

func widestOf(doc *pdf.Document, words []string) float64 {
	most := 0.0
	for _, w := range words {
		most = max(most, doc.Width(w))
	}
	return most
}

// goals puts goals and materials; a lesson may have neither.
func (s *sheet) goals() {
	if s.fit.terse {
		for _, list := range []struct {
			word  string
			texts []string
		}{{"i-can", s.lesson.Lesson.Goals}, {"materials", s.lesson.Materials}} {
			if len(list.texts) > 0 {
				s.runIn(list.word, list.texts)
			}
		}
		return
	}
	if len(s.lesson.Lesson.Goals) > 0 {
		s.label("i-can")
		s.tickedList(s.lesson.Lesson.Goals, 1)
	}
	if len(s.lesson.Materials) > 0 {
		s.label("materials")
		s.tickedList(s.lesson.Materials, 3)
	}
}

// label puts a short heading over a list in the head.
func (s *sheet) label(word string) {
	s.gap(1.5)
	height := s.line(s.headSize())
	s.need(3 * height)
	s.doc.In(pdf.P, func() {
		s.put(height, func(y float64) {
			s.font(bold, s.headSize())
			s.lines(s.left(), y, []string{printable(s.say(word))}, height)
		})
	})
}

// tickedList puts the points of a list with a box to tick each, in columns of the same width, read one after the other.
func (s *sheet) tickedList(texts []string, columns int) {
	const indent, apart = 5.0, 4.0
	line := s.line(s.headSize())
	width := (s.width()-apart*float64(columns-1))/float64(columns) - indent
	rows := (len(texts) + columns - 1) / columns
	set := make([][]textLine, len(texts))
	for i, t := range texts {
		set[i] = s.setLines(s.wordsOf(t, regular), s.headSize(), width)
	}
	height := 0.0
	for c := range columns {
		sum := 0.0
		for i := c * rows; i < min((c+1)*rows, len(texts)); i++ {
			sum += line * float64(len(set[i]))
		}
		height = max(height, sum)
	}
	if height > s.foot()-Margin {
		s.longList(set)
		return
	}
	s.need(height)
	top := s.y
	s.doc.In(pdf.L, func() {
		for c := range columns {
			y := top
			for i := c * rows; i < min((c+1)*rows, len(texts)); i++ {
				s.ticked(set[i], s.left()+float64(c)*(width+indent+apart), y, indent)
				y += line * float64(len(set[i]))
			}
		}
	})
	s.y = top + height
}

// longList puts points that take more than a page, one below the other.
func (s *sheet) longList(set [][]textLine) {
	const indent = 5.0
	for _, lines := range set {
		s.doc.In(pdf.P, func() { s.putLines(lines, indent, s.headSize()) })
	}
}

// ticked draws a point of a list with its box.
func (s *sheet) ticked(lines []textLine, x, y, indent float64) {
	line := s.line(s.headSize())
	s.doc.In(pdf.LI, func() {
		s.doc.In(pdf.Lbl, func() {
			s.doc.In(pdf.Form, func() { s.tick(x+0.3, y+0.9, 3) }, pdf.Alt(s.say("tick")))
		})
		s.doc.In(pdf.LBody, func() {
			for i, l := range lines {
				s.drawLine(l, x+indent, y+line*float64(i), s.headSize())
			}
		})
	})
}
