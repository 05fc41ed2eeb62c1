package worksheets

// The club's logo in the head of a sheet.

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"

	"trundle/worksheets/pdf"
)

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
	picture, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	bounds := image.Rectangle{Max: picture.Bounds().Size()}
	opaque := image.NewRGBA(bounds)
	draw.Draw(opaque, bounds, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(opaque, bounds, picture, picture.Bounds().Min, draw.Over)
	wide, high := float64(bounds.Dx()), float64(bounds.Dy())
	scale := min(logoWidth/wide, logoHeight/high)
	return &Logo{pdf.PictureOf(opaque), wide * scale, high * scale}, nil
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
