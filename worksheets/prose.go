package worksheets

// What a lesson's Markdown comes to on paper, block by block: headings, paragraphs, lists, quotes. Tables are in
// table.go, programs in program.go, work blocks in block.go.

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// line is the height of a line of prose in a size of type.
func (s *sheet) line(size float64) float64 { return size * point * s.fit.leading }

// node puts a block, whatever it is; what has no form on paper is left out.
func (s *sheet) node(n ast.Node) {
	if !isListed(n) {
		s.pass()
	}
	switch n := n.(type) { // the others: what has no form on paper is not chosen
	case *ast.Heading:
		s.heading(n)
	case *ast.Paragraph, *ast.TextBlock:
		s.textBlock(n)
	case *ast.List:
		s.list(n)
	case *ast.Blockquote:
		s.quote(n)
	case *tables.Table:
		s.table(n)
	case *lesson.WorkBlock:
		s.block(n)
	case *lesson.FilledCode:
		s.program(s.filled(n))
	case *ast.FencedCodeBlock, *ast.CodeBlock:
		s.program(s.typed(n))
	case *lesson.DataBlock:
		switch {
		case n.Name == lesson.ShowBlock:
			s.figures(n)
		case s.chosen.pointed[n]:
			s.pointer()
		default:
			s.data(n)
		}
	}
}

// isListed tells what may stand beside a picture: text in lines.
func isListed(n ast.Node) bool {
	switch n.(type) {
	case *ast.Paragraph, *ast.TextBlock, *ast.List:
		return true
	}
	return false
}

// headings are the tags of headings by their level.
var headings = []pdf.Tag{pdf.H1, pdf.H2, pdf.H3, pdf.H4, pdf.H5, pdf.H6}

// heading puts a heading with its minutes behind it. It never ends a page.
func (s *sheet) heading(h *ast.Heading) {
	var behind []string
	if m, ok := h.AttributeString("minutes"); ok {
		behind = append(behind, s.say("min", m))
	}
	if lesson.IfTime(h) {
		behind = append(behind, s.say("if-time"))
	}
	s.headingOf(h.Level, s.spansOf(h, bold), strings.Join(behind, ", "))
}

// headingOf puts a heading of a level. A level that is left out would leave a gap in the document's outline.
func (s *sheet) headingOf(level int, text []span, minutes string) {
	size, above, follows := body, 2.0, 18.0
	if level <= 2 && s.fit.terse {
		size, above, follows = 13.5, 2.5, 20
	} else if level <= 2 {
		size, above, follows = partSize, 3, 24
	}
	level = max(2, min(level, s.level+1, len(headings)))
	s.level = level
	if minutes != "" {
		text = append(text, s.wordsOf("· "+minutes, regular)...)
		text[len(text)-len(s.wordsOf("· "+minutes, regular))].space = true
	}
	lines := s.setLines(text, size, s.width())
	height := s.line(size)
	s.gap(above)
	s.need(height*float64(len(lines)) + follows)
	if level == 2 {
		s.doc.Bookmark(2, plainOf(text), s.y)
	}
	s.doc.In(headings[level-1], func() { s.putLines(lines, 0, size) })
	s.gap(0.8)
}

// plainOf is the text of spans.
func plainOf(spans []span) string {
	var b strings.Builder
	for _, p := range spans {
		if p.space {
			b.WriteByte(' ')
		}
		b.WriteString(p.text)
	}
	return b.String()
}

// putLines puts lines of text; a page may end after any but the first and before any but the last of them. Few lines
// stay together.
func (s *sheet) putLines(lines []textLine, indent, size float64) {
	const together = 3
	height := s.line(size)
	for i, l := range lines {
		left := len(lines) - i
		if i == 0 && left <= together {
			s.need(height * float64(left))
		} else if i == 0 || left == 2 {
			s.need(height * 2)
		}
		s.put(height, func(y float64) { s.drawLine(l, s.left()+indent, y, size) })
	}
}

// textBlock puts a paragraph: its pictures, then its words.
func (s *sheet) textBlock(n ast.Node) {
	for _, i := range picturesIn(n) {
		s.besidePicture(i, n)
	}
	spans := s.spansOf(n, regular)
	if len(spans) == 0 {
		return
	}
	s.gap(1.2)
	lines := s.setLines(spans, body, s.width())
	if introduces(n) {
		s.need(s.line(body)*float64(min(len(lines), 4)) + 10)
	}
	s.doc.In(pdf.P, func() { s.putLines(lines, 0, body) })
	s.gap(0.8)
}

// pointer says where to go on where something waits for answers.
func (s *sheet) pointer() {
	s.gap(1.2)
	lines := s.setLines(s.wordsOf(s.say("look-then"), regular), body, s.width())
	s.doc.In(pdf.P, func() { s.putLines(lines, 0, body) })
	s.gap(0.8)
}

// introduces tells whether something that is not prose comes right after a paragraph.
func introduces(n ast.Node) bool {
	next := n.NextSibling()
	return next != nil && next.Kind() != ast.KindParagraph && next.Kind() != ast.KindHeading
}

