package pdf

// Pictures made of pixels.

import (
	"bytes"
	"fmt"
	goimage "image"
	"strconv"
	"strings"
	"sync"

	"github.com/carlos7ags/folio/core"
	"github.com/carlos7ags/folio/image"
)

// A Picture is a PNG or JPEG that documents share.
type Picture struct {
	pixels  *image.Image
	streams func() ([]object, error) // made once: that of its transparency, if it has any, and its own
}

func pictureOf(pixels *image.Image) *Picture {
	return &Picture{pixels, sync.OnceValues(func() ([]object, error) { return streamsOf(pixels) })}
}

// streamsOf gives the streams of a picture. That of its transparency comes first, and is not yet referred to.
func streamsOf(pixels *image.Image) (all []object, failed error) {
	pixels.BuildXObject(func(made core.PdfObject) *core.PdfIndirectReference {
		if s, ok := made.(*core.PdfStream); ok {
			s.Dict.Remove("SMask")
		}
		o, err := objectOf(made)
		if failed == nil {
			failed = err
		}
		all = append(all, o)
		return core.NewPdfIndirectReference(0, 0)
	})
	return all, failed
}

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
	return pictureOf(pixels), nil
}

// Size is how many pixels the picture has.
func (p *Picture) Size() (width, height int) { return p.pixels.Width(), p.pixels.Height() }

// Image draws a picture into a rectangle.
func (d *Document) Image(p *Picture, x, y, w, h float64) {
	c := d.draw()
	d.current.pictures = append(d.current.pictures, p)
	left, foot := d.across(x), d.up(y+h)
	c.raw("q")
	c.op("cm", d.across(x+w)-left, 0, 0, d.up(y)-foot, left, foot)
	c.raw("/I" + strconv.Itoa(len(d.current.pictures)-1) + " Do Q\n")
}

// PictureOf makes a picture of pixels.
func PictureOf(pixels *goimage.RGBA) *Picture { return pictureOf(image.NewFromGoImage(pixels)) }

// pictures are a page's, as resources.
func (w *writer) pictures(p *page) string {
	if len(p.pictures) == 0 {
		return ""
	}
	var all strings.Builder
	for i, picture := range p.pictures {
		all.WriteString(" /I" + strconv.Itoa(i) + " " + ref(w.picture(picture)))
	}
	return " /XObject <<" + all.String() + ">>"
}

// picture adds a picture, once in a file, and gives its number.
func (w *writer) picture(p *Picture) int {
	number := w.images[p]
	if number > 0 {
		return number
	}
	streams, err := p.streams()
	w.note(err)
	for _, s := range streams {
		if number > 0 {
			s.text += " /SMask " + ref(number)
		}
		number = w.add(s)
	}
	w.images[p] = number
	return number
}
