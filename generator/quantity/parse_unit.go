package quantity

// This file holds the parser's rules for what carries a unit: literals, units, whole
// quantities, and the target that a value is shown in.

import (
	"math/big"
	"slices"
	"strings"
)

// literal = number [unit { number unit }] [ ("±" | "within") number [unit] ]
//
// A ± or limit without a unit takes the one of its number.
func (p *Parser) literal() (*Literal, *Error) {
	p.moneyFirst()
	number := p.next()
	lit := &Literal{At: number.span, Number: number.number}
	var err *Error
	if !p.limitAhead() {
		p.inFormula, p.letter = true, ""
		lit.Unit, err = p.optionalUnit()
		p.inFormula, lit.letter = false, p.letter
		if err != nil {
			return nil, err
		}
	}
	lit.At.End = p.tokens[p.i-1].span.End
	if err = p.parts(lit); err != nil {
		return nil, err
	}
	lit.SureAt = p.Place()
	switch {
	case p.Sign("±"):
		err = p.sure(lit, "a ±")
	case p.limitAhead():
		p.i++
		lit.Limit = true
		err = p.sure(lit, "a limit")
	default:
		lit.SureAt = Span{}
	}
	if err != nil {
		return nil, err
	}
	lit.At.End = p.tokens[p.i-1].span.End
	return lit, nil
}

// sure reads how sure the number of a literal is.
func (p *Parser) sure(lit *Literal, context string) (err *Error) {
	minus := p.peek().kind == tokenSign && slices.Contains([]string{"-", "−"}, p.peek().text)
	if minus && p.peekAt(1).kind == tokenNumber {
		return &Error{Span: p.Place(), Slug: "syntax", What: "the number in " + context + " cannot be less than zero",
			Hint: "take the minus away; " + context + " counts to both sides"}
	}
	if p.peek().kind != tokenNumber {
		return p.unexpected("a number", context)
	}
	lit.Uncertainty = p.next().number
	if lit.UncertaintyUnit, err = p.optionalUnit(); err != nil {
		return err
	}
	if lit.UncertaintyUnit.IsNumber() {
		lit.UncertaintyUnit = lit.Unit
	}
	return nil
}

// limitAhead tells whether the word that comes next begins a limit, and so is not a unit.
func (p *Parser) limitAhead() bool {
	t := p.peek()
	return t.kind == tokenName && t.text == limitWord && !slices.Contains(p.endWords, limitWord)
}

// optionalUnit reads the unit after a number, if there is one. "in" is the inch
// there, unless another unit follows it: 2 in rot is a number called rotations.
func (p *Parser) optionalUnit() (Unit, *Error) {
	t := p.peek()
	switch {
	case t.kind == tokenSign && slices.Contains([]string{"%", "°", "″", "′"}, t.text):
		return p.Unit()
	case p.perUnitAt(0) && !(p.inFormula && p.readsAsName(p.peekAt(2).text)):
		return p.Unit()
	case t.kind != tokenName || t.text == "to" || t.text == "of" && p.afterLimit() || t.text == "π" ||
		slices.Contains(p.endWords, t.text):
		return Unit{}, nil
	case t.text == "in" && p.inIsKeyword():
		return Unit{}, nil
	}
	return p.Unit()
}

// afterLimit tells whether the number before is that of a limit: within 2 of L has no unit.
func (p *Parser) afterLimit() bool {
	return p.i > 1 && p.tokens[p.i-2].text == limitWord
}

// inIsKeyword tells whether the word in is followed by a unit, and so is not the inch. Of two, the
// first is the inch if a unit follows the second: 3 in in cm, but 3 in in asks for inches.
func (p *Parser) inIsKeyword() bool {
	if p.peekAt(1).text == "in" {
		return !p.unitAt(2)
	}
	return p.unitAt(1)
}

// unitAt tells whether a unit begins so many tokens on.
func (p *Parser) unitAt(n int) bool {
	t := p.peekAt(n)
	if t.kind == tokenSign {
		return slices.Contains([]string{"%", "°", "″", "′"}, t.text)
	}
	return t.kind == tokenName && p.atom(t.text) != nil || p.perUnitAt(n)
}

// perUnitAt tells whether a unit without anything above its line begins so many tokens on: 1/s.
func (p *Parser) perUnitAt(n int) bool {
	one, slash, name := p.peekAt(n), p.peekAt(n+1), p.peekAt(n+2)
	return one.kind == tokenNumber && one.text == "1" && slash.kind == tokenSign && slash.text == "/" && !slash.spaced &&
		name.kind == tokenName && !name.spaced && p.atom(name.text) != nil
}

// unit = ( name [power] | "1" "/" name [power] ) { ("/" | "·") name [power] }, without blanks
func (p *Parser) Unit() (Unit, *Error) {
	start := p.peek().span.Start
	u, err := p.unit()
	for _, t := range u.terms {
		if err == nil && (t.power > MaxPower || t.power < -MaxPower) {
			err = &Error{Span: Span{start, p.tokens[p.i-1].span.End}, Slug: "unit-power",
				What: "the unit " + u.Symbol() + " measures nothing", Hint: "use whole powers from 1 to " + itoa(MaxPower)}
		}
	}
	return u, err
}

