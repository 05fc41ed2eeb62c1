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

// A joint is a cut in few bytes, none of which lead anywhere: those of a large pack are many, and collecting garbage
// follows all that leads on.
type joint struct {
	start      int32 // in the joined text
	file       int32 // by its number in from
	from, to   int32 // in that file
	hasInstead bool
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
		f.joints[i] = joint{int32(f.size), f.numberOf(c.File), int32(c.At.Start), int32(c.At.End), c.Instead != nil}
		f.instead += string(c.Instead)
		f.size += c.size()
		kept = kept && c.File.held != nil
	}
	if kept {
		f.held = sync.OnceValue(func() *content { return &content{text: f.joined()} })
	} else {
		f.again.read = f.joined
	}
	return f
}

// numberOf is the number of a file that a text was put together from, which is new if it is not among them.
func (f *File) numberOf(part *File) int32 {
	i := slices.Index(f.from, part)
	if i < 0 {
		i = len(f.from)
		f.from = append(slices.Clip(f.from), part)
	}
	return int32(i)
}

// endOf is where the stretch of a joint ends in the text.
func (f *File) endOf(i int) int {
	if i+1 < len(f.joints) {
		return int(f.joints[i+1].start)
	}
	return f.size
}

// joined puts a text together.
func (f *File) joined() []byte {
	text, instead := make([]byte, 0, f.size), f.instead
	for i, j := range f.joints {
		if j.hasInstead {
			n := f.endOf(i) - int(j.start)
			text, instead = append(text, instead[:n]...), instead[n:]
			continue
		}
		text = append(text, f.from[j.file].Text()[j.from:j.to]...)
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
	file, from, to := f.from[j.file], int(j.from), int(j.to)
	if j.hasInstead {
		return file, Span{from, to}
	}
	start := min(from+max(0, at.Start-int(j.start)), to)
	end := min(from+max(0, at.End-int(j.start)), to)
	return file, Span{start, max(start, end)}
}

// jointAt is the number of the joint that an offset belongs to. The end of the text is that of the last with a text.
func (f *File) jointAt(offset int) int {
	i := max(0, sort.Search(len(f.joints), func(i int) bool { return int(f.joints[i].start) > offset })-1)
	for i > 0 && int(f.joints[i].start) == f.size {
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
		if file, at := f.cutAt(i); file.Name == f.Name {
			return file, at
		}
	}
	return f.cutAt(0)
}

// cutAt gives what a joint was cut out of.
func (f *File) cutAt(i int) (*File, Span) {
	j := f.joints[i]
	return f.from[j.file], Span{int(j.from), int(j.to)}
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
	return f.instead == g.instead && slices.EqualFunc(f.joints, g.joints, func(a, b joint) bool {
		of, other := f.from[a.file], g.from[b.file]
		a.file, b.file = 0, 0 // numbers may differ
		return a == b && of.Name == other.Name && of.Equal(other)
	})
}
