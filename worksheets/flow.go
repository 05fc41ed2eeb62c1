package worksheets

// Laying out from the top of a page down, in blocks that stay together, and the small things drawn in them. What the
// blocks are is in sheet.go and block.go.

import (
	"strings"

	"rsc.io/qr"

	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Sizes of type in points: for readers from nine, what they read is no smaller than body.
const (
	titleSize = 20.0
	partSize  = 15.0
	body      = 12.0
	labelSize = 9.0 // of cells, axes and gauges
)

// edgeWidth is the strip down the right margin that the centimetre edge takes.
const edgeWidth = 9

// footerHeight is the strip at the foot of each page that its footer takes.
const footerHeight = 4.5

// mostLines is how many lines of text are kept together; longer texts go on over a page.
const mostLines = 36

// A sheet is a document being laid out, from the top down. What must stay together is
// put as one block; pages break between blocks.
type sheet struct {
	doc      *pdf.Document
	paper    Paper
	about    About
	lesson   *work.Lesson
	mentors  bool
	edgeless bool // no ruler down the margin: run sheets have the whole width
	fit      fit
	y        float64
	lying    map[int]bool // pages on their side, by number
	chosen   *selection
	texts    *texts

	measures *measures
	level    int  // of the last heading
	apart    bool // what is drawn is an artifact

	inset    float64 // how far what is put begins from the left margin, and
	narrow   float64 // how far from the right it ends: beside a picture
	narrowTo float64 // whose foot is here
	narrowOn int     // on this page

	beside, bars float64 // what gauges take of this page at its left, and the bars that check them at its foot
	stands       bool    // the first page has such gauges

	columnFrom, columnTo float64 // what a column leaves free at its left and at its right
	measuring            bool    // nothing is drawn, and no page ends
}

// say is a text of the interface.
func (s *sheet) say(name string, args ...any) string {
	if len(args) > 0 {
		return s.about.Marks.Text(s.about.Words(name, args...))
	}
	return kept(s.remembered().said, name, func() string { return s.about.Marks.Text(s.about.Words(name)) })
}

// led is a text of the interface that another follows after a colon.
func (s *sheet) led(name string) string { return s.say(name) + s.colon() }

// colon is the language's, with its blanks.
func (s *sheet) colon() string { return s.say("colon") + " " }

// number writes the numbers of a text of ours as the language does.
func (s *sheet) number(text string) string { return quantity.TextIn(s.about.Forms, text) }

// left, right and foot are the edges of what may be filled, in millimetres from the top left corner of the paper.
func (s *sheet) left() float64  { return Margin + s.beside + s.columnFrom + s.inset }
func (s *sheet) width() float64 { return s.right() - s.left() }
func (s *sheet) right() float64 { return s.paper.Width - Margin - edgeWidth - s.columnTo - s.narrow }
func (s *sheet) foot() float64  { return s.paper.Height - Margin - footerHeight - s.bars }

// newPage goes on at the top of a new page.
func (s *sheet) newPage() {
	s.doc.AddPage(s.paper.Width, s.paper.Height)
	s.y = Margin
	s.narrow, s.beside, s.bars = 0, 0, 0
	if !s.doc.IsDraft() && !s.edgeless {
		s.edge()
	}
}

// need makes sure that there is room for a height, here or on the next page.
func (s *sheet) need(height float64) {
	if s.y+height > s.foot() && s.y > Margin && !s.measuring {
		s.newPage()
	}
}

// put places a block of a height on this page, or on the next if it has no room here.
func (s *sheet) put(height float64, draw func(y float64)) {
	s.need(height)
	if !s.measuring && !s.doc.IsDraft() {
		draw(s.y)
	}
	s.y += height
}

// gap leaves room below what was put last; at the top of a page there is nothing to part.
func (s *sheet) gap(height float64) {
	if s.y > Margin {
		s.y += height
	}
}

// font sets style and size, and gives the height of a line.
func (s *sheet) font(style pdf.Style, size float64) float64 {
	s.doc.SetFont(style, size)
	return size * point * leading
}

// lines draws lines of text from the top y, in the font that is set. Each ends in a blank, so that who listens
// to a page hears its words apart.
func (s *sheet) lines(x, y float64, lines []string, height float64) {
	for i, l := range lines {
		s.doc.Text(x, y+height*(float64(i)+0.76), strings.TrimSuffix(l, " ")+" ")
	}
}

// paragraph puts wrapped text; one longer than a page goes on over the next.
func (s *sheet) paragraph(style pdf.Style, size float64, indent float64, text string) {
	height := s.font(style, size)
	// Each line is a block of its own, so that a page may end after any of them.
	for _, l := range s.wrap(text, s.width()-indent) {
		s.put(height, func(y float64) {
			s.font(style, size)
			s.lines(s.left()+indent, y, []string{l}, height)
		})
	}
}

// tick draws an empty box to be ticked.
func (s *sheet) tick(x, y, size float64) {
	s.doc.LineWidth(0.25)
	s.doc.Rect(x, y, size, size, pdf.Stroke)
}

// writing draws a line to write on.
func (s *sheet) writing(x1, x2, y float64) {
	s.doc.LineWidth(0.2)
	s.doc.Ink(90)
	s.doc.Line(x1, y, x2, y)
	s.doc.Ink(0)
}

// squared fills a rectangle with squares of 5 mm.
func (s *sheet) squared(x, y, w, h float64) {
	s.doc.LineWidth(0.1)
	s.doc.Ink(185)
	for i := 1; float64(i)*5 < w-0.01; i++ {
		s.doc.Line(x+float64(i)*5, y, x+float64(i)*5, y+h)
	}
	for i := 1; float64(i)*5 < h-0.01; i++ {
		s.doc.Line(x, y+float64(i)*5, x+w, y+float64(i)*5)
	}
	s.doc.Ink(120)
	s.doc.Rect(x, y, w, h, pdf.Stroke)
	s.doc.Ink(0)
}

// code draws an address as a QR code (ISO/IEC 18004) in a square of a size, its quiet zone of
// four modules around it left to the caller.
func (s *sheet) code(address string, x, y, size float64) error {
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		return err
	}
	module := size / float64(c.Size)
	s.doc.Shade(0)
	for row := range c.Size {
		for start := 0; start < c.Size; start++ {
			end := start
			for end < c.Size && c.Black(end, row) {
				end++
			}
			if end > start { // a whole run in one piece, so that no hairlines show between modules
				s.doc.Rect(x+float64(start)*module, y+float64(row)*module, float64(end-start)*module, module, pdf.Fill)
				start = end
			}
		}
	}
	return nil
}

// footers writes lesson, pack and number on every page, once their number is known.
func (s *sheet) footers() {
	total := s.doc.PageCount()
	for n := 1; n <= total; n++ {
		s.doc.SetPage(n)
		width := s.paper.Width
		if s.lying[n] {
			width = s.paper.Height
		}
		size := s.font(regular, 8)
		_, height := s.doc.PageSize()
		y := height - Margin - size
		s.doc.Shade(60)
		number := printable(s.say("page-of", n, total))
		numberWidth := s.doc.Width(number)
		about := s.lesson.Title + " · " + s.about.Pack + " · " + s.say("version") + " " + s.about.Version
		if s.mentors {
			about = s.say("mentors-sheet") + " · " + about
		}
		if fits := s.wrap(about, width-2*Margin-numberWidth-5); len(fits) > 0 {
			s.lines(Margin, y, fits[:1], size)
		}
		s.lines(width-Margin-numberWidth, y, []string{number}, size)
		s.doc.Shade(0)
	}
}

// unit puts a unit that is a word into that of the language.
func (s *sheet) unit(symbol string) string {
	if s.about.Forms == nil {
		return symbol
	}
	return s.about.Forms.Unit(symbol)
}
