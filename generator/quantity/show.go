package quantity

// How a quantity is shown as a target asks: in which unit, rounded to what.

// Show returns a quantity as a target asks: its number and its unit. Without a unit
// it keeps its own; without a step it is written as FormatPlain does.
func Show(q Quantity, t Target) (number, unit string) {
	q = q.asked(t)
	if q.Unit.IsTruth() {
		return TruthText(q.Number), ""
	}
	return t.text(q.Number), q.Unit.Symbol()
}

// ShowUnit is the unit alone, which takes much less time.
func ShowUnit(q Quantity, t Target) string { return q.asked(t).Unit.Symbol() }

// asked is a quantity in the unit that a target asks for.
func (q Quantity) asked(t Target) Quantity {
	if t.HasUnit {
		if c, ok := q.In(t.Unit); ok {
			return c
		}
	}
	return q
}

// ShowText is Show in one piece: "20.4 cm", "90°", "20.4 cm (8 1/32 in)".
func ShowText(q Quantity, t Target) string {
	number, unit := Show(q, t)
	text := Shown{number, unit}.Text()
	if t.Also != nil {
		text += " (" + ShowText(q, *t.Also) + ")"
	}
	return text
}
