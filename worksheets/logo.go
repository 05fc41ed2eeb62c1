package worksheets

// The club's logo in the head of a sheet.

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"
)

// The most room that a logo takes, in millimetres.
const (
	logoWidth  = 32
	logoHeight = 14
)

// A Logo is a club's logo, ready for paper: as a PNG without transparency, since paper is white, and in the one form
// that the PDF library surely takes. It is made once for all sheets of a pack.
type Logo struct {
	data          []byte
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
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, opaque); err != nil {
		return nil, err
	}
	wide, high := float64(bounds.Dx()), float64(bounds.Dy())
	scale := min(logoWidth/wide, logoHeight/high)
	return &Logo{b.Bytes(), wide * scale, high * scale}, nil
}

// logo puts the club's logo with its right edge at a place, at the top of the page, and gives its size; 0 if the pack
// has none.
func (s *sheet) logo(right float64) (width, height float64, err error) {
	l := s.about.Logo
	if l == nil {
		return 0, 0, nil
	}
	const name = "logo"
	kind := fpdf.ImageOptions{ImageType: "PNG"}
	s.pdf.RegisterImageOptionsReader(name, kind, bytes.NewReader(l.data))
	s.pdf.Image(name, right-l.width, Margin, l.width, l.height, kind)
	return l.width, l.height, s.pdf.Error()
}
