package site

// Formulas as MathML Core. The same formulas on paper are set in worksheets.

import (
	"html"
	"strconv"
	"strings"
	"unicode/utf8"

	"trundle/generator/quantity"
)

// mathML writes a formula as MathML Core: variables in italics, units upright, a
// fraction as a fraction. The attributes are those of its outermost element.
func mathML(m quantity.Math, attributes string) string {
	var b strings.Builder
	b.WriteString(`<math` + attributes + `>`)
	presentation(&b, m)
	b.WriteString(`</math>`)
	return b.String()
}

// presentation writes a part of a formula. Brackets of a function stay small; those around a part grow with it.
func presentation(b *strings.Builder, m quantity.Math) {
	switch m := m.(type) {
	case quantity.Symbol:
		writeSymbol(b, m)
	case quantity.Word:
		element(b, wordTag(m.Words), m.Words)
	case quantity.Sign:
		element(b, "mo", m.Sign)
	case quantity.Shown:
		shown(b, m)
	case quantity.Slot:
		slot(b, m)
	case quantity.Row:
		wrap(b, "mrow", m.Parts...)
	case quantity.Fraction:
		wrap(b, "mfrac", m.Over, m.Under)
	case quantity.Power:
		wrap(b, "msup", m.Base, m.Exponent)
	case quantity.Root:
		wrap(b, "msqrt", m.Of)
	case quantity.Bars:
		fenced(b, "|", m.Of, "|")
	case quantity.Parens:
		fenced(b, "(", m.Of, ")")
	case quantity.WithUnit:
		b.WriteString("<mrow>")
		presentation(b, m.Of)
		unitML(b, m.Unit, "")
		b.WriteString("</mrow>")
	case quantity.Apply:
		b.WriteString("<mrow>")
		element(b, "mtext", m.Name)
		b.WriteString(`<mo stretchy="false">(</mo>`)
		for i, a := range m.Args {
			if i > 0 {
				element(b, "mo", m.Separator())
			}
			presentation(b, a)
		}
		b.WriteString(`<mo stretchy="false">)</mo></mrow>`)
	}
}

// writeSymbol sets a name with its index. A browser sets one letter in italics and a longer
// name upright, since italics would read as a product of its letters.
func writeSymbol(b *strings.Builder, m quantity.Symbol) {
	if m.Index == "" {
		element(b, "mi", m.Name)
		return
	}
	b.WriteString("<msub>")
	element(b, "mi", m.Name)
	element(b, "mn", m.Index)
	b.WriteString("</msub>")
}

// shown sets a number with its unit; a tape fraction is stacked.
func shown(b *strings.Builder, m quantity.Shown) {
	if parts := m.Parts(); len(parts) > 1 { // 6 ft 3 1/2 in
		b.WriteString("<mrow>")
		for i, part := range parts {
			if i > 0 {
				b.WriteString("<mtext>\u202f</mtext>")
			}
			shown(b, part)
		}
		b.WriteString("</mrow>")
		return
	}
	b.WriteString("<mrow>")
	number := m.Number
	if rest, negative := strings.CutPrefix(number, quantity.Minus); negative {
		element(b, "mo", quantity.Minus)
		number = rest
	}
	whole, part, mixed := strings.Cut(number, " ")
	if !mixed && strings.Contains(number, "/") {
		whole, part = "", number
	}
	if whole != "" {
		element(b, "mn", whole)
	}
	if over, under, ok := strings.Cut(part, "/"); ok {
		b.WriteString("<mfrac>")
		element(b, "mn", over)
		element(b, "mn", under)
		b.WriteString("</mfrac>")
	}
	unitML(b, m.UnitAfter(), "")
	b.WriteString("</mrow>")
}

// unitML sets a unit after a narrow blank, the sign of degrees without one; follows is the attribute of
// a unit that follows the number of a slot.
func unitML(b *strings.Builder, unit, follows string) {
	switch unit {
	case "":
	case "°":
		element(b, "mtext", "°")
	default:
		b.WriteString("<mtext" + follows + ">\u202f" + html.EscapeString(unit) + "</mtext>")
	}
}

// unitFollows is the attribute by which a script writes a unit in the singular after 1,
// "" for a unit that is always the same.
func unitFollows(unit string, hasSingular bool) string {
	if !hasSingular {
		return ""
	}
	return ` data-u="` + html.EscapeString(unit) + `"`
}

// wordTag is the element of a word: a name, since an operator between mere texts would count as one with them and lose
// its blanks. Several letters stand upright anyway.
func wordTag(words string) string {
	if utf8.RuneCountInString(words) > 1 {
		return "mi"
	}
	return "mtext"
}

func wrap(b *strings.Builder, tag string, parts ...quantity.Math) {
	b.WriteString("<" + tag + ">")
	for _, p := range parts {
		presentation(b, p)
	}
	b.WriteString("</" + tag + ">")
}

// fenced sets brackets or bars that grow with what is in them.
func fenced(b *strings.Builder, open string, m quantity.Math, shut string) {
	b.WriteString(`<mrow><mo stretchy="true" form="prefix">` + open + `</mo>`)
	presentation(b, m)
	b.WriteString(`<mo stretchy="true" form="postfix">` + shut + `</mo></mrow>`)
}

func element(b *strings.Builder, tag, text string) {
	b.WriteString("<" + tag + ">" + html.EscapeString(text) + "</" + tag + ">")
}

// slot sets the place of a number that the page puts in, its unit after it.
func slot(b *strings.Builder, m quantity.Slot) {
	b.WriteString(`<mrow><mn data-p="` + html.EscapeString(string(m.Program)) + `"`)
	if m.Index > 0 {
		b.WriteString(` data-i="` + strconv.Itoa(m.Index) + `"`)
	}
	switch {
	case m.IsTruth():
		b.WriteString(` data-to="` + quantity.YesOrNo + `"></mn></mrow>`)
		return
	case !m.Step.IsZero():
		b.WriteString(` data-to="` + m.Step.String() + `"`)
	}
	if m.Larger != "" {
		b.WriteString(` data-v="` + m.Larger + `"`)
	}
	switch {
	case m.Base:
		b.WriteString(` data-b="/"`)
	case m.Operand:
		b.WriteString(` data-b=""`)
	}
	b.WriteString(`></mn>`)
	unitML(b, m.Unit, unitFollows(m.Unit, m.One))
	if m.Operand { // the place of a closing bracket
		b.WriteString(`<mn></mn>`)
	}
	b.WriteString(`</mrow>`)
}
