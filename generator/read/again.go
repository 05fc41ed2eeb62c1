package read

// Lessons of a large pack, and pictures: read once to see whether they are in order, and again whenever somebody needs
// what is in them.

import (
	"bytes"
	"crypto/sha256"
	"io/fs"

	"trundle/generator/source"
)

// readAgain gives a file whose text is not kept.
func (f *Files) readAgain(folder fs.FS, kept *source.File) *source.File {
	return f.again(kept, func(name string) ([]byte, error) {
		text, err := (&reader{fs: folder}).bytes(name, MaxMarkdown+int64(len(byteOrderMark)))
		text, _ = plain(bytes.TrimPrefix(text, byteOrderMark))
		return text, err
	})
}

// PictureAgain gives the file of a picture that was read, without keeping its bytes.
func (f *Files) PictureAgain(folder fs.FS, kept *source.File) *source.File {
	return f.again(kept, func(name string) ([]byte, error) { return (&reader{fs: folder}).bytes(name, MaxPicture) })
}

// again gives a file whose bytes come from read. If they are others when it is read again, blanks come in their place,
// so that places in it still exist, and Changed tells of it.
func (f *Files) again(kept *source.File, read func(name string) ([]byte, error)) *source.File {
	name, size, sum := kept.Name, len(kept.Text()), sha256.Sum256(kept.Text())
	return source.NewReadAgain(name, kept.Text(), func() []byte {
		text, err := read(name)
		if err != nil || sha256.Sum256(text) != sum {
			f.changed.CompareAndSwap(nil, &name)
			return bytes.Repeat([]byte(" "), size)
		}
		return text
	}, kept.Apart()...)
}

// Changed gives the name of a lesson or picture that was saved or taken away while the pack was in use, "" if none was.
func (f *Files) Changed() string {
	if name := f.changed.Load(); name != nil {
		return *name
	}
	return ""
}
