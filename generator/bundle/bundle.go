// Package bundle puts files into a zip for handing out, and checks such a zip. The zip
// holds one folder, and in it the files, a list of them and their sums. The same files make
// the same bytes everywhere.
package bundle

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"trundle/generator/wording"
)

// Names of what a bundle holds beside an edition's files.
const (
	Start    = "START-HERE.html"
	Index    = "index.html" // the same page, by the name that a web server looks for
	Contents = "CONTENTS.txt"
	Sums     = "SHA256SUMS"
)

// ErrName says that a file's name must not be in a zip.
var ErrName = errors.New("a file of this name cannot be handed out")

// Files are the files that go into a bundle, by their slash-separated names below its folder, and how each is read.
type Files map[string]func() (io.ReadCloser, error)

// Text is a file that is in memory.
func Text(data []byte) func() (io.ReadCloser, error) {
	return func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }
}

// Write writes the zip of a folder's files, each of which is read as it is needed. The sums are added. Files are in the
// order of their names, the page to start with first.
func Write(to io.Writer, folder string, files Files, times Times) error {
	all := maps.Clone(files)
	sums, err := checksums(files)
	if err != nil {
		return err
	}
	all[Sums] = Text(sums)
	if twins := apart(slices.Collect(maps.Keys(all))); twins != nil {
		return fmt.Errorf("%w: %s: many computers take it for %s", ErrName, twins[1], twins[0])
	}
	z := zip.NewWriter(to)
	for _, name := range inOrder(all) {
		if why := Unsafe(folder + "/" + name); why != "" {
			return fmt.Errorf("%w: %s: %s", ErrName, name, why)
		}
		if err := entry(z, folder+"/"+name, name, all[name], times); err != nil {
			return err
		}
	}
	return z.Close()
}

// entry writes a file into a zip.
func entry(z *zip.Writer, path, name string, file func() (io.ReadCloser, error), times Times) error {
	at, err := times(name, file)
	if err != nil {
		return err
	}
	header := &zip.FileHeader{Name: path, Method: zip.Deflate, Modified: at}
	header.SetMode(0o644)
	w, err := z.CreateHeader(header)
	if err != nil {
		return err
	}
	return copyTo(w, file)
}

func copyTo(w io.Writer, file func() (io.ReadCloser, error)) error {
	r, err := file()
	if err != nil {
		return err
	}
	defer r.Close()
	_, err = io.Copy(w, r)
	return err
}

// inOrder gives the names with those that a person looks for first.
func inOrder(files Files) []string {
	names := slices.Sorted(maps.Keys(files))
	slices.SortStableFunc(names, func(a, b string) int { return rank(a) - rank(b) })
	return names
}

// rank is 0 for the file that is to come first.
func rank(name string) int {
	if i := slices.Index([]string{Start, Contents, Sums}, name); i >= 0 {
		return i
	}
	return 3
}

// checksums are lines that sha256sum -c reads: the sum in hex, two blanks, the name.
func checksums(files Files) ([]byte, error) {
	sums := make(map[string]string, len(files))
	for name := range files {
		sum := sha256.New()
		if err := copyTo(sum, files[name]); err != nil {
			return nil, err
		}
		sums[name] = fmt.Sprintf("%x", sum.Sum(nil))
	}
	return []byte(sumLines(sums)), nil
}

// sumLines writes sums by the names of their files.
func sumLines(sums map[string]string) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		fmt.Fprintf(&b, "%s  %s\n", sums[name], name)
	}
	return b.String()
}

// apart gives two names that are one where neither capitals nor the way of writing accents count, or of which one
// would have to be a file and a folder; nil if there are none.
func apart(names []string) []string {
	seen := map[string]string{}
	for _, name := range slices.Sorted(slices.Values(names)) {
		key := Folded(name)
		if other, ok := seen[key]; ok {
			return []string{other, name}
		}
		seen[key] = name
	}
	for _, name := range slices.Sorted(slices.Values(names)) {
		for dir := path.Dir(Folded(name)); dir != "." && dir != "/"; dir = path.Dir(dir) {
			if other, ok := seen[dir]; ok {
				return []string{other, name}
			}
		}
	}
	return nil
}

// Folded is the same for names that disks do not tell apart.
func Folded(name string) string {
	return norm.NFC.String(cases.Fold().String(norm.NFD.String(name)))
}

// Unsafe says why a name may not stand in a zip that is unpacked anywhere: it would leave
// the folder, or be another name on another computer.
func Unsafe(name string) string {
	switch {
	case !fs.ValidPath(name) || name == ".":
		return "its name leads elsewhere"
	case strings.ContainsAny(name, "\\:*?\"<>|") || strings.ContainsFunc(name, unseen):
		return `its name has a character that not every computer can store, one of \ : * ? " < > | ` +
			"or one that cannot be seen"
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") {
			return "its name, or that of its folder, ends in a dot or a blank, which not every computer can store"
		}
		if len(part) > MaxName {
			return fmt.Sprintf("its name, or that of its folder, is longer than the %d bytes that most computers can store",
				MaxName)
		}
		if device.MatchString(part) {
			return "some computers keep the name " + part + " for a device"
		}
	}
	return ""
}

// MaxName is what ext4, APFS and NTFS hold at least of one name between two slashes.
const MaxName = 255

// unseen characters make two names look alike.
func unseen(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) }

// device is what Windows keeps for devices, whatever comes after a dot.
var device = wording.New(`(?i)^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$) *(?:\.|$)`)