func (p *Parser) unit() (Unit, *Error) {
	var u Unit
	var err *Error
	if p.perUnitAt(0) {
		p.i++
	} else {
		u, err = p.unitFactor(1)
	}
	for err == nil {
		slash, name := p.peek(), p.peekAt(1)
		if slash.kind != tokenSign || slash.text != "/" && slash.text != "*" || slash.spaced || name.spaced {
			return u, nil
		}
		isName := p.atom(name.text) == nil || p.inFormula && p.readsAsName(name.text)
		if name.kind != tokenName || slash.text == "*" && isName {
			return u, nil
		}
		p.i++
		power := 1
		if slash.text == "/" {
			power = -1
		}
		var v Unit
		v, err = p.unitFactor(power)
		u = Unit{append(slices.Clone(u.terms), v.terms...)}.merged().Difference()
	}
	return u, err
}

// merged adds the powers of a unit that was written twice, as in kg·m/s/s.
func (u Unit) merged() Unit {
	var terms []term
	for _, t := range u.terms {
		i := slices.IndexFunc(terms, func(have term) bool { return have.atom == t.atom })
		if i < 0 {
			terms = append(terms, t)
			continue
		}
		terms[i].power += t.power
	}
	return Unit{slices.DeleteFunc(terms, func(t term) bool { return t.power == 0 })}
}

// unitFactor = name [power]; sign is −1 below the line.
func (p *Parser) unitFactor(sign int) (Unit, *Error) {
	t := p.peek()
	a := p.atom(t.text)
	if a == nil || t.kind != tokenName && t.kind != tokenSign {
		return Unit{}, p.unknownUnit(t)
	}
	p.i++
	if a.easily && t.text == a.symbol {
		p.letter = a.symbol
	}
	power, err := p.unitPower()
	if err != nil {
		return Unit{}, err
	}
	return Unit{[]term{{a, sign * power}}}, nil
}

// unitPower = "²" | "³" | "^" digits, without blanks
func (p *Parser) unitPower() (int, *Error) {
	t := p.peek()
	if t.kind != tokenSign || t.spaced {
		return 1, nil
	}
	switch t.text {
	case "²", "³":
		p.i++
		return map[string]int{"²": 2, "³": 3}[t.text], nil
	case "^":
		n := p.peekAt(1)
		if n.kind != tokenNumber || n.spaced {
			return 1, nil
		}
		p.i += 2
		power := n.number.Float()
		if n.number.hasColon() || power != float64(int(power)) || power < 1 || power > MaxPower {
			return 0, &Error{Span: n.span, Slug: "unit-power", What: "a unit cannot have the power " + n.text,
				Hint: "use a whole power from 1 to " + itoa(MaxPower)}
		}
		return int(power), nil
	}
	return 1, nil
}

// UnitHint is the hint for what is not a unit. It names a few: all of them would be a line
// that nobody reads.
const UnitHint = "write a unit such as mm, cm, in, deg, rot, s or g; trundle help language units lists them all"

// unknownUnit guesses what was meant: a misspelt unit, one with other capitals, a word of
// prose, or no unit at all but a name, pi, or the exponent of a number.
func (p *Parser) unknownUnit(t token) *Error {
	if t.kind != tokenName {
		return p.unexpected("a unit", "a quantity")
	}
	e := &Error{Span: t.span, Slug: "unknown-unit", What: quote(t.text) + " is not a unit", Name: t.text,
		Reported: p.words.hasLost(t.text)}
	const written = 5 // letters of the shortest name that is written out; cms is no better than cm
	names := p.words.unitNames()
	for name := range spokenAtoms {
		if len(name) >= written {
			names = append(names, name)
		}
	}
	similar := Nearest(t.text, names)
	for _, name := range names {
		if strings.EqualFold(name, t.text) && !slices.Contains(similar, name) {
			similar = append(similar, name)
		}
	}
	slices.Sort(similar)
	switch {
	case isCurrency(t.text) || isCode(t.text):
		e.Hint = p.words.moneyHint(t.text)
	case inBrackets[t.text] != "":
		e.Hint = "write it with brackets, as in " + inBrackets[t.text]
	case truths[t.text].Unit.IsTruth():
		e.Hint = "leave it out: a find that compares asks for yes or no without being told"
	case t.text == "pi":
		e.Hint = "write × between, as in 2 × pi"
	case countDigits(strings.TrimPrefix(t.text, "e")) > 0:
		e.Hint = "write the number out, as in 1000; the form 1e3 is not read"
	case len(similar) > 0:
		e.Hint, e.Instead = meant(similar), only(similar)
	default:
		e.Hint = UnitHint + "; if " + t.text + " is a name, write × before it; units of your own go into pack.yaml, " +
			"below units"
	}
	return e
}

