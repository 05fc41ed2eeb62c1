package worksheets

// What is worked out once for all tries of a layout: texts parted into spans and lines, and what has been measured.

import (
	"slices"
	"sync"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// texts are the spans, words and lines of a lesson's texts, for both editions and all papers. Who lays out locks them;
// what is in them is only read.
type texts struct {
	sync.Mutex
	nodes map[nodeIn][]span
	words map[wordsIn][]span
	lines map[linesIn][]textLine

	said   map[string]string // of the interface
	care   map[careIn][]span
	finds  map[findIn]findSize
	parted map[string]*partedText
	hung   map[hangIn][]string // of run sheets

	chosen map[bool]*selection // by whether the fit is brief
	best   map[Paper]outcome   // the fits that were chosen
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
	return &texts{nodes: map[nodeIn][]span{}, words: map[wordsIn][]span{}, lines: map[linesIn][]textLine{},
		said: map[string]string{}, care: map[careIn][]span{}, finds: map[findIn]findSize{},
		parted: map[string]*partedText{}, hung: map[hangIn][]string{},
		chosen: map[bool]*selection{}, best: map[Paper]outcome{}}
}

// textsOf are those that all sheets of a lesson share.
func (i *Illustrations) textsOf(l *work.Lesson) *texts {
	if i == nil {
		return newTexts()
	}
	made, ok := i.made.Load(l)
	if !ok {
		made, _ = i.made.LoadOrStore(l, newTexts())
	}
	return made.(*texts)
}

// remembered are the sheet's texts. One that is not of a pack has its own.
func (s *sheet) remembered() *texts {
	if s.texts == nil {
		s.texts = newTexts()
	}
	return s.texts
}

// partedOf parts a text of the sheet.
func (s *sheet) partedOf(text string) *partedText {
	return kept(s.remembered().parted, text, func() *partedText { return partedOf(s.about.Marks, text) })
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

// measures are what was measured in a layout, in its order, so that the same layout need not measure again.
type measures struct {
	all []float64
	at  int
}

// next gives what was measured next, or measures it. What is measured within another measurement is not kept.
func (m *measures) next(within bool, measure func() float64) float64 {
	if m == nil || within {
		return measure()
	}
	if m.at == len(m.all) {
		m.all = append(m.all, measure())
	}
	m.at++
	return m.all[m.at-1]
}

// again are the same measures from their beginning. Nil if there are none.
func (m *measures) again() *measures {
	if m == nil {
		return nil
	}
	return &measures{all: slices.Clip(m.all)}
}
