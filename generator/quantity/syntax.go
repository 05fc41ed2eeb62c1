package quantity

// This file holds the tree of an expression, and writes it back as text.

import "strings"

// Expr is a node of an expression's tree.
type Expr interface {
	Span() Span
	// String writes the expression so that it parses to the same tree.
	String() string
	precedence() int
}

// Literal is a number as written, with its unit and how sure it is, if that is said: ± a standard uncertainty,
// or within a limit.
type Literal struct {
	At              Span
	Number          Number
	Unit            Unit
	Uncertainty     Number // zero Number if none
	UncertaintyUnit Unit
	Limit           bool   // Uncertainty is a limit that the value lies within
	SureAt          Span   // of the ± or the word within
	letter          string // a unit in it that lessons use as a name, if written as such: d, and not days
}

// Name refers to a value defined earlier, to a field of the kit, or to pi.
type Name struct {
	At   Span
	Text string
}

// Unary is a sign before an operand: '-'.
type Unary struct {
	At      Span
	Operand Expr
}

// Binary is left op right; Op is one of + - * / ^.
type Binary struct {
	Op          byte
	Left, Right Expr
	OpAt        Span
}

// Call applies a formula or function to its arguments.
type Call struct {
	At     Span // of the whole call
	NameAt Span
	Name   string
	Args   []Expr
	words  *Vocabulary // of the pack in which it is written

	unclear *Error // see oneOrMore
}

func (e *Literal) Span() Span { return e.At }
func (e *Name) Span() Span    { return e.At }
func (e *Unary) Span() Span   { return Span{e.At.Start, e.Operand.Span().End} }
func (e *Binary) Span() Span  { return Span{e.Left.Span().Start, e.Right.Span().End} }
func (e *Call) Span() Span    { return e.At }

// Precedence, from loose to tight.
const (
	compareLevel = iota + 1
	sumLevel
	productLevel
	signLevel
	powerLevel
	atomLevel
)

func (e *Literal) precedence() int { return atomLevel }
func (e *Name) precedence() int    { return atomLevel }
func (e *Unary) precedence() int   { return signLevel }
func (e *Call) precedence() int    { return atomLevel }
func (e *Binary) precedence() int {
	switch e.Op {
	case '+', '-':
		return sumLevel
	case '*', '/':
		return productLevel
	}
	return powerLevel
}

func (e *Literal) String() string {
	s := literalText(e.Number.Text, e.Unit)
	if e.letter == "" && !e.Unit.IsNumber() {
		s = e.Number.Text + " " + e.Unit.inWords()
	}
	if e.Uncertainty.Exact != nil {
		s += " " + e.sureWord() + " " + literalText(e.Uncertainty.Text, e.UncertaintyUnit)
	}
	return s
}

// Sure writes how sure the number is, as a reader reads it: "± 0.5 mm", "within 0.5 mm", "" if that is not said.
func (e *Literal) Sure() string {
	if e.Uncertainty.Exact == nil {
		return ""
	}
	return e.sureWord() + " " + Shown{e.Uncertainty.Text, e.UncertaintyUnit.Symbol()}.Text()
}

func (e *Literal) sureWord() string {
	if e.Limit {
		return limitWord
	}
	return "±"
}

// limitWord stands before the limit of a quantity, and so can be no name.
const limitWord = "within"

func literalText(number string, u Unit) string {
	if u.IsNumber() || u.IsTruth() {
		return number
	}
	return number + " " + u.String()
}

func (e *Name) String() string  { return e.Text }
func (e *Unary) String() string { return "-" + parens(e.Operand, signLevel) }

// String brackets the base of a power that has a unit: 2 cm ^ 2 would be unclear.
func (e *Binary) String() string {
	left, right := e.precedence(), e.precedence()+1
	if e.Op == '^' {
		left, right = atomLevel, signLevel
	}
	l := parens(e.Left, left)
	if lit, ok := e.Left.(*Literal); ok && e.Op == '^' && !lit.bare() {
		l = "(" + l + ")"
	}
	return l + " " + string(e.Op) + " " + parens(e.Right, right)
}

// bare tells whether the literal is a number alone.
func (e *Literal) bare() bool { return e.Unit.IsNumber() && e.Uncertainty.Exact == nil }

func (e *Call) String() string {
	args := make([]string, len(e.Args))
	for i, a := range e.Args {
		args[i] = a.String()
	}
	return e.Name + "(" + strings.Join(args, ", ") + ")"
}

// parens brackets an operand that binds less tightly than its place needs.
func parens(e Expr, level int) string {
	if e.precedence() < level {
		return "(" + e.String() + ")"
	}
	return e.String()
}

// Walk calls visit for e and every node below it, parents first.
func Walk(e Expr, visit func(Expr)) {
	visit(e)
	switch e := e.(type) {
	case *Unary:
		Walk(e.Operand, visit)
	case *Binary:
		Walk(e.Left, visit)
		Walk(e.Right, visit)
	case *Comparison:
		Walk(e.Left, visit)
		if e.Within != nil {
			Walk(e.Within, visit)
		}
		Walk(e.Right, visit)
	case *Reading:
		Walk(e.Record, visit)
	case *Call:
		for _, a := range e.Args {
			Walk(a, visit)
		}
	}
}

// Names lists the names that an expression uses, each once, in order. Formulas
// and pi are not among them.
func Names(e Expr) []string {
	var names []string
	seen := map[string]bool{"pi": true}
	Walk(e, func(e Expr) {
		if n, ok := e.(*Name); ok && !seen[n.Text] {
			seen[n.Text] = true
			names = append(names, n.Text)
		}
	})
	return names
}
