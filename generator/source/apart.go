package source

// Letters that are one sign in a text and several in the file on the disk, a letter and its accents: programs that are
// told a column count what is on the disk.

import "sort"

// Apart is such a letter: where it ends in the text, and how many more signs it is on the disk.
type Apart struct{ End, More int }

// Apart gives the letters of a file that are taken apart on the disk, in their order.
func (f *File) Apart() []Apart { return f.apart }

// OnDisk is Position with the column that the place has in the file on the disk.
func (f *File) OnDisk(offset int) Position {
	if len(f.joints) > 0 {
		origin, at := f.Origin(Span{offset, offset})
		return origin.OnDisk(at.Start)
	}
	p := f.Position(offset)
	start := f.LineStart(p.Line)
	for i := sort.Search(len(f.apart), func(i int) bool { return f.apart[i].End > start }); i < len(f.apart); i++ {
		if f.apart[i].End > offset {
			break
		}
		p.Column += f.apart[i].More
	}
	return p
}
