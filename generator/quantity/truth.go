package quantity

// This file holds comparisons, whose value is yes or no, and the choice between two values by one.

import "math"

// yesNo is the unit of yes, which is 1, and no, which is 0. It stands in no table of units, since nobody writes it, and
// its kind is one that no product of units has, so that nothing else can be taken for it.
var yesNo = Unit{[]term{{&atom{symbol: YesOrNo, dim: truthDim, num: 1, den: 1}, 1}}}

// YesOrNo is what the unit is called beside a box. Behind a value it is not written: that is a word already.
const YesOrNo = "yes or no"

var truthDim = Dimension{amount: 100}

// Truth makes a value of yes or no.
func Truth(yes bool) Quantity {
	if yes {
		return Quantity{Number: 1, Unit: yesNo}
	}
	return Quantity{Unit: yesNo}
}

// IsTruth tells whether values in this unit are yes or no.
func (u Unit) IsTruth() bool { return len(u.terms) == 1 && u.terms[0].atom == yesNo.terms[0].atom }

// TruthText writes yes or no, for whoever has the number of one.
func TruthText(x float64) string {
	if x != 0 {
		return "yes"
	}
	return "no"
}

// truths are the words for the two values, which a lesson may take as names of its own.
var truths = map[string]Quantity{"yes": Truth(true), "no": Truth(false)}

// A Comparison is yes or no: left < right, or left within a limit of right.
type Comparison struct {
	Op                  string // < ≤ > ≥ = ≠ within
	Left, Within, Right Expr   // Within is nil but for within
	OpAt                Span
}

func (e *Comparison) Span() Span      { return Span{e.Left.Span().Start, e.Right.Span().End} }
func (e *Comparison) precedence() int { return compareLevel }

// String brackets whatever would take the word within for a limit of its own.
func (e *Comparison) String() string {
	left, right := parens(e.Left, sumLevel), parens(e.Right, sumLevel)
	if e.Op != limitWord {
		return left + " " + e.Op + " " + right
	}
	switch e.Left.(type) {
	case *Name, *Call, *Reading:
	default:
		left = "(" + e.Left.String() + ")"
	}
	return left + " within (" + e.Within.String() + ") of " + right
}

// comparing are the functions of the page for each sign.
var comparing = map[string]string{
	"<": "less", "≤": "atmost", ">": "more", "≥": "atleast", "=": "equal", "≠": "unequal", limitWord: limitWord,
}

// compare gives the order of two numbers: below 0, 0 or above. Those that differ by what binary arithmetic leaves are
// equal: 120.1 − 118.1 is 2.
func compare(a, b float64) float64 { return unlessDust(a-b, 10*max(math.Abs(a), math.Abs(b))) }

// holds tells whether a comparison of numbers in one unit is true.
func holds(op string, a, b, within float64) bool {
	order := compare(a, b)
	switch op {
	case "<":
		return order < 0
	case "≤":
		return order <= 0
	case ">":
		return order > 0
	case "≥":
		return order >= 0
	case "=":
		return order == 0
	case "≠":
		return order != 0
	}
	return math.Abs(order)-within <= 1e-12*max(math.Abs(a), math.Abs(b), math.Abs(within))
}

// comparison works a comparison out, reading by reading if a record is in it.
func (ev *evaluator) comparison(e *Comparison) Value {
	parts := []Expr{e.Left, e.Right}
	if e.Within != nil {
		parts = append(parts, e.Within)
	}
	return ev.each(e, parts, bent, func(q []Quantity) Value {
		left := q[0]
		shares := left.shares
		for i := range q[1:] {
			other, ok := q[i+1].In(left.Unit)
			if !ok {
				hint := "bring both to the same kind of unit"
				if left.Unit.IsNumber() || q[i+1].Unit.IsNumber() {
					hint = "give the plain number a unit"
				}
				return ev.fail(e.Span(), "mixed-dimensions", describe(parts[i+1], q[i+1])+" cannot be compared with "+
					describe(e.Left, left), hint)
			}
			if given := percentLeftOut(parts[i+1], left.Unit); given != nil {
				return ev.fail(given.At, "percent", given.Number.Text+" is "+ShowText(other, Target{})+" here, and "+
					describe(e.Left, left)+" is compared with it", "write "+given.Number.Text+" %")
			}
			q[i+1], shares = other, combined(shares, 1, other.shares, 1)
		}
		within := 0.0
		if e.Within != nil {
			within = q[2].Number
		}
		y := Truth(holds(e.Op, left.Number, q[1].Number, within))
		y.shares = scaled(shares, 0) // a small change changes nothing, but near the border; see FirstOrderDoubt
		return y
	})
}

