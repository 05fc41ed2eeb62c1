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
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
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

// Make gives the zip of a folder's files, by slash-separated name below it. The sums are
// added. Files are in the order of their names, the page to start with first.
func Make(folder string, files map[string][]byte, times Times) ([]byte, error) {
	all := maps.Clone(files)
	all[Sums] = checksums(files)
	if twins := apart(slices.Collect(maps.Keys(all))); twins != nil {
		return nil, fmt.Errorf("%w: %s: many computers take it for %s", ErrName, twins[1], twins[0])
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range inOrder(all) {
		if why := Unsafe(folder + "/" + name); why != "" {
			return nil, fmt.Errorf("%w: %s: %s", ErrName, name, why)
		}
		header := &zip.FileHeader{Name: folder + "/" + name, Method: zip.Deflate, Modified: times(name, all[name])}
		header.SetMode(0o644)
		w, err := z.CreateHeader(header)
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(all[name]); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// inOrder gives the names with those that a person looks for first.
func inOrder(files map[string][]byte) []string {
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
func checksums(files map[string][]byte) []byte {
	sums := make(map[string]string, len(files))
	for name, data := range files {
		sums[name] = fmt.Sprintf("%x", sha256.Sum256(data))
	}
	return []byte(sumLines(sums))
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
		key := folded(name)
		if other, ok := seen[key]; ok {
			return []string{other, name}
		}
		seen[key] = name
	}
	for _, name := range slices.Sorted(slices.Values(names)) {
		for dir := path.Dir(folded(name)); dir != "." && dir != "/"; dir = path.Dir(dir) {
			if other, ok := seen[dir]; ok {
				return []string{other, name}
			}
		}
	}
	return nil
}

// folded is the same for names that disks do not tell apart.
func folded(name string) string {
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
		if len(part) > longestPart {
			return fmt.Sprintf("its name, or that of its folder, is longer than the %d bytes that most computers can store",
				longestPart)
		}
		if device.MatchString(part) {
			return "some computers keep the name " + part + " for a device"
		}
	}
	return ""
}

// longestPart is what ext4, APFS and NTFS hold at least of one name between two slashes.
const longestPart = 255

// unseen characters make two names look alike.
func unseen(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) }

// device is what Windows keeps for devices, whatever comes after a dot.
var device = regexp.MustCompile(`(?i)^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$) *(?:\.|$)`)
