package work

// Where the numbers of runs, charts and comparisons come from, and which finds ask for them.
// Whether students find a number themselves is decided by the calculation that makes it: two
// that use the same readings in the same way are one, in whatever words, unit and sign.

import (
	"math"
	"slices"
	"strconv"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// Answer says that students find a number of a figure themselves.
type Answer struct {
	Finds   []string         // all of them must be right before the number is shown
	Program quantity.Program // what it then is, by the team's own answers, in the unit of the figure
	within  Tolerance        // how far off the number would still be taken for the answer, in the figure's unit
}

// Then gives the answer that follows from this one by some more words of a program; nil if there is none.
func (a *Answer) Then(words string) *Answer {
	if a == nil {
		return nil
	}
	return &Answer{a.Finds, a.Program + quantity.Program(" "+words), a.within}
}

// Plus gives what this answer and another come to together; either may be nil.
func (a *Answer) Plus(b *Answer) *Answer {
	switch {
	case a == nil:
		return b
	case b == nil:
		return a
	}
	finds := slices.Clone(a.Finds)
	for _, name := range b.Finds {
		if !slices.Contains(finds, name) {
			finds = append(finds, name)
		}
	}
	return &Answer{finds, a.Program + " " + b.Program + " +", a.within}
}

// Near tells whether a number in the figure's unit would be taken for the answer x.
func (a *Answer) Near(number, x float64) bool { return a.within.Near(number, x) }

// A nudge changes a reading, a length or a target a little: equal ones alike, others by other
// parts. Only two calculations that are the same come to the same numbers under every nudge.
type nudge func(x float64, u quantity.Unit) float64

// nudges are enough to tell calculations apart. Even ones leave numbers without a unit as they
// are, since those are mostly parts of a formula; odd ones move those that are readings, too.
const nudges = 6

// nudged is the nudge of a number; sines of a logarithm are smooth, so that the last bits of a
// converted reading do not matter.
func nudged(k int) nudge {
	return func(x float64, u quantity.Unit) float64 {
		base := math.Abs(quantity.New(x, u).Base())
		if base == 0 || k%2 == 0 && u.IsNumber() {
			return x
		}
		return x * (1 + 1e-3*math.Sin(float64(37+11*(k/2))*math.Log(base)+float64(k/2)))
	}
}

func asItIs(x float64, _ quantity.Unit) float64 { return x }

// all nudges each of some numbers.
func (n nudge) all(x []float64, u quantity.Unit) []float64 {
	moved := make([]float64, len(x))
	for i := range x {
		moved[i] = n(x[i], u)
	}
	return moved
}

// quantity nudges a quantity.
func (n nudge) quantity(q quantity.Quantity) quantity.Quantity {
	return quantity.New(n(q.Number, q.Unit), q.Unit)
}

// A shown number is one of a figure, with how it is made.
type shownNumber struct {
	line *lesson.DataLine
	what string // in words, for the author; "" if the page shows only what follows from it
	unit quantity.Unit
	made func(nudge) float64
	give func(*Answer) // nil for what the lesson gives, and cannot be hidden
}

// show notes a number that a figure shows, how it is made, and where it is to be kept which finds ask
// for it: that is known at the lesson's end.
func (w *worker) show(
	d *Data, l *lesson.DataLine, what string, u quantity.Unit, made func(nudge) float64, give func(*Answer),
) {
	if !d.Mentors {
		w.figured = append(w.figured, shownNumber{l, what, u, made, give})
	}
}

// showUnseen notes a number from which others follow that a figure shows.
func (w *worker) showUnseen(
	d *Data, l *lesson.DataLine, u quantity.Unit, made func(nudge) float64, give func(*Answer),
) {
	w.show(d, l, "", u, made, give)
}

// A view is a find's expression as it is nudged: with the names of finds and givens taken for
// readings down to some depth, and replaced by their own calculations above it.
type view struct {
	w     *worker
	nudge nudge
	env   quantity.Env
	vary  string            // of a chart: the name that varies, and
	at    quantity.Quantity // its value, as it is
}

// deepest is how far finds are followed into the finds that they use.
const deepest = 4

// seen works an expression out under a nudge.
func (w *worker) seen(e quantity.Expr, k, depth int) (quantity.Quantity, bool) {
	return view{w: w, nudge: nudged(k), env: quantity.Env{}}.eval(e, depth)
}

func (v view) eval(e quantity.Expr, depth int) (quantity.Quantity, bool) {
	value, errs := quantity.Eval(v.expr(e, depth, false), v.env)
	q, ok := value.(quantity.Quantity)
	return q, ok && len(errs) == 0
}

// expr copies an expression, its quantities replaced by nudged ones. reading tells that it stands
// where readings do, in a statistic.
func (v view) expr(e quantity.Expr, depth int, reading bool) quantity.Expr {
	switch e := e.(type) {
	case *quantity.Literal:
		if e.Unit.IsNumber() && !reading {
			return e
		}
		return v.put(e.At, v.nudge.quantity(quantity.New(e.Number.Float(), e.Unit)))
	case *quantity.Name:
		return v.name(e, depth, reading)
	case *quantity.Unary:
		return &quantity.Unary{At: e.At, Operand: v.expr(e.Operand, depth, reading)}
	case *quantity.Binary:
		right := e.Right
		if e.Op != '^' {
			right = v.expr(e.Right, depth, false)
		}
		return &quantity.Binary{Op: e.Op, Left: v.expr(e.Left, depth, false), Right: right, OpAt: e.OpAt}
	case *quantity.Comparison:
		c := &quantity.Comparison{Op: e.Op, Left: v.expr(e.Left, depth, false), Right: v.expr(e.Right, depth, false)}
		if e.Within != nil {
			c.Within = v.expr(e.Within, depth, false)
		}
		return c
	case *quantity.Reading:
		if name, ok := v.name(e.Record, depth, true).(*quantity.Name); ok {
			return &quantity.Reading{At: e.At, Record: name, Number: e.Number}
		}
	case *quantity.Call:
		c := *e
		c.Args = nil
		for _, a := range e.Args {
			c.Args = append(c.Args, v.expr(a, depth, statistics[e.Name]))
		}
		return &c
	}
	return e
}

// statistics are the functions whose arguments are readings.
var statistics = map[string]bool{
	"mean": true, "median": true, "stdev": true, "stderr": true, "range": true, "min": true, "max": true, "sum": true,
	"lower_quartile": true, "upper_quartile": true, "mode": true, "population_stdev": true,
	"mean_absolute_deviation": true,
}

func (v view) name(e *quantity.Name, depth int, reading bool) quantity.Expr {
	if e.Text == v.vary {
		return v.put(e.At, v.nudge.quantity(v.at))
	}
	if sum := v.w.calculation(e.Text); sum != nil && depth > 0 {
		return v.expr(sum, depth-1, reading)
	}
	switch value := v.w.out.Env[e.Text].(type) {
	case quantity.Quantity:
		return v.put(e.At, v.nudge.quantity(value))
	case quantity.Record:
		moved := v.nudge.all(value.Numbers, value.Unit)
		return v.put(e.At, quantity.Record{Name: value.Name, Numbers: moved, Unit: value.Unit, InOrder: value.InOrder})
	}
	return e // pi
}

// calculation is what a find, or a given that is not a plain quantity, is worked out from; else nil.
func (w *worker) calculation(name string) quantity.Expr {
	s := w.defined[name]
	if s == nil || s.Kind != lesson.Find && s.Kind != lesson.Given {
		return nil
	}
	if _, literal := s.Expr.(*quantity.Literal); literal {
		return nil
	}
	return s.Expr
}

// put gives a value a name of its own.
func (v view) put(at quantity.Span, value quantity.Value) quantity.Expr {
	name := "·" + strconv.Itoa(len(v.env))
	v.env[name] = value
	return &quantity.Name{At: at, Text: name}
}

// A sight is a find as it comes out under each nudge, at one depth.
type sight [nudges]quantity.Quantity

// sights are a find's at every depth. One in which a nudge has no value is none.
func (w *worker) sights(find *lesson.Statement) []sight {
	var all []sight
	r, ok := w.out.results[find].Quantity()
	if !ok {
		return nil
	}
	unit := r.Unit // a plain number may be called rotations
	for depth := range deepest + 1 {
		var s sight
		sound := true
		for k := range nudges {
			q, ok := w.seen(find.Expr, k, depth)
			if q, alike := q.In(unit); ok && alike {
				s[k] = q
				continue
			}
			sound = false
		}
		if sound {
			all = append(all, s)
		}
	}
	return all
}

// answers settles which finds ask for the numbers of the lesson's figures.
func (w *worker) answers() {
	finds := w.studentsFinds()
	sights := map[*lesson.Statement][]sight{}
	told := map[string]bool{} // a curve may have the number at several points
	for _, n := range w.figured {
		var moved *[nudges]float64
		var answer *Answer
		still := n.made(asItIs)
		for _, find := range finds {
			if n.give == nil || !w.comesTo(find, still, n.unit) {
				continue // it cannot be the same calculation
			}
			if moved == nil {
				moved = n.moved()
			}
			if sights[find] == nil {
				sights[find] = w.sights(find)
			}
			for _, s := range sights[find] {
				if sign, same := s.makes(moved, n.unit, still); same {
					answer = w.answer(answer, find, n.unit, sign)
					break
				}
			}
		}
		switch {
		case answer != nil:
			n.give(answer)
		case n.what != "":
			w.alike(n, still, finds, told)
		}
	}
}

// moved is the number under every nudge.
func (n shownNumber) moved() *[nudges]float64 {
	var all [nudges]float64
	for k := range all {
		all[k] = n.made(nudged(k))
	}
	return &all
}

// comesTo tells whether a find's value is as large as a number in some unit.
func (w *worker) comesTo(find *lesson.Statement, x float64, u quantity.Unit) bool {
	q, ok := w.out.results[find].Quantity()
	if !ok || find.Broken {
		return false
	}
	in, alike := q.In(u)
	const close = 1e-6 // of sums in another order
	return alike && math.Abs(math.Abs(in.Number)-math.Abs(x)) <= close*math.Abs(x)
}

// makes tells whether a find is the calculation of a number that comes to moved under the nudges,
// and with which sign. By the nudges of one kind both must move, and alike.
func (s sight) makes(moved *[nudges]float64, u quantity.Unit, still float64) (sign float64, same bool) {
	for kind := range 2 {
		for _, sign := range []float64{1, -1} {
			fits, moves := true, false
			for k := kind; k < nudges; k += 2 {
				q, ok := s[k].In(u)
				fits = fits && ok && equal(sign*q.Number, moved[k])
				moves = moves || !equal(still, moved[k])
			}
			if fits && moves {
				return sign, true
			}
		}
	}
	return 0, false
}

// equal allows for the last bits, which sums in another order change.
func equal(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b))+1e-15 }

