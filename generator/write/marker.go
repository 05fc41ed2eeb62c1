package write

// This file knows by a list what trundle wrote into a folder, so that nothing else is ever removed with it.

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// Marker is the file by which trundle knows a folder of its own making. It lists the files, each with its sum.
const Marker = ".made-by-trundle"

// ReportMarker is the same of a report: the one never replaces the other.
const ReportMarker = ".made-by-trundle-tally"

// markerText is for people who look into the marker; the files follow, in the form of the usual lists of sums.
const markerText = "trundle made this folder and replaces it as a whole. Keep nothing of your own in it.\n"

// sums are those of files, by slash-separated name.
type sums map[string][sha256.Size]byte

// marker gives the text of a marker: the same for the same files.
func (s sums) marker() []byte {
	var b bytes.Buffer
	b.WriteString(markerText)
	for _, name := range slices.Sorted(maps.Keys(s)) {
		fmt.Fprintf(&b, "%x  %s\n", s[name], name)
	}
	return b.Bytes()
}

// readMarker gives the list in a marker. Markers of earlier versions have none, and neither has one that a power cut
// left empty: nil then, which is not the same as a list without files.
func readMarker(name string) (sums, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	if text = strings.TrimPrefix(text, markerText); text == "" {
		return nil, nil
	}
	listed := sums{}
	for line := range strings.Lines(text) {
		sum, file, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		raw, err := hex.DecodeString(sum)
		if !ok || err != nil || len(raw) != sha256.Size {
			continue // whatever somebody wrote into it: a file that is not listed is not removed
		}
		listed[file] = [sha256.Size]byte(raw)
	}
	return listed, nil
}

// StrangersError says what a folder of ours holds that would be lost with it.
type StrangersError struct {
	dir     string
	Others  []string // that trundle did not write; a folder of such files ends in a slash
	Changed []string // that trundle wrote and somebody changed
}

// Error names the first few.
func (e *StrangersError) Error() string {
	var parts []string
	if len(e.Others) > 0 {
		parts = append(parts, "what trundle did not write: "+firstFew(e.Others))
	}
	if len(e.Changed) > 0 {
		parts = append(parts, "what was changed since trundle wrote it: "+firstFew(e.Changed))
	}
	return e.dir + " would be replaced as a whole, and it holds " + strings.Join(parts, "; and ")
}

// firstFew names some of many, so that the line can be read.
func firstFew(names []string) string {
	const few = 4
	if len(names) <= few+1 {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
}

// ofTheSystem is true of files that file browsers and network disks leave in every folder that they show. Nobody misses
// them, and whoever only looked into the folder should not have to tidy it.
func ofTheSystem(name string) bool {
	switch name {
	case ".DS_Store", "Thumbs.db", "desktop.ini", ".directory":
		return true
	}
	return strings.HasPrefix(name, "._") || strings.HasPrefix(name, ".nfs") || strings.HasPrefix(name, ".fuse_hidden")
}

// strangers looks for what is in a folder and not in a list; with contents it looks into the files, too. It returns nil
// if all is ours.
func (listed sums) strangers(dir, marker string, contents bool) (*StrangersError, error) {
	ours := map[string]bool{".": true}
	for name := range listed {
		for parent := path.Dir(name); !ours[parent]; parent = path.Dir(parent) {
			ours[parent] = true
		}
	}
	found := &StrangersError{}
	err := filepath.WalkDir(dir, func(at string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, at)
		if err != nil {
			return err
		}
		name := filepath.ToSlash(rel)
		sum, listed := listed[name]
		switch {
		case e.IsDir() && ours[name], name == marker, ofTheSystem(e.Name()):
			return nil
		case e.IsDir():
			if holdsAnything(at) {
				found.Others = append(found.Others, name+"/")
			}
			return fs.SkipDir
		case !listed || !e.Type().IsRegular():
			found.Others = append(found.Others, name)
		case contents:
			same, err := isStill(at, sum)
			if err == nil && !same {
				found.Changed = append(found.Changed, name)
			}
			return err
		}
		return nil
	})
	if err != nil || len(found.Others)+len(found.Changed) == 0 {
		return nil, err
	}
	return found, nil
}

// errFound ends a walk that has seen enough.
var errFound = errors.New("found")

// holdsAnything is true of a folder with a file in it, however deep, and of one that cannot be looked through.
func holdsAnything(dir string) bool {
	return filepath.WalkDir(dir, func(_ string, e fs.DirEntry, err error) error {
		if err == nil && (e.IsDir() || ofTheSystem(e.Name())) {
			return nil
		}
		return errFound
	}) != nil
}

// isStill tells whether a file has the contents that were written. One that a power cut left empty has nothing to lose,
// and other ends of lines, which version control gives to text on some systems, are not somebody's work.
func isStill(name string, sum [sha256.Size]byte) (bool, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return false, err
	}
	return len(data) == 0 || sha256.Sum256(data) == sum ||
		sha256.Sum256(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))) == sum, nil
}
