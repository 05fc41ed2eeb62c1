package worksheets

// A lesson's worksheet from its head to its exit ticket: what is on it, in which order, for whom.

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// About is what the sheets of a pack share.
type About struct {
	Pack, Version, Language string
	Address                 string // of the folder with the students' pages, ending in a slash; "" if there is none
	Club                    string
	Start                   *int  // when a lesson begins, in minutes after midnight; nil if nobody has said it
	Logo                    *Logo // nil if the club has none
	Words                   func(name string, args ...any) string
}

// Make lays a lesson out on paper, for students or with keys and worked steps for
// mentors. The same lesson always gives the same bytes.
func Make(p Paper, about About, l *work.Lesson, cards []Card, mentors bool) ([]byte, error) {
	s := &sheet{paper: p, about: about, lesson: l, mentors: mentors, lying: map[int]bool{}}
	s.pdf = newPDF(p, l.Title+" · "+about.Pack, about.Pack, about.Language)
	s.newPage()
	if err := s.head(); err != nil {
		return nil, err
	}
	s.care(cards)
	s.goals()
	s.sections()
	s.gauges()
	s.footers()
	var out bytes.Buffer
	err := s.pdf.Output(&out)
	return out.Bytes(), err
}

// codeSize is the side of the QR code, in millimetres.
const codeSize = 20

// head puts the title, where the lesson belongs, the code of its page, and room for names.
func (s *sheet) head() error {
	width, low := s.width(), 0.0 // low is how far down what stands on the right goes
	if s.about.Address != "" {
		width -= codeSize + 6
		if err := s.code(s.address(), s.right()-codeSize, Margin, codeSize); err != nil {
			return err
		}
		low = Margin + codeSize
	}
	logo, high, err := s.logo(s.left() + width)
	if err != nil {
		return err
	}
	if logo > 0 {
		width, low = width-logo-4, max(low, Margin+high)
	}
	if s.mentors {
		height := s.font(bold, 10)
		label := printable(s.say("mentors-sheet"))
		s.pdf.SetLineWidth(0.4)
		s.pdf.Rect(s.left(), s.y, s.pdf.GetStringWidth(label)+4, height+1, "D")
		s.lines(s.left()+2, s.y+0.5, []string{label}, height)
		s.y += height + 2.5
	}
	height := s.font(bold, 17)
	title := short(wrap(s.pdf, s.lesson.Title, width), 4)
	s.lines(s.left(), s.y, title, height)
	s.y += height * float64(len(title))
	height = s.font(regular, 9)
	week := s.say("week") + " " + strconv.Itoa(s.lesson.Week)
	about := s.about.Pack + " · " + week + " · " + s.say("minutes", s.lesson.Minutes)
	if s.about.Club != "" {
		about = s.about.Club + " · " + about
	}
	if s.lesson.Draft {
		about += " · " + s.say("draft")
	}
	where := short(wrap(s.pdf, about, width), 4)
	s.lines(s.left(), s.y, where, height)
	s.y += height * float64(len(where))
	if s.about.Address != "" {
		s.addressInLetters(width)
	}
	s.y = max(s.y, low)
	if !s.mentors {
		s.names()
	}
	s.y += 3
	return nil
}

// names leaves room for who fills the sheet in.
func (s *sheet) names() {
	s.y += 9
	s.font(regular, 10)
	x := s.left()
	for i, name := range []string{"team", "robot", "date"} {
		share := []float64{0.44, 0.3, 0.26}[i] * s.width()
		label := printable(s.say(name))
		s.pdf.Text(x, s.y, label)
		s.writing(x+s.pdf.GetStringWidth(label)+2, x+share-4, s.y+0.8)
		x += share
	}
	s.y += 2
}

// goals puts goals and materials; a lesson may have neither.
func (s *sheet) goals() {
	if len(s.lesson.Lesson.Goals) > 0 {
		s.label("goals")
		for _, g := range s.lesson.Lesson.Goals {
			s.item(g, false)
		}
	}
	if len(s.lesson.Materials) > 0 {
		s.label("materials")
		for _, m := range s.lesson.Materials {
			s.item(m, true)
		}
	}
}

// label puts a short heading over a list.
func (s *sheet) label(word string) {
	height := s.font(bold, 10)
	s.gap(2)
	s.put(height+6, func(y float64) {
		s.font(bold, 10)
		s.lines(s.left(), y, []string{printable(s.say(word))}, height)
	})
	s.y -= 6 // room for a line of what follows, so that no label ends a page
}

