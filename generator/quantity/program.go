package quantity

// This file turns expressions into programs for the students' page.

import (
	"math"
	"strconv"
	"strings"
)

// A Program is an expression as data: words in reverse Polish order with blanks
// between, for a machine with a stack and without units. A word is
//
//	20.4     a number
//	d        the value of a name: one number, or the readings of a record
//	+ - * / ^ ~           operators; ~ turns the sign
//	mean:2   a function of the so many values before it, each a number or a record
//	=1 #1    keep the top of the stack as 1; put what was kept as 1
//	reading:2 the second reading of the record before it
//
// Units are settled when a program is made: conversions are products and quotients in it,
// in the order in which Eval works, so that both come to the same number. A function that
// takes an angle takes it in rotations; one that gives an angle gives degrees. What is done to
// a record is done to each reading, and two records go together reading by reading. Yes is 1 and no is 0.
// Wherever no finite number comes out, the program has no value.
type Program string

// Compile makes the program of an expression. Names for which varies is true stay
// names, whose values must be given in the units that env has for them; all others
// are put in as numbers. The result is in the target's unit, else in the one that is
// returned.
func Compile(e Expr, env Env, varies func(name string) bool, t Target) (Program, Unit, *Error) {
	c := compiler{env: env, varies: varies}
	u := c.expr(e)
	if c.err == nil && t.HasUnit {
		if !Alike(u, t.Unit) {
			c.fail(e, "its unit cannot be the one asked for")
		}
		u = c.convert(u, t.Unit)
	}
	if c.err != nil {
		return "", Unit{}, c.err
	}
	return Program(strings.Join(c.words, " ")), u, nil
}

// A compiler emits the words of a program while it walks the tree, and follows the unit
// that the number on the stack would have.
type compiler struct {
	env    Env
	varies func(string) bool
	params map[string]*argument // of the formula in hand, nil outside of one
	words  []string
	kept   int
	inArgs int // how many calls within formulas the argument in hand is part of
	err    *Error
}

// An argument of a formula is worked out where it is named first, and kept
// if it is named again.
type argument struct {
	words []string
	unit  Unit
	uses  int
	slot  string
}

func (c *compiler) put(words ...string) { c.words = append(c.words, words...) }

func (c *compiler) number(x float64) { c.put(strconv.FormatFloat(x, 'g', -1, 64)) }

// scale multiplies by num/den in the two steps in which Quantity.In does, so that the last
// bit is the same.
func (c *compiler) scale(num, den float64) {
	if num != 1 {
		c.number(num)
		c.put("*")
	}
	if den != 1 {
		c.number(den)
		c.put("/")
	}
}

// shift adds what lies between the zeros of two scales.
func (c *compiler) shift(by float64) {
	if by != 0 {
		c.number(by)
		c.put("+")
	}
}

func (c *compiler) convert(from, to Unit) Unit {
	if from.Equal(to) {
		return to
	}
	to = reached(from, to)
	before, after := warmthShift(from, to)
	c.shift(before)
	c.scale(conversion(from, to))
	c.shift(after)
	return to
}

func (c *compiler) fail(e Expr, what string) Unit {
	if c.err == nil {
		c.err = &Error{Span: e.Span(), Slug: "no-program",
			What: quote(e.String()) + " cannot be checked on the students' page: " + what, Hint: "write it in another way"}
	}
	return Unit{}
}

// expr emits what works e out and gives the unit of the result.
func (c *compiler) expr(e Expr) Unit {
	if c.err != nil {
		return Unit{}
	}
	switch e := e.(type) {
	case *Literal:
		c.number(e.Number.Float())
		return e.Unit
	case *Name:
		return c.name(e)
	case *Unary:
		u := c.expr(e.Operand)
		c.put("~")
		return u
	case *Binary:
		return c.binary(e)
	case *Comparison:
		return c.comparison(e)
	case *Reading:
		return c.reading(e)
	case *Call:
		return c.call(e)
	}
	panic("quantity: an expression of no known kind")
}

func (c *compiler) name(e *Name) Unit {
	if p, ok := c.params[e.Text]; ok {
		return c.argument(p)
	}
	if e.Text == "pi" {
		c.number(math.Pi)
		return Unit{}
	}
	switch v := c.env[e.Text].(type) {
	case Quantity:
		if c.varies(e.Text) {
			c.put(e.Text)
		} else {
			c.number(v.Number)
		}
		return v.Unit
	case Record:
		c.put(e.Text)
		return v.Unit
	}
	if v, ok := truths[e.Text]; ok && c.env[e.Text] == nil {
		c.number(v.Number)
		return v.Unit
	}
	return c.fail(e, "it has no value")
}

// argument puts an argument in where a definition names it. One that is named again is kept on
// the way, so that a long argument is worked out once.
func (c *compiler) argument(p *argument) Unit {
	switch {
	case p.slot != "":
		c.put("#" + p.slot)
	case p.uses > 1 && c.inArgs == 0: // arguments may be put in in another order than they are compiled in
		c.kept++
		p.slot = strconv.Itoa(c.kept)
		c.put(p.words...)
		c.put("=" + p.slot)
	default:
		c.put(p.words...)
	}
	return p.unit
}

func (c *compiler) binary(e *Binary) Unit {
	left := c.expr(e.Left)
	if e.Op == '^' {
		return c.power(e, left)
	}
	right := c.expr(e.Right)
	if c.err != nil {
		return Unit{}
	}
	switch e.Op {
	case '+', '-':
		second, result, ok := sumUnits(left, right, e.Op == '-')
		if !ok {
			return c.fail(e, "its parts are of different kinds")
		}
		c.convert(right, second)
		c.put(string(e.Op))
		return result
	case '*':
		product, scale := left.times(right, 1)
		c.put("*")
		c.scale(scale, 1)
		return c.plain(product)
	}
	quotient, scale := left.times(right, -1)
	c.put("/")
	c.scale(scale, 1)
	return c.plain(quotient)
}

