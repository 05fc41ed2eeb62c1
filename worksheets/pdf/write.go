package pdf

// From a document to its objects: pages, fonts, outline, labels, and what it says of itself.

import (
	"encoding/hex"
	"html"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/carlos7ags/folio/font"
)

// Bytes gives the document as a file.
func (d *Document) Bytes() ([]byte, error) {
	d.pause()
	f := &file{}
	w := &writer{Document: d, file: f, root: f.reserve(), images: map[*Picture]int{}}
	w.fonts()
	for range d.pages {
		w.pages = append(w.pages, f.reserve())
	}
	tree := w.structure()
	for i := range d.pages {
		w.page(i)
	}
	return f.bytes(w.catalog(tree), f.addText("<</Title "+textString(d.info.Title)+" /Author "+textString(d.info.Author)+
		" /Producer "+textString(d.info.Producer)+">>"))
}

// A writer writes a document.
type writer struct {
	*Document
	*file
	root      int    // of the pages
	pages     []int  // the objects of the pages
	resources string // the fonts
	images    map[*Picture]int
	linkKeys  int // in the structure's parent tree, after those of the pages
}

// fonts adds the faces that something is written in, with the letters that are used.
func (w *writer) fonts() {
	var all strings.Builder
	for style, used := range w.used {
		letters := used.letters()
		if len(letters) == 0 {
			continue
		}
		embedded := font.NewEmbeddedFont(w.letters[style].file)
		embedded.EncodeString(string(letters))
		number := w.add(embedded.BuildObjects(w.add)).ObjectNumber
		all.WriteString(" /F" + strconv.Itoa(style) + " " + ref(number))
	}
	w.resources = "/Font <<" + all.String() + ">>"
}

// page adds a page.
func (w *writer) page(i int) {
	p := w.Document.pages[i]
	content := w.addStream(p.content.bytes, "")
	text := "<</Type /Page /Parent " + ref(w.root) + " /MediaBox [0 0 " + number(points(thousandths(p.width))) + " " +
		number(points(thousandths(p.height))) + "] /Contents " + ref(content) + " /Resources <<" + w.resources +
		w.pictures(p) + ">> /StructParents " + strconv.Itoa(i) + " /Tabs /S"
	if len(p.links) > 0 {
		var all []string
		for _, link := range p.links {
			all = append(all, ref(link.annotation))
		}
		text += " /Annots [" + strings.Join(all, " ") + "]"
	}
	w.set(w.pages[i], text+">>")
}

// catalog adds what the file begins with.
func (w *writer) catalog(tree int) int {
	kids := make([]string, len(w.pages))
	for i, page := range w.pages {
		kids[i] = ref(page)
	}
	w.set(w.root, "<</Type /Pages /Count "+strconv.Itoa(len(kids))+" /Kids ["+strings.Join(kids, " ")+"]>>")
	text := "<</Type /Catalog /Pages " + ref(w.root) + " /Lang " + textString(w.info.Language) +
		" /MarkInfo <</Marked true>> /StructTreeRoot " + ref(tree) + " /Metadata " + ref(w.metadata()) +
		" /ViewerPreferences <</DisplayDocTitle true /PrintScaling /None>>" + w.labels()
	if outline := w.outline(); outline > 0 {
		text += " /Outlines " + ref(outline)
	}
	return w.addText(text + ">>")
}

// labels are what readers call the pages.
func (w *writer) labels() string {
	var all strings.Builder
	for i, p := range w.Document.pages {
		if p.label != nil {
			all.WriteString(" " + strconv.Itoa(i) + " <</S /D /P " + textString(*p.label) + ">>")
		}
	}
	if all.Len() == 0 {
		return ""
	}
	return " /PageLabels <</Nums [" + all.String() + "]>>"
}

// metadata adds what the document says of itself in the form that PDF/UA-1 asks for (ISO 14289-1, 5 and 7.1). It is not
// compressed, so that other programs find it.
func (w *writer) metadata() int {
	text := `<?xpacket begin="` + "\ufeff" + `" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" ` +
		`xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">` + html.EscapeString(w.info.Title) + `</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>` + html.EscapeString(w.info.Author) + `</rdf:li></rdf:Seq></dc:creator>
<dc:language><rdf:Bag><rdf:li>` + html.EscapeString(w.info.Language) + `</rdf:li></rdf:Bag></dc:language>
<pdf:Producer>` + html.EscapeString(w.info.Producer) + `</pdf:Producer>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`
	return w.addPlain([]byte(text), " /Type /Metadata /Subtype /XML")
}

// outline adds the bookmarks, those of a deeper level below the one before.
func (w *writer) outline() int {
	if len(w.bookmarks) == 0 {
		return 0
	}
	root := w.reserve()
	numbers := make([]int, len(w.bookmarks))
	for i := range numbers {
		numbers[i] = w.reserve()
	}
	w.branch(root, root, 0, len(numbers), numbers, "")
	return root
}

// branch writes the bookmarks from one to before another, below an object that is written with them.
func (w *writer) branch(object, above, from, to int, numbers []int, text string) {
	var tops []int
	for i := from; i < to; {
		tops = append(tops, i)
		for level := w.bookmarks[i].level; i < to && (i == tops[len(tops)-1] || w.bookmarks[i].level > level); {
			i++
		}
	}
	if len(tops) > 0 {
		text += " /First " + ref(numbers[tops[0]]) + " /Last " + ref(numbers[tops[len(tops)-1]]) +
			" /Count " + strconv.Itoa(len(tops))
	}
	if object == above {
		text = " /Type /Outlines" + text
	} else {
		text += " /Parent " + ref(above)
	}
	w.set(object, "<<"+text+">>")
	for n, i := range tops {
		b, end := w.bookmarks[i], to
		text := " /Title " + textString(b.title) + " /Dest [" + ref(w.pages[b.page.number]) + " /XYZ null " + number(b.y) +
			" null]"
		if n > 0 {
			text += " /Prev " + ref(numbers[tops[n-1]])
		}
		if n+1 < len(tops) {
			end = tops[n+1]
			text += " /Next " + ref(numbers[end])
		}
		w.branch(numbers[i], object, i+1, end, numbers, text)
	}
}

// number writes a number.
func number(x float64) string { return string(appendNumber(nil, x)) }

// textString writes a text as PDF's own in UTF-16 (ISO 32000-1, 7.9.2.2).
func textString(text string) string {
	plain := true
	for _, r := range text {
		plain = plain && r >= ' ' && r < 0x7f
	}
	if plain {
		return "(" + strings.NewReplacer(`\`, `\\`, `(`, `\(`, `)`, `\)`).Replace(text) + ")"
	}
	bytes := []byte{0xfe, 0xff}
	for _, unit := range utf16.Encode([]rune(text)) {
		bytes = append(bytes, byte(unit>>8), byte(unit))
	}
	return "<" + hex.EncodeToString(bytes) + ">"
}
