package pdf

// Pictures made of pixels.

import (
	"bytes"
	"fmt"
	goimage "image"
	"strconv"
	"strings"

	"github.com/carlos7ags/folio/image"
)

// A Picture is a PNG or JPEG that documents share. It is made once, and only read.
type Picture struct{ pixels *image.Image }

// NewPicture reads a PNG or a JPEG.
func NewPicture(file []byte) (*Picture, error) {
	read := image.NewPNG
	if bytes.HasPrefix(file, []byte("\xff\xd8")) {
		read = image.NewJPEG
	}
	pixels, err := read(file)
	if err != nil {
		return nil, fmt.Errorf("the picture cannot be read: %w", err)
	}
	return &Picture{pixels}, nil
}

// Size is how many pixels the picture has.
func (p *Picture) Size() (width, height int) { return p.pixels.Width(), p.pixels.Height() }

// Image draws a picture into a rectangle.
func (d *Document) Image(p *Picture, x, y, w, h float64) {
	d.current.pictures = append(d.current.pictures, p)
	c := d.draw()
	left, foot := d.across(x), d.up(y+h)
	c.raw("q")
	c.op("cm", d.across(x+w)-left, 0, 0, d.up(y)-foot, left, foot)
	c.raw("/I" + strconv.Itoa(len(d.current.pictures)-1) + " Do Q\n")
}

// pictures are a page's, as resources.
func (w *writer) pictures(p *page) string {
	if len(p.pictures) == 0 {
		return ""
	}
	var all strings.Builder
	for i, picture := range p.pictures {
		if w.images[picture] == 0 {
			made, _ := picture.pixels.BuildXObject(w.add)
			w.images[picture] = made.ObjectNumber
		}
		all.WriteString(" /I" + strconv.Itoa(i) + " " + ref(w.images[picture]))
	}
	return " /XObject <<" + all.String() + ">>"
}

// PictureOf makes a picture of pixels.
func PictureOf(pixels *goimage.RGBA) *Picture { return &Picture{image.NewFromGoImage(pixels)} }