// besidePicture puts a picture at the right of the steps that follow it, or across the page where none do.
func (s *sheet) besidePicture(i *ast.Image, in ast.Node) {
	const share, apart = 0.46, 5.0
	next := in.NextSibling()
	for next != nil && (lesson.ForMentors(next) || next.Kind() == ast.KindParagraph) {
		next = next.NextSibling()
	}
	if _, steps := next.(*ast.List); !steps || s.inset > 0 || s.inColumn() {
		s.pass()
		s.picture(i)
		return
	}
	s.pass()
	s.gap(1.5)
	s.need(s.fit.picture)
	top, page, wide := s.y, s.doc.PageCount(), s.width()
	s.inset = wide*(1-share) + apart
	printed := s.picture(i)
	s.inset = 0
	if !printed || s.doc.PageCount() != page {
		return
	}
	s.narrow, s.narrowTo, s.narrowOn = wide*share, s.y+1, page
	s.y = top
}

// pass goes on below a picture that text stands beside.
func (s *sheet) pass() {
	if s.narrow > 0 && s.narrowOn == s.doc.PageCount() {
		s.y = max(s.y, s.narrowTo)
	}
	s.narrow = 0
}

// quote puts what a coach has set apart for students: a formula in words, most of the time.
func (s *sheet) quote(n ast.Node) {
	s.gap(1)
	s.doc.In(pdf.Quote, func() {
		s.inset += 6
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			if c.Kind() != ast.KindParagraph {
				s.node(c)
				continue
			}
			lines := s.setLines(s.spansOf(c, bold), body, s.width())
			s.doc.In(pdf.P, func() { s.putLines(lines, 0, body) })
		}
		s.inset -= 6
	})
	s.gap(1)
}

// Where the text of a list begins, behind its numbers or dashes.
const (
	numberWidth = 8.0
	dashWidth   = 5.0
)

// list puts the points of a list, their numbers hanging. In a part that is answered in writing there is room below
// each.
func (s *sheet) list(n *ast.List) {
	var details []pdf.Detail
	if n.IsOrdered() {
		details = append(details, pdf.Ordered)
	}
	number := n.Start
	s.gap(0.8)
	s.doc.In(pdf.L, func() {
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			mark := "–"
			if n.IsOrdered() {
				mark = strconv.Itoa(number) + "."
				number++
			}
			s.item(n, item, mark)
		}
	}, details...)
	s.gap(0.8)
}

// item puts a point of a list.
func (s *sheet) item(n *ast.List, item ast.Node, mark string) {
	wide := dashWidth
	if n.IsOrdered() {
		wide = numberWidth
	}
	first := item.FirstChild()
	s.passIfBelow()
	s.doc.In(pdf.LI, func() {
		if first != nil && isText(first) {
			lines := s.setLines(s.spansOf(first, regular), body, s.width()-wide)
			s.need(s.line(body)*float64(min(len(lines), 3)) + s.roomBelow(n, item))
		} else {
			s.need(s.line(body))
		}
		if !s.doc.IsDraft() {
			s.doc.In(pdf.Lbl, func() { s.drawLine(textLine{{text: mark}}, s.left(), s.y, body) })
		}
		s.doc.In(pdf.LBody, func() {
			s.inset += wide
			for c := first; c != nil; c = c.NextSibling() {
				if isText(c) && c == first {
					s.putLines(s.setLines(s.spansOf(c, regular), body, s.width()), 0, body)
				} else if !lesson.ForMentors(c) {
					s.node(c)
				}
			}
			if s.roomBelow(n, item) > 0 {
				s.ruledLines(s.exitLines())
			}
			s.inset -= wide
		})
	})
	s.gap(0.6)
}

func isText(n ast.Node) bool { return n.Kind() == ast.KindParagraph || n.Kind() == ast.KindTextBlock }

// passIfBelow lets lines be as wide as the page again once they are below the picture at their side.
func (s *sheet) passIfBelow() {
	if s.narrow > 0 && (s.y >= s.narrowTo-1 || s.narrowOn != s.doc.PageCount()) {
		s.narrow = 0
	}
}

// Between lines to write on; the least that children can write between.
const ruled = 8.0

// roomBelow is the height of the lines to write on below a point that is answered in writing, unless what comes next
// has room of its own.
func (s *sheet) roomBelow(list *ast.List, item ast.Node) float64 {
	if !s.chosen.written[list] || !list.IsOrdered() {
		return 0
	}
	text := strings.TrimSpace(lesson.TextOf(item, s.lesson.Markdown, nil))
	_, box := list.NextSibling().(*lesson.WorkBlock)
	if item.NextSibling() == nil && box || strings.HasSuffix(text, ":") {
		return 0
	}
	return s.ruledHeight(s.exitLines())
}

func (s *sheet) ruledHeight(lines int) float64 { return ruled*float64(lines) + 1 }

// exitLines is how many lines there are for an answer in words.
func (s *sheet) exitLines() int {
	if s.fit.room > 20 {
		return 3
	}
	return 2
}

// ruledLines puts lines to write on.
func (s *sheet) ruledLines(n int) {
	s.put(s.ruledHeight(n), func(y float64) {
		s.doc.In(pdf.Form, func() {
			for i := range n {
				s.writing(s.left(), s.right(), y+ruled*float64(i+1))
			}
		}, pdf.Alt(s.say("room-to-write")))
	})
}
