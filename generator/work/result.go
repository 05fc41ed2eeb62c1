package work

// What a statement or a value in prose comes to, and how it is written.

import "trundle/generator/quantity"

// Result is what a statement or a value in prose comes to.
type Result struct {
	Value      quantity.Value // in the unit asked for; Unknown if it has a problem of its own
	Target     quantity.Target
	Written    string          // how the lesson writes it, of a quantity that is not worked out: 21 1/2 in
	Guessed    bool            // a prediction, or made of one: a unit and no number, and its Value is Unknown
	unit       quantity.Unit   // of what is guessed
	OfStudents bool            // depends on what a student measures, records or finds
	Varies     bool            // from team to team: OfStudents, or depends on the kit
	Inexact    bool            // of a given or find: rounded numbers are calculated with, such as 3.14 for π
	Live       Live            // of a given or a value in prose that varies: how the students' page works it out
	Key        *Key            // of a find that has one
	Doubt      *quantity.Doubt // of a find whose uncertainty first order misleads about

	// Steps lead from a find's formula to its value, with the sample's numbers.
	Steps []quantity.WorkedStep
}

// Quantity gives the value if it is a single one.
func (r *Result) Quantity() (quantity.Quantity, bool) {
	q, ok := r.Value.(quantity.Quantity)
	return q, ok
}

// Text writes the value as its target asks, or as the lesson does; "" if there is none.
func (r *Result) Text() string {
	q, ok := r.Quantity()
	if !ok {
		return ""
	}
	if r.Written != "" {
		return r.Written
	}
	return quantity.ShowText(q, r.Target)
}

// Unit writes the unit that the value is shown in, that of its readings for a record.
func (r *Result) Unit() string {
	switch v := r.Value.(type) {
	case quantity.Quantity:
		return quantity.ShowUnit(v, r.Target)
	case quantity.Record:
		return v.Unit.Symbol()
	}
	return r.unit.Symbol()
}

// AllTexts are all ways in which the value is shown, each alone: 20.4 cm and 8 1/16 in; of 5 ft 10 in also 70 in.
func (r *Result) AllTexts() []string {
	texts := []string{r.Text()}
	q, ok := r.Quantity()
	if !ok || r.Target.Also == nil && r.Target.Over.IsNumber() {
		return texts
	}
	texts = nil
	for t := &r.Target; t != nil; t = t.Also {
		alone := *t
		alone.Also = nil
		texts = append(texts, quantity.ShowText(q, alone))
		if alone.Over = (quantity.Unit{}); !t.Over.IsNumber() {
			texts = append(texts, quantity.ShowText(q, alone))
		}
	}
	return texts
}

// Asked names the units of the box that the value is asked for in: "cm", "ft in", "cm or in".
func (r *Result) Asked() string {
	if r.IsTruth() {
		return ""
	}
	return r.Target.Label(r.Unit())
}

// IsTruth tells whether the value is yes or no.
func (r *Result) IsTruth() bool {
	u, ok := r.kind()
	return ok && u.IsTruth()
}

// UnitBehind writes the unit that stands behind the value, or behind a blank for it: yes and no have none.
func (r *Result) UnitBehind() string {
	if r.IsTruth() {
		return ""
	}
	return r.Unit()
}
