package site

// The two ways in which pages are made for who writes the pack: with the source line of each part, and following their
// sources. What is built has neither.

import (
	"html"
	"strconv"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/source"
)

// Marked gives a Site whose pages say of each part, in the attribute data-at, which line of
// which file it is from. It is for who writes the pack; nothing else differs.
func (s *Site) Marked() *Site {
	m := *s
	m.marked = true
	return &m
}

// Following gives a Site whose pages follow their sources through a style sheet and a script
// at those addresses; nothing else differs.
func (s *Site) Following(style, script string) *Site {
	f := *s
	f.following = &Follow{style, script}
	return &f
}

// at is that attribute for a block of Markdown, "" if there is none.
func (b *body) at(n ast.Node) string {
	if !b.site.marked {
		return ""
	}
	offset, ok := offsetOf(n)
	if !ok {
		return ""
	}
	return ` data-at="` + html.EscapeString(b.place(offset)) + `"`
}

// place writes file:line of an offset, "" if the pages are not marked.
func (b *body) place(offset int) string {
	if !b.site.marked {
		return ""
	}
	file, at := b.source.Origin(source.Span{Start: offset, End: offset})
	return file.Name + ":" + strconv.Itoa(file.Position(at.Start).Line)
}

// offsetOf finds where a block starts: where its own lines do, or those of what is in it.
func offsetOf(n ast.Node) (int, bool) {
	if n.Type() == ast.TypeInline {
		return 0, false
	}
	if lines := n.Lines(); lines != nil && lines.Len() > 0 {
		return lines.At(0).Start, true
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if offset, ok := offsetOf(c); ok {
			return offset, true
		}
	}
	return 0, false
}

// listItem does as goldmark does, with the place in the source.
func (b *body) listItem(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		put(w, "</li>\n")
		return ast.WalkContinue, nil
	}
	put(w, "<li", b.at(n), ">")
	if first := n.FirstChild(); first != nil && first.Kind() != ast.KindTextBlock {
		put(w, "\n")
	}
	return ast.WalkContinue, nil
}
