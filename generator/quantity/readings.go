package quantity

// This file holds single readings of a record, and calculations that are done reading by reading: after − before.

import (
	"cmp"
	"math"
	"strings"

	"gonum.org/v1/gonum/stat"
)

// A Reading is one reading of a record, counted from 1: s[2].
type Reading struct {
	At     Span
	Record *Name
	Number int
}

func (e *Reading) Span() Span      { return e.At }
func (e *Reading) precedence() int { return atomLevel }
func (e *Reading) String() string  { return e.Record.Text + "[" + itoa(e.Number) + "]" }

// reading gives a single reading. How sure it is does not follow from the others, so no ± is claimed for it.
func (ev *evaluator) reading(e *Reading) Value {
	switch v := ev.eval(e.Record).(type) {
	case Record:
		if e.Number > len(v.Numbers) {
			return ev.fail(e.At, "no-reading", e.Record.Text+" has "+itoa(len(v.Numbers))+" readings, and so no "+e.String(),
				"the last one is "+e.Record.Text+"["+itoa(len(v.Numbers))+"]")
		}
		q := New(v.Numbers[e.Number-1], v.Unit)
		if len(v.Texts) >= e.Number {
			q.written = v.Texts[e.Number-1]
		}
		return q
	case Quantity:
		return ev.fail(e.At, "no-reading", e.Record.Text+" is one value and has no readings",
			"leave "+e.String()[len(e.Record.Text):]+" out, or name a record")
	}
	return Unknown{}
}

// reading puts a single reading in a program.
func (c *compiler) reading(e *Reading) Unit {
	u := c.expr(e.Record)
	c.put("reading:" + itoa(e.Number))
	return u
}

// common are the shares that a reading has beside the scatter of all: the step that it was read to, and whatever else
// went into it.
func (r Record) common(i int) []share {
	switch {
	case r.made != nil:
		return r.made[i]
	case r.InOrder || r.Step == 0:
		return nil
	}
	return []share{{r.Name + "[step]", r.Step / math.Sqrt(12), 0}}
}

// each works something out from the values of some parts: once, or for each reading where a part is a record. Readings
// of two records belong together by their number. What comes out scatters as its own numbers do. It keeps the runs'
// name, so that they have their covariance with all that was read in the same runs, if it is straight in them.
func (ev *evaluator) each(e Expr, parts []Expr, straight func([]Value) bool, work func([]Quantity) Value) Value {
	values := make([]Value, len(parts))
	lost, single := false, true
	for i, part := range parts {
		values[i] = ev.eval(part)
		_, unknown := values[i].(Unknown)
		_, record := values[i].(Record)
		lost, single = lost || unknown, single && !record
	}
	switch {
	case lost:
		return Unknown{}
	case single: // as nearly always
		return work(ev.at(values, 0))
	}
	n, ok := ev.together(e, parts, values)
	if !ok {
		return Unknown{}
	}
	out := Record{Name: nameOfInputs(e), made: make([][]share, n)}
	for i := range n {
		q, ok := work(ev.at(values, i)).(Quantity)
		if !ok {
			return Unknown{}
		}
		if i == 0 {
			out.Unit = q.Unit
		}
		q, _ = q.In(out.Unit)
		out.Numbers, out.made[i] = append(out.Numbers, q.Number), q.shares
	}
	out.Runs = out.Name
	if runs := sameRuns(values); runs != "" && straight(values) {
		out.Runs = runs
	}
	for _, v := range values {
		r, ok := v.(Record)
		out.InOrder = out.InOrder || ok && r.InOrder
	}
	return out
}

// bent is for what is not proportional to its readings.
func bent([]Value) bool { return false }

// nameOfInputs is what the scatter of a calculation is called: a bracket would end the name.
func nameOfInputs(e Expr) string { return strings.NewReplacer("[", "(", "]", ")").Replace(e.String()) }

// sameRuns is the name of the runs that all records among some values are of, "" if there is more than one.
func sameRuns(values []Value) string {
	runs := ""
	for _, v := range values {
		if r, ok := v.(Record); ok {
			name := cmp.Or(r.Runs, r.Name)
			if runs != "" && runs != name {
				return ""
			}
			runs = name
		}
	}
	return runs
}

// together tells how many readings the records among some values have, 0 if there is none.
func (ev *evaluator) together(e Expr, parts []Expr, values []Value) (n int, ok bool) {
	first := ""
	for i, v := range values {
		r, record := v.(Record)
		switch {
		case !record:
		case n == 0:
			n, first = len(r.Numbers), parts[i].String()
		case n != len(r.Numbers):
			ev.fail(e.Span(), "pairs", quote(first)+" has "+itoa(n)+" readings and "+quote(parts[i].String())+" "+
				itoa(len(r.Numbers))+", so they do not belong together in pairs",
				"let both have as many readings, or take one value of each, such as mean("+first+")")
			return 0, false
		}
	}
	return n, true
}

// at are the values of reading i, without its scatter.
func (ev *evaluator) at(values []Value, i int) []Quantity {
	out := make([]Quantity, len(values))
	for k, v := range values {
		switch v := v.(type) {
		case Quantity:
			out[k] = v
		case Record:
			out[k] = Quantity{Number: v.Numbers[i], Unit: v.Unit, shares: v.common(i)}
		}
	}
	return out
}

// scatter is what each reading is off the mean of all, so that their mean has the standard error.
func scatter(readings []float64) []float64 {
	n, mean := float64(len(readings)), stat.Mean(readings, nil)
	off := make([]float64, len(readings))
	for i, x := range readings {
		off[i] = float64((x - mean) * math.Sqrt(n/(n-1)))
	}
	return off
}

// recordIn gives the first record in an expression that it is worked out from reading by reading.
func recordIn(e Expr, env Env) *Record {
	switch e := e.(type) {
	case *Name:
		if r, ok := env[e.Text].(Record); ok {
			return &r
		}
	case *Unary:
		return recordIn(e.Operand, env)
	case *Binary:
		return cmp.Or(recordIn(e.Left, env), recordIn(e.Right, env))
	case *Comparison:
		if e.Within != nil {
			return cmp.Or(recordIn(e.Left, env), recordIn(e.Within, env), recordIn(e.Right, env))
		}
		return cmp.Or(recordIn(e.Left, env), recordIn(e.Right, env))
	case *Call:
		if f := functions[e.Name]; f == nil || f.native == nil {
			return nil
		}
		for _, a := range e.Args {
			if r := recordIn(a, env); r != nil {
				return r
			}
		}
	}
	return nil
}
