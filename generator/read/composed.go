package read

// Letters with accents as one sign each (Unicode's form NFC), in texts and in the names of files: some systems store
// names taken apart, and what is copied from there would not find what is typed, though both look the same.

import (
	"bytes"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"trundle/generator/source"
)

// composed is a text of letters as one sign each, so that a column counts what an editor shows, and those that are
// several signs on the disk.
func composed(text []byte) (whole []byte, apart []source.Apart) {
	if norm.NFC.IsNormal(text) {
		return text, nil
	}
	whole = make([]byte, 0, len(text))
	for line := range bytes.Lines(text) {
		if norm.NFC.IsNormal(line) {
			whole = append(whole, line...)
			continue
		}
		var letters norm.Iter
		letters.Init(norm.NFC, line)
		for from := 0; !letters.Done(); from = letters.Pos() {
			letter := letters.Next()
			whole = append(whole, letter...)
			if more := utf8.RuneCount(line[from:letters.Pos()]) - utf8.RuneCount(letter); more != 0 {
				apart = append(apart, source.Apart{End: len(whole), More: more})
			}
		}
	}
	return whole, apart
}

// composedNames gives names as they are known from here on, by those on the disk. Of two that differ in nothing else
// the one that is taken apart keeps its name, and is reported for that.
func composedNames(onDisk []string) map[string]string {
	names := make(map[string]string, len(onDisk))
	for _, name := range onDisk {
		names[name] = name
	}
	for _, name := range onDisk {
		if whole := norm.NFC.String(name); names[whole] == "" {
			names[name] = whole
		}
	}
	return names
}

// list gives what is in a folder, in the order of the names.
func (r *reader) list(dir string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(r.fs, dir)
	onDisk := make([]string, len(entries))
	for i, e := range entries {
		onDisk[i] = e.Name()
	}
	names := composedNames(onDisk)
	all := make([]fs.DirEntry, len(entries))
	for i, e := range entries {
		all[i] = entry{e, names[e.Name()]}
	}
	slices.SortFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return all, err
}

// entry is an entry of a folder under its composed name.
type entry struct {
	fs.DirEntry
	name string
}

// Name is the composed one.
func (e entry) Name() string { return e.name }

// onDisk is the name that a file has on the disk.
func (r *reader) onDisk(name string) string {
	if _, err := fs.Stat(r.fs, name); !errors.Is(err, fs.ErrNotExist) || strings.IndexFunc(name, isAccented) < 0 {
		return name
	}
	at := "."
	for part := range strings.SplitSeq(name, "/") {
		entries, err := fs.ReadDir(r.fs, at)
		if err != nil {
			return name
		}
		for _, e := range entries {
			if norm.NFC.String(e.Name()) == part {
				part = e.Name()
				break
			}
		}
		at = path.Join(at, part)
	}
	return at
}

func isAccented(r rune) bool { return r > '\x7f' }
