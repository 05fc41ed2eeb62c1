package pdf

// A file of this package read back, and its objects carried into a file that is bound: under other numbers, below the
// folder, the structure and the outline of that.

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"
	"strconv"
	"strings"

	"github.com/klauspost/compress/zlib"

	"trundle/generator/wording"
)

// errForeign says that a file was not written by this package.
var errForeign = errors.New("the file is not one that this program wrote")

// written is a file read back.
type written struct {
	objects                     []object // the first has number 1
	catalog, info, about        int
	folder, tree, root, outline int
}

// readBack reads a file as file.bytes writes it: streams in a row, then the object stream, then what says where
// they are.
func readBack(data []byte) (*written, error) {
	w := &written{}
	rest, ours := bytes.CutPrefix(data, []byte(startOfFile))
	for ours {
		var number int
		var o object
		if number, o, rest = readStream(rest); number == 0 {
			return nil, errForeign
		}
		for len(w.objects) < number {
			w.objects = append(w.objects, object{})
		}
		w.objects[number-1] = o
		if strings.Contains(o.text, " /Type /ObjStm ") {
			if err := w.unpack(o); err != nil {
				return nil, err
			}
		}
		if strings.Contains(o.text, " /Type /XRef ") {
			w.objects = w.objects[:number-2] // what is kept is no part of what is carried
			return w, w.look(o.text)
		}
	}
	return nil, errForeign
}

var streamForm = wording.New(`^(\d+) 0 obj\n<</Length (\d+)`)

// readStream reads a stream that data begins with; its number is 0 if it does not.
func readStream(data []byte) (number int, o object, rest []byte) {
	m := streamForm.FindSubmatch(data)
	if m == nil {
		return 0, o, nil
	}
	text, rest, _ := bytes.Cut(data[len(m[0]):], []byte(startOfStream))
	length := intOf(string(m[2]))
	if length+len(endOfStream) > len(rest) {
		return 0, o, nil
	}
	return intOf(string(m[1])), object{string(text), rest[:length]}, rest[length+len(endOfStream):]
}

// unpack takes an object stream apart.
func (w *written) unpack(o object) error {
	z, err := zlib.NewReader(bytes.NewReader(o.data))
	if err != nil {
		return err
	}
	var read bytes.Buffer
	read.Grow(8 * len(o.data)) // as much as most come to
	if _, err := read.ReadFrom(z); err != nil {
		return err
	}
	all, first := read.String(), intAfter(o.text, " /First ")
	index, texts := strings.Fields(all[:first]), all[first:]
	for i := 0; i < len(index); i += 2 {
		end := len(texts)
		if i+3 < len(index) {
			end = intOf(index[i+3])
		}
		w.objects[intOf(index[i])-1].text = strings.TrimSuffix(texts[intOf(index[i+1]):end], "\n")
	}
	return nil
}

// look finds the objects that all others hang on.
func (w *written) look(references string) error {
	w.catalog, w.info = intAfter(references, " /Root "), intAfter(references, " /Info ")
	if w.catalog == 0 || w.catalog > len(w.objects) {
		return errForeign
	}
	catalog := entriesIn(w.text(w.catalog))
	w.folder, w.tree = intOf(catalog["/Pages"]), intOf(catalog["/StructTreeRoot"])
	w.about, w.outline = intOf(catalog["/Metadata"]), intOf(catalog["/Outlines"])
	if w.folder == 0 || w.tree == 0 {
		return errForeign
	}
	w.root = intOf(strings.TrimPrefix(entriesIn(w.text(w.tree))["/K"], "["))
	return nil
}

// text is the text of an object.
func (w *written) text(number int) string { return w.objects[number-1].text }

// carrying carries the objects of a file.
type carrying struct {
	*binder
	from  *written
	to    []int        // the number that each has in the bound file
	apart map[int]bool // those that have been carried by themselves
}

// whole carries all of a file.
func (c carrying) whole() error {
	f := c.from
	for n := range boundFolder {
		c.to[n] = n
	}
	c.to[f.folder], c.to[f.tree] = boundFolder, boundRoot
	if f.outline > 0 {
		c.to[f.outline] = boundOutline
	}
	if err := c.letters(); err != nil {
		return err
	}
	for n, o := range f.objects { // what is text has numbers in a row, so that where it is takes little room
		if n++; c.isCarried(n) && o.data == nil {
			c.to[n] = c.number()
		}
	}
	pages, keys := len(c.sheets), c.keys
	for n, o := range f.objects {
		if n++; c.isCarried(n) && o.data != nil {
			c.stream(n, o)
		}
	}
	c.outermost(keys)
	for n, o := range f.objects {
		if n++; c.isCarried(n) && o.data == nil && !c.apart[n] {
			text := o.text
			if n == f.root {
				text = strings.Replace(text, "/"+string(whole), "/"+string(Part), 1)
			}
			c.keep(c.to[n], c.again(text, keys))
		}
	}
	for _, n := range refsIn(entriesIn(f.text(f.folder))["/Kids"]) {
		c.sheets = append(c.sheets, c.to[n])
	}
	c.roots = append(c.roots, c.to[f.root])
	c.parents(keys)
	c.label(pages)
	return c.tape.err
}

