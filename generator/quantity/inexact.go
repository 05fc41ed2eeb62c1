package quantity

// This file tells where π is in a calculation: a class takes 3.14 for it, and is right to.

// HasPi tells whether π is in an expression as it is worked out: written there, in the definition of a
// formula that it uses, or in the radians that one of its numbers is in.
func HasPi(e Expr, env Env) bool {
	found := false
	Walk(e, func(e Expr) {
		switch e := e.(type) {
		case *Call:
			f := e.Formula()
			found = found || f != nil && f.long != nil && HasPi(f.body(len(e.Args)), nil)
		case *Literal:
			found = found || e.Unit.hasPi()
		case *Name:
			found = found || e.Text == "pi" || unitOfValue(env[e.Text]).hasPi()
		}
	})
	return found
}

// hasPi tells whether the unit holds radians, of which 2π make one rotation.
func (u Unit) hasPi() bool {
	for _, t := range u.terms {
		if t.atom.perTwoPi {
			return true
		}
	}
	return false
}

func unitOfValue(v Value) Unit {
	switch v := v.(type) {
	case Quantity:
		return v.Unit
	case Record:
		return v.Unit
	}
	return Unit{}
}
