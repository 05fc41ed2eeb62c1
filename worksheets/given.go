package worksheets

// What is given: several values on one line, wrapped like text.

import (
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/worksheets/pdf"
)

// givens puts the givens that come first, if their values are known, and gives how many they are.
func (s *sheet) givens(rest []question) int {
	n := 0
	var words []box
	for n < len(rest) && s.isTold(rest[n]) {
		if n > 0 { // the dot ends a line rather than begins one
			words[len(words)-1] = beside(words[len(words)-1], s.word(regular, "·"))
		}
		words = append(words, s.givenWords(rest[n])...)
		n++
	}
	if n == 0 {
		return 0
	}
	lines := flowed(words, s.width()-symbolWide)
	kind := printable(s.say(string(rest[0].Kind)))
	s.doc.In(pdf.P, func() {
		for i, line := range lines {
			height := max(line.height(), body*point*leading)
			s.put(height, func(y float64) {
				base := y + (height+line.up-line.down)/2
				if i == 0 {
					s.font(regular, small)
					s.doc.Shade(soft)
					s.doc.Text(s.left(), base, kind+" ")
					s.doc.Shade(0)
				}
				line.draw(s.left()+symbolWide, base)
			})
		}
	})
	s.gap(s.between() - 1)
	return n
}

// givenWords are a given's symbol and value, which stay together, and the words of its prompt.
func (s *sheet) givenWords(q question) []box {
	set := setter{s.doc, body}
	value := beside(set.set(quantity.SymbolOf(q.Name)), set.text(regular, " = "), set.amount(bold, s.number(q.Text())),
		set.text(regular, " "), set.space(0.2))
	words := []box{value}
	for _, word := range strings.FieldsFunc(s.about.Marks.Text(q.Prompt), typography.IsBreak) {
		words = append(words, s.pieces(word)...)
	}
	return words
}

// pieces is a word, in parts if it is wider than a line.
func (s *sheet) pieces(word string) []box {
	var all []box
	s.font(regular, body)
	word = printable(word)
	for width := s.width() - symbolWide - 2; s.doc.Width(word) > max(width, 0); {
		n, line := hyphenated(s.doc, s.about.Marks, word, width)
		all = append(all, setter{s.doc, body}.text(regular, line))
		s.font(regular, body)
		word = word[n:]
	}
	return append(all, s.word(regular, word))
}

// word is one with the blank after it, so that what reads the text knows where it ends.
func (s *sheet) word(style pdf.Style, text string) box {
	return setter{s.doc, body}.text(style, printable(text)+" ")
}

// flowed puts boxes beside each other in lines no wider than width; one that is wider has a line of its own.
func flowed(words []box, width float64) []box {
	var lines []box
	from, sum := 0, 0.0
	for i, w := range words {
		if sum+w.width > width && i > from {
			lines = append(lines, beside(words[from:i]...))
			from, sum = i, 0
		}
		sum += w.width
	}
	return append(lines, beside(words[from:]...))
}
