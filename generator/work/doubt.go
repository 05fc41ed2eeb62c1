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
const mostWork = 100000

// mostPoints is at how many points a doubtful result is worked out: to a hundredth of its uncertainty.
const mostPoints = 2000

// doubt asks whether first order misleads about what an expression comes to, a find or a value in prose.
func (w *worker) doubt(e quantity.Expr, r *Result) {
	q, ok := r.Quantity()
	if w.resultsOnly || !ok || len(q.Inputs()) == 0 || w.jointly(e, q) {
		return
	}
	for _, input := range q.Inputs() {
		if _, ok := w.out.Env[input]; !ok && !quantity.InExpression(input) {
			return
		}
	}
	// Each input moves to eight places at most, alone or with another, and each place
	// works the lesson so far out again.
	n, formulas := len(q.Inputs()), len(w.order)+1
	if w.spent += 4 * n * n * formulas; w.spent > mostWork {
		return
	}
	points := min(mostPoints, (mostWork-w.spent)/formulas)
	tried := 0
	d, misleads := quantity.FirstOrderDoubt(q, points, func(moved map[string]float64) (float64, bool) {
		tried++
		v, errs := quantity.EvalMoved(e, w.moved(moved), moved)
		y, ok := v.(quantity.Quantity)
		if len(errs) > 0 || !ok {
			return 0, false
		}
		y, ok = y.In(q.Unit)
		return y.Number, ok
	})
	w.spent += max(0, tried-4*n*n) * formulas
	if misleads {
		r.Doubt = &d
	}
}

// jointly tells whether records that were read in the same runs go into a value. They cannot be moved one by one.
func (w *worker) jointly(e quantity.Expr, q quantity.Quantity) bool {
	for _, input := range q.Inputs() {
		for name, v := range w.out.Env {
			if r, ok := v.(quantity.Record); ok && r.Runs == input && w.dependsOn(e, name) {
				return true
			}
		}
	}
	return false
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
		v, errs := quantity.EvalMoved(b.expr, env, by)
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

// movedRecord moves all readings by the uncertainty of their mean, from their spread and their step.
func movedRecord(r quantity.Record, n float64) quantity.Record {
	if r.InOrder {
		return r
	}
	spread := 0.0
	if len(r.Numbers) > 1 {
		spread = stat.StdErr(stat.StdDev(r.Numbers, nil), float64(len(r.Numbers)))
	}
	step := n * math.Hypot(spread, r.Step/math.Sqrt(12))
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
