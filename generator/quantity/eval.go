package quantity

// This file works expressions out: the tree is walked once, and every mistake in it is
// reported, not only the first.

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"
)

// Env holds the values that an expression may name.
type Env map[string]Value

// Eval works an expression out. It gives Unknown together with every error found,
// so that two unknown names in one expression are reported together; an operand that is
// Unknown already adds no further error.
func Eval(e Expr, env Env) (Value, []*Error) {
	ev := evaluator{env: env}
	v := ev.eval(e)
	if len(ev.errs) > 0 {
		return Unknown{}, ev.errs
	}
	return v, nil
}

// An evaluator collects what goes wrong, so that work on one operand goes on after a
// mistake in another.
type evaluator struct {
	env    Env
	errs   []*Error
	scaled string // see EvalScaled
	factor float64
	moved  map[string]float64 // see EvalMoved
}

func (ev *evaluator) fail(at Span, slug, what, hint string) Value {
	ev.errs = append(ev.errs, &Error{Span: at, Slug: slug, What: what, Hint: hint})
	return Unknown{}
}

func (ev *evaluator) eval(e Expr) Value {
	switch e := e.(type) {
	case *Literal:
		return ev.literal(e)
	case *Name:
		return ev.name(e)
	case *Unary:
		return ev.each(e, []Expr{e.Operand}, func([]Value) bool { return true }, func(q []Quantity) Value {
			if !ev.allNumbers([]Expr{e.Operand}, q) {
				return Unknown{}
			}
			return q[0].Negative()
		})
	case *Comparison:
		return ev.comparison(e)
	case *Reading:
		return ev.reading(e)
	case *Binary:
		return ev.binary(e)
	case *Call:
		return ev.call(e)
	}
	panic("quantity: an expression of no known kind")
}

// quantity works out an operand that must be one number.
func (ev *evaluator) quantity(e Expr) (Quantity, bool) {
	switch v := ev.eval(e).(type) {
	case Quantity:
		return v, true
	case Record:
		ev.fail(e.Span(), "record-as-number",
			quote(e.String())+" is a record of "+itoa(len(v.Numbers))+" readings, not one value",
			"take one value of it, such as mean("+e.String()+")")
	}
	return Quantity{}, false
}

func (ev *evaluator) literal(e *Literal) Value {
	if err := ev.taken(e); err != nil {
		ev.errs = append(ev.errs, err)
		return Unknown{}
	}
	input := literalInput + itoa(e.At.Start)
	q, err := e.Quantity(input)
	if err != nil {
		ev.errs = append(ev.errs, err)
		return Unknown{}
	}
	if by := ev.moved[input]; by != 0 {
		return New(q.Number+float64(by*q.Share(input)), q.Unit)
	}
	return q
}

// literalInput begins the name of an input that is a ± in an expression; its place follows, which no other has.
const literalInput = "literal "

// Quantity returns the literal's value, its ± as the standard uncertainty of the named input. Of a limit all values
// within it count as equally likely, so that its standard uncertainty is the limit over √3 (JCGM 100:2008, 4.3.7).
func (e *Literal) Quantity(input string) (Quantity, *Error) {
	q := New(e.Number.Float(), e.Unit)
	q.written = e.Number.Text
	if e.Uncertainty.Exact == nil {
		return q, nil
	}
	u, ok := New(e.Uncertainty.Float(), e.UncertaintyUnit.Difference()).In(e.Unit.Difference())
	if !ok {
		return Quantity{}, &Error{Span: e.At, Slug: "mixed-dimensions",
			What: "the " + e.sureNoun() + " is " + e.UncertaintyUnit.Dimension().String() + ", its number " +
				e.Unit.Dimension().String(),
			Hint: "give both in units of one kind"}
	}
	if e.Limit {
		u.Number /= math.Sqrt(3)
	}
	measured := Measured(input, q.Number, u.Number, q.Unit)
	measured.written = q.written
	return measured, nil
}

func (e *Literal) sureNoun() string {
	if e.Limit {
		return "limit"
	}
	return "±"
}

