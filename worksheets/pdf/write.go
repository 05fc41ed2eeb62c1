package pdf

// From a document to its objects: pages, fonts, labels, and what it says of itself.

import (
	"encoding/xml"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
)

// Bytes gives the document as a file.
func (d *Document) Bytes() ([]byte, error) {
	if d.draft {
		return nil, errors.New("a draft is not a file")
	}
	d.writing.Lock()
	defer d.writing.Unlock()
	d.pause()
	w := &writer{Document: d, file: newFile(d.made + 8*len(d.pages) + 64),
		images: map[*Picture]int{}, stamps: map[*Stamp]int{}}
	w.fonts()
	w.folder = w.reserve()
	for range d.pages {
		w.sheets = append(w.sheets, w.reserve())
	}
	tree := w.structure()
	for _, p := range d.pages {
		w.page(p)
	}
	info := w.addText(w.infoText())
	return w.bytes(w.catalog(tree), info)
}

// infoText is what a document says of itself, as readers of old look for it.
func (d *Document) infoText() string {
	return "<</Title " + textString(d.info.Title) + " /Author " + textString(d.info.Author) + " /Producer " +
		textString(d.info.Producer) + ">>"
}

// A writer writes a document.
type writer struct {
	*Document
	*file
	folder    int    // the object that has the pages
	sheets    []int  // the objects of the pages
	resources string // the fonts
	images    map[*Picture]int
	stamps    map[*Stamp]int
	linkKeys  int // in the structure's parent tree, after those of the pages
	scratch   []byte
}

// fonts adds the faces that something is written in, with the letters that are used.
func (w *writer) fonts() {
	var all strings.Builder
	for style := range w.used {
		letters := ""
		if face := w.letters[style]; face != nil {
			letters = face.lettersOf(w.used[style])
		}
		objects := make([]object, perFace)
		for i := range objects {
			objects[i].text = "null"
		}
		if letters != "" {
			made, err := w.letters[style].embedded(style, letters)
			w.note(err)
			copy(objects, made)
			all.WriteString(" /F" + strconv.Itoa(style) + " " + ref(fontNumber(style)))
		}
		for _, o := range objects {
			w.add(o)
		}
	}
	w.resources = "/Font <<" + all.String() + ">>"
}

// page adds a page.
func (w *writer) page(p *page) {
	if p.content.unclear {
		w.note(fmt.Errorf("page %d has something at a place that is not a number", p.number+1))
	}
	var contents []int
	for _, s := range p.stamps {
		contents = append(contents, w.stamp(s))
	}
	packed, err := deflate(p.content.bytes)
	w.note(err)
	contents = append(contents, w.add(object{" /Filter /FlateDecode", packed}))
	text := "<</Type /Page /Parent " + ref(w.folder) + " /MediaBox [0 0 " + decimal(points(thousandths(p.width))) + " " +
		decimal(points(thousandths(p.height))) + "] /Contents " + refs(contents) + " /Resources <<" + w.resources +
		w.pictures(p) + ">> /StructParents " + strconv.Itoa(p.number) + " /Tabs /S"
	if len(p.links) > 0 {
		links := make([]int, len(p.links))
		for i, link := range p.links {
			links[i] = link.annotation
		}
		text += " /Annots " + refs(links)
	}
	w.set(w.sheets[p.number], text+">>")
}

// catalog adds what the file begins with.
func (w *writer) catalog(tree int) int {
	w.set(w.folder, "<</Type /Pages /Count "+strconv.Itoa(len(w.sheets))+" /Kids "+refs(w.sheets)+">>")
	about, rest := w.add(w.aboutItself()), w.labels()
	if outline := w.outline(); outline > 0 {
		rest += " /Outlines " + ref(outline)
	}
	return w.addText(w.catalogText(w.folder, tree, about, rest))
}

// catalogText is a catalogue of objects by their numbers: the folder of pages, the structure tree, and what the
// document says of itself.
func (d *Document) catalogText(folder, tree, about int, rest string) string {
	return "<</Type /Catalog /Pages " + ref(folder) + " /Lang " + textString(d.info.Language) +
		" /MarkInfo <</Marked true>> /StructTreeRoot " + ref(tree) + " /Metadata " + ref(about) +
		" /ViewerPreferences <</DisplayDocTitle true /PrintScaling /None" + d.sides() + ">>" + rest + ">>"
}

// sides asks printers for one side of the paper.
func (d *Document) sides() string {
	if d.oneSided {
		return " /Duplex /Simplex"
	}
	return ""
}

// labels are what readers call the pages.
func (w *writer) labels() string {
	var all strings.Builder
	for i, p := range w.pages {
		if p.label != nil {
			all.WriteString(" " + strconv.Itoa(i) + " <</S /D /P " + textString(*p.label) + ">>")
		}
	}
	if all.Len() == 0 {
		return ""
	}
	return " /PageLabels <</Nums [" + all.String() + "]>>"
}

// aboutItself is what the document says of itself in the form that PDF/UA-1 asks for (ISO 14289-1, 5 and 7.1). It is
// not compressed, so that other programs find it.
func (d *Document) aboutItself() object {
	text := `<?xpacket begin="` + "\ufeff" + `" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" ` +
		`xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">` + xmlText(d.info.Title) + `</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>` + xmlText(d.info.Author) + `</rdf:li></rdf:Seq></dc:creator>
<dc:language><rdf:Bag><rdf:li>` + xmlText(d.info.Language) + `</rdf:li></rdf:Bag></dc:language>
<pdf:Producer>` + xmlText(d.info.Producer) + `</pdf:Producer>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`
	return object{" /Type /Metadata /Subtype /XML", []byte(text)}
}

// xmlText is a text as XML; what XML cannot hold is replaced.
func xmlText(text string) string {
	var out strings.Builder
	_ = xml.EscapeText(&out, []byte(text)) // a Builder takes all
	return out.String()
}

// textString writes a text as PDF's own in UTF-16 (ISO 32000-1, 7.9.2.2).
func textString(text string) string { return string(appendText(nil, text)) }

func appendText(to []byte, text string) []byte {
	if strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r >= 0x7f }) {
		to = append(to, "<feff"...)
		for _, r := range text {
			if high, low := utf16.EncodeRune(r); high != unicode.ReplacementChar {
				to = appendHex(appendHex(to, uint16(high)), uint16(low))
			} else {
				to = appendHex(to, uint16(r))
			}
		}
		return append(to, '>')
	}
	to = append(to, '(')
	for _, c := range []byte(text) {
		if c == '\\' || c == '(' || c == ')' {
			to = append(to, '\\')
		}
		to = append(to, c)
	}
	return append(to, ')')
}

// decimal writes a number.
func decimal(x float64) string { return string(appendNumber(nil, x)) }

// decimals writes numbers as an array.
func decimals(all []float64) string {
	text := []byte("[")
	for _, x := range all {
		text = append(appendNumber(text, x), ' ')
	}
	return string(text) + "]"
}

// refs refers to objects as an array.
func refs(numbers []int) string {
	text := append(make([]byte, 0, 2+10*len(numbers)), '[')
	for _, n := range numbers {
		text = append(appendRef(text, n), ' ')
	}
	return string(append(text, ']'))
}
