package quantity

// This file puts formulas into the notation of a language. Everything else here writes and compares numbers with
// points, and has English words.

// A Notation is how a language writes the numbers of a formula.
type Notation interface {
	Number(text string) string // writes numbers that have points
	Between() string           // stands between the values of a function: a comma, unless that is in numbers
	Unit(symbol string) string // writes a unit that is a word
	Step(word string) string   // writes another word of a formula, and yes and no
}

// TextIn writes numbers with their units in a notation; nil leaves them as they are.
func TextIn(n Notation, text string) string {
	if n == nil {
		return text
	}
	return n.Number(text)
}

// StepIn writes a step of a calculation in a notation; nil leaves it as it is.
func StepIn(n Notation, s WorkedStep) WorkedStep {
	if n == nil {
		return s
	}
	if s.Left != nil {
		s.Left = mathIn(n, s.Left)
	}
	s.Right = mathIn(n, s.Right)
	return s
}

// mathIn writes a formula in a notation.
func mathIn(n Notation, m Math) Math {
	switch m := m.(type) {
	case Shown:
		return Shown{n.Number(m.Number), n.Unit(m.UnitAfter())}
	case Slot:
		if !m.IsTruth() {
			m.One = m.Unit != AfterNumber("1", m.Unit)
			m.Unit = n.Unit(m.Unit)
		}
		return m
	case Sign:
		return Sign{n.Step(m.Sign)}
	case Word:
		return Word{n.Number(n.Step(m.Words))}
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
		return WithUnit{mathIn(n, m.Of), n.Unit(m.Unit)}
	case Apply:
		return Apply{Name: n.Step(m.Name), Args: allIn(n, m.Args), Between: n.Between()}
	}
	return m // a symbol
}

func allIn(n Notation, parts []Math) []Math {
	written := make([]Math, len(parts))
	for i, p := range parts {
		written[i] = mathIn(n, p)
	}
	return written
}
