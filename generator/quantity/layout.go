package quantity

// This file turns the tree of an expression into a formula as a class writes it.

import (
	"slices"
	"strings"
)

// expand replaces calls of the trade's formulas by their definitions, so that the
// steps show what is divided by what.
func expand(e Expr) Expr {
	switch e := e.(type) {
	case *Unary:
		return &Unary{e.At, expand(e.Operand)}
	case *Binary:
		return &Binary{e.Op, expand(e.Left), expand(e.Right), e.OpAt}
	case *Comparison:
		return e.with(expand)
	case *Call:
		args := make([]Expr, len(e.Args))
		for i, a := range e.Args {
			args[i] = expand(a)
		}
		f := e.Formula()
		if f == nil || f.long == nil || countNodes(args) > mostExpanded || !f.takes(len(args)) {
			return e.with(args)
		}
		for i, a := range args {
			if f.Params[i].Count && givesDegrees(a) {
				args[i] = &Binary{Op: '/', Left: a, Right: fullTurn}
			}
		}
		return substitute(f.expanded(len(args)), f.Params, args)
	}
	return e
}

// fullTurn makes rotations of an angle that comes out in degrees.
var fullTurn = mustParse("360 deg")

// givesDegrees tells whether part of an expression is an angle that no conversion of a written number can
// bring into rotations.
func givesDegrees(e Expr) bool {
	found := false
	Walk(e, func(e Expr) {
		call, ok := e.(*Call)
		found = found || ok && strings.HasPrefix(call.Name, "atan")
	})
	return found
}

// mostExpanded bounds what is put into a definition. Some definitions name a
// parameter twice, so that calls within calls would grow without end.
const mostExpanded = 100

// countNodes counts the nodes of the arguments' trees.
func countNodes(args []Expr) int {
	n := 0
	for _, a := range args {
		Walk(a, func(Expr) { n++ })
	}
	return n
}

// substitute puts the arguments in place of the parameters that a definition names.
func substitute(body Expr, params []Param, args []Expr) Expr {
	switch b := body.(type) {
	case *Name:
		i := slices.IndexFunc(params, func(p Param) bool { return p.Name == b.Text })
		if i >= 0 && i < len(args) {
			return args[i]
		}
	case *Unary:
		return &Unary{b.At, substitute(b.Operand, params, args)}
	case *Binary:
		return &Binary{b.Op, substitute(b.Left, params, args), substitute(b.Right, params, args), b.OpAt}
	case *Comparison:
		return b.with(func(e Expr) Expr { return substitute(e, params, args) })
	case *Call:
		inner := make([]Expr, len(b.Args))
		for i, a := range b.Args {
			inner[i] = substitute(a, params, args)
		}
		return b.with(inner)
	}
	return body
}

// A layout turns a tree into Math. leaf says how a name or literal is written.
type layout struct {
	leaf     func(Expr) Math
	env      Env
	readings func(Record) []Math // of a record, or nil to keep its name
	value    func(*Call) Math    // what a statistic comes to; nil where numbers are not shown
}

func (l layout) math(e Expr) Math {
	switch e := e.(type) {
	case *Unary:
		return Row{[]Math{Word{Minus}, l.operand(e.Operand, signLevel)}}
	case *Binary:
		return l.binary(e)
	case *Comparison:
		return l.comparison(e)
	case *Call:
		return l.call(e)
	}
	return l.leaf(e)
}

// operand lays out a part of a sum or product, in brackets where the level asks
// for it. A fraction needs none: its bar holds it together.
func (l layout) operand(e Expr, level int) Math {
	m := l.math(e)
	if b, ok := e.(*Binary); ok && b.Op == '/' && level <= signLevel {
		return m
	}
	_, signed := e.(*Unary)
	if slot, ok := m.(Slot); ok {
		if slot.Unit != "" && level == atomLevel {
			return Parens{slot}
		}
		slot.Operand, slot.Base = true, level == atomLevel
		return slot
	}
	shown, isShown := m.(Shown)
	negative := isShown && strings.HasPrefix(shown.Number, Minus)
	withUnit := isShown && (shown.Unit != "" || shown.isFraction()) && level == atomLevel
	if e.precedence() < level || negative || withUnit || signed && level > sumLevel {
		return Parens{m}
	}
	return m
}

// operators are the signs as a class writes them; a division is a fraction instead.
var operators = map[byte]string{'+': "+", '-': Minus, '*': "×"}

