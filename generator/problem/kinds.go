package problem

// This file is the list of all kinds of problems, with what each means; kinds.csv holds it.

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"
)

//go:embed kinds.csv
var kindsFile string

// Kind is a kind of problem, of which every problem has the slug.
type Kind struct {
	Slug    string
	Meaning string // a sentence
	Do      string // what to do, in a sentence or two; empty where the problem itself has to say it
}

// readKinds reads the list once. It is part of the program, so that a fault in it is the program's.
var readKinds = sync.OnceValue(func() []Kind {
	rows, err := csv.NewReader(strings.NewReader(kindsFile)).ReadAll()
	if err != nil {
		panic(err)
	}
	kinds := make([]Kind, 0, len(rows))
	for _, row := range rows[1:] { // the first names the columns
		kinds = append(kinds, Kind{row[0], row[1], row[2]})
	}
	return kinds
})

// Kinds gives all kinds, in the order of their slugs.
func Kinds() []Kind { return slices.Clone(readKinds()) }

// KindOf gives the kind of a slug.
func KindOf(slug string) (Kind, bool) {
	all := readKinds()
	i, ok := slices.BinarySearchFunc(all, slug, func(k Kind, slug string) int { return strings.Compare(k.Slug, slug) })
	if !ok {
		return Kind{}, false
	}
	return all[i], true
}
