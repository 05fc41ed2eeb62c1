package lesson

// What a reader sees of a node's text. Every stage reads text through this file, so that a
// title, an id, a picture's description and a check never disagree about `\*` or `&amp;`.

import (
	"bytes"
	"iter"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/source"
	"trundle/generator/wording"
)

// PieceKind tells what a piece of text is.
type PieceKind int

const (
	Words      PieceKind = iota // typed text; its escapes and entities are still to be resolved
	Verbatim                    // code in a sentence, HTML, a bare address: shown as it is written
	Computed                    // a value
	Picture                     // a picture; its description comes next
	SoftBreak                   // the end of a line in the file, a blank on the page
	HardBreak                   // the end of a line on the page
	BlockStart                  // a block within the node begins
)

// Piece is a part of a node's text.
type Piece struct {
	Kind  PieceKind
	At    source.Span // where it is written; empty for a break
	Value *Value      // of Computed
	// In is what the text belongs to if it is not plain prose: code, HTML, an address, a
	// picture's description. It is nil for the text of the node that was asked for.
	In ast.Node
}

// Pieces gives the text below a node piece by piece, in order. Notes for mentors within it
// are left out.
func Pieces(top ast.Node, src []byte) iter.Seq[Piece] {
	return func(yield func(Piece) bool) {
		_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			switch {
			case !entering:
				return ast.WalkContinue, nil
			case n != top && n.Kind() == KindMentorNote:
				return ast.WalkSkipChildren, nil
			}
			for _, p := range piecesOf(n, top, src) {
				if !yield(p) {
					return ast.WalkStop, nil
				}
			}
			return ast.WalkContinue, nil
		})
	}
}

// piecesOf are those of one node, without what is below it.
func piecesOf(n, top ast.Node, src []byte) []Piece {
	var pieces []Piece
	if n != top && n.Type() == ast.TypeBlock {
		pieces = append(pieces, Piece{Kind: BlockStart})
	}
	switch n := n.(type) { // the others: they are made of the nodes below them, or are blocks with lines of their own
	case *ast.Text:
		pieces = append(pieces, textPieces(n, top)...)
	case *ast.AutoLink:
		start := n.Pos() + len("<")
		pieces = append(pieces, Piece{Kind: Verbatim, At: source.Span{Start: start, End: start + len(n.Label(src))},
			In: n})
	case *ast.Image:
		if n != top {
			pieces = append(pieces, Piece{Kind: Picture, In: n})
		}
	case *ast.RawHTML:
		for i := range n.Segments.Len() {
			s := n.Segments.At(i)
			pieces = append(pieces, Piece{Kind: Verbatim, At: source.Span{Start: s.Start, End: s.Stop}, In: n})
		}
	case *ast.HTMLBlock:
		for i := range n.Lines().Len() {
			s := n.Lines().At(i)
			pieces = append(pieces, Piece{Kind: Verbatim, At: source.Span{Start: s.Start, End: s.Stop}, In: n})
		}
		if n.HasClosure() {
			pieces = append(pieces, Piece{Kind: Verbatim, At: source.Span{Start: n.ClosureLine.Start,
				End: n.ClosureLine.Stop}, In: n})
		}
	case *Value:
		pieces = append(pieces, Piece{Kind: Computed, At: n.At, Value: n})
	}
	return pieces
}

// textPieces are a text and the break that it ends with.
func textPieces(n *ast.Text, top ast.Node) []Piece {
	kind, in := Words, holder(n, top)
	if in != nil && in.Kind() == ast.KindCodeSpan {
		kind = Verbatim
	}
	pieces := []Piece{{Kind: kind, At: source.Span{Start: n.Segment.Start, End: n.Segment.Stop}, In: in}}
	after := source.Span{Start: n.Segment.Stop, End: n.Segment.Stop}
	switch {
	case n.HardLineBreak():
		pieces = append(pieces, Piece{Kind: HardBreak, At: after, In: in})
	case n.SoftLineBreak():
		pieces = append(pieces, Piece{Kind: SoftBreak, At: after, In: in})
	}
	return pieces
}

// holder is the code or the picture that a text within top belongs to, nil for plain prose.
func holder(n, top ast.Node) ast.Node {
	for p := n.Parent(); p != nil && p != top; p = p.Parent() {
		if k := p.Kind(); k == ast.KindCodeSpan || k == ast.KindImage {
			return p
		}
	}
	if top.Kind() == ast.KindCodeSpan {
		return top
	}
	return nil
}

// TextOf is the text below a node in one line, as a reader sees it. value writes a computed
// value; values are left out if it is nil.
func TextOf(n ast.Node, src []byte, value func(*Value) string) string {
	return TextWith(n, src, value, func(code string) string { return code })
}

// TextWith is TextOf for those who show what is verbatim in a way of its own.
func TextWith(n ast.Node, src []byte, value func(*Value) string, verbatim func(string) string) string {
	var b strings.Builder
	for p := range Pieces(n, src) {
		switch p.Kind {
		case Words:
			b.WriteString(Plain(src[p.At.Start:p.At.End]))
		case Verbatim:
			b.WriteString(verbatim(strings.ReplaceAll(string(src[p.At.Start:p.At.End]), "\n", " ")))
		case Computed:
			if value != nil {
				b.WriteString(value(p.Value))
			}
		case Picture: // it has no text but its description's
		case SoftBreak, HardBreak, BlockStart:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// Plain is a piece of Markdown text with its escapes and entities resolved. Titles of links
// and pictures, which goldmark gives as they are written, go through it too.
func Plain(text []byte) string {
	if !bytes.ContainsAny(text, "\\&\x00") {
		return string(text)
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		s, size := Character(text[i:])
		b.WriteString(s)
		i += size
	}
	return b.String()
}

// entity is a character by its name or number, such as &nbsp; or &#189;.
var entity = wording.New(`^&(?:#[0-9]{1,7}|#[xX][0-9A-Fa-f]{1,6}|[0-9A-Za-z]{1,30});`)

// Character reads the first character of a Markdown text, which must not be empty: what a
// reader sees, and how many bytes of the text say so.
func Character(text []byte) (string, int) {
	switch {
	case text[0] == '\\' && len(text) > 1 && util.IsPunct(text[1]):
		return string(text[1]), 2
	case text[0] == '&':
		if size := len(entity.Compiled().Find(text)); size > 0 {
			return string(util.ResolveEntityNames(util.ResolveNumericReferences(text[:size]))), size
		}
	case text[0] == 0:
		return "\ufffd", 1 // as CommonMark has it
	}
	_, size := utf8.DecodeRune(text)
	return string(text[:size]), size
}
