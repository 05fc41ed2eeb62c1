package site

// The version of an edition: what its pages and scripts carry, so that those of two versions are never mixed; the small
// file that tells which version is the newest; and the script that keeps an edition for use without a network.

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
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

// Complete gives what changes and what is added, by name, when all files of an edition are there: its version in
// pages and scripts, and the two scripts above. The same files have the same version.
func (s *Site) Complete(files map[string][]byte) (map[string][]byte, error) {
	worker, err := scriptFiles.ReadFile("scripts/worker.js")
	if err != nil {
		return nil, err
	}
	version := versionOf(files, worker)
	all := map[string][]byte{}
	for name, data := range files {
		if data := withVersion(name, data, version); data != nil {
			all[name] = data
		}
	}
	all[VersionScript] = fmt.Appendf(nil, "(globalThis.trundle??={}).newest=%q;\n", version)
	all[OfflineScript], err = keeper(worker, files, version)
	return all, err
}

// keeper is a worker with what it keeps: the addresses of the files, and their version.
func keeper(worker []byte, files map[string][]byte, version string) ([]byte, error) {
	list, err := json.Marshal(addressesInOrder(files))
	if err != nil {
		return nil, err
	}
	head := fmt.Sprintf("const files = %s;\nconst version = %q;\n", list, version)
	return smaller(append([]byte(head), worker...), "js")
}

// versionOf comes of names, sizes and texts, so that any change gives another.
func versionOf(files map[string][]byte, worker []byte) string {
	sum := sha256.New()
	sum.Write(worker)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(sum, "%s %d\n", name, len(files[name]))
		sum.Write(files[name])
	}
	return hex.EncodeToString(sum.Sum(nil))[:16]
}

// bodyStyle begins the link to a style sheet that a page asks for right before what needs it; no author can write one.
const bodyStyle = `<link rel="stylesheet" href="assets/%s.css?v=`

// styleLink is the whole of it, in a page's body.
func styleLink(name string) string { return fmt.Sprintf(bodyStyle, name) + Draft + "\">\n" }

// withVersion puts the version into a page's head, its links to style sheets, or at a script's beginning, and nowhere
// else, whatever an author has written. It is nil for other files.
func withVersion(name string, data []byte, version string) []byte {
	switch path.Ext(name) {
	case ".html":
		head, rest, _ := bytes.Cut(data, []byte("</head>"))
		head = bytes.ReplaceAll(head, []byte(Draft), []byte(version))
		for _, sheet := range pageStyles {
			link := fmt.Sprintf(bodyStyle, strings.TrimSuffix(path.Base(sheet.name), ".css"))
			rest = bytes.ReplaceAll(rest, []byte(link+Draft), []byte(link+version))
		}
		return slices.Concat(head, []byte("</head>"), rest)
	case ".js":
		return bytes.Replace(data, []byte(Draft), []byte(version), 1)
	}
	return nil
}

// addressesInOrder lists files as they are to be fetched: what a lesson takes first, paper last. The season in one file
// is not kept: it has what the single sheets have, which are, and a tablet would store all paper twice.
func addressesInOrder(files map[string][]byte) []string {
	var names []string
	for name := range files {
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
