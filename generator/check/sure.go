package check

// Where the ± of a find misleads, and slips that cannot be told apart.

import (
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// doubt says where the ± of a find misleads. It is a caution: the value may be right, and a coach may know why the
// spread of an input is that wide.
func doubt(l *work.Lesson, s *lesson.Statement, problems *problem.List) {
	r := l.Of(s)
	if q, ok := r.Quantity(); ok && r.Doubt != nil && !onDoubtfulChoice(l, s) {
		what, hint := Misleads("the ± of "+s.Name, q, *r.Doubt)
		problems.Caution(l.File, source.Span(s.Expr.Span()), "first-order", what, hint)
	}
}

// onDoubtfulChoice tells whether a find goes by a yes or no that is doubtful, and reported, itself.
func onDoubtfulChoice(l *work.Lesson, s *lesson.Statement) bool {
	return slices.ContainsFunc(quantity.Names(s.Expr), func(name string) bool {
		other := l.Named(name)
		return other != nil && other.Kind == lesson.Find && l.Of(other).IsTruth() && l.Of(other).Doubt != nil
	})
}

// doubtInProse does the same for a value in prose or filled code that is not the name of a find.
func doubtInProse(l *work.Lesson, problems *problem.List) {
	for _, v := range l.Shown {
		r := l.OfValue(v)
		if q, ok := r.Quantity(); ok && r.Doubt != nil {
			what, hint := Misleads("the ± of this value", q, *r.Doubt)
			problems.Caution(l.File, source.Span(v.Expr.Span()), "first-order", what, hint)
		}
	}
}

// Misleads says that first order misleads about a value, and what is nearer. The subject is what misleads.
func Misleads(subject string, q quantity.Quantity, d quantity.Doubt) (what, hint string) {
	_, u := quantity.FormatUncertain(q.Number, q.Uncertainty())
	if u == "" { // to first order there is none at all
		u = "0"
	}
	if q.Unit.IsTruth() {
		return "whether " + strings.TrimPrefix(subject, "the ± of ") + " is yes or no is not sure: by what its inputs may " +
			"be off, it could be either", "measure more closely, or compare with something further away"
	}
	hint = "measure more closely, or do not rely on this ±"
	what = subject + " misleads: over the range of its inputs the formula is too curved"
	switch {
	case d.Broken:
		what = subject + " misleads: over the range of its inputs the formula has no value in places"
	case math.Abs(d.MeanShift) > math.Abs(d.Uncertainty-q.Uncertainty()):
		hint = "on average it comes out " + twoDigits(math.Abs(d.MeanShift), q) + direction(d.MeanShift) +
			", ± " + twoDigits(d.Uncertainty, q) + "; " + hint
	case q.Uncertainty() == 0:
		what = subject + " misleads: over the range of its inputs the formula has a step, or is too curved"
		hint = "± " + twoDigits(d.Uncertainty, q) + " is nearer than ± " + u + "; " + hint
	default: // the width is off and not the middle
		hint = "± " + twoDigits(d.Uncertainty, q) + " is nearer than ± " + u + "; " + hint
	}
	return what, hint
}

// direction goes on after a difference: "0.3 cm more".
func direction(shift float64) string {
	if shift > 0 {
		return " more"
	}
	return " less"
}

// twoDigits writes a part of an uncertainty. More digits of it would claim to be known than are.
func twoDigits(x float64, q quantity.Quantity) string {
	return quantity.Shown{Number: quantity.FormatSignificant(x, 2), Unit: q.Unit.Symbol()}.Text()
}

// apart is what tells a slip from the answer, off by so much: where it is the limit of the key that takes both in, no
// example values help.
func apart(r *work.Result, find *lesson.Statement, off float64) string {
	limited := r.Key != nil && r.Key.Statement.Literal.Uncertainty.Exact != nil
	if step := find.Target.Step; limited && (step.IsZero() || math.Abs(off) > step.Float()) {
		return "the limit of the key takes both in: narrow it, choose other example values, or leave the slip out"
	}
	return "choose example values that tell them apart, or leave the slip out"
}

// slips says which slips a right answer could be taken for, with the example values.
func slips(l *work.Lesson, find *lesson.Statement, problems *problem.List) {
	right, ok := l.Of(find).Quantity()
	if !ok {
		return
	}
	tolerance := l.Tolerance(find) // the one that the page judges answers by
	for i, s := range find.Slips {
		wrong, ok := l.Of(s).Quantity()
		if !ok {
			continue
		}
		if wrong, ok = wrong.In(right.Unit); !ok { // of another kind, so that no answer is taken for it
			continue
		}
		if tolerance.Near(wrong.Number, right.Number) {
			problems.Caution(l.File, source.Span(s.Expr.Span()), "slip-like-answer",
				"with the example values this slip cannot be told from the right answer, "+l.Of(find).Text(),
				apart(l.Of(find), find, wrong.Number-right.Number))
		}
		for _, other := range find.Slips[:i] { // the page gives the hint of the first that fits
			o, ok := l.Of(other).Quantity()
			if !ok {
				continue
			}
			if o, ok = o.In(right.Unit); ok && tolerance.Near(wrong.Number, o.Number) {
				problems.Caution(l.File, source.Span(s.Expr.Span()), "slip-like-slip",
					"with the example values this slip comes to the same as the one above, "+l.Of(other).Text(),
					"a student would get the first hint for both; keep one")
			}
		}
	}
}