// answer says that a find asks for a number; first is what another find has said of it.
func (w *worker) answer(first *Answer, find *lesson.Statement, u quantity.Unit, sign float64) *Answer {
	if first != nil {
		first.Finds = append(first.Finds, find.Name)
		return first
	}
	name := &quantity.Name{At: find.Expr.Span(), Text: find.Name}
	own := func(string) bool { return true }
	p, _, err := quantity.Compile(name, w.out.Env, own, quantity.Target{Unit: u, HasUnit: true})
	if err != nil {
		return nil // of no unit alike, which the comparison has seen already
	}
	if sign < 0 {
		p += " ~"
	}
	off := w.out.Tolerance(find)
	if q, ok := w.out.results[find].Quantity(); ok {
		if in, ok := quantity.New(off.Within, q.Unit.Difference()).In(u); ok {
			off.Within = in.Number
		}
	}
	return &Answer{Finds: []string{find.Name}, Program: p, within: off}
}

// alike cautions of a number that is a find's answer to the last digit and in its unit, though it
// is not known to come from the same readings: it is shown.
func (w *worker) alike(n shownNumber, x float64, finds []*lesson.Statement, told map[string]bool) {
	if w.gives(x, n.unit) {
		return
	}
	for _, find := range finds {
		r := w.out.results[find]
		q, ok := r.Quantity()
		id := find.Name + " " + strconv.Itoa(n.line.At.Start) + n.what
		if !ok || w.measuredBy(find.Expr) || told[id] || q.Unit.IsNumber() || !q.Unit.Equal(n.unit) || !w.reads(find, q, x) {
			continue
		}
		told[id] = true
		w.problems.Caution(w.out.File, n.line.At, "key-in-figure",
			"students see the "+n.what+" here, and it is the same number as the answer to "+find.Name+" on line "+
				w.out.File.LineSeenFrom(find.NameAt.Start, n.line.At.Start),
			"let "+find.Name+" work it out from the same readings, so that it is hidden, or change a number if this is chance")
	}
}

