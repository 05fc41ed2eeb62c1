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

// breaks tells a blank at which a line may end.
func breaks(r rune) bool { return unicode.IsSpace(r) && r != typography.NoBreak }

// wrap breaks a text into lines no wider than width, in the font that is set. A word that
// is wider is broken between letters.
func wrap(doc *pdf.Document, text string, width float64) []string {
	var lines []string
	line, used, blank := "", 0.0, doc.Width(" ")
	for _, word := range strings.FieldsFunc(typography.Text(text), breaks) {
		word = printable(word)
		wide := doc.Width(word)
		if line != "" && used+blank+wide <= width {
			line += " " + word
			used += blank + wide
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for wide > max(width, 0) { // a place may have no room at all
			n := fitting(doc, word, width)
			lines, word = append(lines, word[:n]), word[n:]
			wide = doc.Width(word)
		}
		line, used = word, wide
	}
	if line != "" {
		lines = append(lines, line)
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
		return strings.TrimSpace("__________ " + r.Unit())
	}
	return r.Text()
}