// plain does to the number what Quantity.plain does.
func (c *compiler) plain(u Unit) Unit {
	kept := Quantity{Unit: u}.plain().Unit
	return c.convert(u, kept)
}

func (c *compiler) plainNumber(u Unit) Unit {
	if u.Dimension() == (Dimension{}) {
		return c.convert(u, Unit{})
	}
	return u
}

func (c *compiler) power(e *Binary, base Unit) Unit {
	base = c.plainNumber(base)
	exponent := c.expr(e.Right)
	if c.err != nil {
		return Unit{}
	}
	if exponent.Dimension() != (Dimension{}) {
		return c.fail(e, "an exponent must be a plain number")
	}
	c.plainNumber(exponent)
	c.put("^")
	if base.IsNumber() {
		return base
	}
	n, constant := c.constant(e.Right)
	if !constant || n != math.Trunc(n) || math.Abs(n) > MaxPower {
		return c.fail(e, "the power of a value with a unit must be the same whole number for every team")
	}
	u, ok := base.raised(int(n))
	if !ok {
		return c.fail(e, "its unit measures nothing")
	}
	return u
}

// constant returns the value of an expression that does not vary.
func (c *compiler) constant(e Expr) (float64, bool) {
	for _, name := range Names(e) {
		if _, isParam := c.params[name]; isParam || c.varies(name) {
			return 0, false
		}
	}
	v, errs := Eval(e, c.env)
	q, ok := v.(Quantity)
	return q.plainNumber().Number, ok && len(errs) == 0
}

func (c *compiler) call(e *Call) Unit {
	f := e.Formula()
	if f == nil {
		return c.fail(e, "there is no such formula")
	}
	if f.statistic != nil {
		return c.statistic(e)
	}
	if f.fit != nil {
		return c.fit(e)
	}
	if !f.takes(len(e.Args)) {
		return c.fail(e, "it has too few or too many values")
	}
	if f.choice {
		return c.choice(e)
	}
	if f.native != nil {
		return c.native(e, f)
	}
	return c.formula(e, f)
}

// formula puts the body of a formula of the trade in.
func (c *compiler) formula(e *Call, f *Formula) Unit {
	body := f.body(len(e.Args))
	outer, words := c.params, c.words
	params := map[string]*argument{}
	nested, inArgs := c.params != nil, c.inArgs
	if nested {
		c.inArgs++
	}
	for i, a := range e.Args {
		c.words = nil
		unit := c.accept(e.Args[i], f.Params[i], c.expr(a))
		params[f.Params[i].Name] = &argument{words: c.words, unit: unit}
	}
	Walk(body, func(e Expr) {
		if n, ok := e.(*Name); ok && params[n.Text] != nil {
			params[n.Text].uses++
		}
	})
	c.words, c.params, c.inArgs = words, params, 0
	u := c.expr(body)
	c.params, c.inArgs = outer, inArgs
	if c.err != nil {
		return Unit{}
	}
	return c.convert(u, f.result(Quantity{Unit: u}).Unit)
}

// accept brings an argument to what a parameter takes.
func (c *compiler) accept(e Expr, p Param, u Unit) Unit {
	if c.err != nil {
		return Unit{}
	}
	q, ok := p.accept(Quantity{Unit: u})
	if !ok {
		return c.fail(e, "it is of another kind than the formula needs")
	}
	return c.convert(u, q.Unit)
}

// native puts a function of mathematics in. The unit of the result is that of its value
// where all arguments are 1, so that no second table of units can contradict the function.
func (c *compiler) native(e *Call, f *Formula) Unit {
	ones := make([]Quantity, len(e.Args))
	for i, a := range e.Args {
		u := c.accept(a, f.Params[i], c.expr(a))
		if i > 0 && c.err == nil && !Alike(u, ones[0].Unit) {
			return c.fail(a, "it is of another kind than the first")
		}
		switch {
		case i > 0:
			u = c.convert(u, ones[0].Unit)
		case u.Dimension() == angleDim && !f.Params[i].Any:
			u = c.convert(u, mustUnit("rot"))
		}
		ones[i] = New(1, u)
	}
	if c.err != nil {
		return Unit{}
	}
	c.put(e.Name + ":" + itoa(len(e.Args)))
	value, what := f.native(ones)
	if what != "" {
		return c.fail(e, what)
	}
	return value.Unit
}

// statistic brings all values to the unit of the first, as a sample does.
func (c *compiler) statistic(e *Call) Unit {
	var first Unit
	for i, a := range e.Args {
		u := c.expr(a)
		if i == 0 {
			first = u
		}
		if u.Dimension() != first.Dimension() {
			return c.fail(a, "it is of another kind than the first")
		}
		c.convert(u, first)
	}
	if len(e.Args) == 0 {
		return c.fail(e, "it has no values")
	}
	switch {
	case e.Name == "count" && first.IsTruth(): // as many as there are with 1 for yes
		c.put("sum:" + itoa(len(e.Args)))
		return Unit{}
	case e.Name == "count":
		c.put("count:" + itoa(len(e.Args)))
		return Unit{}
	}
	c.put(e.Name + ":" + itoa(len(e.Args)))
	return first.ofStatistic(e.Name)
}
