// Package source holds the text of a pack's files and tells where in them a thing
// stands. Spans are byte offsets; they become lines and columns only when somebody
// is told.
package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// File is one file of a pack, its text as it is on the disk but without a
// byte-order mark, and with line feeds alone at the ends of its lines. Files are not changed once made.
type File struct {
	Name string // slash-separated, from the pack's folder, as the user would type it

	joints  []joint // of a text that was put together from others; none of one that is a file
	from    []*File // those
	instead string  // what the joints have instead of stretches of them, one after the other
	size    int
	held    func() *content // nil of a file whose text is read again
	again   again
	apart   []Apart
}

// NewFile makes a File of a name and its text.
func NewFile(name string, text []byte, apart ...Apart) *File {
	held := &content{text: text}
	return &File{Name: name, size: len(text), held: func() *content { return held }, apart: apart}
}

// Text is the file's text. Nobody changes it.
func (f *File) Text() []byte { return f.content().text }

// Span is a half-open range of bytes in a file.
type Span struct{ Start, End int }

// Position is a place as people count it: lines and columns from 1, columns in
// characters.
type Position struct{ Line, Column int }

func (f *File) starts() []int { return f.content().starts() }

// Position gives the line and column of an offset, in the file where it was written. An offset past the end is that
// of the end.
func (f *File) Position(offset int) Position {
	if len(f.joints) > 0 {
		origin, at := f.Origin(Span{offset, offset})
		return origin.Position(at.Start)
	}
	offset = max(0, min(offset, f.size))
	lines := f.starts()
	line := sort.SearchInts(lines, offset+1)
	return Position{line, utf8.RuneCount(f.Text()[lines[line-1]:offset]) + 1}
}

// LineAt gives the number of the line in which an offset is, counted from 1 in this text itself.
func (f *File) LineAt(offset int) int {
	return sort.SearchInts(f.starts(), max(0, min(offset, f.size))+1)
}

// Line gives the text of a line, counted from 1, without its end.
func (f *File) Line(line int) string {
	lines := f.starts()
	if line < 1 || line > len(lines) {
		return ""
	}
	end := f.size
	if line < len(lines) {
		end = lines[line] - 1
	}
	return strings.TrimSuffix(string(f.Text()[lines[line-1]:end]), "\r")
}

// LineStart gives the offset of a line's first byte; a line past the last gives the
// length of the text.
func (f *File) LineStart(line int) int {
	lines := f.starts()
	if line > len(lines) {
		return f.size
	}
	return lines[max(line, 1)-1]
}

// Slice gives the text of a span.
func (f *File) Slice(s Span) string {
	start := max(0, min(s.Start, f.size))
	return string(f.Text()[start:max(start, min(s.End, f.size))])
}
