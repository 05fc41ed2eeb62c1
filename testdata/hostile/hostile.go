// Package hostile makes packs that nobody writes by hand, each a sound pack with one file replaced or one lesson made
// longer. What must come of each is in expected.csv. Texts are generated, since they are long.
package hostile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Case is one file of a pack.
type Case struct {
	Group, Name string
	File, Text  string
	Added       bool   // to the sound lesson, which defines d, L, C and the record s
	Shows       string // what the sound lesson says at its end
}

// Sizes of what is repeated: the larger comes near to the limit of a lesson.
const (
	Small = 50_000
	Full  = 250_000
)

// makers are the groups.
var makers = []func(*list){markdown, values, code, controls, packFile, kits, headers, formulas, renamed, words, cards,
	parts, work, dataBlocks, gauges, runsFiles, pictures, links, savedNames}

// Cases are all packs, made for a size.
func Cases(size int) []Case {
	all := &list{size: size}
	for _, make := range makers {
		make(all)
	}
	return all.sorted()
}

// list collects cases.
type list struct {
	size  int
	cases []Case
}

// add adds a file.
func (l *list) add(group, name, file, text string) {
	l.cases = append(l.cases, Case{Group: group, Name: name, File: file, Text: text})
}

// body adds a text to the sound lesson.
func (l *list) body(group, name, text string) {
	l.cases = append(l.cases, Case{Group: group, Name: name, File: "01-a.md", Text: text, Added: true})
}

// block adds a fenced block to the sound lesson.
func (l *list) block(group, name, kind, text string) {
	l.body(group, name, "```"+kind+"\n"+text+"\n```\n")
}

// lines repeats a text in lines of a length, up to a size.
func lines(text string, line, size int) string {
	one := strings.Repeat(text, max(1, line/len(text))) + "\n"
	return strings.Repeat(one, max(1, size/len(one)))
}

// numbered writes a line for each number from 0 on.
func numbered(n int, format string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.ReplaceAll(format, "#", fmt.Sprint(i)))
	}
	return b.String()
}

// sorted gives the cases in an order that does not depend on that of a map.
func (l *list) sorted() []Case {
	slices.SortStableFunc(l.cases, func(a, b Case) int {
		return cmp.Or(strings.Compare(a.Group, b.Group), strings.Compare(a.Name, b.Name))
	})
	return l.cases
}