// percentLeftOut gives a plain number above 1 that is compared with something in percent: 5 is 500 %, and nobody means
// that.
func percentLeftOut(e Expr, left Unit) *Literal {
	given, ok := e.(*Literal)
	if ok && given.bare() && left.Equal(mustUnit("%")) && given.Number.Float() > 1 {
		return given
	}
	return nil
}

// comparison puts a comparison in a program, all in the unit of its left side.
func (c *compiler) comparison(e *Comparison) Unit {
	left := c.expr(e.Left)
	parts := []Expr{e.Right}
	if e.Within != nil {
		parts = append(parts, e.Within)
	}
	for _, part := range parts {
		u := c.expr(part)
		if c.err == nil && (!Alike(u, left) || percentLeftOut(part, left) != nil) {
			return c.fail(e, "its parts are of different kinds")
		}
		if c.err == nil {
			c.convert(u, left)
		}
	}
	c.put(comparing[e.Op] + ":" + itoa(1+len(parts)))
	return yesNo
}

// choices are the functions that take a yes or no.
var choices = []*Formula{
	{Name: "if", Params: []Param{{Name: "condition", Takes: truthDim}, anyOf("then"), anyOf("else")}, choice: true,
		Doc: "the second value if the first is yes, as in if(e < 5 %, 1, 0), else the third"},
}

// byNumber are the mistakes that come from numbers and not from units: a branch that is not taken may have them, as in
// if(x = 0, 0, 1 / x).
var byNumber = map[string]bool{"division-by-zero": true, "no-value": true, "not-finite": true}

// choice works out an if. Both branches must be of one kind; the result has the unit of the first.
func (ev *evaluator) choice(e *Call, f *Formula) Value {
	if !f.takes(len(e.Args)) {
		return ev.fail(e.Span(), "argument-count", f.Name+" takes "+f.signature()+"; "+itoa(len(e.Args))+" given here",
			"write what it depends on, then the value for yes and the value for no, as in if(e < 5 %, 1, 0)")
	}
	condition, ok := ev.quantity(e.Args[0])
	if ok && !condition.Unit.IsTruth() {
		ev.fail(e.Args[0].Span(), "yes-or-no", "if needs a yes or no first; "+describe(e.Args[0], condition)+" is given",
			"compare it with something, as in if("+e.Args[0].String()+" > …, …, …)")
		ok = false
	}
	yes := ok && condition.Number != 0
	then, okThen, thenLost := ev.branch(e.Args[1], ok && !yes)
	other, okOther, otherLost := ev.branch(e.Args[2], ok && yes)
	if !ok || !okThen || !okOther {
		return Unknown{}
	}
	unit := then.Unit
	if !Alike(unit, other.Unit) {
		return ev.fail(e.Span(), "mixed-dimensions", "one value of this if is "+unit.Dimension().String()+", the other "+
			other.Unit.Dimension().String(), "let both be of one kind")
	}
	other, _ = other.In(unit)
	taken, left := then, other
	lost := otherLost
	if !yes {
		taken, left, lost = other, then, thenLost
	}
	if lost {
		left.shares = nil
	}
	taken.written = ""
	taken.shares = combined(combined(taken.shares, 1, left.shares, 0), 1, condition.shares, 0)
	return ev.finite(e.Span(), taken)
}

// branch works out a branch of an if. One that is not taken may have no number (lost), but always has a unit.
func (ev *evaluator) branch(e Expr, spare bool) (q Quantity, ok, lost bool) {
	before := len(ev.errs)
	q, ok = ev.quantity(e)
	if ok || !spare || len(ev.errs) == before {
		return q, ok, false
	}
	for _, err := range ev.errs[before:] {
		if !byNumber[err.Slug] {
			return q, false, false
		}
	}
	c := compiler{env: ev.env, varies: func(string) bool { return false }}
	u := c.expr(e)
	if c.err != nil {
		return q, false, false
	}
	ev.errs = ev.errs[:before]
	return Quantity{Unit: u}, true, true
}

// choice puts an if in a program, both branches in the unit of the first.
func (c *compiler) choice(e *Call) Unit {
	condition := c.expr(e.Args[0])
	then := c.expr(e.Args[1])
	other := c.expr(e.Args[2])
	switch {
	case c.err != nil:
		return Unit{}
	case !condition.IsTruth():
		return c.fail(e, "it does not depend on a yes or no")
	case !Alike(then, other):
		return c.fail(e, "its values are of different kinds")
	}
	c.convert(other, then)
	c.put("if:3")
	return then
}

// allNumbers reports a yes or no where a number is needed.
func (ev *evaluator) allNumbers(parts []Expr, q []Quantity) bool {
	ok := true
	for i := range q {
		if q[i].Unit.IsTruth() {
			ev.fail(parts[i].Span(), "yes-or-no", quote(parts[i].String())+" is yes or no, and not a number",
				"choose a number by it, as in if("+parts[i].String()+", 1, 0)")
			ok = false
		}
	}
	return ok
}
