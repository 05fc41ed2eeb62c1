package read

// Limits on what a pack may hold; beyond them is a mistake or an attack. They are looked at before anything has to
// work with a text, so that no text takes a parser more than a moment.

import (
	"bytes"
	"path"
	"strconv"

	"trundle/generator/source"
	"trundle/generator/wording"
)

const (
	MaxText    = 8 << 20   // bytes of any text: files of runs are the long ones
	MaxLine    = 256 << 10 // bytes of a line of any text
	MaxPicture = 32 << 20
	MaxFiles   = 20000

	// A lesson of 50 minutes has 25 kB, its longest line 400 bytes; whoever writes a paragraph as a line needs 2 kB.
	MaxMarkdown     = 256 << 10
	MaxMarkdownLine = 16 << 10
	MaxDepth        = 20 // of quotes and lists within each other
	MaxIndent       = 200
)

// beyond tells whether a text is longer or more deeply nested than it may be, and reports the place.
func (r *reader) beyond(f *source.File) bool {
	longest, size, markdown := MaxLine, MaxText, path.Ext(f.Name) == ".md"
	if markdown {
		longest, size = MaxMarkdownLine, MaxMarkdown
	}
	refuse := func(at int, slug, what, hint string) bool {
		r.problems.Error(f, source.Span{Start: at, End: at + 1}, slug, what, hint)
		return true
	}
	if len(f.Text()) > size {
		return refuse(size, "text-too-long", "this file is longer than a lesson, a part or a card can be: it has "+
			strconv.Itoa(len(f.Text())>>10)+" kB, and "+strconv.Itoa(size>>10)+" kB are the most",
			"split it into several, or take out what somebody pasted by mistake")
	}
	if at := longLine(f.Text(), longest); at >= 0 {
		return refuse(at, "line-too-long", "this line is too long to be written by hand",
			"break it into several; "+strconv.Itoa(longest>>10)+" kB are the most for one")
	}
	if !markdown {
		return false
	}
	if at := deepLine(f.Text()); at >= 0 {
		return refuse(at, "nested-too-deep", "quotes and lists are nested more deeply here than anyone can follow",
			strconv.Itoa(MaxDepth)+" within each other are the most; begin a new list or a new paragraph")
	}
	return false
}

// longLine gives where a line goes beyond the longest allowed, or −1.
func longLine(data []byte, longest int) int {
	start := 0
	for i, b := range data {
		if b == '\n' {
			start = i + 1
		} else if i-start >= longest {
			return i
		}
	}
	return -1
}

// deepLine gives where a line of Markdown begins more quotes and lists within each other than are allowed, or is
// indented so far that it could be that deep in the lists above it; −1 if none does. Lines of code count as well: they
// would have to begin with as many such marks.
func deepLine(data []byte) int {
	start := 0
	for line := range bytes.Lines(data) {
		if at := deepIn(bytes.TrimRight(line, " \t\r\n")); at >= 0 {
			return start + at
		}
		start += len(line)
	}
	return -1
}

// deepIn is deepLine for one line.
func deepIn(line []byte) int {
	depth, indent := 0, 0
	for i := 0; i < len(line); i++ {
		switch line[i] {
		case '\t':
			indent += 4
		case ' ':
			indent++
		default:
			n := markAt(line[i:])
			if n == 0 || isRule(line[i:]) {
				return -1
			}
			depth, i = depth+1, i+n-1
		}
		if depth > MaxDepth || indent > MaxIndent {
			return i
		}
	}
	return -1
}

// listMark is what begins an item of a list.
var listMark = wording.New(`^(?:[-+*]|[0-9]{1,9}[.)])(?:[ \t]|$)`)

// markAt gives the length of the mark of a quote or list that a text begins with, 0 if there is none.
func markAt(text []byte) int {
	if text[0] == '>' {
		return 1
	}
	return max(0, len(bytes.TrimRight(listMark.Find(text), " \t")))
}

// isRule tells whether a text is a line across the page, as in  - - -, which is no list.
func isRule(text []byte) bool {
	return text[0] != '>' && len(bytes.Trim(text, string(text[:1])+" \t")) == 0
}
