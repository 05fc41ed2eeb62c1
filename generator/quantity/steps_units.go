package quantity

// Which unit the steps bring each kind of quantity to.

import "slices"

// prefer settles on one unit for each kind of quantity: the one asked for, unless a
// record fixes it; for angles and whatever is not asked for, the first one met. Where a formula counts
// rotations, angles become rotations: 720° × π × 65 mm would be another number on a calculator.
func (w *worker) prefer(asWritten, e Expr) {
	w.counting = w.countsAngles(e)
	if w.countsDegrees(asWritten) {
		w.preferred = append(w.preferred, atomByName["rot"])
	}
	choose := func(u Unit) {
		for _, t := range u.terms {
			if !slices.ContainsFunc(w.preferred, func(a *atom) bool { return a.dim == t.atom.dim }) {
				w.preferred = append(w.preferred, t.atom)
			}
		}
	}
	Walk(e, func(e Expr) {
		if n, ok := e.(*Name); ok {
			if r, ok := w.env[n.Text].(Record); ok {
				choose(r.Unit)
			}
		}
	})
	for _, t := range w.target.Unit.terms {
		if t.atom.dim != angleDim {
			choose(Unit{[]term{t}})
		}
	}
	Walk(e, func(e Expr) {
		if _, q, ok := w.leaf(e); ok {
			choose(q.Unit)
		}
	})
}

// countsAngles tells whether rotations are multiplied by degrees, as in 3 rot × 360°.
func (w *worker) countsAngles(e Expr) bool {
	found := false
	Walk(e, func(e Expr) {
		product, ok := e.(*Binary)
		if !ok || product.Op != '*' {
			return
		}
		left, _ := Eval(product.Left, w.env)
		right, _ := Eval(product.Right, w.env)
		a, okA := left.(Quantity)
		b, okB := right.(Quantity)
		if u, _ := a.Unit.times(b.Unit, 1); okA && okB && u.Dimension()[angle] == 2 {
			found = found || !u.countsRotations() && slices.Contains(u.terms, term{rotation, 1})
		}
	})
	return found
}

// countsDegrees tells whether a formula is given an angle in another unit where it counts rotations.
func (w *worker) countsDegrees(e Expr) bool {
	found := false
	degrees := func(e Expr) {
		if _, q, ok := w.leaf(e); ok && slices.ContainsFunc(q.Unit.terms, func(t term) bool {
			return t.atom.dim == angleDim && t.atom.symbol != "rot"
		}) {
			found = true
		}
	}
	Walk(e, func(e Expr) {
		call, ok := e.(*Call)
		if !ok || call.Formula() == nil {
			return
		}
		for i, p := range call.Formula().Params {
			if p.Count && i < len(call.Args) && !givesDegrees(call.Args[i]) {
				Walk(call.Args[i], degrees)
			}
		}
	})
	return found
}

// inPreferred returns the unit made of the preferred ones. A result that is called
// rotations stays so, whatever unit the angles in the sum have.
func (w *worker) inPreferred(u Unit, angles bool) Unit {
	terms := slices.Clone(u.terms)
	for i, t := range terms {
		for _, a := range w.preferred {
			if a.dim == t.atom.dim && a.dim != (Dimension{}) && (angles && !w.counting || a.dim != angleDim) {
				terms[i].atom = a
			}
		}
	}
	return Unit{terms}
}
