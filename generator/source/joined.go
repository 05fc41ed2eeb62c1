package source

// A text that was put together from stretches of several files, and where each place of it was written.

import (
	"bytes"
	"slices"
	"sort"
	"strconv"
	"sync"
)

// A Cut is a stretch of a file that is part of a joined text. If Instead is not nil it is there in the stretch's place,
// as the empty line is that keeps two stretches apart; all of it then has the place of the stretch.
type Cut struct {
	File    *File
	At      Span
	Instead []byte
}

// text is what a cut adds to the joined text.
func (c Cut) text() []byte {
	if c.Instead != nil {
		return c.Instead
	}
	return c.File.Text()[c.At.Start:c.At.End]
}

// joint is a cut with the offset in the joined text at which it begins.
type joint struct {
	Cut
	start int
}

// size is how long that is.
func (c Cut) size() int {
	if c.Instead != nil {
		return len(c.Instead)
	}
	return c.At.End - c.At.Start
}

// Join makes one file of several cuts. It has the name of the file that people know it by, and its offsets lead back
// to where the text was written: see Origin. The text is put together when somebody asks for it: a preview joins all
// lessons at each save, and finds most of them to be as they were.
func Join(name string, cuts []Cut) *File {
	f, kept := &File{Name: name, joints: make([]joint, len(cuts))}, true
	for i, c := range cuts {
		f.joints[i] = joint{c, f.size}
		f.size += c.size()
		kept = kept && c.File.held != nil
	}
	text := func() []byte { return textOf(f.joints, f.size) }
	if kept {
		f.held = sync.OnceValue(func() *content { return &content{text: text()} })
	} else {
		f.again.read = text
	}
	return f
}

// textOf puts a text together.
func textOf(joints []joint, size int) []byte {
	text := make([]byte, 0, size)
	for _, j := range joints {
		text = append(text, j.text()...)
	}
	return text
}

// Origin gives where a span of a text was written. A span that goes beyond the stretch in which it starts ends with
// that stretch. A file that was not joined is its own origin.
func (f *File) Origin(at Span) (*File, Span) {
	if len(f.joints) == 0 {
		return f, at
	}
	j := f.joints[f.jointAt(at.Start)]
	if j.Instead != nil {
		return j.File, j.At
	}
	start := min(j.At.Start+max(0, at.Start-j.start), j.At.End)
	end := min(j.At.Start+max(0, at.End-j.start), j.At.End)
	return j.File, Span{start, max(start, end)}
}

// jointAt is the number of the joint that an offset belongs to. The end of the text is that of the last with a text.
func (f *File) jointAt(offset int) int {
	i := max(0, sort.Search(len(f.joints), func(i int) bool { return f.joints[i].start > offset })-1)
	for i > 0 && f.joints[i].start == f.size {
		i--
	}
	return i
}

// PutIn gives the place in the file that a joined text is known by at which a stretch of another was put in: that of
// the cut before it.
func (f *File) PutIn(offset int) (*File, Span) {
	if len(f.joints) == 0 {
		return f, Span{offset, offset}
	}
	for i := f.jointAt(offset); i > 0; i-- {
		if f.joints[i].File.Name == f.Name {
			return f.joints[i].File, f.joints[i].At
		}
	}
	return f.joints[0].File, f.joints[0].At
}

// LineSeenFrom writes the line of an offset for a sentence that is about another offset: "27", and with the name of
// its file where that is another, "27 of parts/ready.md".
func (f *File) LineSeenFrom(offset, from int) string {
	there, _ := f.Origin(Span{offset, offset})
	here, _ := f.Origin(Span{from, from})
	line := strconv.Itoa(f.Position(offset).Line)
	if there.Name == here.Name {
		return line
	}
	return line + " of " + there.Name
}

// Equal tells whether two files have the same text from the same places, so that whatever was made of one holds
// for the other.
func (f *File) Equal(g *File) bool {
	switch {
	case f == g:
		return true
	case len(f.joints) == 0 && len(g.joints) == 0:
		return bytes.Equal(f.Text(), g.Text())
	}
	return slices.EqualFunc(f.joints, g.joints, func(a, b joint) bool {
		return a.At == b.At && a.start == b.start && a.File.Name == b.File.Name && a.File.Equal(b.File) &&
			(a.Instead == nil) == (b.Instead == nil) && bytes.Equal(a.Instead, b.Instead)
	})
}
