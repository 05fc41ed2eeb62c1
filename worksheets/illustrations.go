package worksheets

// What all sheets of a pack draw from, made when the first of them needs it: pictures, and figures of data.

import (
	"bytes"
	"html"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"path"
	"strings"
	"sync"

	"trundle/generator/wording"
	"trundle/generator/work"
	"trundle/site/figure"
	"trundle/worksheets/pdf"
)

// Illustrations are a pack's pictures, and what its data come to. Sheets that are made at the same time share them.
type Illustrations struct {
	files  func(name string) []byte // nil if there are none
	figure func(l *work.Lesson, d *work.Data, mentors bool) figure.Figure
	made   sync.Map // by name, figureKey, lesson or paper: what makes it once
}

// NewIllustrations takes what gives the file of a picture, nil if there is none of a name, and what makes the figure of
// a block of data.
func NewIllustrations(files func(name string) []byte,
	made func(l *work.Lesson, d *work.Data, mentors bool) figure.Figure) *Illustrations {
	return &Illustrations{files: files, figure: made}
}

// Forget lets go of what was made for a lesson alone.
func (i *Illustrations) Forget(l *work.Lesson) {
	i.made.Delete(l)
	for _, d := range l.Data {
		i.made.Delete(figureKey{d, true})
		i.made.Delete(figureKey{d, false})
	}
}

// An illustration is a drawing or a picture of pixels.
type illustration struct {
	drawing       *pdf.Drawing
	pixels        *pdf.Picture
	width, height float64 // as pages show it, in millimetres
}

// perPixel is how many millimetres a pixel of a page is (CSS 2.1, 4.3.2).
const perPixel = 25.4 / 96

// picture gives a picture of the pack, nil if there is none that paper can show. Names tell: a picture of another kind
// than its name says was refused.
func (i *Illustrations) picture(name string) *illustration {
	ending := strings.ToLower(path.Ext(name))
	if i == nil || i.files == nil || ending == ".gif" || ending == ".webp" {
		return nil
	}
	made, _ := i.made.LoadOrStore(name, sync.OnceValue(func() *illustration {
		file := i.files(name)
		if file == nil {
			return nil
		}
		return illustrated(file)
	}))
	return made.(func() *illustration)()
}

// illustrated reads a picture.
func illustrated(file []byte) *illustration {
	if bytes.HasPrefix(bytes.TrimSpace(file), []byte("<")) {
		drawing, err := pdf.NewDrawing(file, nil)
		if err != nil {
			return nil
		}
		w, h := drawing.Size()
		return &illustration{drawing: drawing, width: w * perPixel, height: h * perPixel}
	}
	read := pdf.NewPicture
	if bytes.HasPrefix(file, []byte("\x89PNG")) {
		read = onPaper
	}
	pixels, err := read(file)
	if err != nil {
		return nil
	}
	w, h := pixels.Size()
	return &illustration{pixels: pixels, width: float64(w) * perPixel, height: float64(h) * perPixel}
}

// onPaper reads a PNG without its transparency, since paper is white.
func onPaper(file []byte) (*pdf.Picture, error) {
	picture, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	bounds := image.Rectangle{Max: picture.Bounds().Size()}
	opaque := image.NewRGBA(bounds)
	draw.Draw(opaque, bounds, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(opaque, bounds, picture, picture.Bounds().Min, draw.Over)
	return pdf.PictureOf(opaque), nil
}

// draw draws it into a rectangle.
func (i *illustration) draw(d *pdf.Document, x, y, w, h float64) {
	if i.drawing != nil {
		d.Drawing(i.drawing, x, y, w, h)
	} else {
		d.Image(i.pixels, x, y, w, h)
	}
}

// A shownFigure is a figure with its drawings.
type shownFigure struct {
	figure.Figure
	chart    *illustration // nil if there is nothing to draw
	about    string        // the chart in words
	swatches []*illustration
}

type figureKey struct {
	data    *work.Data
	mentors bool
}

// figureOf gives the figure of a block of data for an edition.
func (i *Illustrations) figureOf(l *work.Lesson, d *work.Data, mentors bool) *shownFigure {
	key := figureKey{d, mentors}
	made, _ := i.made.LoadOrStore(key, sync.OnceValue(func() *shownFigure {
		f := &shownFigure{Figure: i.figure(l, d, mentors)}
		if f.chart = charted(f.Picture); f.chart != nil {
			f.about = described(f.Picture)
		}
		for _, e := range f.Legend {
			f.swatches = append(f.swatches, charted(e.Swatch))
		}
		return f
	}))
	return made.(func() *shownFigure)()
}

// chartLooks are the classes of charts in greys that a copier keeps apart; dashes and markers tell series apart as on
// pages.
var chartLooks = pdf.Looks{
	"chart":  {"fill": "none", "stroke": "currentColor", "color": "#000", "font-size": "15"},
	"swatch": {"fill": "none", "stroke": "currentColor", "color": "#000"},
	"c1":     {"color": "#000"},
	"c2":     {"color": "#666"},
	"c3":     {"color": "#333"},
	"c4":     {"color": "#888"},
	"c5":     {"color": "#222"},
	"c6":     {"color": "#777"},
	"ink":    {"color": "#000"},
	"grid":   {"color": "#b8b8b8"},
	"goal":   {"color": "#444"},
	"band":   {"color": "#dcdcdc"},
	"halo":   {"color": "#fff"},
	"f":      {"fill": "currentColor", "stroke": "#fff"},
	"dot":    {"stroke-linecap": "round"},
}

// charted reads a chart, or the sample of a legend.
func charted(svg string) *illustration {
	if svg == "" {
		return nil
	}
	drawing, err := pdf.NewDrawing([]byte(svg), chartLooks)
	if err != nil {
		return nil
	}
	w, h := drawing.Size()
	return &illustration{drawing: drawing, width: w, height: h}
}

var (
	description = wording.New(`(?s)<desc[^>]*>(.*?)</desc>`)
	markup      = wording.New(`<[^>]*>`)
)

// described is what a chart says of itself to readers who do not see it.
func described(svg string) string {
	m := description.FindStringSubmatch(svg)
	if m == nil {
		return ""
	}
	return html.UnescapeString(markup.ReplaceAllString(m[1], ""))
}
