package lesson

// Where links and pictures of the pack's files lead.

import (
	"net/url"
	"path"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// LinkKind tells where a link of a lesson leads.
type LinkKind int

const (
	Elsewhere LinkKind = iota // an address on the web or of mail
	Here                      // a heading of the same file
	ToLesson
	ToCard
	ToWords // a term of the glossary, or all of it
	Nowhere
)

// Classify tells where a destination written in a file of the pack leads: its kind,
// the lesson's slug or the card's name, and the heading after #. Letters that were taken apart, as in an address copied
// from a list of files, are put together.
func Classify(from, destination string) (kind LinkKind, target, fragment string) {
	u, err := url.Parse(destination)
	if err != nil {
		return Nowhere, "", ""
	}
	u.Path, u.Fragment = norm.NFC.String(u.Path), norm.NFC.String(u.Fragment)
	switch {
	case u.Scheme == "https" || u.Scheme == "http" || u.Scheme == "mailto":
		return Elsewhere, "", ""
	case u.Scheme != "" || u.Host != "":
		return Nowhere, "", ""
	case u.Path == "":
		return Here, "", u.Fragment
	}
	name := path.Join(path.Dir(from), u.Path)
	base, isMarkdown := strings.CutSuffix(name, ".md")
	switch card, inCare := strings.CutPrefix(base, "care/"); {
	case !isMarkdown || path.IsAbs(u.Path):
		return Nowhere, "", ""
	case name == WordsFile:
		return ToWords, "", u.Fragment
	case inCare:
		return ToCard, card, u.Fragment
	case !strings.Contains(base, "/"):
		return ToLesson, base, u.Fragment
	}
	return Nowhere, "", ""
}

// PictureName gives the name within the pack of a picture that a file refers to, ""
// if it cannot be in the pack's folder of pictures.
func PictureName(from, destination string) string {
	unescaped, err := url.PathUnescape(destination)
	if err != nil {
		unescaped = destination // as in 100%.png, where % begins no sign
	}
	if strings.HasPrefix(unescaped, "/") {
		return ""
	}
	name := path.Join(path.Dir(from), norm.NFC.String(unescaped))
	if !strings.HasPrefix(name, "pictures/") {
		return ""
	}
	return name
}
