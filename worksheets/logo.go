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

// logo puts the club's logo with its right edge at a place, at the top of the page, and gives its size; 0 if the pack
// has none.
func (s *sheet) logo(right float64) (width, height float64, err error) {
	if len(s.about.Logo) == 0 {
		return 0, 0, nil
	}
	data, width, height, err := onPaper(s.about.Logo)
	if err != nil {
		return 0, 0, err
	}
	const name = "logo"
	kind := fpdf.ImageOptions{ImageType: "PNG"}
	s.pdf.RegisterImageOptionsReader(name, kind, bytes.NewReader(data))
	s.pdf.Image(name, right-width, Margin, width, height, kind)
	return width, height, s.pdf.Error()
}

// onPaper gives a logo without transparency, as paper is white, in the one form of PNG that the PDF library surely
// takes; and the size that it gets.
func onPaper(logo []byte) (data []byte, width, height float64, err error) {
	picture, err := png.Decode(bytes.NewReader(logo))
	if err != nil {
		return nil, 0, 0, err
	}
	bounds := image.Rectangle{Max: picture.Bounds().Size()}
	opaque := image.NewRGBA(bounds)
	draw.Draw(opaque, bounds, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(opaque, bounds, picture, picture.Bounds().Min, draw.Over)
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, opaque); err != nil {
		return nil, 0, 0, err
	}
	wide, high := float64(bounds.Dx()), float64(bounds.Dy())
	scale := min(logoWidth/wide, logoHeight/high)
	return b.Bytes(), wide * scale, high * scale, nil
}
