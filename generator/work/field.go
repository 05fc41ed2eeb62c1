package work

// What the students' page works with: for each box its unit, the program that judges an answer, tolerance, slips and
// likely sizes. No sample and no key is in here.

import (
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Live is a value that the students' page works out from a team's own numbers.
type Live struct {
	Program quantity.Program // "" if there is none
	Unit    quantity.Unit
	Target  quantity.Target // as which it is shown
	Also    *Live           // in the other unit that it is shown in, nil if in none
}

// Field is a measure, record, prediction or find, or a given that varies, as the students' page
// works with it.
type Field struct {
	Statement *lesson.Statement
	Unit      quantity.Unit    // of the box: what a number without a unit is in
	Program   quantity.Program // of a find or given
	Tolerance Tolerance        // of a find
	Slips     []Slip           // of a find
	Also      []OtherUnit      // of a find that is asked for in several units

	// Open are a find's worked steps with a slot for every number that a team measures or
	// works out, Line what goes of them on one line.
	Open, Line []quantity.WorkedStep

	// Another are worked steps of the same calculation with other numbers; nil if there are none that
	// give nothing away.
	Another []quantity.WorkedStep

	Bounds   Bounds             // of a measure or record
	KitField string             // of a measure that stands for a field of the kit: "wheel"
	Goal     quantity.Program   // of a record: what its readings are compared with; "" if nothing
	Aim      *quantity.Quantity // the same, if it is one for all teams; nil if each has its own
	Mark     string             // the same as the lesson gives it to students; "" if it does not

	// Of a record: the finds that ask for its middle, and for its spread. The page keeps
	// quiet about either until those are answered.
	MiddleAsked, SpreadAsked []string
}

// Slip is a known wrong way of a find: its program, in the find's unit, and the hint.
type Slip struct {
	Program quantity.Program
	Hint    string
}

// OtherUnit is a unit in which an answer may be off by more or less than in the box's own: Within, in the find's unit.
type OtherUnit struct {
	Unit   quantity.Unit
	Within float64
}

// Tolerance is how far an answer near x may be off: Within + Part·|x|, in the find's
// unit.
type Tolerance struct{ Within, Part float64 }

// Near tells whether an answer would be taken for x. The last bits are forgiven, since 121.65 must be
// half a step from 121.7. judge.js decides by the same rule.
func (t Tolerance) Near(answer, x float64) bool {
	const forgiven = 1e-9
	return math.Abs(answer-x) <= t.Within+(t.Part+forgiven)*math.Abs(x)
}

// welcome is the part that an answer may be off by where people calculate with rounded numbers: 3.14
// for π, or their own earlier answer. Anywhere else a slip in the last digit is a slip.
const welcome = 0.001

// Tolerance gives that of a find: the key's own limit, else half a step, and 0.1 % where rounded
// numbers are calculated with. Without either, half of the key's last place, else 1 %.
func (l *Lesson) Tolerance(find *lesson.Statement) Tolerance {
	const loose = 0.01
	r := l.Of(find)
	unit, ok := r.kind()
	if !ok {
		return Tolerance{}
	}
	part := 0.0
	if r.Inexact {
		part = welcome
	}
	inFind := func(k *Key) float64 {
		within, _ := quantity.New(k.Within, k.Value.Unit.Difference()).In(unit)
		return within.Number
	}
	keyed := r.Key != nil && r.Key.Compared
	switch {
	case keyed && r.Key.Statement.Literal.Uncertainty.Exact != nil:
		return Tolerance{inFind(r.Key), part}
	case !find.Target.Step.IsZero():
		return Tolerance{find.Target.Step.Float() / 2, part}
	case keyed:
		return Tolerance{inFind(r.Key), part}
	}
	return Tolerance{0, loose}
}

// inexact tells whether people calculate an expression with rounded numbers: π is in it or in what it
// is made of, or an earlier answer that was asked to a step.
func (w *worker) inexact(e quantity.Expr) bool {
	if e == nil {
		return false
	}
	if quantity.HasPi(e, w.out.Env) {
		return true
	}
	for _, name := range quantity.Names(e) {
		s := w.defined[name]
		if s == nil || s.Kind != lesson.Find && s.Kind != lesson.Given {
			continue
		}
		if (s.Kind == lesson.Find || s.Kind == lesson.Given) && !s.Target.Step.IsZero() || w.out.results[s].Inexact {
			return true
		}
	}
	return false
}

// Varies tells whether a name has another value for another team or kit.
func (l *Lesson) Varies(name string) bool { return l.varies[name] }

// fields makes the lesson's fields, once all is worked out.
func (w *worker) fields() {
	w.out.varies, w.out.named = w.varies, map[string]*lesson.Statement{}
	for _, s := range w.statements {
		if _, taken := w.out.named[s.Name]; !taken && w.out.results[s] != nil && !s.Kind.BelongsAbove() {
			w.out.named[s.Name] = s
		}
	}
	for _, s := range w.statements {
		r := w.out.results[s]
		if s.Broken || r == nil || w.defined[s.Name] != s {
			continue
		}
		unit, ok := r.kind()
		if !ok {
			continue
		}
		f := &Field{Statement: s, Unit: unit}
		switch s.Kind {
		case lesson.Given:
			if !r.Varies {
				continue
			}
			f.Program = w.program(s.Expr, quantity.Target{Unit: f.Unit, HasUnit: true})
			if _, record := r.Value.(quantity.Record); !record { // several values are not shown in one place
				r.Live = Live{quantity.Program(s.Name), f.Unit, r.Target, w.alsoLive(&quantity.Name{Text: s.Name}, r.Target.Also)}
			}
		case lesson.Measure:
			f.Bounds = w.bounds(s, f.Unit)
			if n, ok := s.Expr.(*quantity.Name); ok {
				f.KitField, _ = lesson.KitFact(n.Text)
			}
		case lesson.Record:
			f.Bounds = w.bounds(s, f.Unit)
			w.record(f)
		case lesson.Find:
			w.find(f)
		case lesson.Predict: // any guess is a likely one
		case lesson.Key, lesson.Slip, lesson.Choose, lesson.Say, lesson.Listen: // part of their find's field, or no number
		}
		w.out.Fields = append(w.out.Fields, f)
	}
}

// find adds what the page needs to judge an answer: the program, the tolerance, the open steps, and the slips.
func (w *worker) find(f *Field) {
	s := f.Statement
	if name := w.mentorsName(s.Expr); name != "" {
		w.problems.Error(w.out.File, source.Span(s.Expr.Span()), "mentors-name",
			"this depends on "+name+", which students do not see",
			"define "+name+" in a part that students see, or move the find to the mentors' part")
		return
	}
	target := quantity.Target{Unit: f.Unit, HasUnit: true}
	f.Program, f.Tolerance = w.program(s.Expr, target), w.out.Tolerance(s)
	f.Also = w.otherUnits(f)
	f.Open = quantity.WorkedOpen(s.Name, s.Expr, w.out.Env, w.out.Varies, s.Target)
	f.Line = quantity.OneLine(f.Open)
	if r := w.out.results[s]; r.Guessed && len(f.Open) > 0 {
		r.Steps = f.Open[:1] // the formula, before any number
	}
	f.Another = w.another(s)
	for _, slip := range s.Slips {
		if r := w.out.results[slip]; !slip.Broken && r != nil {
			if u, ok := r.kind(); ok && quantity.Alike(u, f.Unit) {
				f.Slips = append(f.Slips, Slip{w.program(slip.Expr, target), slip.Prompt})
			}
		}
	}
}

// otherUnits gives the units beside the box's own, each with half its step, unless the key has a limit for all.
func (w *worker) otherUnits(f *Field) []OtherUnit {
	var all []OtherUnit
	if key := w.out.results[f.Statement].Key; key != nil && key.Statement.Literal.Uncertainty.Exact != nil {
		return nil
	}
	for t := f.Statement.Target.Also; t != nil; t = t.Also {
		if half, ok := quantity.New(t.Step.Float()/2, t.Unit.Difference()).In(f.Unit); ok && half.Number > 0 {
			all = append(all, OtherUnit{t.Unit, half.Number})
		}
	}
	return all
}

// mentorsName gives a name that only mentors see and that a formula depends on, through givens
// too, or "".
func (w *worker) mentorsName(e quantity.Expr) string {
	hidden := ""
	unbroken := func(s *lesson.Statement) bool { return isGiven(s) && !s.Broken }
	w.reaches(e, unbroken, func(name string, _ *lesson.Statement) bool {
		if w.mentors[name] {
			hidden = name
		}
		return hidden != ""
	})
	return hidden
}

// live gives a value in prose that varies its program, in the unit that it is shown in.
func (w *worker) live(r *Result, e quantity.Expr) {
	if _, record := r.Value.(quantity.Record); record || !r.Varies {
		return
	}
	u, ok := r.kind()
	if !ok {
		return
	}
	if r.Target.HasUnit {
		u = r.Target.Unit
	}
	r.Live = Live{w.program(e, quantity.Target{Unit: u, HasUnit: true}), u, r.Target, w.alsoLive(e, r.Target.Also)}
}

// alsoLive is the same value in the other unit that it is shown in.
func (w *worker) alsoLive(e quantity.Expr, t *quantity.Target) *Live {
	if t == nil {
		return nil
	}
	return &Live{w.program(e, quantity.Target{Unit: t.Unit, HasUnit: true}), t.Unit, *t, w.alsoLive(e, t.Also)}
}

// program compiles an expression for the page; what has no program is reported once, however often it is used.
func (w *worker) program(e quantity.Expr, t quantity.Target) quantity.Program {
	p, _, err := quantity.Compile(e, w.out.Env, func(name string) bool { return w.varies[name] }, t)
	if err != nil && !w.reported[e] {
		w.reported[e] = true
		w.problems.FromQuantity(w.out.File, err)
	}
	return p
}

// Bounds are the sizes between which a measurement is likely: Low ≤ |x| ≤ High, and
// more than 0 if Positive. The zero Bounds are none. They are so wide that they give
// no sample away.
type Bounds struct {
	Low, High float64
	Positive  bool
}

// generous is how many times smaller or larger than the sample is still likely.
const generous = 5

// bounds gives those of a measure or record that some formula uses.
func (w *worker) bounds(s *lesson.Statement, u quantity.Unit) Bounds {
	use := w.uses(s)
	if !use.any {
		return Bounds{}
	}
	// Sizes are rounded outwards to one digit: bounds that could be divided by 5 would give the sample away.
	least, most := math.Inf(1), 0.0
	switch v := w.out.results[s].Value.(type) {
	case quantity.Quantity:
		least, most = math.Abs(v.Number), math.Abs(v.Number)
	case quantity.Record:
		for _, x := range v.Numbers {
			least, most = min(least, math.Abs(x)), max(most, math.Abs(x))
		}
	}
	if most == 0 {
		return Bounds{}
	}
	b := Bounds{High: oneDigit(most*generous, math.Ceil), Positive: use.diameter}
	if least > most/2 { // readings that scatter about zero may be as small as they like
		b.Low = oneDigit(least/generous, math.Floor)
	}
	return b
}

// oneDigit rounds to one significant digit.
func oneDigit(x float64, round func(float64) float64) float64 {
	place := math.Pow(10, math.Floor(math.Log10(x)))
	return round(x/place) * place
}

// usage is how a lesson's finds use a name: at all, and as a diameter, which must be more than 0.
type usage struct{ any, diameter bool }

// uses tells how the lesson's finds use a name, or the field of the kit that it stands for.
func (w *worker) uses(s *lesson.Statement) usage {
	names := map[string]bool{s.Name: true}
	if n, ok := s.Expr.(*quantity.Name); ok && s.Kind == lesson.Measure {
		names[n.Text] = true
	}
	var u usage
	for _, find := range w.studentsFinds() {
		quantity.Walk(find.Expr, func(e quantity.Expr) {
			switch e := e.(type) {
			case *quantity.Name:
				u.any = u.any || names[e.Text]
			case *quantity.Call:
				f := e.Formula()
				for i, a := range e.Args {
					n, named := a.(*quantity.Name)
					if f != nil && named && names[n.Text] && i < len(f.Params) && f.Params[i].Name == "diameter" {
						u.diameter = true
					}
				}
			}
		})
	}
	return u
}
