package worksheets

// Text that is broken into lines again and again until a run sheet fits: its words are measured once, and what has been
// broken is kept.

import "trundle/worksheets/pdf"

// hangIn is a text that is broken into lines: its style and size, and the widths of the first line and of the others.
type hangIn struct {
	text               *partedText
	style              pdf.Style
	size, first, width float64
}

// widthOf is how wide a short text is.
func (r *runSheet) widthOf(style pdf.Style, size float64, text string) float64 {
	r.doc.SetFont(style, size)
	return r.doc.Width(text)
}

// wrap breaks a text into lines no wider than width. They are shared, and stay as they are.
func (r *runSheet) wrap(style pdf.Style, size float64, text string, width float64) []string {
	return r.hang(style, size, text, width, width)
}

// hang is wrap with another width for the first line.
func (r *runSheet) hang(style pdf.Style, size float64, text string, first, width float64) []string {
	r.doc.SetFont(style, size)
	parted := r.partedOf(text)
	return kept(r.sheet.texts.hung, hangIn{parted, style, size, first, width}, func() []string {
		return parted.hang(r.doc, first, width)
	})
}

// hang breaks the text into lines, which are parts of it, the first of another width.
func (p *partedText) hang(doc *pdf.Document, first, width float64) []string {
	ems, blank := p.widths(doc), doc.Width(" ")
	var lines []string
	room, taken, line, from := first, 0.0, -1, 0 // where the line begins, and the word
	for i, end := range p.ends {
		wide := doc.Across(ems[i])
		if line >= 0 && taken+blank+wide > room {
			lines, line, room = append(lines, p.text[line:from-1]), -1, width
		}
		if line < 0 && wide > room && wide <= width { // the first line is too short for it
			lines, room = append(lines, ""), width
		}
		switch {
		case wide > room: // a word that is wider than a line
			for rest := p.text[from:end]; rest != ""; room = width {
				n, line := hyphenated(doc, p.marks, rest, room)
				lines, rest = append(lines, line), rest[n:]
			}
			room, line = width, -1
		case line < 0:
			line, taken = from, wide
		default:
			taken += blank + wide
		}
		from = end + 1
	}
	if line >= 0 {
		lines = append(lines, p.text[line:])
	}
	return lines
}
