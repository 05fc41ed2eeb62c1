// Package pairs looks in prose for one quantity given in two units side by side, as in
// "48 in (120 cm)", and says where the two are not the same. It is made to be silent where
// the text may mean two different things: a false alarm stops a build.
package pairs

// This file says what a pair is, what joins it, and what to report of a wrong one.

import (
	"math"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/wording"
)

// Wrong is a pair that does not agree: where its second quantity is in the text, in bytes,
// what is wrong with it, and what to write.
type Wrong struct {
	Start, End int
	What, Hint string
	Instead    string // what the second amount should be
}

// In finds the wrong pairs of a text in which all blanks are plain ones, a newline ends a
// block of text, and \ufffc stands for what is not text, such as a computed value. The text
// is in the language of some words, in English without any.
func In(text string, w *Words) []Wrong {
	var found []Wrong
	for _, p := range pairsIn(text, w) {
		if !p.agrees() {
			found = append(found, Wrong{p.second.start, p.second.end, p.what(text), p.hint(), p.second.rounded(p.right())})
		}
	}
	return found
}

// pairsIn finds all pairs of a text, right and wrong.
func pairsIn(text string, w *Words) []pair {
	var found []pair
	amounts := amountsIn(text, w)
	for i := 1; i < len(amounts); i++ {
		if p, ok := w.pairAt(text, amounts, i); ok {
			found = append(found, p)
		}
	}
	return found
}

// A pair is one quantity written twice.
type pair struct {
	first, second amount
	about         bool // said to be about the same
}

// A joint is what is between the two quantities of a pair.
type joint int

const (
	byBracket joint = iota // 48 in (122 cm)
	byEqual                // 48 in = 122 cm
	byWhich                // 48 in, which is 122 cm
	byIs                   // an inch is 2.54 cm
	byOr                   // 48 in or 122 cm
	bySlash                // 48 in / 122 cm
	byComma                // 48 in, 122 cm
	byAbout                // 48 in, about 122 cm
)

const (
	aboutWords = `(?:about|roughly|around|nearly|almost|approximately|approx\.?|circa|ca\.|some|≈|~)`
	// aside is an optional word between the joint and the second number.
	aside = `(?:(` + aboutWords + `) ?|(exactly|precisely) )?$`
)

// joints tell the joints by the text between two quantities. The first group is set if
// the second is given as about the first, the second group if as exactly that.
var joints = []struct {
	joint   joint
	pattern *wording.Pattern
}{
	{byBracket, wording.New(`^ ?\( ?(?:(?:=|i\.e\.,?|that is,?|or|equals|equal to) ?)?` + aside)},
	{byEqual, wording.New(`^ ?= ?` + aside)},
	{byEqual, wording.New(`^ ?([≈~]) ?$`)},
	{byEqual, wording.New(`^(?:, which)? (?:equals?|is equal to|is the same as) ` + aside)},
	{byWhich, wording.New(`^(?:[,;]| [—–]) (?:which is|that is|that’s|that's|i\.e\.),? ` + aside)},
	{byIs, wording.New(`^ (?:is|are|makes?) ` + aside)},
	{byOr, wording.New(`^(?:,| [—–])? or ` + aside)},
	{bySlash, wording.New(`^ ?/ ?$`)},
	{byComma, wording.New(`^, $`)},
	{byAbout, wording.New(`^, (` + aboutWords + `) ?$`)},
}

// loose tells whether two quantities joined like this are often two things, so that very
// different ones cannot be a pair.
func (j joint) loose() bool { return j >= byOr || j == byIs }

