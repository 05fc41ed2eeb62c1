package pdf

// The file that objects are written to (ISO 32000-1, 7.5): what is no stream goes into one object stream, as a structure
// tree has hundreds of small objects. The library's own writer makes a compressor for each stream, which takes most of
// the time of a sheet; here they are used again.

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"io"
	"strconv"
	"sync"

	"github.com/carlos7ags/folio/core"
)

// A file is the objects of a document; the first has number 1.
type file struct {
	objects []core.PdfObject
	err     error
}

// raw is an object that has been written already.
type raw []byte

func (r raw) Type() core.ObjectType { return core.ObjectTypeDictionary }

func (r raw) WriteTo(w io.Writer) (int64, error) {
	n, err := w.Write(r)
	return int64(n), err
}

// add puts an object in; streams of the library that want to be compressed are.
func (f *file) add(o core.PdfObject) *core.PdfIndirectReference {
	if s, ok := o.(*core.PdfStream); ok && s.WillCompress() {
		s.Data = f.deflate(s.Data)
		s.SetCompress(false)
		s.Dict.Set("Filter", core.NewPdfName("FlateDecode"))
	}
	f.objects = append(f.objects, o)
	return core.NewPdfIndirectReference(len(f.objects), 0)
}

// reserve gives the number of an object that is to be set later.
func (f *file) reserve() int {
	f.objects = append(f.objects, raw("null"))
	return len(f.objects)
}

func (f *file) set(number int, text string) { f.objects[number-1] = raw(text) }

// addText adds an object that is text, and gives its number.
func (f *file) addText(text string) int {
	f.objects = append(f.objects, raw(text))
	return len(f.objects)
}

// addStream adds a stream, compressed, with what else its dictionary says; its number.
func (f *file) addStream(data []byte, dict string) int {
	return f.addPlain(f.deflate(data), " /Filter /FlateDecode"+dict)
}

// addPlain adds a stream as it is.
func (f *file) addPlain(data []byte, dict string) int {
	f.objects = append(f.objects, &described{core.NewPdfStream(data), dict})
	return len(f.objects)
}

// described is a stream whose dictionary says more, as text.
type described struct {
	*core.PdfStream
	dict string
}

func (s *described) WriteTo(w io.Writer) (int64, error) {
	head := "<</Length " + strconv.Itoa(len(s.Data)) + s.dict + ">>\nstream\n"
	for _, part := range [][]byte{[]byte(head), s.Data, []byte("\nendstream")} {
		if _, err := w.Write(part); err != nil {
			return 0, err
		}
	}
	return 0, nil
}

var compressors = sync.Pool{New: func() any { return zlib.NewWriter(io.Discard) }}

func (f *file) deflate(data []byte) []byte {
	z := compressors.Get().(*zlib.Writer)
	defer compressors.Put(z)
	var out bytes.Buffer
	z.Reset(&out)
	_, err := z.Write(data)
	if e := z.Close(); err == nil {
		err = e
	}
	if err != nil && f.err == nil {
		f.err = err
	}
	return out.Bytes()
}

// isStream tells what cannot be in an object stream.
func isStream(o core.PdfObject) bool {
	switch o.(type) {
	case *core.PdfStream, *described:
		return true
	}
	return false
}

// bytes writes the file, its catalogue and information by their numbers.
func (f *file) bytes(catalog, info int) ([]byte, error) {
	var out, small, index bytes.Buffer
	out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	places := make([][2]int, len(f.objects)) // in the file, or within the object stream
	count := 0
	for i, o := range f.objects {
		if isStream(o) {
			places[i][0] = out.Len()
			out.WriteString(strconv.Itoa(i+1) + " 0 obj\n")
			f.write(o, &out)
			out.WriteString("\nendobj\n")
			continue
		}
		index.WriteString(strconv.Itoa(i+1) + " " + strconv.Itoa(small.Len()) + " ")
		f.write(o, &small)
		small.WriteByte('\n')
		places[i] = [2]int{-1, count}
		count++
	}
	first := index.Len()
	packed := &file{}
	packed.addStream(append(index.Bytes(), small.Bytes()...),
		" /Type /ObjStm /N "+strconv.Itoa(count)+" /First "+strconv.Itoa(first))
	at := out.Len()
	out.WriteString(strconv.Itoa(len(places)+1) + " 0 obj\n")
	f.write(packed.objects[0], &out)
	out.WriteString("\nendobj\n")
	f.crossReferences(&out, places, at, catalog, info)
	if f.err == nil {
		f.err = packed.err
	}
	return out.Bytes(), f.err
}

func (f *file) write(o core.PdfObject, to io.Writer) {
	if _, err := o.WriteTo(to); err != nil && f.err == nil {
		f.err = err
	}
}

// crossReferences writes where each object is, as a stream, and the end of the file.
func (f *file) crossReferences(out *bytes.Buffer, places [][2]int, packedAt, catalog, info int) {
	packed, own, at := len(places)+1, len(places)+2, out.Len()
	entry := func(table []byte, kind byte, where, index int) []byte {
		table = append(table, kind)
		table = binary.BigEndian.AppendUint32(table, uint32(where))
		return binary.BigEndian.AppendUint16(table, uint16(index))
	}
	table := entry(nil, 0, 0, 0xffff)
	for _, p := range places {
		if p[0] < 0 {
			table = entry(table, 2, packed, p[1])
		} else {
			table = entry(table, 1, p[0], 0)
		}
	}
	table = entry(entry(table, 1, packedAt, 0), 1, at, 0)
	sum := sha256.Sum256(out.Bytes())
	id := "<" + hex.EncodeToString(sum[:16]) + ">"
	last := &file{}
	last.addStream(table, " /Type /XRef /W [1 4 2] /Size "+strconv.Itoa(own+1)+" /Root "+ref(catalog)+" /Info "+
		ref(info)+" /ID ["+id+" "+id+"]")
	out.WriteString(strconv.Itoa(own) + " 0 obj\n")
	f.write(last.objects[0], out)
	out.WriteString("\nendobj\nstartxref\n" + strconv.Itoa(at) + "\n%%EOF\n")
	if f.err == nil {
		f.err = last.err
	}
}

// ref refers to an object by its number.
func ref(number int) string { return strconv.Itoa(number) + " 0 R" }