// name looks a name up. A formula without its brackets is a common slip, and has a hint of
// its own.
func (ev *evaluator) name(e *Name) Value {
	if e.Text == "pi" {
		return New(math.Pi, Unit{})
	}
	if v, ok := ev.env[e.Text]; ok {
		return v
	}
	if v, ok := truths[e.Text]; ok {
		return v
	}
	defined := slices.Collect(maps.Keys(ev.env))
	err := &Error{Span: e.At, Slug: "unknown-name", What: "nothing is called " + quote(e.Text) + " yet", Name: e.Text}
	near := Nearest(e.Text, defined)
	err.Hint, err.Instead = cmp.Or(meant(near), "define it first with given, measure, record or find"), only(near)
	record := strings.TrimRight(e.Text, "0123456789")
	if _, ok := ev.env[record].(Record); ok && record != e.Text {
		err.Hint, err.Instead = "for one reading of "+record+" write "+record+"["+e.Text[len(record):]+"]", ""
	}
	_, isFormula := functions[e.Text]
	a := readable(e.Text)
	switch {
	case isFormula && a != nil && a.symbol == e.Text: // 120 rot / min
		err.Hint = "as a unit it is written without blanks, as in rot/min; the formula is written " + e.Text + "(…)"
	case isFormula:
		err.Hint = e.Text + " is a formula: write " + e.Text + "(…)"
	case a != nil && len(near) == 0: // 120 cm / s
		err.Hint = "as a unit it is written without blanks, as in cm/" + e.Text + "; a name is defined first"
	}
	ev.errs = append(ev.errs, err)
	return Unknown{}
}

func (ev *evaluator) binary(e *Binary) Value {
	parts := []Expr{e.Left, e.Right}
	return ev.each(e, parts, e.straight, func(q []Quantity) Value {
		if !ev.allNumbers(parts, q) {
			return Unknown{}
		}
		return ev.operate(e, q[0], q[1])
	})
}

// straight tells whether the result is proportional to what the readings in it are off their mean.
func (e *Binary) straight(values []Value) bool {
	_, left := values[0].(Record)
	_, right := values[1].(Record)
	switch e.Op {
	case '+', '-':
		return true
	case '*':
		return !left || !right
	}
	return e.Op == '/' && !right
}

// operate applies an operator to two numbers.
func (ev *evaluator) operate(e *Binary, left, right Quantity) Value {
	switch e.Op {
	case '+', '-':
		return ev.sum(e, left, right)
	case '*':
		return ev.notLost(e.Span(), left.times(right), left.Number != 0 && right.Number != 0)
	case '/':
		if right.Number == 0 {
			return ev.fail(e.Right.Span(), "division-by-zero",
				quote(e.Right.String())+" is zero, and nothing can be divided by zero", "look at the values that go into it")
		}
		return ev.notLost(e.Span(), left.over(right), left.Number != 0)
	}
	return ev.power(e, left, right)
}

// sum adds or subtracts. The result has the unit of the left operand: 20 in + 70 cm is in
// inches.
func (ev *evaluator) sum(e *Binary, left, right Quantity) Value {
	sign, verb := 1.0, "added to "
	if e.Op == '-' {
		sign, verb = -1, "taken from "
	}
	q, ok := left.add(right, sign)
	if ok {
		return ev.finite(e.Span(), q)
	}
	hint := "bring both to the same kind of unit"
	if left.Unit.IsNumber() || right.Unit.IsNumber() {
		hint = "give the plain number a unit"
	}
	return ev.fail(e.Span(), "mixed-dimensions",
		describe(e.Right, right)+" cannot be "+verb+describe(e.Left, left), hint)
}

// describe says what an operand is: "L (120 cm, a length)".
func describe(e Expr, q Quantity) string {
	shown := ShowText(q, Target{})
	if _, ok := e.(*Literal); ok {
		return shown + " (" + q.Unit.Dimension().String() + ")"
	}
	return e.String() + " (" + shown + ", " + q.Unit.Dimension().String() + ")"
}

