package parse

// How much of a kind one lesson, part or card may hold. A lesson of 50 minutes has a tenth of it.

import (
	"trundle/generator/problem"
	"trundle/generator/source"
)

const maxValues = 1000 // in braces

// tooManyValues counts the values of a document, and reports the first that is one too many; no more are read then.
func (doc *document) tooManyValues(at int) bool {
	doc.values++
	if doc.values == maxValues+1 {
		doc.problems.Error(doc.file, source.Span{Start: at, End: at + 1}, "too-many-values",
			"a lesson has at most "+problem.Plural(maxValues, "value")+" in braces, and this is one more",
			`split the lesson, or write \{ for braces that are only text`)
	}
	return doc.values > maxValues
}
