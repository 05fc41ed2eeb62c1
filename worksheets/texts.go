package worksheets

// Texts that are parted into spans once, for all tries of a layout.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/worksheets/pdf"
)

// texts are the spans of a lesson's texts in an edition. They are only read.
type texts struct {
	nodes map[nodeIn][]span
	words map[wordsIn][]span
	lines map[linesIn][]textLine
}

type nodeIn struct {
	node  ast.Node
	style pdf.Style
}

type wordsIn struct {
	text  string
	style pdf.Style
}

// linesIn are spans in a size and a width.
type linesIn struct {
	first       *span
	spans       int
	size, width float64
}

func newTexts() *texts {
	return &texts{map[nodeIn][]span{}, map[wordsIn][]span{}, map[linesIn][]textLine{}}
}

// kept gives what is kept for a key, or makes it. Nothing is kept without a place for it.
func kept[K comparable, V any](all map[K]V, key K, make func() V) V {
	v, ok := all[key]
	if !ok {
		if v = make(); all != nil {
			all[key] = v
		}
	}
	return v
}
