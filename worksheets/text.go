package worksheets

// Text for the sheets' font: what it can print, and how it is broken into lines.

import (
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/typography"
	"trundle/worksheets/pdf"
)

// point is a typographic point in millimetres.
const point = 25.4 / 72

// leading is the height of a line of text by its size.
const leading = 1.35

// lacks tells whether the font has no glyph for a character.
func lacks(r rune) bool { return !letters()[regular].Has(r) }

// Lacks gives the first character of a text that the sheets' font has no glyph for.
func Lacks(text string) (rune, bool) {
	for _, r := range text {
		if !unicode.IsSpace(r) && !unicode.Is(unicode.Cf, r) && lacks(r) {
			return r, true
		}
	}
	return 0, false
}

// printable makes a text fit for the font: one line, blanks plain, and an empty square
// for what it lacks.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == typography.NarrowNoBreak && !lacks(r):
			return r
		case unicode.IsSpace(r):
			return ' '
		case r < 0x7f && r > ' ':
			return r
		case unicode.Is(unicode.Cf, r) || unicode.IsControl(r):
			return -1
		case lacks(r):
			return '□'
		}
		return r
	}, s)
}

// wrap breaks a text whose marks are set into lines no wider than width, in the font that is set. A word that
// is wider is parted.
func wrap(doc *pdf.Document, text string, width float64) []string {
	return partedOf(typography.Marks{}, text).wrap(doc, width)
}

// wrap is the same for a sheet, which remembers the words of its texts.
func (s *sheet) wrap(text string, width float64) []string {
	return s.partedOf(text).wrap(s.doc, width)
}

// A partedText is one whose words are known, and how wide they are.
type partedText struct {
	marks typography.Marks
	text  string // that can be printed, its words with one blank between them
	ends  []int  // of the words
	ems   [3][]float64
}

// partedOf parts a text at its blanks.
func partedOf(m typography.Marks, text string) *partedText {
	p := &partedText{marks: m}
	var all strings.Builder
	for _, word := range strings.FieldsFunc(m.Text(text), typography.IsBreak) {
		if word = printable(word); word == "" {
			continue
		}
		if all.Len() > 0 {
			all.WriteByte(' ')
		}
		all.WriteString(word)
		p.ends = append(p.ends, all.Len())
	}
	p.text = all.String()
	return p
}

// widths are those of the words in parts of the size of the type that is set.
func (p *partedText) widths(doc *pdf.Document) []float64 {
	ems := p.ems[doc.Style()]
	if ems == nil {
		ems = make([]float64, len(p.ends))
		from := 0
		for i, end := range p.ends {
			ems[i] = doc.Ems(p.text[from:end])
			from = end + 1
		}
		p.ems[doc.Style()] = ems
	}
	return ems
}

// wrap breaks the text into lines, which are parts of it but where a word is parted.
func (p *partedText) wrap(doc *pdf.Document, width float64) []string {
	var lines []string
	ems, blank := p.widths(doc), doc.Width(" ")
	line, from, used := -1, 0, 0.0 // where the line begins, and the word
	for i, end := range p.ends {
		wide := doc.Across(ems[i])
		switch {
		case line >= 0 && used+blank+wide <= width:
			used += blank + wide
		default:
			if line >= 0 {
				lines = append(lines, p.text[line:from-1])
			}
			for wide > max(width, 0) { // a place may have no room at all
				n, part := hyphenated(doc, p.marks, p.text[from:end], width)
				lines = append(lines, part)
				from += n
				wide = doc.Width(p.text[from:end])
			}
			line, used = from, wide
			if from == end {
				line = -1
			}
		}
		from = end + 1
	}
	if line >= 0 {
		lines = append(lines, p.text[line:])
	}
	return lines
}

// fitting gives how many bytes of a word fit into width, one letter at least.
func fitting(doc *pdf.Document, word string, width float64) int {
	sum, end := 0.0, 0
	for i, r := range word {
		if sum += doc.Width(string(r)); sum > width && i > 0 {
			return i
		}
		end = i + len(string(r))
	}
	return end
}

// plain gives the text of a node, values put in, a line to write on where the team fills in. Its code stays as typed.
func (s *sheet) plain(n ast.Node) string {
	return lesson.TextWith(n, s.lesson.Markdown, s.valueText, typography.Keep)
}

// valueText is a value as text, or a line to write on with its unit.
func (s *sheet) valueText(v *lesson.Value) string {
	r := s.lesson.OfValue(v)
	if r.OfStudents && !s.mentors || r.Guessed {
		return strings.TrimSpace("__________ " + s.unit(r.Asked()))
	}
	return s.number(r.Text())
}
