package pdf

// The structure of a document (ISO 32000-1, 14.7 and 14.8): which parts of the pages are what, in the order in which
// they are read.

import "strconv"

// A Tag is a standard structure type (ISO 32000-1, 14.8.4).
type Tag string

// The tags in use.
const (
	whole Tag = "Document"

	Part      Tag = "Part" // a lesson among others
	Sect      Tag = "Sect"
	H1        Tag = "H1"
	H2        Tag = "H2"
	H3        Tag = "H3"
	H4        Tag = "H4"
	H5        Tag = "H5"
	H6        Tag = "H6"
	P         Tag = "P"
	Span      Tag = "Span"
	L         Tag = "L" // a list, of items with a label and a body each
	LI        Tag = "LI"
	Lbl       Tag = "Lbl"
	LBody     Tag = "LBody"
	Table     Tag = "Table"
	TR        Tag = "TR"
	TH        Tag = "TH"
	TD        Tag = "TD"
	Caption   Tag = "Caption"
	Code      Tag = "Code"
	Quote     Tag = "BlockQuote"
	Figure    Tag = "Figure"  // has Alt
	Formula   Tag = "Formula" // has Alt
	Form      Tag = "Form"    // a box to write in; has Alt
	reference Tag = "Link"
)

// A Detail says more of an element.
type Detail func(*Element)

// Alt says in words what a figure, a formula or a box shows.
func Alt(text string) Detail { return func(e *Element) { e.alt = text } }

// Actual is the text that is read and copied instead of what is drawn.
func Actual(text string) Detail { return func(e *Element) { e.actual = text } }

// Around says where on the current page a figure is.
func (d *Document) Around(x, y, w, h float64) Detail {
	box := [4]float64{d.across(x), d.up(y + h), d.across(x + w), d.up(y)}
	return func(e *Element) { e.box = &box }
}

// Scope says what the heads in a table's TH are of: Row or Column.
func Scope(of string) Detail { return func(e *Element) { e.scope = of } }

// The scopes of a TH.
const (
	Row    = "Row"
	Column = "Column"
)

// Ordered says that a list's items are numbered.
func Ordered(e *Element) { e.ordered = true }

// An Element is a part of the structure.
type Element struct {
	tag                Tag
	alt, actual, scope string
	ordered            bool
	address            string     // of a link,
	area               [4]float64 // and where it is: points from the bottom left
	above              *Element
	parts              []part
	box                *[4]float64 // around a figure: points from the bottom left

	object, annotation, key int // numbers in the file: its own, its link's, and that of the link in the parent tree
	begun                   bool

	first [1]part // room for the parts of most
}

// A part of an element is another one, or a sequence of marked content on a page, or the link that is clicked.
type part struct {
	element *Element
	page    *page
	mark    int
	link    bool
}

// In draws as part of an element within the one that is open. What its content is made of should be drawn
// from first to last, as it is read.
func (d *Document) In(tag Tag, draw func(), details ...Detail) *Element {
	if d.draft {
		draw()
		return &d.drafted
	}
	e := d.element()
	e.tag, e.above = tag, d.open
	for _, detail := range details {
		detail(e)
	}
	d.open.parts = append(d.open.parts, part{element: e})
	d.open = e
	draw()
	d.open = e.above
	return e
}

// element makes an empty one. They are made by the dozen, as a sheet has hundreds.
func (d *Document) element() *Element {
	if len(d.elements) == 0 {
		d.elements = make([]Element, 64)
	}
	e := &d.elements[0]
	d.elements = d.elements[1:]
	e.parts = e.first[:0]
	d.made++
	return e
}

// Apart draws what is no part of the document's text: ornaments, rules, what stands on every page.
func (d *Document) Apart(draw func()) {
	open := d.open
	d.open = nil
	draw()
	d.open = open
}

// Link makes what is drawn lead to an address; the place is where it can be clicked. What it is drawn in is the
// element Link, whose words are its text.
func (d *Document) Link(x, y, w, h float64, address, about string, draw func()) {
	e := d.In(reference, draw, Alt(about))
	if d.draft {
		return
	}
	e.address = address
	e.area = [4]float64{d.across(x), d.up(y + h), d.across(x + w), d.up(y)}
	e.parts = append(e.parts, part{link: true, page: d.current})
	d.current.links = append(d.current.links, e)
}

// mark makes sure that what is drawn next belongs to the element that is open.
func (d *Document) mark() {
	p := d.current
	of := d.open
	if of == d.root {
		of = nil // directly below the root nothing is read
	}
	if p.marking && p.marked == of {
		return
	}
	d.pause()
	p.marking, p.marked, p.content.font = true, of, setFont{}
	if of == nil {
		p.content.raw("/Artifact BMC\n")
		return
	}
	number := len(p.marks)
	p.marks = append(p.marks, of)
	of.parts = append(of.parts, part{page: p, mark: number})
	p.content.raw("/" + string(of.tag) + " <</MCID " + strconv.Itoa(number) + ">> BDC\n")
	if of.actual == "" {
		return
	}
	text := of.actual
	if of.begun { // once, if it goes on
		text = ""
	}
	of.begun = true
	// Readers look for it in a span, whatever that is in.
	p.content.raw("/Span <</ActualText " + textString(text) + ">> BDC\n")
}

// pause ends the sequence that is being written on the current page, if there is one.
func (d *Document) pause() {
	if p := d.current; p != nil && p.marking {
		if p.marked != nil && p.marked.actual != "" {
			p.content.raw("EMC\n")
		}
		p.content.raw("EMC\n")
		p.marking, p.marked = false, nil
	}
}

// draw gives the page's content for something that is seen, and state for a setting, which need not be marked.
func (d *Document) draw() *content {
	if !d.draft {
		d.mark()
	}
	return d.state()
}

func (d *Document) state() *content { return &d.current.content }
