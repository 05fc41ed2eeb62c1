package worksheets

// The address of a sheet's page, as a code and in letters for those who cannot scan it.

import (
	"net/url"
	"path"
	"strings"

	"trundle/worksheets/pdf"
)

// address is that of the page of the sheet's lesson.
func (s *sheet) address() string {
	return s.about.Address + url.PathEscape(path.Base(s.lesson.Slug)+".html")
}

// addressInLetters writes the address out, to be typed. It breaks after a slash, where nobody takes the break
// for a hyphen or the end of a sentence.
func (s *sheet) addressInLetters(width float64) {
	s.y += 1
	height := s.font(regular, 9)
	lines := wrapAddress(s.doc, s.say("on-the-web")+" ", typed(s.address()), width)
	for i, l := range lines { // no blank ends them: it would part the address for who copies it
		s.doc.Text(s.left(), s.y+height*(float64(i)+0.76), l)
	}
	s.y += height * float64(len(lines))
}

// typed is an address as it can be read and typed: with its letters instead of their escapes, as long as that is the
// same address for a browser and the font has them.
func typed(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	plain := u.Scheme + "://" + u.Host + u.Path
	again, err := url.Parse(plain)
	if err != nil || again.String() != address || printable(plain) != plain || strings.ContainsAny(plain, " \u00a0") {
		return address
	}
	return plain
}

// wrapAddress breaks an address into lines of a width; what introduces it comes before it on the first.
func wrapAddress(doc *pdf.Document, before, address string, width float64) []string {
	var lines []string
	line := printable(before)
	for piece := range strings.SplitAfterSeq(address, "/") {
		for doc.Width(line+piece) > width && line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
			line = ""
		}
		for doc.Width(piece) > max(width, 0) {
			n := fitting(doc, piece, width)
			lines, piece = append(lines, piece[:n]), piece[n:]
		}
		line += piece
	}
	return append(lines, line)
}
