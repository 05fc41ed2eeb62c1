package quantity

// This file works an expression out for a page that knows its numbers only later.

// slot is the place of what an expression comes to in the target's unit.
func (w *worker) slot(e Expr, t Target) Math {
	p, u, err := Compile(e, w.env, w.varies, t)
	if err != nil {
		return Word{"…"}
	}
	return Slot{Program: p, Step: t.Step, Unit: u.Symbol(), Larger: t.Larger()}
}

// finishOpen is finish with slots. Whether two lines come to the same digits is not known
// yet, so both are there, and the page leaves one out.
func (w *worker) finishOpen(steps []WorkedStep, e Expr, q Quantity) []WorkedStep {
	natural := w.inPreferred(q.Unit, false)
	if w.counting && w.target.HasUnit { // nobody reads rotations × °
		natural = w.target.Unit
	}
	add := func(kind StepKind, relation string, t Target) {
		steps = append(steps, WorkedStep{Kind: kind, Relation: relation, Right: w.slot(e, t)})
	}
	add(ResultStep, "=", Target{Unit: natural, HasUnit: true})
	wanted := natural
	if w.target.HasUnit && !w.target.Unit.Equal(natural) {
		wanted = w.target.Unit
		add(ResultStep, "=", Target{Unit: wanted, HasUnit: true})
	}
	if !w.target.Step.IsZero() || !w.target.Over.IsNumber() {
		add(RoundedStep, "≈", Target{Unit: wanted, HasUnit: true, Step: w.target.Step, Over: w.target.Over})
	}
	for next := w.target.Also; next != nil; next = next.Also {
		add(RoundedStep, "≈", *next)
	}
	return steps
}