// binary flattens sums and products from the left, so that a + b + c is one row and not a
// row within a row.
func (l layout) binary(e *Binary) Math {
	switch e.Op {
	case '/':
		return Fraction{l.math(e.Left), l.math(e.Right)}
	case '^':
		return Power{l.operand(e.Left, atomLevel), l.math(e.Right)}
	}
	left, right := l.operand(e.Left, e.precedence()), l.operand(e.Right, e.precedence()+1)
	row := Row{[]Math{left}}
	if first, ok := left.(Row); ok {
		row.Parts = slices.Clone(first.Parts)
	}
	row.Parts = append(row.Parts, Sign{operators[e.Op]})
	return Row{append(row.Parts, right)}
}

// call writes the functions that have a form of their own, such as a root, and the others
// by name.
func (l layout) call(e *Call) Math {
	f := e.Formula()
	if f != nil && f.statistic != nil {
		if m := l.statistic(e); m != nil {
			return m
		}
	}
	args := make([]Math, len(e.Args))
	for i, a := range e.Args {
		args[i] = l.math(a)
	}
	switch {
	case e.Name == "sqrt" && len(args) == 1:
		return Root{args[0]}
	case e.Name == "abs" && len(args) == 1:
		return Bars{args[0]}
	}
	if f != nil && f.long == nil { // a word of its own, and no call that somebody has typed
		return Apply{Name: blanks(e.Name), Args: args}
	}
	return Apply{Name: e.Name, Args: args}
}

// statistic writes the statistics that a class works by hand.
func (l layout) statistic(e *Call) Math {
	terms := l.terms(e.Args)
	n := 0
	for _, a := range e.Args {
		n += l.countOf(a)
	}
	number := func(n int) Math { return Shown{Number: itoa(n)} }
	spread := Root{Fraction{l.squares(e, terms), Row{[]Math{number(n), Sign{Minus}, number(1)}}}}
	switch e.Name {
	case "sum":
		return joined(terms)
	case "mean":
		if terms != nil {
			return Fraction{joined(terms), number(n)}
		}
	case "stdev":
		return spread
	case "stderr":
		return Fraction{spread, Root{number(n)}}
	case "range":
		if l.value != nil {
			return difference(l.value(called("max", e)), l.value(called("min", e)))
		}
		return Row{[]Math{Word{"largest"}, Sign{Minus}, Word{"smallest"}}}
	}
	return nil
}

// squares is the sum under the root of a standard deviation: in words, or with the numbers, the first two
// and the last if there are many.
func (l layout) squares(e *Call, terms []Math) Math {
	const written = 3
	if l.value == nil || terms == nil {
		return Word{"sum of (each − mean)²"}
	}
	mean := l.value(called("mean", e))
	var squares []Math
	for i, x := range terms {
		if len(terms) > written && 2 <= i && i < len(terms)-1 {
			if i == 2 {
				squares = append(squares, Word{"…"})
			}
			continue
		}
		squares = append(squares, Power{Parens{difference(x, mean)}, Shown{Number: "2"}})
	}
	return joined(squares)
}

// called is another statistic of the same values.
func called(name string, e *Call) *Call {
	other := e.with(e.Args)
	other.Name = name
	return other
}

func difference(a, b Math) Math { return Row{[]Math{asTerm(a), Sign{Minus}, asTerm(b)}} }

// asTerm brackets a negative number beside a sign.
func asTerm(m Math) Math {
	switch m := m.(type) {
	case Shown:
		if strings.HasPrefix(m.Number, Minus) {
			return Parens{m}
		}
	case Slot:
		m.Operand = true
		return m
	}
	return m
}

// countOf is how many values an argument stands for: the readings of a record, or one.
func (l layout) countOf(e Expr) int {
	if n, ok := e.(*Name); ok {
		if r, ok := l.env[n.Text].(Record); ok {
			return len(r.Numbers)
		}
	}
	if r := recordIn(e, l.env); r != nil {
		return len(r.Numbers)
	}
	return 1
}

// terms lays out every value of the arguments, or nothing where a record is too long to be
// written out.
func (l layout) terms(args []Expr) []Math {
	var terms []Math
	for _, a := range args {
		if n, ok := a.(*Name); ok {
			if r, ok := l.env[n.Text].(Record); ok {
				readings := l.readings(r)
				if readings == nil {
					return nil
				}
				terms = append(terms, readings...)
				continue
			}
		}
		if r := recordIn(a, l.env); r != nil {
			one := l.oneByOne(a, *r)
			if one == nil {
				return nil
			}
			terms = append(terms, one...)
			continue
		}
		terms = append(terms, l.operand(a, productLevel))
	}
	return terms
}

// joined puts terms together with +, nil if there are none.
func joined(terms []Math) Math {
	if len(terms) == 0 {
		return nil
	}
	row := Row{[]Math{asTerm(terms[0])}}
	for _, t := range terms[1:] {
		row.Parts = append(row.Parts, Sign{"+"}, asTerm(t))
	}
	return row
}
