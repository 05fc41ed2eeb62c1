package worksheets

// Text that is broken into lines again and again until a run sheet fits: its words are measured once, and their widths
// grow with the size of the type.

import (
	"strings"

	"trundle/generator/typography"
	"trundle/worksheets/pdf"
)

// A word is one of a text that can be printed, and how wide it is in type of one point.
type word struct {
	text  string
	width float64
}

// A textIn is a text in a style.
type textIn struct {
	style pdf.Style
	text  string
}

// words are those of a text, measured.
func (r *runSheet) words(style pdf.Style, text string) []word {
	key := textIn{style, text}
	if known, ok := r.sheet.texts.measured[key]; ok {
		return known
	}
	r.doc.SetFont(style, 1)
	var all []word
	for _, w := range strings.FieldsFunc(typography.Text(text), breaks) {
		w = printable(w)
		all = append(all, word{w, r.doc.Width(w)})
	}
	r.sheet.texts.measured[key] = all
	return all
}

// widthOf is how wide a short text is.
func (r *runSheet) widthOf(style pdf.Style, size float64, text string) float64 {
	r.doc.SetFont(style, size)
	return r.doc.Width(text)
}

// wrap breaks a text into lines no wider than width.
func (r *runSheet) wrap(style pdf.Style, size float64, text string, width float64) []string {
	return r.hang(style, size, text, width, width)
}

// hang is wrap with another width for the first line.
func (r *runSheet) hang(style pdf.Style, size float64, text string, first, width float64) []string {
	words := r.words(style, text)
	blank := r.widthOf(style, size, " ")
	var lines []string
	room, taken, from := first, 0.0, 0
	flush := func(to int) {
		if to > from {
			lines = append(lines, joined(words[from:to]))
			room = width
		}
		from, taken = to, 0
	}
	for i, w := range words {
		wide := w.width * size
		if i > from && taken+blank+wide > room {
			flush(i)
		}
		if i == from && wide > room && wide <= width { // the first line is too short for it
			lines, room = append(lines, ""), width
		}
		if wide > room { // a word that is wider than a line
			pieces := r.pieces(w.text, room, width)
			lines, room = append(lines, pieces...), width
			from, taken = i+1, 0
			continue
		}
		if i > from {
			taken += blank
		}
		taken += wide
	}
	flush(len(words))
	return lines
}

// pieces breaks a word between letters, in the font that is set.
func (r *runSheet) pieces(word string, first, width float64) []string {
	var all []string
	for room := first; word != ""; room = width {
		n := fitting(r.doc, word, room)
		all, word = append(all, word[:n]), word[n:]
	}
	return all
}

func joined(words []word) string {
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(w.text)
	}
	return b.String()
}