// isCarried is true of an object that the bound file has none of its own for.
func (c carrying) isCarried(n int) bool {
	f := c.from
	return n >= boundFolder && n != f.catalog && n != f.info && n != f.about && n != f.folder && n != f.tree &&
		n != f.outline
}

// stream carries a stream, once for all files that have it.
func (c carrying) stream(n int, o object) {
	o.text = c.again(o.text, 0)
	all := sha256.New()
	_, _ = io.WriteString(all, o.text+"\n") // a sum takes everything
	_, _ = all.Write(o.data)
	sum := [sha256.Size]byte(all.Sum(nil))
	if c.to[n] = c.shared[sum]; c.to[n] > 0 {
		return
	}
	c.to[n] = c.number()
	c.shared[sum] = c.to[n]
	c.write(c.to[n], o)
}

// letters notes which glyphs the file's faces have: those that have a width, as in [36[612.5]37[580]].
func (c carrying) letters() error {
	for style := range c.used {
		for i := range perFace {
			widths, before := entriesIn(c.from.text(style*perFace + i + 1))["/W"], ""
			for word := range tokens(strings.TrimPrefix(widths, "[")) {
				if word == "[" {
					glyph := intOf(before)
					if glyph >= 64*len(c.used[style]) {
						return errForeign
					}
					c.used[style].add(uint16(glyph))
				}
				before = word
			}
		}
	}
	return nil
}

// outermost puts the outermost bookmarks after those of the files before. The last of them is kept when it is known
// whether another follows.
func (c carrying) outermost(keys int) {
	if c.from.outline == 0 {
		return
	}
	all := entriesIn(c.from.text(c.from.outline))
	first, last := intOf(all["/First"]), intOf(all["/Last"])
	before := ""
	if c.last > 0 {
		c.keep(c.last, c.lastText+" /Next "+ref(c.to[first])+">>")
		before = " /Prev " + ref(c.last)
	} else {
		c.firstMark = c.to[first]
	}
	open := func(n int) string { return strings.TrimSuffix(c.again(c.from.text(n), keys), ">>") }
	if c.last, c.lastText = c.to[last], open(last); first == last {
		c.lastText += before
	} else {
		c.keep(c.to[first], open(first)+before+">>")
	}
	c.marks += intOf(all["/Count"])
	c.apart[first], c.apart[last] = true, true
}

// parents makes a leaf of the parent tree of the file's own (7.9.7).
func (c carrying) parents(keys int) {
	own := entriesIn(entriesIn(c.from.text(c.from.tree))["/ParentTree"])["/Nums"]
	leaf := c.again(shifted(own, keys), 0)
	c.keys += intOf(entriesIn(c.from.text(c.from.tree))["/ParentTreeNextKey"])
	if c.keys > keys {
		c.leaves = append(c.leaves, c.number())
		c.keep(c.leaves[len(c.leaves)-1], "<</Limits ["+strconv.Itoa(keys)+" "+strconv.Itoa(c.keys-1)+"] /Nums ["+leaf+"]>>")
	}
}

// label goes on with the labels of the file's pages.
func (c carrying) label(pages int) {
	own := entriesIn(entriesIn(c.from.text(c.from.catalog))["/PageLabels"])["/Nums"]
	c.labels.WriteString(shifted(own, pages))
}

// again writes an object's text with the numbers that objects have in the bound file, and pages and links with the
// keys that they have there.
func (c carrying) again(text string, keys int) string {
	out := make([]byte, 0, len(text)+len(text)/8)
	var before [2]int // where the last two words begin in what is written
	key := ""
	for t := range tokens(text) {
		at := len(out)
		switch {
		case t == "R":
			n := intOf(string(out[before[0]:]))
			out = appendRef(out[:before[0]], c.to[n])
		case key == "/StructParents" || key == "/StructParent":
			out = strconv.AppendInt(out, int64(intOf(t)+keys), 10)
		default:
			out = append(out, t...)
		}
		out = append(out, ' ')
		before[0], before[1], key = before[1], at, t
	}
	return strings.TrimSuffix(string(out), " ")
}
