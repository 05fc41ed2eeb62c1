package quantity

// This file holds what is special about some units: those that are others multiplied, those that are read as names in
// some places, and rotations, which count other angles.

import "slices"

// partsOf are units that are others multiplied. In a product they are taken apart, so that 100 rpm × 3 min are
// rotations.
var partsOf = map[string]string{
	"rpm": "rot/min", "mph": "mi/h", "Ah": "A·h", "mAh": "mA·h", "Wh": "W·h",
}

// rotation is the unit that a number may be called by.
var rotation = atoms[slices.IndexFunc(atoms, func(a *atom) bool { return a.symbol == "rot" })]

// readable returns the atom of a name that stands where a unit is expected: seconds and hours, too, which prose has.
func readable(name string) *atom {
	if a := atomByName[name]; a != nil {
		return a
	}
	return spokenAtoms[name]
}

// readsAsName tells whether a word after a × or in 1/… is a name rather than a unit: any but the units that have
// always been read there, since d, h, A and V are what lessons call their diameters and heights.
func (p *Parser) readsAsName(word string) bool {
	a := atomByName[word]
	if a == nil && p.words != nil {
		a = p.words.unitNamed[word]
	}
	return a == nil || a.easily
}

// counts tells whether one of two angles counts how often the other is there: 3 rotations × 360°. Their product keeps
// both units, so that it can be given in degrees; see Alike.
func counts(a, b *atom) bool { return a.dim == angleDim && (a == rotation) != (b == rotation) }

// opened is the unit with rpm and its like taken apart.
func (u Unit) opened() Unit {
	if !slices.ContainsFunc(u.terms, func(t term) bool { return t.atom.parts != nil }) {
		return u
	}
	var terms []term
	for _, t := range u.terms {
		if t.atom.parts == nil {
			terms = append(terms, t)
		}
		for _, part := range t.atom.parts {
			terms = append(terms, term{part.atom, part.power * t.power})
		}
	}
	return Unit{terms}.merged()
}

// IsArc tells whether this is the unit of an angle times a length.
func (u Unit) IsArc() bool { return u.Dimension() == Dimension{length: 1, angle: 1} }

// inWords writes the unit as the language reads it, but days for d, which a lesson may have as a name.
func (u Unit) inWords() string {
	return u.format(func(t term) string {
		if t.atom.easily {
			return t.atom.spoken[1]
		}
		return t.atom.symbol
	}, func(n int) string { return "^" + itoa(n) })
}

// taken is the problem of a literal whose unit is called as a value of the lesson is, such as 2 d: it could be either.
// Nobody means a height by km/h.
func (ev *evaluator) taken(e *Literal) *Error {
	for i, t := range e.Unit.terms {
		name := t.atom.symbol
		if _, defined := ev.env[name]; !defined || name != e.letter {
			continue
		}
		if t.power < 0 && i > 0 && slices.Contains([]string{"km", "mi"}, e.Unit.terms[i-1].atom.symbol) {
			continue
		}
		words := t.atom.spoken[1]
		hint := "write " + e.Number.Text + " × " + name + " for yours, or " + e.Number.Text + " " + words + " for the unit"
		if len(e.Unit.terms) > 1 {
			hint = "put blanks round the sign before it for yours, or write " + words + " for the unit"
		}
		return &Error{Span: e.At, Slug: "unit-or-name", Name: name,
			What: "“" + name + "” is a name of this lesson, and also the unit of " + t.atom.dim.String(), Hint: hint}
	}
	return nil
}
