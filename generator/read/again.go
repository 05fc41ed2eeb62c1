package read

// Lessons of a large pack: read once to see whether they are in order, and again whenever somebody needs their text.

import (
	"bytes"
	"crypto/sha256"
	"io/fs"

	"trundle/generator/source"
)

// readAgain gives a file whose text is not kept. If it is another one when it is read again, blanks come in its place,
// so that places in it still exist, and Changed tells of it.
func (f *Files) readAgain(folder fs.FS, kept *source.File) *source.File {
	name, size, sum := kept.Name, len(kept.Text()), sha256.Sum256(kept.Text())
	return source.NewReadAgain(name, kept.Text(), func() []byte {
		text, err := (&reader{fs: folder}).bytes(name, maxMarkdown+int64(len(byteOrderMark)))
		text = bytes.TrimPrefix(text, byteOrderMark)
		text = bytes.ReplaceAll(text, windowsEnd, []byte("\n"))
		if err != nil || sha256.Sum256(text) != sum {
			f.changed.CompareAndSwap(nil, &name)
			return bytes.Repeat([]byte(" "), size)
		}
		return text
	})
}

// Changed gives the name of a lesson that was saved or taken away while the pack was in use, "" if none was.
func (f *Files) Changed() string {
	if name := f.changed.Load(); name != nil {
		return *name
	}
	return ""
}
