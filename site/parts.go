package site

// The parts of a lesson as students see them: each folds, so that a team has one in front of it at a time. The first is
// open; a part opens when the tape, the link below the part before it, or anything else leads into it.

import (
	"html"
	"slices"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// foldable gives which part of the lesson a heading begins, if it is one that folds.
func (b *body) foldable(h *ast.Heading) (which int, ok bool) {
	if b.mentors || b.lesson == nil || h.Level != 2 || h.Parent() == nil || h.Parent().Kind() != ast.KindDocument {
		return 0, false
	}
	id, _ := h.AttributeString("id")
	name, _ := id.([]byte)
	which = slices.IndexFunc(b.parts, func(p tapePart) bool { return p.ID == string(name) })
	return which, which >= 0
}

// openPart starts a part right before its heading, which ends with closeHeading.
func (b *body) openPart(w util.BufWriter, h *ast.Heading) {
	if h.Level > 2 || h.Parent() == nil || h.Parent().Kind() != ast.KindDocument {
		return
	}
	b.closePart(w)
	if which, ok := b.foldable(h); ok {
		b.inPart = true
		put(w, `<details class="part"`)
		if which == 0 {
			put(w, " open")
		}
		put(w, "><summary>")
	}
}

// closePart ends the part that is open, with a link to the next.
func (b *body) closePart(w util.BufWriter) {
	if !b.inPart {
		return
	}
	b.inPart = false
	b.shown++
	if b.shown < len(b.parts) {
		next := b.parts[b.shown]
		put(w, `<p class="on"><a href="#`, html.EscapeString(next.ID), `">`, html.EscapeString(next.Title), " · ",
			html.EscapeString(b.lengthOf(next)), ` <span aria-hidden="true">›</span></a></p>`, "\n")
	}
	put(w, "</details>\n")
}

// lengthOf says how long a part takes, and whether it is for when there is time.
func (b *body) lengthOf(part tapePart) string {
	length := b.words.Say("min", part.Minutes)
	if part.IfTime {
		length += ", " + b.words.Say("if-time")
	}
	return length
}

// document ends the last part.
func (b *body) document(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		b.closePart(w)
	}
	return ast.WalkContinue, nil
}
