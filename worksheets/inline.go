package worksheets

// Text with more than one style in it: how it is taken from the lesson's tree, broken into lines, and drawn.

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/typography"
	"trundle/generator/wording"
	"trundle/worksheets/pdf"
)

// A span is what no line is broken within: a word, or a part of one in a style of its own.
type span struct {
	text  string
	style pdf.Style
	space bool // a blank comes before it
	value *shown
	cut   bool // the word goes on in the next line
}

// shown is a value in a text.
type shown struct {
	text   string // as it is read, where that differs from what is drawn
	blank  bool   // the team writes it
	answer string // what mentors read in the blank
}

// blankLine is what a team writes a number on.
const blankLine = "__________"

// A gatherer collects the letters of a text with what each of them is.
type gatherer struct {
	sheet  *sheet
	runes  []rune
	styles []pdf.Style
	values []*shown
}

func (g *gatherer) add(text string, style pdf.Style, value *shown) {
	for _, r := range text {
		g.runes, g.styles, g.values = append(g.runes, r), append(g.styles, style), append(g.values, value)
	}
}

// spans gives the text of a node in spans, its plain words in a style. Pictures are not part of it.
func (s *sheet) spansOf(n ast.Node, style pdf.Style) []span {
	return kept(s.remembered().nodes, nodeIn{n, style}, func() []span {
		g := gatherer{sheet: s}
		g.inline(n, style)
		return slices.Clip(g.spans())
	})
}

// wordsOf gives a text of one style in spans.
func (s *sheet) wordsOf(text string, style pdf.Style) []span {
	return kept(s.remembered().words, wordsIn{text, style}, func() []span {
		g := gatherer{sheet: s}
		g.add(text, style, nil)
		return slices.Clip(g.spans())
	})
}

// inline adds what is below a node. Whatever is emphasized is bold: the sheets have no other letters for words.
func (g *gatherer) inline(n ast.Node, style pdf.Style) {
	src := g.sheet.lesson.Markdown
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) { // the others: their text, as of links
		case *ast.Text:
			g.text(c, src, style)
		case *ast.Image:
		case *ast.Emphasis:
			g.inline(c, bold)
		case *lesson.Value:
			g.value(c, style)
		case *ast.AutoLink:
			g.add(typography.Keep(string(c.Label(src))), style, nil)
		case *ast.RawHTML:
			for i := range c.Segments.Len() {
				segment := c.Segments.At(i)
				g.add(typography.Keep(string(segment.Value(src))), style, nil)
			}
		default:
			g.inline(c, style)
		}
	}
}

func (g *gatherer) text(t *ast.Text, src []byte, style pdf.Style) {
	raw := t.Segment.Value(src)
	if t.Parent() != nil && t.Parent().Kind() == ast.KindCodeSpan {
		g.add(typography.Keep(string(raw)), style, nil)
	} else {
		g.add(lesson.Plain(raw), style, nil)
	}
	if t.SoftLineBreak() || t.HardLineBreak() {
		g.add(" ", style, nil)
	}
}

// value adds a value, or a line to write on with its unit.
func (g *gatherer) value(v *lesson.Value, style pdf.Style) {
	r := g.sheet.lesson.OfValue(v)
	if r == nil {
		return
	}
	if r.OfStudents || r.Guessed {
		value := &shown{blank: true}
		if !r.Guessed {
			value.answer = g.sheet.number(r.Text())
		}
		g.add(unbroken(strings.TrimSpace(blankLine+" "+g.sheet.unit(r.Asked()))), style, value)
		return
	}
	text := g.sheet.number(r.Text())
	value := &shown{}
	drawn := fractions.Compiled().ReplaceAllStringFunc(text, fraction)
	if drawn != text {
		value.text = text
	}
	g.add(unbroken(drawn), style, value)
}

func unbroken(text string) string { return strings.ReplaceAll(text, " ", string(typography.NoBreak)) }

// fractions are those of tape measures, with the blank that parts one from its whole number.
var fractions = wording.New(` ?\b[0-9]+/[0-9]+\b`)

var (
	above = strings.NewReplacer(
		"0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")
	below = strings.NewReplacer(
		"0", "₀", "1", "₁", "2", "₂", "3", "₃", "4", "₄", "5", "₅", "6", "₆", "7", "₇", "8", "₈", "9", "₉")
)

// fraction sets one with raised and lowered digits.
func fraction(text string) string {
	over, under, _ := strings.Cut(strings.TrimSpace(text), "/")
	return above.Replace(over) + "⁄" + below.Replace(under)
}

// spans parts what has been gathered at its blanks, and wherever a style or a value begins or ends.
func (g *gatherer) spans() []span {
	marks := g.sheet.about.Marks
	set := marks.Set(g.runes)
	var all []span
	space := false
	for i := 0; i < len(set); {
		if typography.IsBreak(set[i]) {
			space = true
			i++
			continue
		}
		end := i
		for end < len(set) && !typography.IsBreak(set[end]) && g.styles[end] == g.styles[i] && g.values[end] == g.values[i] {
			end++
		}
		if text := printable(marks.Spell(set[i:end], g.runes[i:end])); text != "" {
			all = append(all, span{text: text, style: g.styles[i], space: space && len(all) > 0, value: g.values[i]})
			space = false
		}
		i = end
	}
	return all
}

