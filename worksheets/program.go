package worksheets

// Programs on paper: line by line as they are typed, with blanks for the team's own numbers.

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// A programLine is a line of a program, as it is read from the lesson: spans with how far in they begin.
type programLine struct {
	indent int // blanks
	spans  []span
}

// filled gives the lines of a program with blanks for the team's own numbers.
func (s *sheet) filled(n *lesson.FilledCode) []programLine {
	var all []span
	for _, part := range n.Parts {
		if part.Value == nil {
			all = append(all, span{text: part.Code})
			continue
		}
		r := s.lesson.OfValue(part.Value)
		if r == nil {
			continue
		}
		number := strings.TrimSuffix(r.Text(), r.Unit())
		if q, ok := r.Quantity(); ok && r.IsTruth() {
			number = n.Truth(q.Number)
		}
		number = strings.ReplaceAll(strings.TrimSpace(number), "−", "-")
		switch {
		case r.OfStudents || r.Guessed:
			value := &shown{blank: true}
			if !r.Guessed {
				value.answer = number
			}
			all = append(all, span{text: blankLine, value: value})
		default:
			all = append(all, span{text: number})
		}
	}
	return linesOf(all)
}

// typed gives the lines of a program that has no blanks.
func (s *sheet) typed(n ast.Node) []programLine {
	var code strings.Builder
	for i := range n.Lines().Len() {
		line := n.Lines().At(i)
		code.Write(line.Value(s.lesson.Markdown))
	}
	return linesOf([]span{{text: code.String()}})
}

// linesOf parts the code in spans at its ends of line. Blanks within a line stay.
func linesOf(code []span) []programLine {
	lines := []programLine{{}}
	for _, p := range code {
		for i, text := range strings.Split(p.text, "\n") {
			if i > 0 {
				lines = append(lines, programLine{})
			}
			last := &lines[len(lines)-1]
			if len(last.spans) == 0 {
				trimmed := strings.TrimLeft(text, " \t")
				last.indent += len(text) - len(trimmed) + 3*strings.Count(text[:len(text)-len(trimmed)], "\t")
				text = trimmed
			}
			if text = strings.TrimRight(text, "\r"); text != "" {
				last.spans = append(last.spans, span{text: printable(text), value: p.value})
			}
		}
	}
	for len(lines) > 1 && len(lines[len(lines)-1].spans) == 0 {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// program puts a program into a frame, line by line as it is typed.
func (s *sheet) program(lines []programLine) {
	const pad, em = 2.0, body * point * 0.55 // of a blank at the start of a line: the letters are not equally wide
	type row struct {
		at   float64
		text textLine
	}
	var rows []row
	for _, l := range lines {
		at := pad + float64(l.indent)*em
		if len(l.spans) == 0 {
			rows = append(rows, row{at, nil})
		}
		for i, text := range s.programRows(l.spans, s.width()-at-pad) {
			if i == 1 {
				at += 4 * em
			}
			rows = append(rows, row{at, text})
		}
	}
	height := float64(len(rows)) * s.line(body)
	s.gap(1.5)
	if height+2*pad <= s.foot()-Margin {
		s.need(height + 2*pad)
		s.doc.Apart(func() {
			s.doc.LineWidth(0.25)
			s.doc.Rect(s.left(), s.y, s.width(), height+2*pad, pdf.Stroke)
		})
	}
	s.put(pad, func(float64) {})
	s.doc.In(pdf.P, func() {
		s.doc.In(pdf.Code, func() {
			for _, r := range rows {
				s.put(s.line(body), func(y float64) { s.drawLine(r.text, s.left()+r.at, y, body) })
			}
		})
	})
	s.put(pad, func(float64) {})
	s.gap(1.5)
}

// programRows breaks a line of a program only if it is too long.
func (s *sheet) programRows(spans []span, width float64) []textLine {
	if s.widest([]textLine{spans}, body) <= width {
		return []textLine{spans}
	}
	var words []span
	blank := false // the code so far ends with one
	for _, p := range spans {
		if p.value != nil {
			words, blank = append(words, span{text: p.text, style: p.style, space: blank, value: p.value}), false
			continue
		}
		for i, w := range strings.Split(p.text, " ") {
			blank = blank || i > 0
			if w != "" {
				words, blank = append(words, span{text: w, style: p.style, space: blank}), false
			}
		}
	}
	return s.setLines(words, body, width)
}
