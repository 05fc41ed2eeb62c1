package pdf

// Documents put one after the other into one.

// Join makes a document of the pages, the structure and the bookmarks of others, each of them a Part of its own. They
// are of one typeface, are finished, and stay as they are, so that each can be written as a file too.
func Join(info Info, documents []*Document) *Document {
	all := New(info, documents[0].letters)
	for _, d := range documents {
		d.pause()
		c := copying{pages: map[*page]*page{}, elements: map[*Element]*Element{}}
		for _, p := range d.pages {
			all.pages = append(all.pages, c.page(p, len(all.pages)))
		}
		c.structure(d.root, all.root)
		for _, p := range c.pages {
			p.marks, p.links = c.of(p.marks), c.of(p.links)
		}
		for _, b := range d.bookmarks {
			b.page = c.pages[b.page]
			all.bookmarks = append(all.bookmarks, b)
		}
		for style := range d.used {
			for i, word := range d.used[style] {
				all.used[style][i] |= word
			}
		}
	}
	all.current = all.pages[len(all.pages)-1]
	return all
}

// copying copies a document's pages and elements, which refer to each other.
type copying struct {
	pages    map[*page]*page
	elements map[*Element]*Element
}

func (c copying) page(p *page, number int) *page {
	twin := *p
	twin.number = number
	c.pages[p] = &twin
	return &twin
}

// structure copies a document's root as a Part below another root.
func (c copying) structure(root, below *Element) {
	part := c.element(root, below)
	part.tag = Part
	below.parts = append(below.parts, wholeOf(part))
}

func (c copying) element(e, above *Element) *Element {
	twin := *e
	twin.above, twin.parts = above, make([]part, len(e.parts))
	for i, p := range e.parts {
		if p.element != nil {
			p.element = c.element(p.element, &twin)
		}
		if p.page != nil {
			p.page = c.pages[p.page]
		}
		twin.parts[i] = p
	}
	c.elements[e] = &twin
	return &twin
}

func (c copying) of(elements []*Element) []*Element {
	twins := make([]*Element, len(elements))
	for i, e := range elements {
		twins[i] = c.elements[e]
	}
	return twins
}

func wholeOf(e *Element) part { return part{element: e} }