// measuredBy tells whether an expression depends on what a team measures: it then has no one answer
// that could be given away.
func (w *worker) measuredBy(e quantity.Expr) bool {
	all := func(*lesson.Statement) bool { return true }
	return w.reaches(e, all, func(name string, s *lesson.Statement) bool {
		if s == nil {
			return w.fromKit[name]
		}
		return s.Kind == lesson.Measure || s.Kind == lesson.Record || s.Kind == lesson.Predict
	})
}

// gives tells whether the lesson itself gives students a quantity: then it is not secret.
func (w *worker) gives(x float64, u quantity.Unit) bool {
	return slices.ContainsFunc(w.statements, func(s *lesson.Statement) bool {
		r := w.out.results[s]
		q, ok := r.Quantity()
		in, alike := q.In(u)
		return s.Kind == lesson.Given && !r.OfStudents && ok && alike && equal(math.Abs(in.Number), math.Abs(x))
	})
}

// reads tells whether a number, rounded as the find asks, reads as its answer does.
func (w *worker) reads(find *lesson.Statement, q quantity.Quantity, x float64) bool {
	step := find.Target.Step
	if math.IsNaN(x) || math.IsInf(x, 0) || x == 0 {
		return false
	}
	if step.IsZero() {
		return equal(math.Abs(x), math.Abs(q.Number))
	}
	return quantity.FormatStep(math.Abs(x), step) == quantity.FormatStep(math.Abs(q.Number), step)
}

// in gives a quantity in a unit, nudged; NaN if it is zero or of another kind.
func (n nudge) in(q quantity.Quantity, u quantity.Unit) float64 {
	in, ok := n.quantity(q).In(u)
	if q.Number == 0 || !ok {
		return math.NaN()
	}
	return in.Number
}
