package quantity

// This file lays out comparisons, and calculations that are done reading by reading.

// with gives the comparison with its parts changed.
func (e *Comparison) with(change func(Expr) Expr) *Comparison {
	c := &Comparison{Op: e.Op, Left: change(e.Left), Right: change(e.Right), OpAt: e.OpAt}
	if e.Within != nil {
		c.Within = change(e.Within)
	}
	return c
}

// comparison writes a comparison: e < 5 %, x within 2 cm of L.
func (l layout) comparison(e *Comparison) Math {
	left, right := l.operand(e.Left, sumLevel), l.operand(e.Right, sumLevel)
	if e.Op != limitWord {
		return Row{[]Math{left, Sign{e.Op}, right}}
	}
	return Row{[]Math{left, Sign{limitWord}, l.operand(e.Within, sumLevel), Sign{"of"}, right}}
}

// oneByOne lays out a calculation for each reading of the records in it: (a₁ − b₁), (a₂ − b₂), …; nothing where they
// are too many to be written out.
func (l layout) oneByOne(e Expr, r Record) []Math {
	symbols := l.value == nil
	if l.readings == nil || !symbols && l.readings(r) == nil {
		return nil
	}
	const written = 3
	n := len(r.Numbers)
	var all []Math
	for i := 1; i <= n; i++ {
		if symbols && n > written && 2 < i && i < n {
			if i == written {
				all = append(all, Word{"…"})
			}
			continue
		}
		all = append(all, l.operand(readingsAt(e, l.env, i), productLevel))
	}
	return all
}

// readingsAt puts one reading of each record in its place. What is within a statistic stays.
func readingsAt(e Expr, env Env, i int) Expr {
	at := func(e Expr) Expr { return readingsAt(e, env, i) }
	switch e := e.(type) {
	case *Name:
		if _, ok := env[e.Text].(Record); ok {
			return &Reading{At: e.At, Record: e, Number: i}
		}
	case *Unary:
		return &Unary{e.At, at(e.Operand)}
	case *Binary:
		return &Binary{e.Op, at(e.Left), at(e.Right), e.OpAt}
	case *Comparison:
		return e.with(at)
	case *Call:
		if f := functions[e.Name]; f == nil || f.native == nil {
			return e
		}
		args := make([]Expr, len(e.Args))
		for k, a := range e.Args {
			args[k] = at(a)
		}
		return &Call{e.At, e.NameAt, e.Name, args, e.words, nil}
	}
	return e
}
