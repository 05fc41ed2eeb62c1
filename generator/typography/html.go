package typography

// The same for a page: only what is read is set, paragraph by paragraph, across the tags in them.

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"
)

// verbatim are elements whose text is no prose.
var verbatim = strings.Fields("code kbd math pre samp script style svg textarea")

// words are those of them that stand for a word of a sentence.
var words = strings.Fields("code kbd math samp")

// inline are elements that a sentence goes on through.
var inline = strings.Fields("a abbr b bdi cite del dfn em i ins mark q s small span strong sub sup time u wbr")

// marks are what quotation marks are written as in HTML.
var marks = []struct {
	text string
	mark rune
}{{"&quot;", '"'}, {"&#34;", '"'}, {"&#39;", '\''}, {"&apos;", '\''}}

// HTML gives a page anew, with the text below its head set. The page is well-formed, since its printer made it.
func (m Marks) HTML(page []byte) []byte {
	start := bytes.Index(page, []byte("<body"))
	if start < 0 {
		return bytes.Clone(page)
	}
	out := paragraph{marks: m, page: page, start: start, at: start,
		out: append(make([]byte, 0, len(page)+len(page)/50), page[:start]...)}
	for out.at < len(page) {
		rest := page[out.at:]
		if rest[0] != '<' {
			size := bytes.IndexByte(rest, '<')
			if size < 0 {
				size = len(rest)
			}
			out.text(rest[:size])
			continue
		}
		size := tagSize(rest)
		name := tagName(rest[:size])
		isText := isVerbatim(name, rest[:size])
		if isText {
			size += elementSize(rest[size:], name)
		}
		switch {
		case isText && (slices.Contains(words, name) || name == "span"):
			out.put(size, 'x')
		case slices.Contains(inline, strings.TrimPrefix(name, "/")):
			out.put(size, 0)
		default:
			out.end()
			out.skip(size)
		}
	}
	out.end()
	return out.out
}

// A paragraph is a run of text in a page with the tags in it, cut into pieces.
type paragraph struct {
	marks      Marks
	page, out  []byte
	start, at  int // where it begins in the page, and how far it has come
	pieces     []piece
	typed, set []rune // room for its characters
}

// A piece of a paragraph ends at a place of the page. It is a character, or a tag: 0.
type piece struct {
	end int
	is  rune
}

func (p *paragraph) put(size int, is rune) {
	p.at += size
	p.pieces = append(p.pieces, piece{p.at, is})
}

// skip writes what stands between two paragraphs.
func (p *paragraph) skip(size int) {
	p.out = append(p.out, p.page[p.at:p.at+size]...)
	p.at += size
	p.start = p.at
}

// text puts characters, quotation marks as what they are, other entities as words.
func (p *paragraph) text(text []byte) {
	for len(text) > 0 {
		is, size := utf8.DecodeRune(text)
		if is == '&' {
			is, size = entity(text)
		}
		p.put(size, is)
		text = text[size:]
	}
}

// entity is what a text begins with after an &.
func entity(text []byte) (is rune, size int) {
	for _, m := range marks {
		if bytes.HasPrefix(text, []byte(m.text)) {
			return m.mark, len(m.text)
		}
	}
	if size := bytes.IndexByte(text, ';') + 1; size > 0 {
		return 'x', size
	}
	return '&', 1
}

// end sets the paragraph, and begins the next.
func (p *paragraph) end() {
	p.typed = p.typed[:0]
	for _, one := range p.pieces {
		if one.is != 0 {
			p.typed = append(p.typed, one.is)
		}
	}
	p.set = append(p.set[:0], p.typed...)
	p.marks.set(p.set)
	if slices.Equal(p.set, p.typed) { // as nearly always
		p.out = append(p.out, p.page[p.start:p.at]...)
	} else {
		p.writePieces()
	}
	p.pieces, p.start = p.pieces[:0], p.at
}

// writePieces writes the paragraph with what was set in the place of what was typed.
func (p *paragraph) writePieces() {
	i, from := 0, p.start
	for _, one := range p.pieces {
		switch {
		case one.is != 0 && p.set[i] != p.typed[i]:
			p.out = append(p.out, p.marks.spelled(p.set[i])...)
		default:
			p.out = append(p.out, p.page[from:one.end]...)
		}
		if from = one.end; one.is != 0 {
			i++
		}
	}
}

// tagSize is how long a tag is; a > in an attribute does not end it.
func tagSize(text []byte) int {
	if bytes.HasPrefix(text, []byte("<!--")) {
		if end := bytes.Index(text, []byte("-->")); end >= 0 {
			return end + 3
		}
		return len(text)
	}
	var quote byte
	for i, c := range text {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i + 1
		}
	}
	return len(text)
}

// tagName is the name of an element, with a stroke in front if it ends there.
func tagName(tag []byte) string {
	name := bytes.TrimPrefix(tag, []byte("<"))
	if end := bytes.IndexAny(name, " \n\t/>"); end > 0 {
		name = name[:end]
	} else if end == 0 { // </p>
		name = name[:1+max(0, bytes.IndexAny(name[1:], " \n\t>"))]
	}
	return string(name)
}

func isVerbatim(name string, tag []byte) bool {
	return slices.Contains(verbatim, name) && !bytes.HasSuffix(tag, []byte("/>")) ||
		bytes.Contains(tag, []byte(`class="as-text"`))
}

// elementSize is how far an element goes whose first tag is over, its last tag with it.
func elementSize(text []byte, name string) int {
	if end := bytes.Index(text, []byte("</"+name+">")); end >= 0 {
		return end + len(name) + 3
	}
	return len(text)
}