// power raises base to a plain number. A unit can be raised only to a whole power that is
// known for certain; a number, to any.
func (ev *evaluator) power(e *Binary, base, exponent Quantity) Value {
	exponent = exponent.plainNumber()
	if !exponent.Unit.IsNumber() {
		return ev.fail(e.Right.Span(), "mixed-dimensions", "an exponent must be a plain number; this is "+
			exponent.Unit.Dimension().String(), "write a number without a unit, as in x ^ 2")
	}
	base = base.plainNumber()
	n := exponent.Number
	if base.Number == 0 && n < 0 {
		return ev.fail(e.Span(), "division-by-zero", "zero to a negative power divides by zero",
			"look at the value of "+e.Left.String())
	}
	y := math.Pow(base.Number, n)
	u := base.Unit
	if !u.IsNumber() {
		if n != math.Trunc(n) || math.Abs(n) > MaxPower || len(exponent.shares) > 0 {
			return ev.fail(e.Right.Span(), "unit-power", "a value with a unit needs a whole power of at most "+itoa(MaxPower),
				"for a square root write sqrt(…)")
		}
		var ok bool
		if u, ok = u.raised(int(n)); !ok {
			return ev.fail(e.Span(), "unit-power", "this unit's power is too high", "check the formula")
		}
	}
	// At zero the slope of a power below one is not finite; as for a root, none is
	// carried there, and FirstOrderDoubt reports it.
	slope, slopeExponent := 0.0, 0.0
	if n != 0 && (base.Number != 0 || n >= 1) {
		slope = n * math.Pow(base.Number, n-1)
	}
	shares := scaled(base.shares, slope)
	if len(exponent.shares) > 0 {
		if base.Number < 0 {
			return ev.fail(e.Span(), "no-value", "a power of a negative value has no value next to a measured exponent", "")
		}
		if base.Number > 0 {
			slopeExponent = y * math.Log(base.Number)
		}
		shares = combined(base.shares, slope, exponent.shares, slopeExponent)
	}
	return ev.notLost(e.Span(), Quantity{Number: y, Unit: u, shares: shares}, base.Number != 0)
}

// plainNumber turns % and ppm, and a count of rotations divided by one, into the number.
func (q Quantity) plainNumber() Quantity {
	if q.Unit.Dimension() != (Dimension{}) {
		return q
	}
	q, _ = q.In(Unit{})
	return q
}

// raised returns u^n, false if the powers of its factors become too high to mean anything.
func (u Unit) raised(n int) (Unit, bool) {
	if n == 0 {
		return Unit{}, true
	}
	terms := slices.Clone(u.terms)
	for i := range terms {
		terms[i].power *= n
		if terms[i].power > MaxPower || terms[i].power < -MaxPower {
			return Unit{}, false
		}
	}
	return Unit{terms}, true
}

// notLost passes a result on unless it is zero only because it is too small for a float64.
func (ev *evaluator) notLost(at Span, q Quantity, some bool) Value {
	if some && q.Number == 0 {
		return ev.fail(at, "not-finite", "this is too small to be told from zero", "look for a number that is too small")
	}
	return ev.finite(at, q)
}

// finite passes a result on if its number and the powers of its unit are within bounds.
func (ev *evaluator) finite(at Span, q Quantity) Value {
	for _, t := range q.Unit.terms {
		if t.power > MaxPower || t.power < -MaxPower {
			return ev.fail(at, "unit-power",
				"the unit of this comes out as "+q.Unit.Symbol()+", which measures nothing", "check the formula")
		}
	}
	if !q.OK() {
		return ev.fail(at, "not-finite", "this has no finite value",
			"look for a number that is too large, or a root or power of a negative one")
	}
	return q
}

