package site_test

// What a pack names itself, on the page as in Go.

import (
	"strings"
	"sync"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

const ownUnits = "title: T\nversion: 1\nunits:\n  ticks: 360 a rotation\n  tiles: 30 cm\n  laps: 5/3 m\nmoney: EUR\n"

// Formulas in which values are named twice, in another order, and within calls of other formulas.
const ownFormulas = `
ticks_for: {values: {way: length, wheel: length}, is: "rotations(way, wheel)", in: ticks, says: S, source: S}
lost_way: {values: {a: length, b: length}, is: (a - b) / a, in: "%", says: S, source: S}
gone: {values: {a: length, b: length}, is: "lost_way(a + b, b) * (a + b) + lost_way(b + b, a) * a", says: S, source: S}
leftover:
  values: {x: length, y: length, z: number}
  is: gone(gone(y, x), y) * z + gone(x, x) / 2
  in: in
  says: S
  source: S
cost: {values: {pieces: number, each: money}, is: pieces * each + 2.50 EUR, says: S, source: S}
`

// readOwn reads them once for all tests.
var readOwn = sync.OnceValues(func() (*quantity.Vocabulary, problem.List) {
	p, problems := parse.PackFile(source.NewFile("pack.yaml", []byte(ownUnits)))
	problems.Join(parse.Formulas(source.NewFile("formulas.yaml", []byte(ownFormulas)), p.Vocabulary))
	return p.Vocabulary, problems
})

// ownWords are some units and formulas of a pack's own.
func ownWords(t *testing.T) *quantity.Vocabulary {
	t.Helper()
	words, problems := readOwn()
	for _, problem := range problems.Sorted() {
		t.Fatalf("%s: %s; %s", problem.Slug, problem.What, problem.Hint)
	}
	return words
}

// allFactors are the sizes of all units, those of the pack's own with them.
func allFactors(t *testing.T) map[string]quantity.UnitFactor {
	t.Helper()
	factors := quantity.AnswerFactors()
	for _, u := range ownWords(t).OwnUnits() {
		factors[u.Name] = u.Size
	}
	return factors
}

func TestThePageReadsUnitsOfAPacksOwn(t *testing.T) {
	t.Parallel()
	texts := strings.Split("3 ticks|1 tick|2 Ticks|5 TICK|5 EUR|5 €|5€|12,50 eur|3 tiles/s|1/tick|3 tiles 20 cm|"+
		"1 tick/s|4 £|€5|€ 12,50|-€3.50|£4|€1,030|$|€ cm|7 ticks^2|2 lap|2 laps 1 tile|3 tock|3 ticks/tile|"+
		"0.5 EUR/m|3 tiles·s|1 €/tile", "|")
	var calls []call
	for _, text := range texts {
		calls = append(calls, call{"read", text})
	}
	read := 0
	for i, got := range inNode[readResult](t, calls) {
		if checkRead(t, texts[i], got) == "" {
			read++
		}
	}
	if read < 15 {
		t.Errorf("only %d of %d are read", read, len(texts))
	}
}

func TestThePageSaysOneOfAPacksOwnUnits(t *testing.T) {
	t.Parallel()
	units := strings.Fields("ticks tiles laps EUR € glass ticks/s gas cm/tick")
	var calls []call
	for _, unit := range units {
		calls = append(calls, call{"after", "1", unit}, call{"after", "3/4", unit}, call{"after", "2", unit})
	}
	var said []string
	for i, got := range inNode[string](t, calls) {
		number, unit := calls[i][1].(string), calls[i][2].(string)
		if want := quantity.AfterNumber(number, unit); got != want {
			t.Errorf("after %q the page writes %q as %q, Go as %q", number, unit, got, want)
		}
		if got != unit {
			said = append(said, got)
		}
	}
	if got := strings.Join(said, " "); got != "tick tick tile tile lap lap tick/s tick/s" {
		t.Errorf("singulars: %s", got)
	}
}
