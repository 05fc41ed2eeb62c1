package parse

// This file tells which words the language has in each place, for whoever lists them to people.

import (
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// A Vocabulary is the words that one place of a pack may use, in their order.
type Vocabulary struct {
	Of    string // a file, a header or a block
	Words []string
}

// Names of vocabularies that are not those of a block or a file.
const (
	OfLesson = "lesson"
	OfCard   = "card"
	OfWords  = "words.md"
)

// Vocabularies are those of all places.
func Vocabularies() []Vocabulary {
	all := []Vocabulary{
		{"pack.yaml", fieldsAt("0: 0", func(f *source.File) problem.List { _, found := PackFile(f); return found })},
		{"kits.yaml", fieldsAt("k:\n  0: 0", func(f *source.File) problem.List { _, found := Kits(f); return found })},
		{"renamed.yaml", fieldsAt("0: 0", func(f *source.File) problem.List { _, found := Renamed(f); return found })},
		{"formulas.yaml", fieldsAt("f:\n  0: 0", func(f *source.File) problem.List {
			return Formulas(f, &quantity.Vocabulary{})
		})},
		{OfLesson, fieldsAt("---\n0: 0\n---\n", func(f *source.File) problem.List {
			_, found := Lesson(NewMarkdown(), f)
			return found
		})},
		{OfCard, fieldsAt("---\n0: 0\n---\n", func(f *source.File) problem.List {
			_, found := Card(NewMarkdown(), f)
			return found
		})},
		{OfWords, fieldsAt("---\n0: 0\n---\n", func(f *source.File) problem.List {
			_, found := Glossary(NewMarkdown(), f)
			return found
		})},
		{workFence, wordsOf(statementKeywords)},
	}
	for _, kind := range lesson.BlockKinds {
		all = append(all, Vocabulary{string(kind), wordsOf(dataKeywords[kind])})
	}
	return append(all, Vocabulary{gaugeFence, wordsOf(gaugeKeywords)})
}

// fieldsAt asks a reader of fields which it knows, by a text with a field that is not one: it answers with all of them.
// A list beside the readers would be a second one.
func fieldsAt(text string, read func(*source.File) problem.List) []string {
	found := read(source.NewFile("", []byte(text)))
	for _, p := range found.Sorted() {
		if names, ok := strings.CutPrefix(p.Hint, fieldsHere); ok {
			return strings.Split(names, ", ")
		}
	}
	return nil
}
