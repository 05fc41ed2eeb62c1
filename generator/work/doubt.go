package work

// Where first-order uncertainty misleads: the lesson's formulas are worked again with moved inputs. The decision is
// made by package quantity.

import (
	"maps"
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"

	"gonum.org/v1/gonum/stat"
)

// A binding is a name with the formula that gives its value, in the order of the lesson.
type binding struct {
	name   string
	expr   quantity.Expr
	target quantity.Target
}

// mostWork limits how many formulas of one lesson are worked again to see whether first
// order misleads. Lessons that people teach stay far below it.
const mostWork = 20000

// doubt asks whether first order misleads about a find.
func (w *worker) doubt(s *lesson.Statement, r *Result) {
	q, ok := r.Quantity()
	if !ok || len(q.Inputs()) == 0 {
		return
	}
	for _, input := range q.Inputs() {
		if _, ok := w.out.Env[input]; !ok {
			return // a ± in the middle of a formula has no name to move it by
		}
	}
	// Each input moves to eight places at most, alone or with another, and each place
	// works the lesson so far out again.
	n := len(q.Inputs())
	if w.spent += 4 * n * n * len(w.order); w.spent > mostWork {
		return
	}
	d, misleads := quantity.FirstOrderDoubt(q, func(moved map[string]float64) (float64, bool) {
		v, ok := w.moved(moved)[s.Name].(quantity.Quantity)
		if !ok {
			return 0, false
		}
		v, ok = v.In(q.Unit)
		return v.Number, ok
	})
	if misleads {
		r.Doubt = &d
	}
}

// moved works the lesson so far out again with inputs moved by so many of their
// standard uncertainties.
func (w *worker) moved(by map[string]float64) quantity.Env {
	env := maps.Clone(w.out.Env)
	for name, n := range by {
		switch v := env[name].(type) {
		case quantity.Quantity:
			env[name] = quantity.New(v.Number+n*math.Abs(v.Share(name)), v.Unit)
		case quantity.Record:
			env[name] = movedRecord(v, n)
		}
	}
	for _, b := range w.order {
		// A given with a ± of its own is an input itself and keeps the value that it was moved to.
		if _, own := by[b.name]; own {
			continue
		}
		v, errs := quantity.Eval(b.expr, env)
		q, ok := v.(quantity.Quantity)
		if len(errs) > 0 || !ok {
			// Moved inputs may leave the range of a function, such as the root of a number below 0.
			env[b.name] = quantity.Unknown{}
			continue
		}
		if b.target.HasUnit {
			q, _ = q.In(b.target.Unit)
		}
		env[b.name] = q
	}
	return env
}

// movedRecord moves all readings by a standard error: how a mean may be off.
func movedRecord(r quantity.Record, n float64) quantity.Record {
	if len(r.Numbers) < 2 || r.InOrder {
		return r
	}
	step := n * stat.StdErr(stat.StdDev(r.Numbers, nil), float64(len(r.Numbers)))
	numbers := make([]float64, len(r.Numbers))
	for i, x := range r.Numbers {
		numbers[i] = x + step
	}
	return quantity.Record{Name: r.Name, Numbers: numbers, Unit: r.Unit}
}

// onKit tells whether a measure takes its sample from the kit.
func onKit(e quantity.Expr) bool {
	n, ok := e.(*quantity.Name)
	if ok {
		_, ok = lesson.KitFact(n.Text)
	}
	return ok
}
