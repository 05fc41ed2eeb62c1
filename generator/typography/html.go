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

// HTML sets the text of a page below its head. The page is well-formed, since its printer made it.
func (m Marks) HTML(page []byte) []byte {
	start := bytes.Index(page, []byte("<body"))
	if start < 0 {
		return page
	}
	out := paragraph{marks: m, out: append(make([]byte, 0, len(page)+len(page)/50), page[:start]...)}
	for rest := page[start:]; len(rest) > 0; {
		if rest[0] != '<' {
			size := bytes.IndexByte(rest, '<')
			if size < 0 {
				size = len(rest)
			}
			out.text(rest[:size])
			rest = rest[size:]
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
			out.put(rest[:size], 'x')
		case slices.Contains(inline, strings.TrimPrefix(name, "/")):
			out.put(rest[:size], 0)
		default:
			out.end()
			out.out = append(out.out, rest[:size]...)
		}
		rest = rest[size:]
	}
	out.end()
	return out.out
}

// A paragraph is a run of text with the tags in it: pieces of HTML, and which character each is, 0 for none.
type paragraph struct {
	marks  Marks
	out    []byte
	pieces [][]byte
	runes  []rune
}

func (p *paragraph) put(piece []byte, r rune) {
	p.pieces, p.runes = append(p.pieces, piece), append(p.runes, r)
}

// text puts characters, quotation marks as what they are, other entities as words.
func (p *paragraph) text(text []byte) {
	for len(text) > 0 {
		r, size := 'x', 0
		for _, m := range marks {
			if bytes.HasPrefix(text, []byte(m.text)) {
				r, size = m.mark, len(m.text)
			}
		}
		if size == 0 && text[0] == '&' {
			size = bytes.IndexByte(text, ';') + 1
		}
		if size == 0 {
			r, size = utf8.DecodeRune(text)
		}
		p.put(text[:size], r)
		text = text[size:]
	}
}

// end sets the paragraph, and begins the next.
func (p *paragraph) end() {
	var runes []rune
	for _, r := range p.runes {
		if r != 0 {
			runes = append(runes, r)
		}
	}
	before := runes
	runes = p.marks.Set(before)
	i := 0
	for n, r := range p.runes {
		if r != 0 {
			i++
		}
		if r != 0 && before[i-1] != runes[i-1] {
			p.out = append(p.out, p.marks.spelled(runes[i-1])...)
			continue
		}
		p.out = append(p.out, p.pieces[n]...)
	}
	p.pieces, p.runes = p.pieces[:0], p.runes[:0]
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