// pairAt tells whether amounts[i] says again what the amount before it says.
func pairAt(text string, amounts []amount, i int) (pair, bool) {
	p := pair{first: amounts[i-1], second: amounts[i]}
	j, about, exactly, ok := jointOf(text[p.first.end:p.second.start])
	if !ok || !p.comparable() || beginsOtherwise(j, text, amounts, i-1) || !endsAsPair(j, text, amounts, i) ||
		meantOtherwise(j, text, p.first.start, p.second.end) {
		return p, false
	}
	p.about = about || saidAbout.MatchString(justBefore(text[:p.first.start]))
	// "1 in = 2.45 cm" tells what an inch is; its 1 is not a rounded number.
	defines := p.first.number == 1 && (j == byEqual || j == byIs) && (p.first.word || !p.about)
	if defines || exactly || p.first.isCount() {
		p.first.step = 0
	}
	return p, defines || !j.loose() || !p.farOff()
}

// jointOf tells how the text between two quantities joins them, if it does, and whether
// the second is given as about the first or as exactly that.
func jointOf(between string) (j joint, about, exactly, ok bool) {
	const longest = 40 // of all joints
	if len(between) > longest {
		return 0, false, false, false
	}
	for _, c := range joints {
		if m := c.pattern.FindStringSubmatch(between); m != nil {
			return c.joint, len(m) > 1 && m[1] != "", len(m) > 2 && m[2] != "", true
		}
	}
	return 0, false, false, false
}

var saidAbout = wording.New(`(?i)(?:^|[^\pL])` + aboutWords + ` ?$`)

// comparable tells whether both are of one kind and in different units. Percent and
// plain numbers have no kind.
func (p pair) comparable() bool {
	d := p.first.unit.Dimension()
	same := len(p.first.units) == len(p.second.units) && p.first.unit.Equal(p.second.unit)
	return d == p.second.unit.Dimension() && d != quantity.Dimension{} && !same
}

// farOff tells whether the two are so different that a loose joint, such as a comma,
// hardly means them to be one: off by more than a quarter.
func (p pair) farOff() bool {
	right := p.right()
	return math.Abs(p.second.number-right) > math.Abs(right)/4
}

// right is what the second number should be.
func (p pair) right() float64 {
	q, _ := quantity.New(p.first.number, p.first.unit).In(p.second.unit)
	return q.Number
}

// closeEnough is the part of the value that "about" allows.
const closeEnough = 0.01

// agrees tells whether either number, converted, rounds to the other at the other's
// last written place, both ends in; what is given as about may be 1 % off besides.
func (p pair) agrees() bool {
	const noise = 1e-9 // of binary arithmetic, so that both ends are in
	right := p.right()
	back, _ := quantity.New(p.second.number, p.second.unit).In(p.first.unit)
	within := func(a, b, most float64) bool { return math.Abs(a-b) <= most+noise*math.Abs(b) }
	return within(p.second.number, right, p.second.step/2) ||
		p.first.step > 0 && within(p.first.number, back.Number, p.first.step/2) ||
		p.about && p.withinAbout()
}

func (p pair) withinAbout() bool {
	right := p.right()
	return math.Abs(p.second.number-right) <= closeEnough*math.Abs(right)
}

func (p pair) what(text string) string {
	return text[p.first.start:p.first.end] + " is " + p.second.written(p.right(), quantity.FormatPlain) +
		", not " + text[p.second.start:p.second.end]
}

// hint returns the right figure at the second number's places, and exactly.
func (p pair) hint() string {
	right := p.right()
	hint := "write " + p.second.rounded(right)
	off := func(shown float64) float64 { return math.Abs(shown - right) }
	plain := right - p.second.last(right) + asShown(p.second.last(right))
	if off(plain) < off(p.second.round(right)) {
		word := "more closely "
		if off(plain) <= 1e-10*math.Abs(right) {
			word = "exactly "
		}
		hint += " (" + word + p.second.written(right, quantity.FormatPlain) + ")"
	}
	if !p.about && p.withinAbout() {
		hint += ", or say about"
	}
	return hint
}

// asShown is the number that FormatPlain shows x as.
func asShown(x float64) float64 {
	shown, err := strconv.ParseFloat(strings.Replace(quantity.FormatPlain(x), quantity.Minus, "-", 1), 64)
	if err != nil {
		return x
	}
	return shown
}