// A textLine is a line of spans.
type textLine []span

// setLines breaks spans into lines of a width, in a size of type. What is wider than a line is parted.
func (s *sheet) setLines(spans []span, size, width float64) []textLine {
	if len(spans) == 0 {
		return nil
	}
	return kept(s.remembered().lines, linesIn{&spans[0], len(spans), size, width}, func() []textLine {
		return s.brokenLines(spans, size, width)
	})
}

// brokenLines breaks spans into lines, which are parts of them unless a word has to be broken.
func (s *sheet) brokenLines(spans []span, size, width float64) []textLine {
	var lines []textLine
	used, line, blank := 0.0, 0, s.blankWidth(size) // of the spans before the word, as many as line are in its line
	end := 0
	for at := 0; at < len(spans); at = end {
		wide := s.widthOf(spans[at], size)
		for end = at + 1; end < len(spans) && !spans[end].space; end++ {
			wide += s.widthOf(spans[end], size)
		}
		if line > 0 && used+blank+wide > width {
			lines, line, used = append(lines, textLine(spans[at-line:at:at])), 0, 0
		}
		if wide > width {
			spans, at = append(s.broken(spans[at:end], size, width), spans[end:]...), 0
			lines, end = append(lines, textLine(spans[:1:1])), 1
			continue
		}
		if line > 0 {
			used += blank
		}
		line, used = line+end-at, used+wide
	}
	if line > 0 {
		lines = append(lines, textLine(spans[len(spans)-line:]))
	}
	return lines
}

// broken parts a word that is too wide for a line into spans that are not, each for a line of its own.
func (s *sheet) broken(word []span, size, width float64) []span {
	var all []span
	for _, p := range word {
		s.font(p.style, size)
		for rest := p.text; rest != ""; {
			n, line := hyphenated(s.doc, s.about.Marks, rest, width)
			all = append(all, span{text: line, style: p.style, space: true, cut: true})
			rest = rest[n:]
		}
	}
	all[len(all)-1].cut = false
	return all
}

func (s *sheet) widthOf(p span, size float64) float64 {
	s.font(p.style, size)
	return s.doc.Width(p.text)
}

func (s *sheet) blankWidth(size float64) float64 {
	s.font(regular, size)
	return s.doc.Width(" ")
}

// widest is how wide the widest line is.
func (s *sheet) widest(lines []textLine, size float64) float64 {
	most := 0.0
	for _, l := range lines {
		sum := 0.0
		for i, p := range l {
			if p.space && i > 0 {
				sum += s.blankWidth(size)
			}
			sum += s.widthOf(p, size)
		}
		most = max(most, sum)
	}
	return most
}

// widestWord is how wide the widest word is.
func (s *sheet) widestWord(spans []span, size float64) float64 {
	most, word := 0.0, 0.0
	for _, p := range spans {
		if p.space {
			word = 0
		}
		word += s.widthOf(p, size)
		most = max(most, word)
	}
	return most
}

// drawLine draws a line of spans from a left edge, the top of the line at y. It ends in a blank, so that who listens to
// a page hears its last word apart from the next line's first; a word that goes on there has none.
func (s *sheet) drawLine(l textLine, x, y, size float64) {
	at := y + s.line(size)*0.5 + size*point*0.35
	for i := 0; i < len(l); {
		if i > 0 && l[i].space {
			x += s.blankWidth(size)
		}
		text := l[i].text
		end := i + 1
		for end < len(l) && l[end].style == l[i].style && l[end].value == nil && l[i].value == nil {
			if l[end].space {
				text += " "
			}
			text += l[end].text
			end++
		}
		if end < len(l) && l[end].space || end == len(l) && !l[end-1].cut {
			text += " " // so that the words stay apart when they are read
		}
		s.drawSpan(span{text: text, style: l[i].style, value: l[i].value}, x, at, size)
		s.font(l[i].style, size)
		x += s.doc.Width(strings.TrimSuffix(text, " "))
		i = end
	}
}

// drawSpan writes a span with its base line at y. A blank that mentors read the answer in is as wide as it is for
// students, so that both sheets break their lines alike.
func (s *sheet) drawSpan(p span, x, y, size float64) {
	s.font(p.style, size)
	switch {
	case p.value == nil:
		s.doc.Text(x, y, p.text)
	case s.mentors && p.value.answer != "":
		s.answerIn(p, x, y, size)
	case p.value.text != "" && !s.apart:
		read := p.value.text
		if strings.HasSuffix(p.text, " ") {
			read += " "
		}
		s.doc.In(pdf.Span, func() { s.doc.Text(x, y, p.text) }, pdf.Actual(read))
	default:
		s.doc.Text(x, y, p.text)
	}
}

// answerIn writes an answer in bold on the line that students write on.
func (s *sheet) answerIn(p span, x, y, size float64) {
	room := s.doc.Width(strings.TrimRight(p.text, " "))
	s.doc.Apart(func() { s.writing(x, x+s.doc.Width(blankLine), y+0.6) })
	text := printable(p.value.answer)
	s.font(bold, size)
	for ; size > labelSize && s.doc.Width(text) > room; size -= 0.5 {
		s.font(bold, size-0.5)
	}
	s.doc.Text(x, y, text+" ")
}
