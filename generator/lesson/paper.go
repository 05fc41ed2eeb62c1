package lesson

// What a coach says of a part and paper: the mark at the end of its heading.

import (
	"iter"

	"github.com/yuin/goldmark/ast"
)

// A PaperMark tells whether a part of a lesson is to be printed.
type PaperMark string

// The marks that a heading may have. Without one, what a block is decides whether it is printed.
const (
	Unmarked   PaperMark = ""
	OnPaper    PaperMark = "on"  // all of the part is printed, prose too
	NotOnPaper PaperMark = "off" // nothing of it is
)

// paperAttribute is the attribute of a heading that holds its mark. No renderer writes it.
const paperAttribute = "paper"

// SetPaperMark notes the mark of a heading.
func SetPaperMark(h *ast.Heading, mark PaperMark) { h.SetAttributeString(paperAttribute, string(mark)) }

// PaperMarkOf is the mark that a heading itself has.
func PaperMarkOf(h *ast.Heading) PaperMark {
	value, _ := h.AttributeString(paperAttribute)
	mark, _ := value.(string)
	return PaperMark(mark)
}

// MarkedBlocks gives the blocks of a lesson's top level, headings included, each with the mark that holds there: that
// of its own part, or else of the part around that. A heading begins its part.
func MarkedBlocks(body ast.Node) iter.Seq2[ast.Node, PaperMark] {
	return func(yield func(ast.Node, PaperMark) bool) {
		const levels = 6
		var marks [levels + 1]PaperMark // of the parts that are open, by the level of their headings
		mark := Unmarked
		for n := body.FirstChild(); n != nil; n = n.NextSibling() {
			if h, ok := n.(*ast.Heading); ok {
				marks[h.Level] = PaperMarkOf(h)
				clear(marks[h.Level+1:])
				mark = innermost(marks[:h.Level+1])
			}
			if !yield(n, mark) {
				return
			}
		}
	}
}

// innermost is the last mark of some that is one.
func innermost(marks []PaperMark) PaperMark {
	last := Unmarked
	for _, m := range marks {
		if m != Unmarked {
			last = m
		}
	}
	return last
}
