package worksheets

// The address of a sheet's page, as a code and in letters for those who cannot scan it.

import (
	"net/url"
	"path"
	"strings"
)

// address is that of the page of the sheet's lesson.
func (s *sheet) address() string {
	return s.about.Address + url.PathEscape(path.Base(s.lesson.Slug)+".html")
}

// addressInLetters writes the address out, to be typed. It breaks after a slash, a hyphen or a point, and never gets a
// hyphen of its own, which would be typed too.
func (s *sheet) addressInLetters(width float64) {
	s.y += 1
	height := s.font(regular, 9)
	lines := wrapAddress(s.pdf, s.say("on-the-web")+" ", typed(s.address()), width)
	s.lines(s.left(), s.y, lines, height)
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
func wrapAddress(pdf page, before, address string, width float64) []string {
	var lines []string
	line := printable(before)
	for piece := range pieces(address) {
		for pdf.GetStringWidth(line+piece) > width && line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
			line = ""
		}
		for pdf.GetStringWidth(piece) > width {
			n := fitting(pdf, piece, width)
			lines, piece = append(lines, piece[:n]), piece[n:]
		}
		line += piece
	}
	return append(lines, line)
}

// pieces cuts an address after each sign at which a line may end.
func pieces(address string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		start := 0
		for i, r := range address {
			if strings.ContainsRune("/-.", r) && !strings.HasPrefix(address[i+1:], "/") {
				if !yield(address[start : i+1]) {
					return
				}
				start = i + 1
			}
		}
		if start < len(address) {
			yield(address[start:])
		}
	}
}
