package parse

// How much of a kind one lesson, part or card may hold. A lesson of 50 minutes has a tenth of it. What is beyond is an
// error, so that nothing of it has to be drawn.

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

const (
	MaxValues     = 1000 // in braces
	MaxHeadings   = 500
	MaxStatements = 500 // of work blocks
	MaxGauges     = 50
	MaxCells      = 3000 // of tables
	MaxBlocks     = 5000 // paragraphs, items of lists and their like
	MaxCode       = 1000 // lines
	MaxLinks      = 1000 // and pictures
	MaxStars      = 1000 // marks for bold and italic type, of a paragraph: finding which belong together is square in them
)

// In characters: titles head pages and sheets and go into names of files; names stand beside boxes and in saved work,
// from which pages take none that is much longer.
const (
	MaxTitle = 150
	MaxName  = 60
)

// title gives a field that a page or a sheet is headed with.
func (fs *fields) title(name string, need bool) string {
	t := fs.text(name, need)
	if n := utf8.RuneCountInString(t.Value); n > MaxTitle {
		fs.error(t.At, "title-too-long", "the field "+name+" has "+quantity.Grouped(n)+
			" characters, and pages and sheets have room for at most "+strconv.Itoa(MaxTitle), "shorten it")
	}
	return t.Value
}

// nameTooLong says what is wrong with a name of the coach's that is too long, "" if it is not.
func nameTooLong(name string) (what, hint string) {
	if n := utf8.RuneCountInString(name); n > MaxName {
		return "a name has at most " + strconv.Itoa(MaxName) + " characters, and this one has " + quantity.Grouped(n),
			"shorten it, and say in a text what it stands for"
	}
	return "", ""
}

// MaxKits is how many kits a pack may have: a club has a handful.
const MaxKits = 100

// tooMany reports what is one more than there may be.
func (doc *document) tooMany(most int, nouns string, at source.Span, hint string) {
	doc.problems.Error(doc.file, at, "too-many",
		fmt.Sprintf("a lesson has at most %d %s, and this is one more", most, nouns), hint)
}

// tooManyValues counts the values of a document, and reports the first that is one too many; no more are read then.
func (doc *document) tooManyValues(at int) bool {
	doc.values++
	if doc.values == MaxValues+1 {
		doc.tooMany(MaxValues, "values", source.Span{Start: at, End: at + 1},
			`split the lesson, or write \{ for braces that are only text`)
	}
	return doc.values > MaxValues
}

// countBlocks reports what a document has too much of, once for each kind.
func (doc *document) countBlocks(root ast.Node) {
	const hint = "split the lesson, or take out what somebody pasted by mistake"
	count, last := map[string]int{}, 0
	add := func(nouns string, n, most int) {
		before := count[nouns]
		if count[nouns] += n; count[nouns] > most && before <= most {
			doc.tooMany(most, nouns, source.Span{Start: last, End: last}, hint)
		}
	}
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
			last = n.Lines().At(0).Start
		}
		switch n := n.(type) { // the others: are counted as blocks, or where they are read
		case *ast.Heading:
			add("headings", 1, MaxHeadings)
		case *lesson.WorkBlock:
			if len(n.Statements) > 0 {
				last = n.Statements[0].At.Start
			}
			add("statements", len(n.Statements), MaxStatements)
		case *lesson.GaugeBlock:
			add("gauges", len(n.Gauges), MaxGauges)
		case *ast.FencedCodeBlock, *ast.CodeBlock:
			add("lines of code", n.Lines().Len(), MaxCode)
		case *lesson.FilledCode:
			for _, p := range n.Parts {
				add("lines of code", strings.Count(p.Code, "\n"), MaxCode)
			}
		case *ast.Link, *ast.Image, *ast.AutoLink:
			add("links", 1, MaxLinks)
		}
		if n.Type() == ast.TypeBlock && n.Kind() != tables.KindTableCell {
			add("blocks", 1, MaxBlocks)
		}
		return ast.WalkContinue, nil
	})
}

// withoutStarry blanks paragraphs that have more marks for bold and italic type than can be sorted out in good time,
// and reports them. Most texts are nowhere near and are not looked through.
func (doc *document) withoutStarry(markdown []byte) []byte {
	if !starry(markdown) {
		return markdown
	}
	out := bytes.Clone(markdown)
	_ = ast.Walk(blocksOf(markdown), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || n.Type() != ast.TypeBlock || n.IsRaw() || n.Lines() == nil ||
			stars(n.Lines().Value(markdown)) <= MaxStars {
			return ast.WalkContinue, nil
		}
		lines := n.Lines()
		doc.problems.Error(doc.file, source.Span{Start: lines.At(0).Start, End: lines.At(0).Stop}, "too-many",
			"this paragraph has "+problem.Plural(stars(lines.Value(markdown)), "mark")+" for bold and italic type; "+
				problem.Plural(MaxStars, "mark")+" are the most", `write \* and \_ for marks that are only text`)
		for i := range lines.Len() {
			at := lines.At(i)
			copy(out[at.Start:at.Stop], blank(out[at.Start:at.Stop]))
		}
		return ast.WalkContinue, nil
	})
	return out
}

// withoutVastTables blanks the rest of a table in which a document has more cells than it may, and reports it. Rows
// are counted as wide as the table, since the parser fills short ones up: a small file can ask for a hundred million
// cells.
func (doc *document) withoutVastTables(markdown []byte) []byte {
	start, columns, cells, told := 0, 0, 0, false
	for line := range bytes.Lines(markdown) {
		at := source.Span{Start: start, End: start + len(bytes.TrimRight(line, "\n"))}
		start += len(line)
		if n := columnsOf(line); n > 0 {
			columns = n
		} else if len(bytes.TrimSpace(line)) == 0 {
			columns = 0
		}
		if cells += columns; columns == 0 || cells <= MaxCells {
			continue
		}
		if !told {
			markdown, told = bytes.Clone(markdown), true
			doc.tooMany(MaxCells, "cells", at, "split the table, or hand it out as a file of runs")
		}
		copy(markdown[at.Start:at.End], blank(markdown[at.Start:at.End]))
	}
	return markdown
}

// columnsOf gives how many columns a line says that a table has, as in |---|---|, 0 for any other line.
func columnsOf(line []byte) int {
	if len(bytes.Trim(line, "|-: \t>\r\n")) > 0 || bytes.IndexByte(line, '-') < 0 || !bytes.ContainsAny(line, "|:") {
		return 0
	}
	return bytes.Count(line, []byte("|")) + 1
}

// starry tells whether a text has lines without an empty one between them in which there are many such marks.
func starry(markdown []byte) bool {
	n := 0
	for line := range bytes.Lines(markdown) {
		if len(bytes.TrimSpace(line)) == 0 {
			n = 0
		}
		if n += stars(line); n > MaxStars {
			return true
		}
	}
	return false
}

// stars counts marks for bold and italic type.
func stars(text []byte) int { return bytes.Count(text, []byte("*")) + bytes.Count(text, []byte("_")) }