// Quantity reads number [unit] [("±" | "within") number [unit]], with a sign in front if the
// quantity is negative. negative tells whether there is one.
func (p *Parser) Quantity(context string) (lit *Literal, negative bool, err *Error) {
	start := p.peek().span.Start
	negative = p.Sign("-")
	if word := p.peek(); word.kind == tokenName && !negative {
		switch text := strings.ToLower(word.text); text {
		case "yes", "no":
			p.i++
			word.text = text
			return truthLiteral(word), false, nil
		case "true", "false":
			err := p.unexpected("a number", context)
			err.Hint = "write yes or no"
			return nil, false, err
		}
	}
	if p.peek().kind != tokenNumber && !p.moneyAhead() {
		return nil, false, p.unexpected("a number", context)
	}
	lit, err = p.literal()
	if err == nil {
		lit.At.Start = start
	}
	return lit, negative, err
}

// truthLiteral is yes or no, as a key has it.
func truthLiteral(word token) *Literal {
	exact := new(big.Rat).SetFloat64(truths[word.text].Number)
	return &Literal{At: word.span, Number: Number{Text: word.text, Exact: exact, Place: big.NewRat(1, 2)}, Unit: yesNo}
}

// Number reads a number without a unit, with a sign in front if it is negative.
func (p *Parser) Number(context string) (n Number, negative bool, at Span, err *Error) {
	at = p.peek().span
	negative = p.Sign("-")
	if p.peek().kind != tokenNumber {
		return Number{}, false, at, p.unexpected("a number", context)
	}
	t := p.next()
	at.End = t.span.End
	if t.number.hasColon() {
		return Number{}, false, at, &Error{Span: at, Slug: "time-unit",
			What: "a number with a colon, such as " + t.text + ", cannot stand here", Hint: "write it as a decimal, such as 2.5"}
	}
	return t.number, negative, at, nil
}

// Target is what a value is shown in: [ "in" unit ] [ "to" step ].
type Target struct {
	Unit    Unit
	HasUnit bool
	Step    Rounding
	UnitAt  Span

	Over Unit    // of two units that make one number, as in ft and in, the larger one; else that of a number
	Also *Target // in what else it is shown, nil if in nothing
}

// Target reads [ "in" unit ] [ "to" step ].
func (p *Parser) Target() (Target, *Error) {
	var t Target
	var err *Error
	if p.Word("in") {
		t.HasUnit, t.UnitAt = true, p.peek().span
		if t.Unit, err = p.Unit(); err != nil {
			return t, err
		}
		t.UnitAt.End = p.tokens[p.i-1].span.End
	}
	return t, p.step(&t)
}

// Targets reads a target of one unit, or of several: ft and in make one number where a whole number of the one makes
// the other, else they are two ways to show it.
//
//	targets = [ "in" unit ["and" unit] ["to" step] { "and" unit ["and" unit] ["to" step] } | "to" step ]
func (p *Parser) Targets() (Target, *Error) {
	t, err := p.Target()
	for last := &t; err == nil && last.HasUnit && p.Word("and"); {
		next := Target{HasUnit: true, UnitAt: p.peek().span}
		if next.Unit, err = p.Unit(); err != nil {
			return t, err
		}
		next.UnitAt.End = p.tokens[p.i-1].span.End
		if err = p.step(&next); err != nil {
			return t, err
		}
		if next.Unit.Dimension() != last.Unit.Dimension() {
			return t, &Error{Span: next.UnitAt, Slug: "mixed-dimensions",
				What: next.Unit.Symbol() + " is " + next.Unit.Dimension().String() + ", and " + last.Unit.Symbol() + " is " +
					last.Unit.Dimension().String(), Hint: "ask for units of one kind, such as ft and in"}
		}
		if _, whole := last.Unit.wholeTimes(next.Unit); whole && last.Step.IsZero() && last.Over.IsNumber() {
			next.Over = last.Unit
			*last = next
			continue
		}
		last.Also = &next
		last = &next
	}
	return t, err
}

// step reads [ "to" step ].
func (p *Parser) step(t *Target) *Error {
	if p.Word("to") {
		word := p.peek()
		n, negative, at, err := p.Number("a step")
		if err != nil {
			if p.atom(word.text) != nil {
				err.Hint = "for the unit write in " + word.text + "; a step is a number, such as 0.1 or 1/16"
			}
			return err
		}
		if negative || n.Float() == 0 {
			return &Error{Span: at, Slug: "bad-step", What: "a step must be more than zero",
				Hint: "write the place to round to, such as 0.1 or 1/16"}
		}
		t.Step = n.Step()
	}
	return nil
}

// String writes the target as the language reads it.
func (t Target) String() string {
	s := ""
	word := " in "
	for next := &t; next != nil; next = next.Also {
		if !next.Over.IsNumber() {
			s += word + next.Over.String()
			word = " and "
		}
		if next.HasUnit {
			s += word + next.Unit.String()
		}
		if !next.Step.IsZero() {
			s += " to " + next.Step.String()
		}
		word = " and "
	}
	return s
}
