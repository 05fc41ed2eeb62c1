package pdf

// Typefaces, and text in them.

import (
	"fmt"
	"math/bits"
	"strconv"

	"github.com/carlos7ags/folio/font"
)

// A Style is one of a typeface's faces.
type Style int

// The styles of a typeface; italic is for symbols of one letter.
const (
	Regular Style = iota
	Bold
	Italic

	styles = int(Italic) + 1
)

// A Typeface has a face for each style.
type Typeface [styles]*Face

// A Face is a TrueType font for letters of the basic plane. It is made once, and shared by documents.
type Face struct {
	file   font.Face
	glyphs [1 << 16]uint16
	widths []float64 // of the glyphs, in parts of the size of the type
	shared shared
}

// NewFace reads a TrueType file.
func NewFace(file []byte) (*Face, error) {
	parsed, err := font.ParseTTF(file)
	if err != nil {
		return nil, fmt.Errorf("the font cannot be read: %w", err)
	}
	f := &Face{file: parsed, widths: make([]float64, parsed.NumGlyphs())}
	for r := range f.glyphs {
		f.glyphs[r] = parsed.GlyphIndex(rune(r))
	}
	for g := range f.widths {
		f.widths[g] = float64(parsed.GlyphAdvance(uint16(g))) / float64(parsed.UnitsPerEm())
	}
	return f, nil
}

// Has tells whether the face has a glyph for a letter.
func (f *Face) Has(r rune) bool { return f.glyph(r) != 0 }

func (f *Face) glyph(r rune) uint16 {
	if r < 0 || int(r) >= len(f.glyphs) {
		return 0
	}
	return f.glyphs[r]
}

// SetFont sets the type of what is written next, its size in points.
func (d *Document) SetFont(style Style, size float64) { d.style, d.size = style, size }

// Width is how wide a text is in the type that is set, in millimetres.
func (d *Document) Width(text string) float64 {
	face, sum := d.letters[d.style], 0.0
	for _, r := range text {
		sum += face.widths[face.glyph(r)]
	}
	return sum * d.size * 25.4 / 72
}

// Text writes a text with its base line at y.
func (d *Document) Text(x, y float64, text string) {
	if text == "" {
		return
	}
	face, used := d.letters[d.style], &d.used[d.style]
	c := d.draw()
	c.raw("BT /F" + strconv.Itoa(int(d.style)))
	c.op("Tf", d.size)
	c.op("Td", d.across(x), d.up(y))
	c.raw("<")
	for _, r := range text {
		used.add(r)
		c.hex(face.glyph(r))
	}
	c.raw("> Tj ET\n")
}

// A letterSet is a set of letters of the basic plane.
type letterSet [1 << 10]uint64

func (s *letterSet) add(r rune) {
	if r >= 0 && r < 1<<16 {
		s[r>>6] |= 1 << (r & 63)
	}
}

// letters are those of the set in order.
func (s *letterSet) letters() string {
	var all []rune
	for i, word := range s {
		for ; word != 0; word &= word - 1 {
			all = append(all, rune(i<<6|bits.TrailingZeros64(word)))
		}
	}
	return string(all)
}
