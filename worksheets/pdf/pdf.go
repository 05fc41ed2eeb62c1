// Package pdf makes tagged PDF documents (ISO 32000-1) in millimetres from the top left corner, as PDF/UA-1
// (ISO 14289-1) asks: what is drawn belongs to the structure element that is open, and what is drawn outside of any is
// an artifact. Fonts, objects and the file come from the folio library. The same calls give the same bytes, on
// every processor and at any time.
package pdf

import (
	"math"
	"sync"
)

// Info is what a document says of itself.
type Info struct {
	Title, Author string
	Language      string // a tag of BCP 47, such as en
	Producer      string
}

// A Document is drawn page by page, by one goroutine; then several may write it.
type Document struct {
	writing sync.Mutex // as a finished one may become several files at a time

	info    Info
	letters Typeface
	pages   []*page
	current *page

	style Style
	size  float64 // of the type, in points

	root, open *Element
	bookmarks  []bookmark
	elements   []Element        // room for those to come
	made       int              // how many there are
	used       [styles]glyphSet // what each face has written
	draft      bool             // nothing is kept
	oneSided   bool             // to be printed so
	drafted    Element          // stands for all elements of a draft
}

// A page is what has been drawn on one.
type page struct {
	number        int     // from 0
	width, height float64 // millimetres
	content       content
	marking       bool       // a sequence of marked content is being written,
	marked        *Element   // which is part of this element; nil if it is an artifact
	marks         []*Element // that the sequences are parts of, by their numbers
	links         []*Element
	stamps        []*Stamp
	pictures      []*Picture
	label         *string // what the pages' numbers begin with from here on
}

// New begins an empty document.
func New(info Info, letters Typeface) *Document {
	d := &Document{info: info, letters: letters, size: 10, root: &Element{tag: whole}}
	d.open = d.root
	for style, face := range letters {
		d.used[style] = face.none()
	}
	return d
}

// NewDraft begins a document for trying things out: it has pages and widths of text, and forgets what is drawn.
func NewDraft(letters Typeface) *Document {
	d := &Document{letters: letters, size: 10, draft: true}
	d.root = &d.drafted
	d.open = d.root
	return d
}

// IsDraft tells whether what is drawn is forgotten.
func (d *Document) IsDraft() bool { return d.draft }

// AddPage begins a page of a size in millimetres and goes on there; so do elements that are open.
func (d *Document) AddPage(width, height float64) {
	d.pause()
	d.current = &page{number: len(d.pages), width: width, height: height}
	if d.current.content.off = d.draft; !d.draft {
		d.current.content.bytes = make([]byte, 0, usualPage)
	}
	d.pages = append(d.pages, d.current)
}

// usualPage is how many bytes most pages have.
const usualPage = 20 << 10

// SetPage goes back to a page, the first being 1.
func (d *Document) SetPage(n int) {
	d.pause()
	d.current = d.pages[n-1]
}

// PrintOneSide asks for one side of the paper only: what is cut out must not take the next page's text with it.
func (d *Document) PrintOneSide() { d.oneSided = true }

// PageCount is how many pages there are.
func (d *Document) PageCount() int { return len(d.pages) }

// PageSize is the size of the current page in millimetres.
func (d *Document) PageSize() (width, height float64) { return d.current.width, d.current.height }

// Label names the current page and those after it for readers: with the prefix "3-" they are 3-1, 3-2 and so on.
func (d *Document) Label(prefix string) { d.current.label = &prefix }

// thousandths rounds a length to a thousandth of a millimetre. Processors differ in the last bits of a calculation
// (some round once where others round twice). Those go first, so that what comes near half a thousandth is half of one
// on all.
func thousandths(mm float64) float64 { return math.Round(math.Round(mm*1e9) / 1e6) }

// points makes points of thousandths of a millimetre. 72/25400 of a whole number is never near a half of the last
// digit.
func points(thousandths float64) float64 { return thousandths * 72 / 25400 }

func (d *Document) across(x float64) float64 { return points(thousandths(x)) }

func (d *Document) up(y float64) float64 {
	return points(thousandths(d.current.height) - thousandths(y))
}
