package quantity

// This file holds what a pack names itself beside the language's own units and formulas.

import (
	"maps"
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Vocabulary is the units and formulas that a pack names itself. Nil is that of a pack which names none. It is filled
// once, and only read afterwards.
type Vocabulary struct {
	units     []*atom
	unitNamed map[string]*atom
	formulas  []*Formula
	lost      map[string]bool // names of units and formulas that could not be read, and have a problem
	allLost   bool            // nobody knows which there are
	commas    bool            // see UseCommas
}

// Lose notes that a unit or formula could not be read, so that whoever uses it is not told again. Without a name any
// may be meant.
func (v *Vocabulary) Lose(name string) {
	if v.allLost = v.allLost || name == ""; v.lost == nil {
		v.lost = map[string]bool{}
	}
	v.lost[name], v.lost[singular(name)] = true, true
}

// hasLost tells whether a name that is not known could be one that could not be read.
func (v *Vocabulary) hasLost(name string) bool { return v != nil && (v.allLost || v.lost[name]) }

// NewParser is the function NewParser for texts of the pack.
func (v *Vocabulary) NewParser(text string, at func(int) int) *Parser {
	return &Parser{tokens: lex(text, at, v.HasCommas()), words: v}
}

// ParseExpr is the function ParseExpr for texts of the pack.
func (v *Vocabulary) ParseExpr(text string) (Expr, *Error) {
	p := v.NewParser(text, identity)
	e, err := p.Expr()
	if err != nil {
		return nil, err
	}
	return e, p.End()
}

// ParseUnit is the function ParseUnit for texts of the pack.
func (v *Vocabulary) ParseUnit(text string) (Unit, *Error) {
	p := v.NewParser(text, identity)
	u, err := p.Unit()
	if err != nil {
		return Unit{}, err
	}
	return u, p.End()
}

// Same tells whether two packs name the same things: what was read with one holds for the other.
func (v *Vocabulary) Same(w *Vocabulary) bool { return v.text() == w.text() }

// text is all of it in writing.
func (v *Vocabulary) text() string {
	if v == nil {
		return ""
	}
	var b strings.Builder
	for _, a := range v.units {
		b.WriteString(a.symbol + "|" + a.dim.String() + "|" + FormatSignificant(a.num, 17) + "|" +
			FormatSignificant(a.den, 17) + "|" + strings.Join(a.aliases, " ") + "\n")
	}
	for _, f := range v.formulas {
		b.WriteString(f.Name + "|" + f.Body + "|" + f.Unit + "|" + f.Doc)
		for _, p := range f.Params {
			b.WriteString("|" + p.Name + " " + p.Written)
		}
		b.WriteString("\n")
	}
	if v.commas {
		b.WriteString("commas\n")
	}
	b.WriteString(strings.Join(slices.Sorted(maps.Keys(v.lost)), "|"))
	return b.String()
}

// atom finds a unit by a name that it is written with, nil if there is none.
func (p *Parser) atom(name string) *atom {
	if a := readable(name); a != nil || p.words == nil {
		return a
	}
	return p.words.unitNamed[name]
}

// unitNames are all names that units are written with, in no order.
func (v *Vocabulary) unitNames() []string {
	names := slices.Collect(maps.Keys(atomByName))
	if v != nil {
		names = slices.AppendSeq(names, maps.Keys(v.unitNamed))
	}
	return names
}

// inAnyCase finds a unit of the pack's own by its name with other capitals.
func (v *Vocabulary) inAnyCase(name string) *atom {
	if v == nil || strings.Trim(name, latin) != "" {
		return nil
	}
	for own, a := range v.unitNamed {
		if strings.EqualFold(own, name) {
			return a
		}
	}
	return nil
}

// A NamedUnit is a unit as an answer may name it, with its size.
type NamedUnit struct {
	Name string
	Size UnitFactor
}

// OwnUnits lists the pack's own units by each name, the one that people read first.
func (v *Vocabulary) OwnUnits() []NamedUnit {
	if v == nil {
		return nil
	}
	var all []NamedUnit
	for _, a := range v.units {
		for _, name := range slices.Concat([]string{a.symbol}, a.aliases) {
			all = append(all, NamedUnit{name, UnitFactor{a.dim, a.num, a.den}})
		}
	}
	return all
}

// OwnFormulas lists the pack's own formulas in the order of its file.
func (v *Vocabulary) OwnFormulas() []*Formula {
	if v == nil {
		return nil
	}
	return v.formulas
}

// DefineUnit reads what a unit of the pack's own is: "360 a rotation" for one of which so many make another unit,
// "8 mm" for one that is so large.
func (v *Vocabulary) DefineUnit(name, size string, at func(int) int) *Error {
	p := v.NewParser(size, at)
	whole := Span{at(0), at(max(0, len(size)-1)) + 1}
	if p.peek().kind != tokenNumber {
		return unreadSize(whole, name)
	}
	number := p.next().number
	parts := slices.ContainsFunc([]string{"a", "an", "per"}, p.Word)
	if p.AtEnd() {
		return unreadSize(whole, name)
	}
	u, err := p.Unit()
	if err == nil {
		err = p.End()
	}
	if err != nil {
		return err
	}
	exact, noPi := ExactRatio(u, baseUnit(u.Dimension()))
	if !noPi || number.Exact.Sign() == 0 {
		return &Error{Span: whole, Slug: "own-unit", What: "the size of " + name + " must be more than zero, and exact",
			Hint: "write how many make another unit, as in  " + name + ": 360 a rotation; radians will not do, because of π"}
	}
	if parts {
		exact.Quo(exact, number.Exact)
	} else {
		exact.Mul(exact, number.Exact)
	}
	num, wholeNum := new(big.Float).SetInt(exact.Num()).Float64()
	den, wholeDen := new(big.Float).SetInt(exact.Denom()).Float64()
	if wholeNum != big.Exact || wholeDen != big.Exact {
		return &Error{Span: whole, Slug: "own-unit", What: "the size of " + name + " has more digits than can be worked with",
			Hint: "write a shorter number"}
	}
	v.add(&atom{symbol: name, dim: u.Dimension(), num: num, den: den})
	return nil
}

func unreadSize(at Span, name string) *Error {
	return &Error{Span: at, Slug: "own-unit", What: "this does not say how large a unit " + name + " is",
		Hint: "write how many make another unit, as in  " + name + ": 360 a rotation, or its size, as in  " + name + ": 8 mm"}
}

// add keeps a unit, under its singular, too.
func (v *Vocabulary) add(a *atom) {
	a.shown, a.one = a.symbol, singular(a.symbol)
	if a.one != a.symbol {
		a.aliases = append(a.aliases, a.one)
	}
	if v.unitNamed == nil {
		v.unitNamed = map[string]*atom{}
	}
	v.units = append(v.units, a)
	for _, name := range slices.Concat([]string{a.symbol}, a.aliases) {
		v.unitNamed[name] = a
	}
}

// singular is a written-out unit as it is read after 1: ticks become tick. trundle.after in site/scripts/show.js does
// the same.
func singular(unit string) string {
	const shortest = 4 // shorter ones are symbols
	if utf8.RuneCountInString(unit) < shortest || !strings.HasSuffix(unit, "s") || strings.HasSuffix(unit, "ss") {
		return unit
	}
	return strings.TrimSuffix(unit, "s")
}

// currencySigns are read for the code of a currency (ISO 4217) that a pack counts in, where there is one sign for it.
var currencySigns = map[string]string{"EUR": "€", "GBP": "£", "USD": "$", "JPY": "¥", "INR": "₹"}

// DefineMoney makes the currency that the pack counts in a unit. All money of a pack is of one kind: what a rate of
// exchange is, no pack can know.
func (v *Vocabulary) DefineMoney(name string) {
	a := &atom{symbol: name, dim: moneyDim, num: 1, den: 1}
	if sign := currencySigns[name]; sign != "" {
		a.aliases = []string{sign}
	}
	v.add(a)
}

// notUnits are words that come after a number in the language, so that no unit can be called by them.
var notUnits = strings.Fields("in to within with until by of over from order weight times pi kit a an per and")

// CheckUnitName says why a pack cannot call a unit of its own by a name; nil if it can.
func (v *Vocabulary) CheckUnitName(name string, at Span) *Error {
	fault := func(what, hint string) *Error { return &Error{Span: at, Slug: "own-unit", What: what, Hint: hint} }
	switch {
	case name == "" || nameLength(name) != len(name) || strings.ContainsAny(name, "._0123456789π"):
		return fault(quote(name)+" cannot be the name of a unit", "choose one word of letters alone")
	case slices.Contains(notUnits, name):
		return fault(quote(name)+" cannot be the name of a unit, since it means something else after a number",
			"choose another word")
	}
	for _, known := range []string{name, singular(name)} {
		if a := anyCase[strings.ToLower(known)]; a != nil {
			what := quote(name) + " is a unit already"
			if a.symbol != name {
				what += ": it is how " + a.symbol + " may be written"
			}
			return fault(what, "leave this line out, or choose another word")
		}
		if v.inAnyCase(known) != nil || v.unitNamed[known] != nil {
			return fault("the pack names the unit "+name+" twice", "keep one of the two")
		}
	}
	return nil
}

// isCurrency tells whether a text is the sign of a currency.
func isCurrency(s string) bool {
	r, size := utf8.DecodeRuneInString(s)
	return size == len(s) && unicode.Is(unicode.Sc, r)
}

// moneyAhead tells whether the sign of the pack's currency and a number come next.
func (p *Parser) moneyAhead() bool {
	t := p.peek()
	return isCurrency(t.text) && p.atom(t.text) != nil && p.peekAt(1).kind == tokenNumber
}

// moneyFirst puts the sign of the pack's currency after its number: £2.50 is read as 2.50 £. Both are then where the
// two were.
func (p *Parser) moneyFirst() {
	if !p.moneyAhead() {
		return
	}
	sign, number := p.tokens[p.i], p.tokens[p.i+1]
	both := Span{sign.span.Start, number.span.End}
	sign.span, number.span = both, both
	p.tokens[p.i], p.tokens[p.i+1] = number, sign
}

// signOfMoney is the error for the sign of a currency before its number, or without one.
func (p *Parser) signOfMoney(t token) *Error {
	e := noMeaning(t.text)
	e.Span = t.span
	if p.peekAt(1).kind == tokenNumber {
		e.Hint = p.words.moneyHint(t.text)
	}
	return e
}

// moneyHint says what to do about a currency that is not the pack's.
func (v *Vocabulary) moneyHint(name string) string {
	if own := v.currency(); own != "" {
		return "the pack counts in " + own + ", and in no other currency"
	}
	return "if this is money, name the currency in pack.yaml, as in  money: " + name
}

// isCode tells whether a word looks like the code of a currency.
func isCode(word string) bool {
	return len(word) == 3 && strings.Trim(word, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}
