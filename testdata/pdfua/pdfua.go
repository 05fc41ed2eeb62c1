// Package pdfua judges finished PDF files by what a machine can check of PDF/UA-1 (ISO 14289-1:2014). It reads them by
// qpdf, so that nothing which wrote a file also says that it is right. Rules with a number are failure
// conditions of the
// Matterhorn Protocol 1.1 (PDF Association), the others are of ISO 32000-1, 14.6 to 14.9, or our own; numbers and
// wording are from memory, as neither text was at hand. What only a person can judge, such as whether an alternative
// text says enough, is not here.
package pdfua

import (
	"cmp"
	"fmt"
	"slices"
)

// Rules are all that a file is judged by, and what each of them means.
var Rules = map[string]string{
	"01-003":      "an artifact within tagged content",
	"01-004":      "tagged content within an artifact",
	"01-005":      "content that is neither tagged nor an artifact",
	"01-007":      "the tags are said to be suspect",
	"02-001":      "an element whose type is not a standard one",
	"06-001":      "no metadata",
	"06-002":      "the metadata do not say PDF/UA-1",
	"06-003":      "the metadata have no title",
	"07-001":      "readers are not told to show the title",
	"09-004":      "a part of a table in a wrong place",
	"09-005":      "a part of a list in a wrong place",
	"10-001":      "a code of text without its Unicode",
	"11-001":      "no language",
	"13-004":      "a figure without an alternative text",
	"14-002":      "the first heading is not of level 1",
	"14-003":      "a level of headings is skipped",
	"14-007":      "headings with and without levels",
	"15-003":      "a head of a table without a scope",
	"16-001":      "a numbered list that does not say so",
	"17-002":      "a formula without an alternative text",
	"26-001":      "the file is encrypted",
	"28-002":      "an annotation that is in no element of its kind",
	"28-005":      "a field without a name for readers",
	"28-008":      "a page with annotations that are not in the order of the structure",
	"28-010":      "a field outside of a Form",
	"28-011":      "a link outside of a Link",
	"28-012":      "a link without words",
	"31-005":      "a font that does not say which code is which glyph",
	"31-009":      "a font that is not embedded",
	"31-011":      "a glyph that is not in the font program",
	"31-027":      "a font without Unicode",
	"31-028":      "a code whose Unicode is zero",
	"31-029":      "a code whose Unicode is a byte order mark",
	"31-030":      "text without a glyph",
	"widths":      "a width that is not that of the font program (ISO 14289-1, 7.21.5)",
	"font-kind":   "a font of a kind that this package cannot judge",
	"operators":   "an operator that this package cannot judge",
	"balance":     "marked content that does not begin or end",
	"nested":      "tagged content within tagged content",
	"twice":       "a number of marked content used again",
	"artifact-id": "an artifact with a number of marked content",
	"marked":      "the file is not said to be tagged",
	"parent-tree": "the way from content to its element is missing or wrong",
	"dangling":    "an element has content that is not on its page",
	"above":       "an element that does not lead to the one above it",
	"empty":       "an element without content",
	"regular":     "rows of a table with different numbers of cells",
	"form-alt":    "a box to write in without an alternative text",
	"figure-box":  "a figure that does not say where it is",
	"list-item":   "a list's item without a body",
	"titles":      "the title of the file and of its metadata differ",
	"outline":     "a bookmark without words or a place",
}

// A Fault is a rule that is not met, and where.
type Fault struct{ Rule, What string }

func (f Fault) String() string { return f.Rule + " " + Rules[f.Rule] + ": " + f.What }

// Faults are all that is wrong with a file, by rule.
func (f *File) Faults() []Fault {
	j := &judge{File: f, elements: map[string]*element{}, marks: map[mark]*element{}, onPage: map[mark]bool{},
		codes: map[string]map[int]bool{}, written: map[mark][]letter{}, unicode: map[string]map[int]string{}}
	j.catalog = j.dict(j.trailer["/Root"])
	j.readTree()
	j.document()
	j.pages(j.dict(j.catalog["/Pages"]))
	j.parentTree()
	j.contents()
	j.nesting(j.root)
	j.headings()
	j.outline()
	for _, name := range sorted(j.codes) {
		j.font(name)
	}
	slices.SortStableFunc(j.faults, func(a, b Fault) int { return cmp.Compare(a.Rule, b.Rule) })
	return slices.Compact(j.faults)
}

// A judge goes through a file.
type judge struct {
	*File
	catalog  map[string]any
	root     *element
	elements map[string]*element // by their objects
	order    []*element          // as they are read
	marks    map[mark]*element   // that say they have a sequence of marked content
	onPage   map[mark]bool       // sequences that are there
	links    []link              // annotations, in the order of the pages
	parents  map[int]any         // the parent tree
	faults   []Fault

	codes   map[string]map[int]bool   // that are shown, by font
	written map[mark][]letter         // in a sequence
	unicode map[string]map[int]string // of a font's codes
}

// A mark is a sequence of marked content on a page.
type mark struct {
	page string
	id   int
}

func (j *judge) fault(rule, what string, args ...any) {
	if Rules[rule] == "" {
		panic("no rule " + rule)
	}
	j.faults = append(j.faults, Fault{rule, fmt.Sprintf(what, args...)})
}
