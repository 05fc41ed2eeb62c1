package pdf

// Files bound into one: read one after the other, and written on as they are read, so that a season of any length takes
// the memory of one lesson. Each file's objects go into an object stream of their own: one of all would have more of
// them than a reference can count (ISO 32000-1, 7.5.8), and a reader would have to unpack all for a page.

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
)

// Objects of a bound file that others refer to before they can be written; fonts have the numbers below them.
const (
	boundFolder = styles*perFace + 1 + iota
	boundTree
	boundRoot
	boundOutline
	boundFirst // of those that come from the files
)

// Bind writes a file with the pages, the structure and the bookmarks of others, each of them a Part of its own. They
// are files of this package, in letters of one typeface.
func Bind(to io.Writer, info Info, letters Typeface, files iter.Seq2[[]byte, error]) error {
	b := &binder{Document: New(info, letters), tape: &tape{to: to, sum: sha256.New()}, next: boundFirst,
		shared: map[[sha256.Size]byte]int{}}
	b.tape.text(startOfFile)
	for file, err := range files {
		if err == nil {
			err = b.take(file)
		}
		if err != nil {
			return err
		}
	}
	if len(b.sheets) == 0 {
		return errors.New("a file has no page")
	}
	return b.finish()
}

// A binder is a file that is being bound.
type binder struct {
	*Document          // for what it says of itself, and the letters that are used
	*tape              // where it is written
	next      int      // the next object's number
	waiting   []object // that go into the next object stream
	numbers   []int    // theirs
	spans     []span   // where all are that have been written

	shared map[[sha256.Size]byte]int // streams that are in the file, by what is in them
	sheets []int                     // the pages
	roots  []int                     // the Parts
	keys   int                       // of the parent tree
	leaves []int                     // of the parent tree
	labels strings.Builder

	marks           int    // bookmarks that can be seen
	firstMark, last int    // of the outermost
	lastText        string // of the last one, which is open for what comes after it
}

// number gives the next object's.
func (b *binder) number() int {
	b.next++
	return b.next - 1
}

// keep puts an object that is text into the next object stream.
func (b *binder) keep(number int, text string) {
	b.numbers, b.waiting = append(b.numbers, number), append(b.waiting, object{text: text})
}

// write writes a stream.
func (b *binder) write(number int, o object) {
	b.spans = append(b.spans, span{number, 1, entry{inFile, b.tape.at, 0}})
	b.tape.stream(number, o)
}

// pack writes the objects that wait as an object stream.
func (b *binder) pack() error {
	if len(b.waiting) == 0 {
		return nil
	}
	stream := b.number()
	for i, n := range b.numbers {
		if s := len(b.spans) - 1; s >= 0 && b.spans[s].goesOn(n, stream, i) {
			b.spans[s].count++
			continue
		}
		b.spans = append(b.spans, span{n, 1, entry{inStream, stream, i}})
	}
	o, err := objectStream(b.numbers, b.waiting)
	b.write(stream, o)
	b.numbers, b.waiting = b.numbers[:0], b.waiting[:0]
	return errors.Join(err, b.tape.err)
}

// take binds a file in.
func (b *binder) take(file []byte) error {
	from, err := readBack(file)
	if err != nil {
		return err
	}
	c := carrying{binder: b, from: from, to: make([]int, len(from.objects)+1), apart: map[int]bool{}}
	if err := c.whole(); err != nil {
		return err
	}
	return b.pack()
}

// finish writes what stands for all files.
func (b *binder) finish() error {
	if b.last > 0 {
		b.keep(b.last, b.lastText+">>")
		b.keep(boundOutline, "<</Type /Outlines /First "+ref(b.firstMark)+" /Last "+ref(b.last)+" /Count "+
			strconv.Itoa(b.marks)+">>")
	}
	w := &writer{Document: b.Document, file: newFile(0)}
	w.fonts()
	for i, o := range w.objects {
		if o.data != nil {
			b.write(i+1, o)
		} else {
			b.keep(i+1, o.text)
		}
	}
	b.keep(boundFolder, "<</Type /Pages /Count "+strconv.Itoa(len(b.sheets))+" /Kids "+refs(b.sheets)+">>")
	b.keep(boundRoot, "<</S /"+string(whole)+" /P "+ref(boundTree)+" /K "+refs(b.roots)+">>")
	b.keep(boundTree, "<</Type /StructTreeRoot /K ["+ref(boundRoot)+"] /ParentTree <</Kids "+refs(b.leaves)+
		">> /ParentTreeNextKey "+strconv.Itoa(b.keys)+">>")
	about := b.number()
	b.write(about, w.aboutItself())
	catalog, info := b.number(), b.number()
	outline, labels := "", ""
	if b.last > 0 {
		outline = " /Outlines " + ref(boundOutline)
	}
	if b.labels.Len() > 0 {
		labels = " /PageLabels <</Nums [" + b.labels.String() + "]>>"
	}
	b.keep(catalog, w.catalogText(boundFolder, boundTree, about, labels+outline))
	b.keep(info, w.infoText())
	if err := errors.Join(w.err, b.pack()); err != nil {
		return err
	}
	return b.references(catalog, info)
}

// references writes where each object is, and the end of the file.
func (b *binder) references(catalog, info int) error {
	at, table := b.tape.at, b.number()
	if at > 1<<32-1 {
		return fmt.Errorf("a file of %d bytes is longer than it can say where its parts are", at)
	}
	b.spans = append(b.spans, span{table, 1, entry{inFile, at, 0}})
	slices.SortFunc(b.spans, func(x, y span) int { return x.first - y.first })
	o, err := referenceStream(table, entriesOf(b.spans), catalog, info, b.tape.sum.Sum(nil))
	b.tape.stream(table, o)
	b.tape.text("startxref\n" + strconv.Itoa(at) + "\n%%EOF\n")
	return errors.Join(err, b.tape.err)
}

// A span is so many objects of numbers in a row, of which the first is there.
type span struct {
	first, count int
	entry
}

// goesOn tells whether an object in an object stream comes right after those of a span.
func (s span) goesOn(number, stream, index int) bool {
	return s.kind == inStream && s.where == stream && number == s.first+s.count && index == s.index+s.count
}

// entriesOf says of each object where it is. One that nothing refers to has no place.
func entriesOf(spans []span) iter.Seq[entry] {
	return func(yield func(entry) bool) {
		next := 1
		for _, s := range spans {
			for ; next < s.first; next++ {
				if !yield(entry{free, 0, 0xffff}) {
					return
				}
			}
			for i := range s.count {
				e := s.entry
				if e.kind == inStream {
					e.index += i
				}
				if !yield(e) {
					return
				}
			}
			next = s.first + s.count
		}
	}
}

// A tape is a file that is written from its beginning to its end.
type tape struct {
	to  io.Writer
	at  int
	sum hash.Hash // of all that is written
	err error     // the first that came up
}

func (t *tape) bytes(data []byte) {
	if t.err == nil {
		t.at += len(data)
		t.sum.Write(data)
		_, t.err = t.to.Write(data)
	}
}

func (t *tape) text(text string) { t.bytes([]byte(text)) }

// stream writes a stream as the object of a number.
func (t *tape) stream(number int, o object) {
	t.text(o.opening(number))
	t.bytes(o.data)
	t.text(endOfStream)
}
