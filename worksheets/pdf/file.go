package pdf

// The file that objects are written to (ISO 32000-1, 7.5): what is not a stream goes into one object stream, as a
// structure tree has hundreds of small objects.

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"io"
	"iter"
	"slices"
	"strconv"
	"sync"
)

// An object is a dictionary as text, and the data of a stream if it is one.
type object struct {
	text string // of a stream: what its dictionary says beside its length
	data []byte // nil if it is not a stream
}

// A file is the objects of a document; the first has number 1.
type file struct {
	objects []object
	err     error // the first that came up
}

// newFile has room for so many objects.
func newFile(room int) *file { return &file{objects: make([]object, 0, room)} }

// add puts an object in, and gives its number.
func (f *file) add(o object) int {
	f.objects = append(f.objects, o)
	return len(f.objects)
}

// reserve gives the number of an object that is to be set later.
func (f *file) reserve() int { return f.addText("null") }

// set gives an object that was reserved its text.
func (f *file) set(number int, text string) { f.objects[number-1].text = text }

// addText adds an object that is text.
func (f *file) addText(text string) int { return f.add(object{text: text}) }

// note keeps the first error.
func (f *file) note(err error) {
	if f.err == nil {
		f.err = err
	}
}

// bytes writes the file, its catalogue and information by their numbers.
func (f *file) bytes(catalog, info int) ([]byte, error) {
	out := &output{entries: make([]entry, len(f.objects), len(f.objects)+2)}
	size := 0
	for _, o := range f.objects {
		size += len(o.data) + len(o.text)/4 + 8 // a quarter, as what is no stream is packed
	}
	out.Grow(size + 4096)
	out.WriteString(startOfFile)
	for i, o := range f.objects {
		if o.data != nil {
			out.entries[i] = entry{inFile, out.Len(), 0}
			out.stream(i+1, o)
		}
	}
	f.pack(out)
	f.references(out, catalog, info)
	return out.Bytes(), f.err
}

// pack writes the object stream.
func (f *file) pack(out *output) {
	packed := len(f.objects) + 1
	var numbers []int
	var texts []object
	for i, o := range f.objects {
		if o.data == nil {
			out.entries[i] = entry{inStream, packed, len(texts)}
			numbers, texts = append(numbers, i+1), append(texts, o)
		}
	}
	stream, err := objectStream(numbers, texts)
	f.note(err)
	out.entries = append(out.entries, entry{inFile, out.Len(), 0})
	out.stream(packed, stream)
}

// objectStream packs objects that are text, by their numbers (7.5.7).
func objectStream(numbers []int, objects []object) (object, error) {
	index, texts := rooms.Get().(*room), rooms.Get().(*room)
	defer rooms.Put(index)
	defer rooms.Put(texts)
	index.bytes, texts.bytes = index.bytes[:0], texts.bytes[:0]
	for i, o := range objects {
		index.bytes = append(strconv.AppendInt(index.bytes, int64(numbers[i]), 10), ' ')
		index.bytes = append(strconv.AppendInt(index.bytes, int64(len(texts.bytes)), 10), ' ')
		texts.bytes = append(append(texts.bytes, o.text...), '\n')
	}
	packed, err := deflate(index.bytes, texts.bytes)
	return object{" /Filter /FlateDecode /Type /ObjStm /N " + strconv.Itoa(len(objects)) + " /First " +
		strconv.Itoa(len(index.bytes)), packed}, err
}

// A room is one for bytes that are wanted for a moment.
type room struct{ bytes []byte }

var rooms = sync.Pool{New: func() any { return &room{} }}

// references writes where each object is, as a stream, and the end of the file (7.5.8).
func (f *file) references(out *output, catalog, info int) {
	at := out.Len()
	out.entries = append(out.entries, entry{inFile, at, 0})
	sum := sha256.Sum256(out.Bytes())
	stream, err := referenceStream(len(out.entries), slices.Values(out.entries), catalog, info, sum[:])
	f.note(err)
	out.stream(len(out.entries), stream)
	out.WriteString("startxref\n" + strconv.Itoa(at) + "\n%%EOF\n")
}

// referenceStream packs where so many objects are, from the first on.
func referenceStream(count int, entries iter.Seq[entry], catalog, info int, sum []byte) (object, error) {
	packed, err := deflated(func(to io.Writer) error {
		table := entry{free, 0, 0xffff}.appendTo(nil)
		for e := range entries {
			if _, err := to.Write(table); err != nil {
				return err
			}
			table = e.appendTo(table[:0])
		}
		_, err := to.Write(table)
		return err
	})
	id := "<" + hex.EncodeToString(sum[:16]) + ">"
	return object{" /Filter /FlateDecode /Type /XRef /W [1 4 2] /Size " + strconv.Itoa(count+1) +
		" /Root " + ref(catalog) + " /Info " + ref(info) + " /ID [" + id + " " + id + "]", packed}, err
}

// output is the bytes of a file, and where objects are in them.
type output struct {
	bytes.Buffer
	entries []entry
}

// stream writes a stream as the object of a number.
func (out *output) stream(number int, o object) {
	out.WriteString(o.opening(number))
	out.Write(o.data)
	out.WriteString(endOfStream)
}

// opening is what stands before a stream's data.
func (o object) opening(number int) string {
	return strconv.Itoa(number) + " 0 obj\n<</Length " + strconv.Itoa(len(o.data)) + o.text + startOfStream
}

// What stands around a stream's data.
const (
	startOfFile   = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
	startOfStream = ">>\nstream\n"
	endOfStream   = "\nendstream\nendobj\n"
)

// An entry says where an object is.
type entry struct {
	kind         byte
	where, index int // the place in the file; or the object stream, and which of its objects
}

// The kinds of entries.
const (
	free byte = iota
	inFile
	inStream
)

// appendTo writes an entry in the widths that references says.
func (e entry) appendTo(table []byte) []byte {
	table = binary.BigEndian.AppendUint32(append(table, e.kind), uint32(e.where))
	return binary.BigEndian.AppendUint16(table, uint16(e.index))
}

// ref refers to an object by its number.
func ref(number int) string { return string(appendRef(nil, number)) }

func appendRef(to []byte, number int) []byte {
	return append(strconv.AppendInt(to, int64(number), 10), " 0 R"...)
}
