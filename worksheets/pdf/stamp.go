package pdf

// Stamps: what stands alike on many pages, such as a ruler down the margin, is drawn and compressed once.

// A Stamp is drawn, and shared by documents of a typeface. It is no part of their text.
type Stamp struct {
	content content
	packed  packing
	used    [styles]glyphSet
}

// NewStamp draws a stamp for pages of a size in millimetres.
func NewStamp(letters Typeface, width, height float64, draw func(*Document)) *Stamp {
	d := New(Info{}, letters)
	d.AddPage(width, height)
	d.state().raw("q\n")
	d.Apart(func() { draw(d) })
	d.pause()
	d.state().raw("Q\n")
	return &Stamp{content: d.current.content, used: d.used}
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
		packed, err := s.packed.of(&s.content)
		w.note(err)
		number = w.add(object{" /Filter /FlateDecode", packed})
		w.stamps[s] = number
	}
	return number
}
