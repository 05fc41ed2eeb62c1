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
	case *Call:
		args := make([]Expr, len(e.Args))
		for i, a := range e.Args {
			args[i] = expand(a)
		}
		f, ok := functions[e.Name]
		if !ok || f.long == nil || countNodes(args) > maxExpanded || !f.takes(len(args)) {
			return &Call{e.At, e.NameAt, e.Name, args}
		}
		return substitute(f.body(len(args)), f.Params, args)
	}
	return e
}

// maxExpanded bounds what is put into a definition. Some definitions name a
// parameter twice, so that calls within calls would grow without end.
const maxExpanded = 100

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
	case *Call:
		inner := make([]Expr, len(b.Args))
		for i, a := range b.Args {
			inner[i] = substitute(a, params, args)
		}
		return &Call{b.At, b.NameAt, b.Name, inner}
	}
	return body
}

// A layout turns a tree into Math. leaf says how a name or literal is written.
type layout struct {
	leaf     func(Expr) Math
	env      Env
	readings func(Record) []Math // of a record, or nil to keep its name
}

func (l layout) math(e Expr) Math {
	switch e := e.(type) {
	case *Unary:
		return Row{[]Math{Word{Minus}, l.operand(e.Operand, signLevel)}}
	case *Binary:
		return l.binary(e)
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
		slot.Operand = true
		if slot.Unit != "" && level == atomLevel {
			return Parens{slot}
		}
		return slot
	}
	shown, isShown := m.(Shown)
	negative := isShown && strings.HasPrefix(shown.Number, Minus)
	withUnit := isShown && shown.Unit != "" && level == atomLevel
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
	f := functions[e.Name]
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
	return Apply{e.Name, args}
}

// statistic writes the statistics that a class works by hand.
func (l layout) statistic(e *Call) Math {
	terms := l.terms(e.Args)
	n := 0
	for _, a := range e.Args {
		n += l.countOf(a)
	}
	number := func(n int) Math { return Shown{Number: itoa(n)} }
	spread := Root{Fraction{Word{"sum of (each − mean)²"}, Row{[]Math{number(n), Sign{Minus}, number(1)}}}}
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
		return Row{[]Math{Word{"largest"}, Sign{Minus}, Word{"smallest"}}}
	}
	return nil
}

// countOf is how many values an argument stands for: the readings of a record, or one.
func (l layout) countOf(e Expr) int {
	if n, ok := e.(*Name); ok {
		if r, ok := l.env[n.Text].(Record); ok {
			return len(r.Numbers)
		}
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
		terms = append(terms, l.operand(a, productLevel))
	}
	return terms
}

// joined puts terms together with +, nil if there are none.
func joined(terms []Math) Math {
	if len(terms) == 0 {
		return nil
	}
	row := Row{[]Math{terms[0]}}
	for _, t := range terms[1:] {
		row.Parts = append(row.Parts, Sign{"+"}, t)
	}
	return row
}
