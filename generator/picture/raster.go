package picture

// Here: a picture in pixels, once its file is cleaned: it is unpacked to see that it can be, and if it must be turned
// or made smaller it is written anew. Only whole numbers are used, so that all processors make the same bytes.

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
)

// A codec reads and writes one format.
type codec struct {
	name   string
	config func(data []byte) (image.Config, error)
	decode func(data []byte) (image.Image, error)
	encode func(to *bytes.Buffer, m image.Image) error
}

// finish unpacks a cleaned file, and turns it and makes it smaller if it must. What needs neither keeps its bytes.
func (c codec) finish(p *Picture, cleaned []byte, turn int, shrink bool) {
	config, err := c.config(cleaned)
	if err != nil {
		p.broken(c.name)
		return
	}
	if !p.fits(config.Width, config.Height) {
		return
	}
	m, err := c.decode(cleaned)
	if err != nil {
		p.broken(c.name)
		return
	}
	width, height := m.Bounds().Dx(), m.Bounds().Dy()
	p.Data = cleaned
	if longest := max(width, height); shrink && longest > MaxSide {
		smaller := c.written(turned(smaller(m, scaled(width, longest), scaled(height, longest)), turn))
		// A drawing in few colours may take more bytes as a smaller picture in many; only a huge one is then worth it.
		if len(smaller) < len(cleaned) || longest > 2*MaxSide {
			p.Data = smaller
			before, after := sizes(m.Bounds(),
				turn), sizes(image.Rect(0, 0, scaled(width, longest), scaled(height, longest)), turn)
			p.caution("picture-made-smaller", fmt.Sprintf("is %s pixels, and is handed out as %s", before, after),
				"your own file stays as it is; if a detail becomes too small, "+
					"cut it out and show it as a picture of its own")
			return
		}
	}
	if turn != upright {
		p.Data = c.written(turned(m, turn))
	}
}

func (c codec) written(m image.Image) []byte {
	var b bytes.Buffer
	if err := c.encode(&b, m); err != nil {
		panic(err) // a buffer takes everything, and the sizes were checked
	}
	return b.Bytes()
}

// scaled gives a side of a picture whose longest is made MaxSide, rounded.
func scaled(side, longest int) int { return max(1, (2*side*MaxSide+longest)/(2*longest)) }

// sizes writes the sides as they are seen once the picture is turned.
func sizes(r image.Rectangle, turn int) string {
	if turn >= 5 {
		return sides(r.Dy(), r.Dx())
	}
	return sides(r.Dx(), r.Dy())
}

// smaller averages the area of the source that each pixel of the result covers. Pixels on an edge count for the share
// that lies inside, in whole parts: a source pixel is w parts wide, one of the result W.
func smaller(m image.Image, w, h int) image.Image {
	from, bounds := m.(image.RGBA64Image), m.Bounds()
	W, H := bounds.Dx(), bounds.Dy()
	out := canvas(m, w, h)
	row, sum := make([]uint64, 4*w), make([]uint64, 4*w)
	for y := range H {
		clear(row)
		for x := range W {
			c := from.RGBA64At(bounds.Min.X+x, bounds.Min.Y+y)
			i, first, second := shares(x, W, w)
			add(row[4*i:], c, first)
			if second > 0 {
				add(row[4*i+4:], c, second)
			}
		}
		j, first, second := shares(y, H, h)
		for k, v := range row {
			sum[k] += v * first
		}
		if (y+1)*h >= (j+1)*H { // nothing more is added to this line
			for x := range w {
				out.Set(x, j, average(sum[4*x:], uint64(W)*uint64(H)))
			}
			for k, v := range row {
				sum[k] = v * second
			}
		}
	}
	return out
}

// shares gives the pixel of the result in which pixel i of n begins, of `into`, and how many parts of it lie
// there and in the next.
func shares(i, n, into int) (at int, first, second uint64) {
	at = i * into / n
	first = uint64(min(into, (at+1)*n-i*into))
	return at, first, uint64(into) - first
}

func add(to []uint64, c color.RGBA64, parts uint64) {
	to[0] += uint64(c.R) * parts
	to[1] += uint64(c.G) * parts
	to[2] += uint64(c.B) * parts
	to[3] += uint64(c.A) * parts
}

// average makes a colour of sums over a whole of so many parts. Colours weigh by how opaque they are.
func average(sum []uint64, parts uint64) color.NRGBA {
	a := sum[3]
	if a == 0 {
		return color.NRGBA{}
	}
	of := func(c, whole uint64) uint8 { return uint8((c*255 + whole/2) / whole) }
	return color.NRGBA{R: of(sum[0], a), G: of(sum[1], a), B: of(sum[2], a), A: of(a, 0xffff*parts)}
}

// canvas is an empty picture that can hold what another shows.
func canvas(like image.Image, w, h int) draw.Image {
	r := image.Rect(0, 0, w, h)
	if like.ColorModel() == color.GrayModel {
		return image.NewGray(r)
	}
	if o, ok := like.(interface{ Opaque() bool }); ok && o.Opaque() {
		return image.NewRGBA(r)
	}
	return image.NewNRGBA(r)
}