// call works out a function or formula. The arguments of an unknown one are worked out all
// the same, so that their own mistakes are reported with it.
func (ev *evaluator) call(e *Call) Value {
	f := e.Formula()
	if f == nil {
		err := &Error{Span: e.NameAt, Slug: "unknown-formula", What: "there is no formula " + quote(e.Name), Name: e.Name,
			Reported: e.words.hasLost(e.Name)}
		near := Nearest(e.Name, e.words.formulaNames())
		if here := calledHere[strings.ToLower(e.Name)]; here != "" {
			near = nil
			err.Hint = "here it is called " + here
		}
		err.Hint = cmp.Or(err.Hint, meant(near), "trundle help language formulas lists them; your own go into formulas.yaml")
		err.Instead = only(near)
		ev.errs = append(ev.errs, err)
		if v, ok := ev.env[e.Name]; ok { // a name that the lesson has, with brackets behind it
			err.Hint, err.Instead = "write × between "+e.Name+" and the bracket", ""
			if _, record := v.(Record); record {
				err.Hint = "for one reading of it write " + e.Name + "[1]"
			}
		}
		for _, a := range e.Args {
			ev.eval(a)
		}
		return Unknown{}
	}
	if e.unclear != nil && f.takesSeveral() {
		ev.errs = append(ev.errs, e.unclear)
		return Unknown{}
	}
	if f.statistic != nil {
		return ev.statistic(e, f)
	}
	if f.fit != nil {
		return ev.fit(e, f)
	}
	if f.choice {
		return ev.choice(e, f)
	}
	if f.native != nil && f.takes(len(e.Args)) {
		return ev.each(e, e.Args, bent, func(q []Quantity) Value { return ev.native(e, f, q) })
	}
	args, ok := ev.arguments(e, f)
	if !ok {
		return Unknown{}
	}
	return ev.formula(e, f, args)
}

// native works out a function of mathematics.
func (ev *evaluator) native(e *Call, f *Formula, args []Quantity) Value {
	if !ev.allNumbers(e.Args, args) || !ev.accepted(e, f, args) {
		return Unknown{}
	}
	q, what := f.native(args)
	if what != "" {
		return ev.fail(e.Span(), "no-value", what, "look at the values that go into "+e.Name)
	}
	return ev.finite(e.Span(), q)
}

// arguments works out and checks the arguments of a call with named parameters.
func (ev *evaluator) arguments(e *Call, f *Formula) ([]Quantity, bool) {
	args := make([]Quantity, len(e.Args))
	ok := true
	for i, a := range e.Args {
		q, good := ev.quantity(a)
		args[i], ok = q, ok && good
	}
	if !f.takes(len(args)) {
		ev.fail(e.Span(), "argument-count", f.Name+" takes "+f.signature()+"; "+itoa(len(args))+" given here",
			"write them between the brackets, with "+e.words.betweenValues()+" between")
		return nil, false
	}
	return args, ok && ev.allNumbers(e.Args, args) && ev.accepted(e, f, args)
}

// accepted brings arguments to what the parameters take.
func (ev *evaluator) accepted(e *Call, f *Formula, args []Quantity) bool {
	ok := true
	for i, p := range f.Params[:len(args)] {
		q, good := p.accept(args[i])
		if !good {
			ev.fail(e.Args[i].Span(), "mixed-dimensions",
				f.Name+" needs "+p.kind()+" for its "+p.Name+"; "+describe(e.Args[i], args[i])+" is given", p.hint(args[i]))
			ok = false
		}
		if p.Name == ev.scaled {
			q.Number *= ev.factor
		}
		args[i] = q
	}
	return ok
}

// formula works out the body of a formula of the trade. What goes wrong inside is
// reported at the call, since that is what the author wrote.
func (ev *evaluator) formula(e *Call, f *Formula, args []Quantity) Value {
	env := make(Env, len(args))
	for i, a := range args {
		env[f.Params[i].Name] = a
	}
	v, errs := Eval(f.body(len(args)), env)
	for _, err := range errs {
		err.Span = e.Span()
		err.What = f.Name + ": " + err.What
		ev.errs = append(ev.errs, err)
	}
	q, ok := v.(Quantity)
	if !ok {
		return Unknown{}
	}
	return f.result(q)
}

// EvalScaled is Eval with every parameter of one name, in calls of the trade's
// formulas, multiplied by a factor: what would come out if a radius had been put in
// for a diameter.
func EvalScaled(e Expr, env Env, param string, factor float64) (Value, []*Error) {
	ev := evaluator{env: env, scaled: param, factor: factor}
	v := ev.eval(e)
	if len(ev.errs) > 0 {
		return Unknown{}, ev.errs
	}
	return v, nil
}
