package pdf

// Typefaces, and text in them.

import (
	"fmt"
	"math/bits"

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
	runes  []rune    // the first letter of each glyph
	widths []float64 // of the glyphs, in parts of the size of the type
	shared shared
}

// NewFace reads a TrueType file.
func NewFace(file []byte) (*Face, error) {
	parsed, err := font.ParseTTF(file)
	if err != nil {
		return nil, fmt.Errorf("the font cannot be read: %w", err)
	}
	f := &Face{file: parsed, widths: make([]float64, parsed.NumGlyphs()), runes: make([]rune, parsed.NumGlyphs())}
	for r := range f.glyphs {
		g := parsed.GlyphIndex(rune(r))
		if f.glyphs[r] = g; f.runes[g] == 0 {
			f.runes[g] = rune(r)
		}
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
func (d *Document) Width(text string) float64 { return d.Across(d.Ems(text)) }

// Ems is how wide a text is in the style that is set, in parts of the size of the type.
func (d *Document) Ems(text string) float64 {
	face, sum := d.letters[d.style], 0.0
	for _, r := range text {
		sum += face.widths[face.glyph(r)]
	}
	return sum
}

// Across is how wide so many times the size of the type that is set is, in millimetres.
func (d *Document) Across(ems float64) float64 { return ems * d.size * 25.4 / 72 }

// Style is the style that is set.
func (d *Document) Style() Style { return d.style }

// Text writes a text with its base line at y.
func (d *Document) Text(x, y float64, text string) {
	if text == "" || d.draft {
		return
	}
	face, used := d.letters[d.style], d.used[d.style]
	c := d.draw()
	c.raw("BT")
	if font := (setFont{d.style, d.size}); font != c.font { // within a sequence of marked content it stays set
		c.bytes = append(append(c.bytes, " /F"...), byte('0'+d.style))
		c.op("Tf", d.size)
		c.font = font
	}
	c.op("Td", d.across(x), d.up(y))
	c.raw("(")
	for _, r := range text {
		g := face.glyph(r)
		used.add(g)
		c.bytes = appendLiteral(appendLiteral(c.bytes, byte(g>>8)), byte(g))
	}
	c.raw(") Tj ET\n")
}

// A setFont is what a page's text is set in.
type setFont struct {
	style Style
	size  float64
}

// appendLiteral writes a byte of a string in brackets (ISO 32000-1, 7.3.4.2).
func appendLiteral(to []byte, b byte) []byte {
	switch b {
	case '(', ')', '\\':
		return append(to, '\\', b)
	case '\r': // would be read as a line's end, which is another byte
		return append(to, '\\', 'r')
	}
	return append(to, b)
}

// A glyphSet is a set of a face's glyphs, a bit for each.
type glyphSet []uint64

func (s glyphSet) add(g uint16) { s[g>>6] |= 1 << (g & 63) }

// none is the empty set of a face's glyphs.
func (f *Face) none() glyphSet {
	if f == nil {
		return nil
	}
	return make(glyphSet, (len(f.widths)+63)/64)
}

// lettersOf are the letters of glyphs, in the order of the glyphs.
func (f *Face) lettersOf(glyphs glyphSet) string {
	var all []rune
	for i, word := range glyphs {
		for ; word != 0; word &= word - 1 {
			all = append(all, f.runes[i<<6|bits.TrailingZeros64(word)])
		}
	}
	return string(all)
}
