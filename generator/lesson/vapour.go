package lesson

// What the pack says of an estimate of vapour: which formula it is, and the limits on its cards.

import (
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// VapourFormula is the formula that estimates vapour in a room. Its result may only be
// shown to mentors, with what it means.
const VapourFormula = "vapour_ppm"

// Limit is a published exposure limit, of a care card's substance.
type Limit struct {
	PPM    float64
	Text   string // as written: 200 ppm
	Source string // who published it
	At     source.Span
}

// VapourCall finds the first use of the vapour formula in a sum, nil if there is none.
func VapourCall(e quantity.Expr) *quantity.Call {
	var found *quantity.Call
	if e == nil {
		return nil
	}
	quantity.Walk(e, func(e quantity.Expr) {
		if call, ok := e.(*quantity.Call); ok && call.Name == VapourFormula && found == nil {
			found = call
		}
	})
	return found
}

// IsVapour tells whether a statement is a find that comes to what the vapour formula gives,
// and to nothing made of it.
func (s *Statement) IsVapour() bool {
	call, ok := s.Expr.(*quantity.Call)
	return ok && s.Kind == Find && call.Name == VapourFormula
}

// Unlimited gives the cards of a lesson that have hazards and no exposure limit.
func (p *Pack) Unlimited(l *Lesson) []*Card {
	var cards []*Card
	for _, ref := range l.Care {
		if c, ok := p.Card(ref.Value); ok && c.Lowest() == nil && len(c.Hazards) > 0 {
			cards = append(cards, c)
		}
	}
	return cards
}

// Lowest is the lower of a card's limits, nil if it has none. Whoever may be in the room, it is on the safe side.
func (c *Card) Lowest() *Limit {
	if c.Limit == nil || c.Everybody != nil && c.Everybody.PPM <= c.Limit.PPM {
		return c.Everybody
	}
	return c.Limit
}

// LowestLimit gives the card with the lowest exposure limit of those that a lesson carries,
// nil if none has one. Which substance a calculation is for is not known; the lowest is on the safe side.
func (p *Pack) LowestLimit(l *Lesson) *Card {
	var lowest *Card
	for _, ref := range l.Care {
		if c, ok := p.Card(ref.Value); ok && c.Lowest() != nil && (lowest == nil || c.Lowest().PPM < lowest.Lowest().PPM) {
			lowest = c
		}
	}
	return lowest
}
