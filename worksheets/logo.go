package worksheets

// The club's logo in the head of a sheet.

import "trundle/worksheets/pdf"

// The most room that a logo takes, in millimetres.
const (
	logoWidth  = 32
	logoHeight = 14
)

// A Logo is a club's logo, ready for paper: without transparency, since paper is white. It is made once for all sheets
// of a pack.
type Logo struct {
	picture       *pdf.Picture
	width, height float64 // on paper, in millimetres
}

// NewLogo makes a logo of a PNG.
func NewLogo(file []byte) (*Logo, error) {
	picture, err := onPaper(file)
	if err != nil {
		return nil, err
	}
	across, down := picture.Size()
	wide, high := float64(across), float64(down)
	scale := min(logoWidth/wide, logoHeight/high)
	return &Logo{picture, wide * scale, high * scale}, nil
}

// logo puts the club's logo with its right edge at a place, at the top of the page, and gives its size; 0 if the pack
// has none.
func (s *sheet) logo(right float64) (width, height float64) {
	l := s.about.Logo
	if l == nil {
		return 0, 0
	}
	s.doc.In(pdf.Figure, func() { s.doc.Image(l.picture, right-l.width, Margin, l.width, l.height) },
		pdf.Alt(s.about.Club), s.doc.Around(right-l.width, Margin, l.width, l.height))
	return l.width, l.height
}
