package site

// The version of an edition: what its pages and scripts carry, so that those of two versions are never mixed; the small
// file that tells which version is the newest; and the script that keeps an edition for use without a network.

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"
)

// Draft stands in pages and scripts where the edition's version will stand. The version is made of all files, so it
// is put in when all are there; the preview, which makes one file at a time, leaves the draft.
const Draft = "version-to-come"

// stamp begins each script. A page looks at it before it uses a script that it has asked for.
const stamp = `(globalThis.trundle??={}).stamp="` + Draft + `";` + "\n"

// OfflineScript keeps an edition for use without a network. It lies beside the pages, since a browser lets it see to
// nothing above it.
const OfflineScript = "offline.js"

// VersionScript tells a page which version is the newest. It is a script because that is all that the pages' policy
// lets them ask a server for.
const VersionScript = "version.js"

// Files are the files of a folder, by their names in it: how large they are, and what is in them when somebody asks.
type Files struct {
	Sizes map[string]int
	Open  func(name string) (io.ReadCloser, error)
}

// Names are the names of the files in their order.
func (f Files) Names() []string { return slices.Sorted(maps.Keys(f.Sizes)) }

// Completion is what a finished edition gets: its version in pages and scripts, and the scripts that tell the version
// and that keep the edition for use without a network.
type Completion struct {
	Version string
	Added   map[string][]byte
}

// Complete finds an edition's version when all of its files are there. The same files have the same version.
func (s *Site) Complete(files Files) (Completion, error) {
	worker, err := scriptFiles.ReadFile("scripts/worker.js")
	if err != nil {
		return Completion{}, err
	}
	version, err := versionOf(files, worker)
	if err != nil {
		return Completion{}, err
	}
	offline, err := keeper(worker, files, version)
	return Completion{version, map[string][]byte{
		VersionScript: fmt.Appendf(nil, "(globalThis.trundle??={}).newest=%q;\n", version),
		OfflineScript: offline,
	}}, err
}

// keeper is a worker with what it keeps: the addresses of the files, and their version.
func keeper(worker []byte, files Files, version string) ([]byte, error) {
	list, err := json.Marshal(addressesInOrder(files))
	if err != nil {
		return nil, err
	}
	head := fmt.Sprintf("const files = %s;\nconst version = %q;\n", list, version)
	return smaller(append([]byte(head), worker...), "js")
}

// versionOf comes of names, sizes and texts, so that any change gives another.
func versionOf(files Files, worker []byte) (string, error) {
	sum, room := sha256.New(), make([]byte, 1<<15)
	sum.Write(worker)
	for _, name := range files.Names() {
		fmt.Fprintf(sum, "%s %d\n", name, files.Sizes[name])
		if err := copyFile(sum, files, name, room); err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(sum.Sum(nil))[:16], nil
}

// copyFile copies a file by way of some room, which one file can use after the other.
func copyFile(to io.Writer, files Files, name string, room []byte) error {
	r, err := files.Open(name)
	if err != nil {
		return err
	}
	defer r.Close()
	_, err = io.CopyBuffer(to, struct{ io.Reader }{r}, room) // a file by itself takes room of its own
	return err
}

// bodyStyle begins the link to a style sheet that a page asks for right before what needs it; no author can write one.
const bodyStyle = `<link rel="stylesheet" href="assets/%s.css?v=`

// styleLink is the whole of it, in a page's body.
func styleLink(name string) string { return fmt.Sprintf(bodyStyle, name) + Draft + "\">\n" }

// addressesInOrder lists files as they are to be fetched: what a lesson takes first, paper last. The season in one file
// is not kept: it has what the single sheets have, which are, and a tablet would store all paper twice.
func addressesInOrder(files Files) []string {
	var names []string
	for name := range files.Sizes {
		if !strings.HasPrefix(name, ofSeason) && !strings.Contains(name, "/"+ofSeason) {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(turn(a), turn(b)), cmp.Compare(a, b))
	})
	for i, name := range names {
		names[i] = addressOf(name)
	}
	return names
}

func turn(name string) int {
	switch path.Ext(name) {
	case ".html", ".js", ".css":
		return 0
	case ".pdf":
		return 2
	}
	return 1
}

// addressOf writes a file's name as an address, in which signs such as # and % would mean something else.
func addressOf(name string) string { return (&url.URL{Path: name}).EscapedPath() }
