package hazard

// The words that call for a care card. words.csv has a row for each, with its kind, what a check does about it, and
// where that comes from. It is a list of what clubs have at hand, and no list of what is safe.

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"sync"
)

//go:embed words.csv
var wordTable []byte

// A Word is a word or phrase that names what needs care, or one that only looks so.
type Word struct {
	Text   string
	Kind   string // "solvent", "cutting tool"
	Alarm  Alarm
	Source string
}

// Alarm says how sure a word is.
type Alarm string

// The alarms of the table.
const (
	Stop    Alarm = "stop"    // it means what needs care
	Compare Alarm = "compare" // it does, unless it compares: cleaner, thinner
	Ask     Alarm = "caution" // it may mean something else as well
	Pass    Alarm = "pass"    // a phrase with such a word in it that means something else
)

// Words gives the rows of the table. It is read when it is first asked for: most commands never do.
var Words = sync.OnceValue(func() []Word {
	rows, err := csv.NewReader(bytes.NewReader(wordTable)).ReadAll()
	if err != nil {
		panic("hazard: " + err.Error())
	}
	all := make([]Word, 0, len(rows))
	for _, row := range rows[1:] {
		all = append(all, Word{row[0], row[1], Alarm(row[2]), row[3]})
	}
	return all
})

// kinds say what a word of each kind is, for a sentence, and whether it is used up: a substance, and no tool.
var kinds = map[string]struct {
	name      string
	substance bool
}{
	"solvent":      {"a solvent", true},
	"fuel":         {"a fuel", true},
	"spray":        {"a spray", true},
	"cleaner":      {"a cleaner", true},
	"corrosive":    {"a corrosive substance", true},
	"poison":       {"a poison", true},
	"adhesive":     {"an adhesive", true},
	"paint":        {"a paint", true},
	"cutting tool": {"a cutting tool", false},
	"power tool":   {"a power tool", false},
	"heating tool": {"a heating tool", false},
	"battery":      {"a battery or charger", false},
}

// Known tells whether a row's kind and alarm are ones that checks know; a phrase that means something else has no kind.
func (w Word) Known() bool {
	_, kind := kinds[w.Kind]
	switch w.Alarm {
	case Stop, Compare, Ask:
		return kind
	case Pass:
		return kind || w.Kind == "none"
	}
	return false
}

// Is says what a word is, "a solvent".
func (w Word) Is() string { return kinds[w.Kind].name }

// Substance tells whether a word is that of a substance.
func (w Word) Substance() bool { return kinds[w.Kind].substance }
