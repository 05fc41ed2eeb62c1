package check

// Keys that do not agree with what the lesson works out, and why.

import (
	"math"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// keyProblem says that a key does not agree, by how much, and what it would match. The right value is written with as
// many places as the key has, so that it can be pasted over it.
func keyProblem(l *work.Lesson, find *lesson.Statement, k *work.Key) problem.Problem {
	unit := k.Value.Unit
	asKey := quantity.Target{Unit: unit, HasUnit: true, Step: placeOf(k.Statement.Literal)}
	computed := quantity.ShowText(k.Computed, asKey)
	// 20.4 against 20.4 would say nothing, so then all digits are shown.
	if computed == k.Amount() {
		computed = quantity.ShowText(k.Computed, quantity.Target{})
	}
	computed = l.Words.AsTyped(computed)
	gap := ", a difference of " +
		quantity.ShowText(quantity.New(math.Abs(k.Computed.Number-k.Value.Number), unit), quantity.Target{})
	if unit.IsTruth() {
		gap = ""
	}
	p := problem.Problem{
		Slug: "key-mismatch", File: l.File, Span: source.Span(k.Statement.Literal.At),
		What: "key " + k.Statement.Name + " = " + k.Text() + " does not agree; the lesson works out " + computed +
			gap,
		Hint: "write " + computed + ", or fix the formula or the values", Instead: computed,
		Related: []problem.Related{{File: l.File, Span: source.Span(find.Expr.Span()),
			What: find.Name + " is worked out here"}},
	}
	if match := diagnose(l, find, k); match != "" {
		p.Hint = k.Text() + " " + asSentence(match) + " " + strings.ToUpper(p.Hint[:1]) + p.Hint[1:]
	}
	return p
}

// fineKey says where a key's limit is finer than the answers that are asked for: a student who rounds as told would
// be off by up to half a step.
func fineKey(l *work.Lesson, find *lesson.Statement, problems *problem.List) {
	r := l.Of(find)
	q, ok := r.Quantity()
	if !ok || r.Key == nil || !r.Key.Compared || r.Key.Statement.Literal.Uncertainty.Exact == nil ||
		find.Target.Step.IsZero() {
		return
	}
	within, _ := quantity.New(r.Key.Within, r.Key.Value.Unit.Difference()).In(q.Unit)
	if math.Abs(within.Number) < find.Target.Step.Float()/2*(1-1e-9) {
		problems.Caution(l.File, source.Span(r.Key.Statement.Literal.At), "key-finer-than-step",
			"this limit is less than half of the step "+find.Target.Step.String()+" that "+find.Name+
				" is rounded to, so answers rounded as asked may be refused",
			"widen the limit, or ask for a smaller step")
	}
}

// asSentence ends a text with a full stop unless it has an end of its own.
func asSentence(s string) string {
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}

// placeOf gives the step of a number's last written place, such as 0.1 of 20.4.
func placeOf(lit *quantity.Literal) quantity.Rounding {
	return quantity.Number{Exact: lit.Number.Place}.Step()
}

// diagnose says which common mistake the key's value is, "" if none is known.
func diagnose(l *work.Lesson, find *lesson.Statement, k *work.Key) string {
	matches := func(x float64) bool {
		_, holds := work.Holds(x, k.Value.Number, k.Statement.Literal)
		return holds
	}
	for _, slip := range find.Slips {
		if q, ok := l.Of(slip).Quantity(); ok {
			if c, ok := q.In(k.Value.Unit); ok && matches(c.Number) {
				return "is the slip " + slip.Expr.String() + ": " + slip.Prompt
			}
		}
	}
	if k.Value.Unit.IsTruth() {
		return "" // there is only one other answer
	}
	// The surest guess comes first: a slip that the coach wrote, a unit, a radius, then the number.
	if what := otherUnit(k, matches); what != "" {
		return what
	}
	if what := radius(l, find, k, matches); what != "" {
		return what
	}
	if x := k.Computed.Number; quantity.HasPi(find.Expr, l.Env) && (matches(x*3/math.Pi) || matches(x*math.Pi/3)) {
		return "takes 3 for π"
	}
	return ofTheNumber(k.Computed.Number, matches)
}

// otherUnit looks for the unit of the same kind that makes the key's number right.
func otherUnit(k *work.Key, matches func(float64) bool) string {
	for _, symbol := range quantity.UnitsOf(k.Value.Unit.Dimension()) {
		u, _ := quantity.LookupUnit(symbol)
		if u.Equal(k.Value.Unit) {
			continue
		}
		if c, ok := k.Computed.In(u); ok && matches(c.Number) {
			return "is right in another unit: " +
				quantity.Shown{Number: k.Statement.Literal.Number.Text, Unit: u.Symbol()}.Text()
		}
	}
	return ""
}

// radius tries the find with each diameter halved or doubled. It is the formulas' parameter that is scaled, and not a
// name of the lesson: whatever a lesson calls its wheel, a formula knows what it takes it for.
func radius(l *work.Lesson, find *lesson.Statement, k *work.Key, matches func(float64) bool) string {
	for _, try := range []struct {
		factor float64
		what   string
	}{
		{0.5, "is what a radius gives where a diameter belongs"},
		{2, "is what twice the diameter gives"},
	} {
		v, errs := quantity.EvalScaled(find.Expr, l.Env, "diameter", try.factor)
		q, ok := v.(quantity.Quantity)
		if len(errs) > 0 || !ok {
			continue
		}
		if c, ok := q.In(k.Value.Unit); ok && c.Number != k.Computed.Number && matches(c.Number) {
			return try.what
		}
	}
	return ""
}

// ofTheNumber looks for mistakes that can be seen from the computed number alone. The order is from the particular to
// the common: half and twice before powers of ten, so that the first that matches is the likeliest.
func ofTheNumber(x float64, matches func(float64) bool) string {
	for _, try := range []struct {
		x    float64
		what string
	}{
		{-x, "has the wrong sign"},
		{1 / x, "is upside down"},
		{x / 2, "is half of that"},
		{2 * x, "is twice that"},
		{x * 100, "is off by a factor of 100"},
		{x / 100, "is off by a factor of 100"},
		{x * 10, "is off by a factor of 10"},
		{x / 10, "is off by a factor of 10"},
		{x * 1000, "is off by a factor of 1000"},
		{x / 1000, "is off by a factor of 1000"},
	} {
		if !math.IsInf(try.x, 0) && x != 0 && matches(try.x) {
			return try.what
		}
	}
	return ""
}
