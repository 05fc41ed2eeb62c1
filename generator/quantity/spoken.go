package quantity

// This file reads what students write as they speak: "65 mm.", "15 cm / s", "3 ft 1 3/8 in", "5 Rotations".
// Lessons are stricter, so that each thing is written in one way there. site/scripts/read.js does the same.

import (
	"math/big"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// A spokenForm is a way of writing that people take for another one. No two of them look at a character
// that the other has changed, so that each is looked for once.
type spokenForm struct {
	form *regexp.Regexp
	with string
}

// spokenForms are compiled when an answer is first read.
var spokenForms = sync.OnceValue(func() []spokenForm {
	return []spokenForm{
		{regexp.MustCompile(`([\p{L}%°″′²³])\.( |$)`), "$1$2"},                         // 65 mm.
		{regexp.MustCompile(`(\d)\.( *)$`), "$1$2"},                                    // 65.
		{regexp.MustCompile(`(\d|\d +)(?i:per +cent)( |$)`), "${1}percent$2"},          // 5 per cent
		{regexp.MustCompile(`(\p{L}) +(?i:per) +(\p{L})`), "$1/$2"},                    // 15 cm per s
		{regexp.MustCompile(`(\p{L}) */ *(\p{L})`), "$1/$2"},                           // 15 cm / s
		{regexp.MustCompile(`(\d)-(\d+/\d)`), "$1 $2"},                                 // 37-3/8
		{regexp.MustCompile(`^( *[-+−]? *)(\p{Sc}) *([\d.,]+)( *)$`), "${1}${3} $2$4"}, // €12.50
	}
})

// plainly writes a typed text without its spoken forms.
func (t *typist) plainly() {
	for _, spoken := range spokenForms() {
		t.replace(spoken)
	}
}

// replace puts one form in place of another. What is put in comes from where the old one began.
func (t *typist) replace(spoken spokenForm) {
	old := t.text.String()
	var out typist
	end := 0
	copyTo := func(i int) {
		out.text.WriteString(old[end:i])
		out.at = append(out.at, t.at[end:i]...)
		end = i
	}
	for _, found := range spoken.form.FindAllStringSubmatchIndex(old, -1) {
		copyTo(found[0])
		with := spoken.form.ExpandString(nil, spoken.with, old, found)
		out.text.Write(with)
		out.at = append(out.at, slices.Repeat([]int{t.at[found[0]]}, len(with))...)
		end = found[1]
	}
	copyTo(len(old))
	t.text, t.at = out.text, out.at
}

// spokenAtoms are the units by the further names that answers may have; letters alone, since a name
// of several words is not one token.
var spokenAtoms = func() map[string]*atom {
	byName := map[string]*atom{}
	for _, a := range atoms {
		for _, name := range a.spoken {
			if nameLength(name) == len(name) {
				byName[name] = a
			}
		}
	}
	return byName
}()

// anyCase are all names of units in small letters.
var anyCase = func() map[string]*atom {
	byName := map[string]*atom{}
	for _, names := range []map[string]*atom{spokenAtoms, atomByName} {
		for name, a := range names {
			byName[strings.ToLower(name)] = a
		}
	}
	return byName
}()

// latin are the letters whose small form is the same everywhere.
const latin = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"

// hear gives the units of an answer the symbols that the parser knows: centimetres, SEC, Mm.
func (p *Parser) hear() {
	for i, t := range p.tokens {
		if t.kind != tokenName || p.atom(t.text) != nil {
			continue
		}
		a := spokenAtoms[t.text]
		if a == nil {
			a = p.words.inAnyCase(t.text)
		}
		if a == nil && strings.Trim(t.text, latin) == "" {
			a = anyCase[strings.ToLower(t.text)]
		}
		if a != nil {
			p.tokens[i].text = a.symbol
		}
	}
}

// AnswerFactors is UnitFactors with all the names that an answer may have.
func AnswerFactors() map[string]UnitFactor {
	factors := UnitFactors()
	for name, a := range spokenAtoms {
		factors[name] = factors[a.symbol]
	}
	return factors
}

// ReadUnit reads a unit as ReadAnswer does.
func (v *Vocabulary) ReadUnit(text string) (Unit, *Error) {
	p := v.NewParser(text, identity)
	p.hear()
	u, err := p.Unit()
	if err != nil {
		return Unit{}, err
	}
	return u, p.End()
}

// andMore adds the smaller part of an answer of two: the inches of 3 ft 1 3/8 in, the seconds of
// 1 min 20 s. It is then in the smaller unit, and has no text of its own. Anything else is left over.
func (p *Parser) andMore(a *Answer) {
	number, unit := p.peek(), p.peekAt(1)
	small := p.atom(unit.text)
	isWhole := strings.Trim(a.Number.Text, "0123456789") == ""
	isUnit := small != nil && (unit.kind == tokenName || unit.kind == tokenSign)
	if number.number.hasColon() {
		return
	}
	if number.kind != tokenNumber || !isWhole || !isUnit || p.peekAt(2).kind != tokenEnd || !a.Unit.isOne() {
		return
	}
	smaller := Unit{[]term{{small, 1}}}
	times, exact := ExactRatio(a.Unit, smaller)
	if !exact || times.Cmp(big.NewRat(1, 1)) <= 0 || number.number.Exact.Cmp(times) >= 0 {
		return
	}
	p.i += 2
	sum := new(big.Rat).Mul(a.Number.Exact, times)
	a.Number = Number{Exact: sum.Add(sum, number.number.Exact), Place: number.number.Place}
	a.Unit = smaller
}

// isOne tells whether this is a unit of one name, not raised to a power.
func (u Unit) isOne() bool { return len(u.terms) == 1 && u.terms[0].power == 1 }