// item puts a line of a list, with a box to tick or a dash.
func (s *sheet) item(text string, checkbox bool) {
	const indent = 6
	height := s.font(regular, 10)
	lines := wrap(s.pdf, text, s.width()-indent)
	if len(lines) > mostLines {
		s.paragraph(regular, 10, indent, text)
		return
	}
	s.put(height*float64(len(lines)), func(y float64) {
		s.font(regular, 10)
		if checkbox {
			s.tick(s.left()+0.5, y+0.7, 3.2)
		} else {
			s.lines(s.left()+1, y, []string{"–"}, height)
		}
		s.lines(s.left()+indent, y, lines, height)
	})
}

// sections puts the questions part by part, under the headings of the parts that have
// any, and the text of the exit ticket.
func (s *sheet) sections() {
	var heading *ast.Heading
	exit := false
	for n := s.lesson.Body.FirstChild(); n != nil; n = n.NextSibling() {
		if lesson.ForMentors(n) {
			continue
		}
		if h, ok := n.(*ast.Heading); ok && h.Level <= 2 {
			heading = h
			if exit = s.isExitTicket(h); exit {
				s.heading(h)
				heading = nil
			}
			continue
		}
		_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if !entering || lesson.ForMentors(n) {
				return ast.WalkSkipChildren, nil
			}
			switch n := n.(type) { // the others: paper has questions and figures; gauges have pages of their own
			case *lesson.WorkBlock:
				if heading != nil {
					s.heading(heading)
					heading = nil
				}
				s.block(n)
			case *lesson.DataBlock:
				if n.Name == lesson.ShowBlock {
					if heading != nil {
						s.heading(heading)
						heading = nil
					}
					s.figures(n)
				}
			}
			return ast.WalkContinue, nil
		})
		if exit {
			s.prose(n)
		}
	}
}

// isExitTicket tells whether a part is the one whose text students answer in writing.
func (s *sheet) isExitTicket(h *ast.Heading) bool {
	return strings.EqualFold(strings.TrimSpace(s.plain(h)), s.say("exit-ticket"))
}

// short cuts a text that is absurdly long for its place.
func short(lines []string, most int) []string {
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] += " …"
	}
	return lines
}

// heading puts the heading of a part, its minutes in brackets behind it.
func (s *sheet) heading(h *ast.Heading) {
	height := s.font(bold, 12.5)
	text := s.plain(h)
	if minutes, ok := h.AttributeString("minutes"); ok {
		text += "  (" + s.say("min", minutes) + ")"
	}
	if lesson.IfTime(h) {
		text += "  (" + s.say("if-time") + ")"
	}
	lines := short(wrap(s.pdf, text, s.width()), 6)
	s.gap(4)
	s.put(height*float64(len(lines))+25, func(y float64) {
		s.font(bold, 12.5)
		s.lines(s.left(), y, lines, height)
	})
	s.y -= 24 // room for a question, so that no heading ends a page
}

// prose puts a paragraph or list of the exit ticket, with room for an answer below each
// point of a list.
func (s *sheet) prose(n ast.Node) {
	switch n := n.(type) {
	case *ast.Paragraph:
		s.paragraph(regular, 10, 0, s.plain(n))
		s.gap(1.5)
	case *ast.List:
		number := n.Start
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			mark := "–"
			if n.IsOrdered() {
				mark = strconv.Itoa(number) + "."
				number++
			}
			_, box := n.NextSibling().(*lesson.WorkBlock)
			s.question(mark, item, !box || item.NextSibling() != nil)
		}
	}
}

// question puts a point of a list, with lines to write the answer on unless there is room for it in what comes next.
func (s *sheet) question(mark string, item ast.Node, room bool) {
	const indent = 7
	height := s.font(regular, 10)
	var texts []string
	for c := item.FirstChild(); c != nil; c = c.NextSibling() {
		switch c.(type) {
		case *ast.Paragraph, *ast.TextBlock:
			texts = append(texts, s.plain(c))
		}
	}
	text := strings.TrimSpace(strings.Join(texts, " "))
	lines := wrap(s.pdf, text, s.width()-indent)
	if len(lines) == 0 {
		return
	}
	if len(lines) > mostLines {
		s.paragraph(regular, 10, indent, text)
		lines = nil
	}
	below := 1.0
	if room && !strings.HasSuffix(text, ":") { // then what is asked comes next
		below = 15
	}
	s.put(height*float64(len(lines))+below, func(y float64) {
		s.font(regular, 10)
		s.lines(s.left(), y, []string{mark}, height)
		s.lines(s.left()+indent, y, lines, height)
		foot := y + height*float64(len(lines))
		for line := 6.5; line < below; line += 7 {
			s.writing(s.left()+indent, s.right(), foot+line)
		}
	})
}
