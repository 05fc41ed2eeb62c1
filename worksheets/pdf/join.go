package pdf

// Documents put one after the other into one.

import (
	"slices"
	"sync"
)

// Join makes a document of the pages, the structure and the bookmarks of others, each of them a Part of its own. They
// are of one typeface, are finished, and stay as they are, so that each can be written as a file too.
func Join(info Info, documents []*Document) *Document {
	all := New(info, documents[0].letters)
	for _, d := range documents {
		all.take(d)
	}
	all.current = all.pages[len(all.pages)-1]
	return all
}

// take puts a copy of another document at the end.
func (d *Document) take(other *Document) {
	other.writing.Lock()
	defer other.writing.Unlock()
	other.pause()
	c := copying{to: d, pages: map[*page]*page{}, elements: map[*Element]*Element{}}
	for _, p := range other.pages {
		d.pages = append(d.pages, c.page(p, len(d.pages)))
	}
	c.structure(other.root, d.root)
	for _, p := range c.pages {
		p.marks, p.links = c.of(p.marks), c.of(p.links)
	}
	for _, b := range other.bookmarks {
		b.page = c.pages[b.page]
		d.bookmarks = append(d.bookmarks, b)
	}
	d.use(other.used)
}

// copying copies a document's pages and elements, which refer to each other.
type copying struct {
	to       *Document
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
	whole := c.element(root, below)
	whole.tag = Part
	below.parts = append(below.parts, part{element: whole})
}

func (c copying) element(e, above *Element) *Element {
	twin := c.to.element()
	room := twin.parts
	*twin = *e
	twin.above, twin.parts = above, slices.Grow(room, len(e.parts))
	for _, p := range e.parts {
		if p.element != nil {
			p.element = c.element(p.element, twin)
		}
		if p.page != nil {
			p.page = c.pages[p.page]
		}
		twin.parts = append(twin.parts, p)
	}
	c.elements[e] = twin
	return twin
}

func (c copying) of(elements []*Element) []*Element {
	twins := make([]*Element, len(elements))
	for i, e := range elements {
		twins[i] = c.elements[e]
	}
	return twins
}

// A packing is a page's content as it stands in files: compressed once for all that the page is in.
type packing struct {
	sync.Mutex
	data   []byte
	length int // of the content
}

func (p *packing) of(c *content) ([]byte, error) {
	p.Lock()
	defer p.Unlock()
	var err error
	if p.data == nil || p.length != len(c.bytes) { // or the page has been drawn on since
		p.data, err = deflate(c.bytes)
		p.length = len(c.bytes)
	}
	return p.data, err
}
