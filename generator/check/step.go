package check

// Steps that are larger than a coach can have meant, and keys that are coarser than the answers asked for.

import (
	"math"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// fewSteps is how many steps a value has at least if its step was meant as a step: "to 2" of 11 rotations nearly
// always means two decimals. Common practice, no source.
const fewSteps = 20

// coarseSteps looks at what is asked for and what is shown.
func coarseSteps(l *work.Lesson, problems *problem.List) {
	for _, s := range l.Finds {
		if q, ok := l.Of(s).Quantity(); ok {
			coarseStep(l, s.At, s.Target.Step, q.Number, problems, "to")
		}
	}
	for _, s := range l.Finds {
		coarseRound(l, s.Expr, problems)
	}
	for _, v := range l.Shown {
		coarseRound(l, v.Expr, problems)
		if q, ok := l.OfValue(v).Quantity(); ok {
			coarseStep(l, v.At, v.Target.Step, q.Number, problems, "to")
		}
	}
}

// coarseStep reports a step such as 2 or 3 of a small value. 5 and 10 are steps that people round to.
func coarseStep(
	l *work.Lesson, at source.Span, step quantity.Rounding, value float64, problems *problem.List, said string,
) {
	size := step.Float()
	if step.IsZero() || step.IsFraction() || size != math.Trunc(size) || size < 2 || size > 9 || size == 5 ||
		math.Abs(value) >= fewSteps*size {
		return
	}
	decimals := quantity.FormatPlaces(math.Pow10(-int(size)), int(size))
	problems.Caution(l.File, at, "step-coarse",
		"“"+said+" "+step.String()+"” rounds this to "+quantity.FormatPlain(step.Round(value))+", in steps of "+step.String(),
		"for "+step.String()+" decimals write  "+said+" "+decimals)
}

// coarseRound reports round(x, 2) of a small number, which comes to a multiple of 2 and not to two decimals.
func coarseRound(l *work.Lesson, e quantity.Expr, problems *problem.List) {
	quantity.Walk(e, func(e quantity.Expr) {
		call, ok := e.(*quantity.Call)
		if !ok || call.Name != "round" || len(call.Args) != 2 {
			return
		}
		v, errs := quantity.Eval(call.Args[0], l.Env)
		x, number := v.(quantity.Quantity)
		step, written := call.Args[1].(*quantity.Literal)
		if len(errs) == 0 && number && written {
			coarseStep(l, source.Span(call.Span()), step.Number.Step(), x.Number, problems, "round …,")
		}
	})
}

// coarseKey reports a key that has fewer places than students are asked for, where the places would show: it
// agrees with answers that are wrong.
func coarseKey(l *work.Lesson, find *lesson.Statement, problems *problem.List) {
	r := l.Of(find)
	q, ok := r.Quantity()
	step := find.Target.Step
	if !ok || r.Key == nil || !r.Key.Compared || !r.Key.Holds || step.IsZero() ||
		r.Key.Statement.Literal.Uncertainty.Exact != nil {
		return
	}
	place, _ := quantity.New(placeOf(r.Key.Statement.Literal).Float(), r.Key.Value.Unit.Difference()).In(q.Unit)
	key, _ := r.Key.Value.In(q.Unit)
	asked := step.Round(q.Number)
	if place.Number <= step.Float()*(1+1e-9) || math.Abs(key.Number-asked) <= 1e-9*math.Abs(asked) {
		return
	}
	problems.Caution(l.File, source.Span(r.Key.Statement.Literal.At), "key-coarse",
		"this key is coarser than the step "+step.String()+" that "+find.Name+" is rounded to, so it proves little",
		"write the answer as students are to give it, "+
			l.Words.AsTyped(quantity.ShowText(q, find.Target)))
}
