// Package prose reads what a lesson says: its texts with their places in the file, and what
// English sentences in them mean to a check. All patterns of English are here, so that checks
// stay checks and another language has one place to go to.
package prose

import (
	"bytes"
	"sort"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// A Run is one text put together from its pieces, with blanks of all kinds made plain, such as
// a paragraph or a prompt.
type Run struct {
	Text      []byte
	stretches []stretch
	before    int // how much there is of the text that this is a part of before it
}

// A stretch of a text is there in the file as it is, character by character, or all of it stands for one place. Files
// are far shorter than 2 GiB.
type stretch struct {
	from       int32 // where it begins in the text
	start, end int32 // in the file
	asItIs     bool
}

// place is where the byte of the text is that an offset belongs to.
func (s *stretch) place(offset int) source.Span {
	if s.asItIs {
		at := int(s.start) + offset - int(s.from)
		return source.Span{Start: at, End: at + 1}
	}
	return source.Span{Start: int(s.start), End: int(s.end)}
}

// at is the number of the stretch that a byte of the run belongs to.
func (r *Run) at(offset int) int {
	return sort.Search(len(r.stretches), func(i int) bool { return int(r.stretches[i].from) > r.before+offset }) - 1
}

// place is that of a byte of the run.
func (r *Run) place(offset int) source.Span {
	return r.stretches[r.at(offset)].place(r.before + offset)
}

// Span is the place in the file of a part of the run, which begins and ends with a character.
func (r *Run) Span(start, end int) source.Span {
	return source.Span{Start: r.place(start).Start, End: r.place(end - 1).End}
}

// Whole is the place of all of it; the run must not be empty.
func (r *Run) Whole() source.Span { return r.Span(0, len(r.Text)) }

// slice is a part of a run.
func (r *Run) slice(start, end int) Run { return Run{r.Text[start:end], r.stretches, r.before + start} }

// From is what of a run comes from a place on.
func (r *Run) From(start int) Run { return r.slice(start, len(r.Text)) }

// Lines cuts a run at its line breaks; empty lines are left out.
func (r *Run) Lines() []Run {
	var all []Run
	start := 0
	for _, text := range bytes.SplitAfter(r.Text, []byte("\n")) {
		end := start + len(bytes.TrimSuffix(text, []byte("\n")))
		if end > start {
			all = append(all, r.slice(start, end))
		}
		start += len(text)
	}
	return all
}

// At is a text that is somewhere within a place, such as a header.
func At(s string, at source.Span) Run {
	var r Run
	r.plain(s, at.Start, at.End)
	return r
}

// pieces is a text in pieces that are in the file as they are read, such as a prompt.
func pieces(text []byte, places []source.Span) Run {
	var r Run
	for _, at := range places {
		if end, ok := r.end(); ok {
			r.write(" ", end, at.Start)
		}
		r.verbatim(text, at)
	}
	return r
}

// end is where the last character ends in the file; false of an empty run.
func (r *Run) end() (at int, ok bool) {
	if len(r.Text) == 0 {
		return 0, false
	}
	return r.place(len(r.Text) - 1).End, true
}

// write adds characters that all stand for one place, or are as they are there.
func (r *Run) write(s string, start, end int) {
	if len(s) == end-start {
		r.add(start, end, true)
	} else {
		r.add(start, end, false)
	}
	r.Text = append(r.Text, s...)
}

// add notes where the characters are that come next. What goes on where the last stretch ends belongs to it.
func (r *Run) add(start, end int, asItIs bool) {
	if n := len(r.stretches); n > 0 {
		last := &r.stretches[n-1]
		switch {
		case asItIs && last.asItIs && int(last.end) == start:
			last.end = int32(end)
			return
		case !asItIs && !last.asItIs && int(last.start) == start && int(last.end) == end:
			return
		}
	}
	r.stretches = append(r.stretches, stretch{int32(len(r.Text)), int32(start), int32(end), asItIs})
}

// plain adds characters, a blank of any width as a plain one, and never two of them.
func (r *Run) plain(s string, start, end int) {
	for _, c := range s {
		if c == '\u00ad' || c == '\u200b' || c == '\u2060' { // nobody sees these
			continue
		}
		if !unicode.IsSpace(c) && c != '\u2009' && c != '\u202f' {
			r.write(string(c), start, end)
		} else if !bytes.HasSuffix(r.Text, []byte(" ")) {
			r.write(" ", start, end)
		}
	}
}

// verbatim adds a piece of the file as it is, such as a line of code.
func (r *Run) verbatim(src []byte, at source.Span) {
	for i := at.Start; i < at.End; {
		_, size := utf8.DecodeRune(src[i:at.End])
		r.plain(string(src[i:i+size]), i, i+size)
		i += size
	}
}

// markdown adds a piece of the file with its escapes and entities resolved.
func (r *Run) markdown(src []byte, at source.Span) {
	for i := at.Start; i < at.End; {
		if end := plainEnd(src[:at.End], i); end > i {
			r.add(i, end, true)
			r.Text = append(r.Text, src[i:end]...)
			i = end
			continue
		}
		s, size := lesson.Character(src[i:at.End])
		r.plain(s, i, i+size)
		i += size
	}
}

// plainEnd is where the characters from start on end that are read as they are written. Most are so.
func plainEnd(src []byte, start int) int {
	for i, c := range src[start:] {
		if c <= ' ' || c >= utf8.RuneSelf || c == '&' || c == '\\' {
			return start + i
		}
	}
	return len(src)
}

// noText stands in a run for what is not text that a coach typed: a computed value, code, a
// picture.
const noText = "\ufffc"

// typed is the text below a node that a coach typed as prose.
func typed(n ast.Node, src []byte) Run {
	var r Run
	for p := range lesson.Pieces(n, src) {
		switch {
		case p.Kind == lesson.BlockStart:
		case p.Kind == lesson.Words && p.In == nil:
			r.markdown(src, p.At)
		case p.Kind == lesson.HardBreak && p.In == nil:
			r.write("\n", p.At.Start, p.At.End)
		case p.Kind == lesson.SoftBreak && p.In == nil:
			r.write(" ", p.At.Start, p.At.End)
		case !bytes.HasSuffix(r.Text, []byte(noText)):
			r.write(noText, p.At.Start, p.At.End)
		}
	}
	return r
}

// Below is the text below a node that a coach typed as prose; what is not text is one character.
func Below(n ast.Node, src []byte) Run { return typed(n, src) }

// Shown is the text below a node as it is on a page, line by line, without values and HTML.
func Shown(n ast.Node, src []byte) Run {
	var r Run
	for p := range lesson.Pieces(n, src) {
		switch p.Kind {
		case lesson.Words:
			r.markdown(src, p.At)
		case lesson.Verbatim:
			if p.In.Kind() == ast.KindCodeSpan {
				r.verbatim(src, p.At)
			}
		case lesson.SoftBreak, lesson.HardBreak:
			r.write("\n", p.At.Start, p.At.End)
		case lesson.Computed, lesson.Picture, lesson.BlockStart:
		}
	}
	return r
}

// spoken is the text below a node as students read it, code and HTML in it; a line break is a
// blank. between is what stands between two blocks.
func spoken(n ast.Node, src []byte, between string) Run {
	var r Run
	for p := range lesson.Pieces(n, src) {
		switch p.Kind {
		case lesson.Words:
			r.markdown(src, p.At)
		case lesson.Verbatim:
			r.verbatim(src, p.At)
		case lesson.Computed:
			r.write(noText, p.At.Start, p.At.End)
		case lesson.SoftBreak, lesson.HardBreak:
			r.plain(" ", p.At.Start, p.At.End)
		case lesson.BlockStart:
			if end, ok := r.end(); ok {
				r.write(between, end, end)
			}
		case lesson.Picture: // its description comes next
		}
	}
	return r
}

// HTML is the HTML of a node, empty of any other. Pages show it as text.
func HTML(n ast.Node, src []byte) Run {
	var r Run
	if n.Kind() == ast.KindHTMLBlock || n.Kind() == ast.KindRawHTML {
		for p := range lesson.Pieces(n, src) {
			r.verbatim(src, p.At)
		}
	}
	return r
}

// small makes small letters of those that have one of the same length, so that places stay.
func small(r Run) Run {
	text := bytes.Clone(r.Text)
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		if lower := unicode.ToLower(c); utf8.RuneLen(lower) == size {
			utf8.EncodeRune(text[i:], lower)
		}
		i += size
	}
	r.Text = text
	return r
}
