package pdf

// Stamps: what stands alike on many pages, such as a ruler down the margin, is drawn and compressed once.

import "sync"

// A Stamp is drawn, and shared by documents of a typeface. It is no part of their text.
type Stamp struct {
	packed func() ([]byte, error) // its content as it stands in files
	used   [styles]glyphSet
}

// NewStamp draws a stamp for pages of a size in millimetres.
func NewStamp(letters Typeface, width, height float64, draw func(*Document)) *Stamp {
	d := New(Info{}, letters)
	d.AddPage(width, height)
	d.state().raw("q\n")
	d.Apart(func() { draw(d) })
	d.pause()
	d.state().raw("Q\n")
	drawn := d.current.content.bytes
	return &Stamp{sync.OnceValues(func() ([]byte, error) { return deflate(drawn) }), d.used}
}

// Stamp puts a stamp on the current page, below all that is drawn there.
func (d *Document) Stamp(s *Stamp) {
	if d.draft {
		return
	}
	d.current.stamps = append(d.current.stamps, s)
	d.use(s.used)
}

// use notes that glyphs are written.
func (d *Document) use(glyphs [styles]glyphSet) {
	for style, all := range glyphs {
		for i, word := range all {
			d.used[style][i] |= word
		}
	}
}

// stamp adds a stamp, once in a file, and gives its number.
func (w *writer) stamp(s *Stamp) int {
	number := w.stamps[s]
	if number == 0 {
		packed, err := s.packed()
		w.note(err)
		number = w.add(object{" /Filter /FlateDecode", packed})
		w.stamps[s] = number
	}
	return number
}
