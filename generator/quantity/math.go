package quantity

// This file holds formulas as they are laid out: pages, paper and the terminal each draw
// the same tree.

import (
	"cmp"
	"strings"
)

// Math is a formula laid out as a class writes it. Text gives it in one line; pages
// draw it from the tree.
type Math interface{ Text() string }

type (
	// Symbol is a variable, set in italics, with a lowered Index of plain digits, "" if none.
	Symbol struct{ Name, Index string }
	// Word is upright text: the name of a function, a description.
	Word struct{ Words string }
	// Shown is a number with its unit, ready to be read.
	Shown struct{ Number, Unit string }
	// Sign is an operator or relation with blanks around: + − × =.
	Sign struct{ Sign string }
	// Row is parts one after the other.
	Row struct{ Parts []Math }
	// Fraction is Over above Under.
	Fraction struct{ Over, Under Math }
	// Power is Base with a raised Exponent.
	Power struct{ Base, Exponent Math }
	// Root is a square root.
	Root struct{ Of Math }
	// Bars is the size without sign.
	Bars struct{ Of Math }
	// Parens is a part in brackets.
	Parens struct{ Of Math }
	// WithUnit is a part with the unit that it comes to: (65 ÷ 25.4) in.
	WithUnit struct {
		Of   Math
		Unit string
	}
	// Slot is the place of a number that only a team knows: the page puts it in.
	Slot struct {
		Program Program  // what gives the number
		Index   int      // which reading, from 1, where Program gives a record
		Step    Rounding // as rounded; without it as many digits as steps show
		Unit    string
		Larger  string // of two units, how many make the larger one, and its name: 12 ft
		Operand bool   // a negative number needs brackets here
		Base    bool   // and so does a fraction
		One     bool   // the unit has a singular; it is known once the unit is in the words of a language
	}
	// Apply is a function of its arguments.
	Apply struct {
		Name    string
		Args    []Math
		Between string // them; "" is a comma
	}
)

func (m Symbol) Text() string { return m.Name + subscript(m.Index) }
func (m Word) Text() string   { return m.Words }
func (m Sign) Text() string   { return " " + m.Sign + " " }
func (m Bars) Text() string   { return "|" + m.Of.Text() + "|" }
func (m Parens) Text() string { return "(" + m.Of.Text() + ")" }

func (m WithUnit) Text() string { return Shown{m.Of.Text(), m.Unit}.Text() }

func (m Slot) Text() string { return Shown{"□", m.Unit}.Text() }

// IsTruth tells whether yes or no is to be put in.
func (m Slot) IsTruth() bool { return m.Unit == YesOrNo }

// Text puts a number with a unit into brackets, lest the root seem to end before the unit.
func (m Root) Text() string {
	if s, ok := m.Of.(Shown); ok && s.Unit != "" {
		return "√(" + s.Text() + ")"
	}
	return "√" + bracketed(m.Of)
}

func (m Shown) Text() string {
	switch m.Unit {
	case "", YesOrNo:
		return m.Number
	case "°":
		return m.Number + "°"
	}
	return m.Number + " " + m.UnitAfter()
}

// SymbolOf is the symbol of a name as an author writes it. Digits at its end are an index:
// d2 is d₂, and pi is π.
func SymbolOf(name string) Symbol {
	if name == "pi" {
		return Symbol{Name: "π"}
	}
	base := strings.TrimRight(name, "0123456789")
	return Symbol{base, name[len(base):]}
}

// subscript lowers digits.
func subscript(index string) string {
	var b strings.Builder
	for _, d := range index {
		b.WriteRune('₀' + d - '0')
	}
	return b.String()
}

// UnitAfter is the unit as it is read after the number: "rotation" after 1.
func (m Shown) UnitAfter() string {
	if m.Unit == YesOrNo {
		return ""
	}
	return AfterNumber(m.Number, m.Unit)
}

func (m Row) Text() string {
	var b strings.Builder
	for _, p := range m.Parts {
		b.WriteString(p.Text())
	}
	return b.String()
}

func (m Fraction) Text() string { return overText(m.Over) + " ÷ " + bracketed(m.Under) }

// overText brackets a numerator that would otherwise be torn apart by the ÷.
func overText(m Math) string {
	if row, ok := m.(Row); ok && row.hasSign("+", Minus) {
		return "(" + m.Text() + ")"
	}
	return m.Text()
}

// Text raises whole exponents; others have to be written with ^ in one line.
func (m Power) Text() string {
	if root, ok := m.Base.(Root); ok {
		m.Base = Parens{root} // √x² would be the root of a square
	}
	if n, ok := m.Exponent.(Shown); ok && n.Unit == "" && strings.Trim(n.Number, "0123456789") == "" {
		return bracketed(m.Base) + superscriptText(n.Number)
	}
	return bracketed(m.Base) + "^" + bracketed(m.Exponent)
}

// superscriptText raises digits one by one.
func superscriptText(digits string) string {
	var b strings.Builder
	for _, d := range digits {
		b.WriteString(superscript(int(d - '0')))
	}
	return b.String()
}

func (m Apply) Text() string {
	args := make([]string, len(m.Args))
	for i, a := range m.Args {
		args[i] = a.Text()
	}
	return m.Name + "(" + strings.Join(args, m.Separator()+" ") + ")"
}

// Separator is the sign between the arguments.
func (m Apply) Separator() string { return cmp.Or(m.Between, ",") }

// bracketed writes a part that must hold together, in brackets if need be.
func bracketed(m Math) string {
	switch m := m.(type) {
	case Row, Fraction:
		return "(" + m.Text() + ")"
	case Shown:
		if strings.HasPrefix(m.Number, Minus) || m.isFraction() {
			return "(" + m.Text() + ")"
		}
	}
	return m.Text()
}

// isFraction tells whether the number is written as one: 2/3² and 6 ÷ 2/3 would be read as something else.
func (m Shown) isFraction() bool { return strings.ContainsAny(m.Number, "/:") }

func (m Row) hasSign(signs ...string) bool {
	for _, p := range m.Parts {
		s, ok := p.(Sign)
		for _, want := range signs {
			if ok && s.Sign == want {
				return true
			}
		}
	}
	return false
}
