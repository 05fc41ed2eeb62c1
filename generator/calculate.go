package generator

// This file works out a single expression that is in no lesson.

import (
	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Calculation is one expression outside any lesson: EXPR [in UNIT] [to STEP].
type Calculation struct {
	Value  quantity.Quantity // in the unit asked for
	Target quantity.Target
	Steps  []quantity.WorkedStep
	Doubt  string // what first order misleads about, "" if it does not
	Vapour bool   // the value depends on an estimate of vapour, and must not be shown without saying what that is
}

// Calculate reads an expression as a lesson's prose does and works it out. It knows no names but those of formulas and
// units, since there is no lesson and no kit around it.
func Calculate(text string) (Calculation, []problem.Problem) {
	f := source.NewFile("expression", []byte(text))
	var list problem.List
	s := Calculation{}
	e := s.parse(text, f, &list)
	if list.HasErrors() {
		return s, list.Sorted()
	}
	v, errs := quantity.Eval(e, quantity.Env{})
	for _, err := range errs {
		list.FromQuantity(f, err)
	}
	q, ok := v.(quantity.Quantity)
	if !ok {
		return s, list.Sorted()
	}
	s.Value, s.Steps = q, quantity.Worked("", e, quantity.Env{}, s.Target)
	s.Vapour = lesson.VapourCall(e) != nil
	if !s.Target.HasUnit {
		s.doubt(e)
		return s, nil
	}
	if s.Value, ok = q.In(s.Target.Unit); !ok {
		list.Error(f, source.Span(s.Target.UnitAt), "mixed-dimensions",
			"this comes out as "+q.Unit.Dimension().String()+" and cannot be given in "+s.Target.Unit.String(),
			"ask for a unit such as "+quantity.ExampleUnits(q.Unit.Dimension()))
		return s, list.Sorted()
	}
	s.doubt(e)
	return s, nil
}

// doubt says where first order misleads about the value.
func (s *Calculation) doubt(e quantity.Expr) {
	const points = 2000
	q := s.Value
	d, misleads := quantity.FirstOrderDoubt(q, points, func(moved map[string]float64) (float64, bool) {
		v, errs := quantity.EvalMoved(e, quantity.Env{}, moved)
		y, ok := v.(quantity.Quantity)
		if len(errs) > 0 || !ok {
			return 0, false
		}
		y, ok = y.In(q.Unit)
		return y.Number, ok
	})
	if misleads {
		what, hint := check.Misleads("the ±", q, d)
		s.Doubt = what + "; " + hint
	}
}

// parse reads the expression, and into s the unit and step that are asked for.
func (s *Calculation) parse(text string, f *source.File, list *problem.List) quantity.Expr {
	parser := quantity.NewParser(text, func(i int) int { return i })
	e, err := parser.Expr()
	if err == nil {
		s.Target, err = parser.Targets()
	}
	if err == nil {
		err = parser.End()
	}
	if err != nil {
		list.FromQuantity(f, err)
	}
	return e
}
