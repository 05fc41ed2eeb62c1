package quantity_test

import (
	"slices"

	"trundle/generator/quantity"
)

// bench is a set of values such as a lesson binds.
func bench() quantity.Env {
	mm, cm := unit("mm"), unit("cm")
	return quantity.Env{
		"d":         quantity.Measured("d", 65, 0.5, mm),
		"L":         quantity.New(120, cm),
		"kit.wheel": quantity.Measured("kit.wheel", 56, 0.5, mm),
		"kit.track": quantity.Measured("kit.track", 112, 1, mm),
		"gear":      quantity.New(3, quantity.Unit{}),
		"t":         quantity.New(6, unit("s")),
		"x":         quantity.Measured("x", 2.5, 0.25, quantity.Unit{}),
		"z":         quantity.Measured("z", 0, 1, quantity.Unit{}),
		"s":         quantity.Record{Name: "s", Numbers: []float64{118.8, 120.3, 119.6, 121, 119.1}, Unit: cm},
		"gone":      quantity.Unknown{},
	}
}

// unit reads a unit that the test itself writes; "" is that of a plain number.
func unit(s string) quantity.Unit {
	if s == "" {
		return quantity.Unit{}
	}
	u, err := quantity.ParseUnit(s)
	if err != nil {
		panic(s + ": " + err.What)
	}
	return u
}

// step reads a rounding step that the test itself writes.
func step(s string) quantity.Rounding {
	e, err := quantity.ParseExpr(s)
	if err != nil {
		panic(s + ": " + err.What)
	}
	return e.(*quantity.Literal).Number.Step()
}

func target(in, to string) quantity.Target {
	t := quantity.Target{Unit: unit(in), HasUnit: in != ""}
	if to != "" {
		t.Step = step(to)
	}
	return t
}

// failer is what the helpers need of a test or of a drawn property.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

func parsed(t failer, text string) quantity.Expr {
	t.Helper()
	e, err := quantity.ParseExpr(text)
	if err != nil {
		t.Fatalf("%s: %s", text, err.What)
	}
	return e
}

func worth(t failer, text string, env quantity.Env) quantity.Quantity {
	t.Helper()
	v, errs := quantity.Eval(parsed(t, text), env)
	for _, err := range errs {
		t.Fatalf("%s: %s", text, err.What)
	}
	q, ok := v.(quantity.Quantity)
	if !ok {
		t.Fatalf("%s comes to a %T", text, v)
	}
	return q
}

// sameTree compares two trees in everything but their places in the text.
func sameTree(a, b quantity.Expr) bool {
	switch a := a.(type) {
	case *quantity.Literal:
		b, ok := b.(*quantity.Literal)
		return ok && sameNumber(a.Number, b.Number) && a.Unit.Equal(b.Unit) &&
			sameNumber(a.Uncertainty, b.Uncertainty) && a.UncertaintyUnit.Equal(b.UncertaintyUnit)
	case *quantity.Name:
		b, ok := b.(*quantity.Name)
		return ok && a.Text == b.Text
	case *quantity.Unary:
		b, ok := b.(*quantity.Unary)
		return ok && sameTree(a.Operand, b.Operand)
	case *quantity.Binary:
		b, ok := b.(*quantity.Binary)
		return ok && a.Op == b.Op && sameTree(a.Left, b.Left) && sameTree(a.Right, b.Right)
	case *quantity.Comparison:
		b, ok := b.(*quantity.Comparison)
		return ok && a.Op == b.Op && sameTree(a.Left, b.Left) && sameTree(a.Right, b.Right) &&
			(a.Within == nil && b.Within == nil || a.Within != nil && b.Within != nil && sameTree(a.Within, b.Within))
	case *quantity.Reading:
		b, ok := b.(*quantity.Reading)
		return ok && a.Record.Text == b.Record.Text && a.Number == b.Number
	case *quantity.Call:
		b, ok := b.(*quantity.Call)
		return ok && a.Name == b.Name && slices.EqualFunc(a.Args, b.Args, sameTree)
	}
	return false
}

func sameNumber(a, b quantity.Number) bool {
	if a.Exact == nil || b.Exact == nil {
		return a.Exact == nil && b.Exact == nil
	}
	return a.Exact.Cmp(b.Exact) == 0 && a.Place.Cmp(b.Place) == 0
}
