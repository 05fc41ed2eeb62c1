package parse

// What is refused of fields, and what may stand around them, before the YAML parser sees them.

import (
	"bytes"
	"strings"

	"trundle/generator/source"
)

// The most that a header may hold; the YAML parser's own use of memory grows fast with
// brackets within brackets, and with lists that begin within each other.
const (
	MaxHeader   = 64 << 10
	MaxBrackets = 16 // of a line
	MaxMarks    = 16 // of a line: hyphens of lists, and what begins a key or its value
)

// sane refuses what no coach writes. It counts brackets and marks in texts too, which only makes it stricter.
func (fs *fields) sane(text []byte) bool {
	start := 0
	for line := range bytes.Lines(text) {
		at := deepField(line)
		if start+len(line) > MaxHeader {
			at = MaxHeader - start
		}
		if at >= 0 {
			fs.error(source.Span{Start: start + at, End: start + at + 1}, "yaml",
				"these fields are too long or too deep to be fields", "keep to short lines and lists of lines")
			return false
		}
		start += len(line)
	}
	return true
}

// deepField gives where a line has more brackets within each other, or more marks, than are allowed; −1 if nowhere.
func deepField(line []byte) int {
	if bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("#")) {
		return -1
	}
	depth, marks := 0, 0
	for i, b := range line {
		switch b {
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(0, depth-1)
		case '-', '?', ':':
			if i+1 == len(line) || line[i+1] == ' ' || line[i+1] == '\t' || line[i+1] == '\n' {
				marks++
			}
		}
		if depth > MaxBrackets || marks > MaxMarks {
			return i
		}
	}
	return -1
}

// closedOnce refuses text below a line --- that ends the fields. Coaches know that line from lessons and close their
// fields with it, so it may be there; the YAML parser drops what follows a second one without a word.
func (fs *fields) closedOnce(text []byte) bool {
	begun, closed := false, source.Span{}
	start := 0
	for line := range bytes.Lines(text) {
		at := source.Span{Start: start, End: start + len(bytes.TrimRight(line, " \t\n"))}
		start += len(line)
		said, _, _ := bytes.Cut(line, []byte("#"))
		fence := isFence(strings.TrimSuffix(string(line), "\n"))
		switch {
		case len(bytes.TrimSpace(said)) == 0:
			continue
		case closed != source.Span{} && fence:
			return fs.secondSet(at)
		case closed != source.Span{}:
			return fs.secondSet(closed)
		case fence && begun:
			closed = at
		}
		begun = true
	}
	return true
}

// secondSet reports that something follows the fields.
func (fs *fields) secondSet(at source.Span) bool {
	fs.error(at, "yaml", "there is more than one set of fields here", "keep one, with a line of --- at its end or none")
	return false
}
