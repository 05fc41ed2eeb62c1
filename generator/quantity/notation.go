package quantity

// This file puts formulas into the notation of a language. All else here writes and compares numbers with points.

// A Notation is how a language writes the numbers of a formula.
type Notation interface {
	Number(text string) string // writes numbers that have points
	Between() string           // stands between the values of a function: a comma, unless that is in numbers
}

// StepIn writes a step of a calculation in a notation.
func StepIn(n Notation, s WorkedStep) WorkedStep {
	if s.Left != nil {
		s.Left = mathIn(n, s.Left)
	}
	s.Right = mathIn(n, s.Right)
	return s
}

// mathIn writes a formula in a notation. That of the coach's language is there already.
func mathIn(n Notation, m Math) Math {
	if n.Between() == (Apply{}).Separator() {
		return m
	}
	switch m := m.(type) {
	case Shown:
		return Shown{n.Number(m.Number), m.Unit}
	case Word:
		return Word{n.Number(m.Words)}
	case Row:
		return Row{allIn(n, m.Parts)}
	case Fraction:
		return Fraction{mathIn(n, m.Over), mathIn(n, m.Under)}
	case Power:
		return Power{mathIn(n, m.Base), mathIn(n, m.Exponent)}
	case Root:
		return Root{mathIn(n, m.Of)}
	case Bars:
		return Bars{mathIn(n, m.Of)}
	case Parens:
		return Parens{mathIn(n, m.Of)}
	case WithUnit:
		return WithUnit{mathIn(n, m.Of), m.Unit}
	case Apply:
		return Apply{Name: m.Name, Args: allIn(n, m.Args), Between: n.Between()}
	}
	return m // a sign, a symbol, a slot
}

func allIn(n Notation, parts []Math) []Math {
	written := make([]Math, len(parts))
	for i, p := range parts {
		written[i] = mathIn(n, p)
	}
	return written
}
