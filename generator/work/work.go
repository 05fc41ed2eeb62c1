// Package work gives a lesson its values: what is given, measured, recorded and
// found, the numbers in its prose, and whether its keys hold. It is pure: no files,
// no clock, no chance. Nothing is shown here.
package work

import (
	"maps"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/table"
)

// Lesson is a lesson with its values, for one kit.
type Lesson struct {
	*lesson.Lesson
	Kit *lesson.Kit // nil if the pack has none
	Env quantity.Env

	// Others is what the statements come to for every other kit of the pack that has the facts that the lesson uses, and
	// nothing else; none if it uses none.
	Others []*Lesson

	// KitUsed are the facts of the kit that the lesson uses. KitGiven are those of them
	// that students do not measure: the page must state them.
	KitUsed, KitGiven []lesson.Field

	Finds   []*lesson.Statement // in the order of the lesson
	Chooses []*lesson.Statement // what students choose, in the order of the lesson
	Says    []*lesson.Statement // what students write in words, in the order of the lesson
	Fields  []*Field            // what students see of the work blocks, in the order of the lesson
	Gauges  []*Gauge            // to be printed, in the order of the lesson
	Shown   []*lesson.Value     // values in prose and filled code, in the order of the lesson

	// By the nodes of the parsed lesson, so that pages can ask for what they meet in its tree.
	results map[*lesson.Statement]*Result
	values  map[*lesson.Value]*Result
	named   map[string]*lesson.Statement // once all are worked out
	varies  map[string]bool
	gauges  map[*lesson.Gauge]*Gauge
	Data    []*Data // runs, charts and comparisons, in the order of the lesson
	data    map[*lesson.DataBlock]*Data

	counts *Counts // of a lesson whose values were let go, nil while they are there
}

// Of gives the result of a statement.
func (l *Lesson) Of(s *lesson.Statement) *Result { return l.results[s] }

// Named gives the statement that defines a name, nil for none.
func (l *Lesson) Named(name string) *lesson.Statement {
	if s, known := l.named[name]; known {
		return s
	}
	for s := range l.results {
		if s.Name == name && !s.Kind.BelongsAbove() {
			return s
		}
	}
	return nil
}

// OfValue gives the result of a value in prose or filled code.
func (l *Lesson) OfValue(v *lesson.Value) *Result { return l.values[v] }

// ForKit works a lesson out for one kit, with the pack's files of runs by their names.
func ForKit(l *lesson.Lesson, kit *lesson.Kit, data map[string]*table.Table) (*Lesson, problem.List) {
	w := workerFor(l, kit, data)
	w.walk()
	w.fields()
	w.answers()
	w.untils()
	return w.out, w.problems
}

// resultsFor works out what the statements of a lesson come to for another kit than the pack's own. Its problems would
// be those of that kit again; a statement that only this one has trouble with comes out as no value.
func resultsFor(l *lesson.Lesson, kit *lesson.Kit, data map[string]*table.Table) *Lesson {
	w := workerFor(l, kit, data)
	w.resultsOnly = true
	_ = ast.Walk(w.out.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if block, ok := n.(*lesson.WorkBlock); ok && entering {
			w.hidden = lesson.ForMentors(n)
			for _, s := range block.Statements {
				w.statement(s)
			}
		}
		return ast.WalkContinue, nil
	})
	return w.out
}

// workerFor has looked ahead, and worked nothing out.
func workerFor(l *lesson.Lesson, kit *lesson.Kit, data map[string]*table.Table) *worker {
	w := &worker{
		data: data,
		out: &Lesson{Lesson: l, Kit: kit, Env: quantity.Env{},
			results: map[*lesson.Statement]*Result{}, values: map[*lesson.Value]*Result{}},
		defined: map[string]*lesson.Statement{},
		later:   map[string]*lesson.Statement{},

		fromKit:  map[string]bool{},
		usesKit:  map[string]bool{},
		reported: map[quantity.Expr]bool{},
		mentors:  map[string]bool{},
	}
	w.defineKit(kit)
	w.lookAhead()
	w.noteKit(kit)
	return w
}

// walk works everything in the lesson out, in one walk: prose may show what a block above it has defined, and
// nothing below.
func (w *worker) walk() {
	_ = ast.Walk(w.out.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) { // the others: notes for mentors hold nodes like any part
		case *lesson.WorkBlock:
			w.hidden = lesson.ForMentors(n)
			for _, s := range n.Statements {
				w.statement(s)
			}
		case *lesson.GaugeBlock:
			for _, g := range n.Gauges {
				w.gauge(g, lesson.ForMentors(n))
			}
		case *lesson.DataBlock:
			w.dataBlock(n)
		case *lesson.FilledCode:
			for _, part := range n.Parts {
				if part.Value != nil {
					w.value(part.Value)
				}
			}
		case *lesson.Value:
			w.value(n)
		}
		return ast.WalkContinue, nil
	})
}

// ForKits works a lesson out for a pack's default kit and, if it uses one, for the others too.
// Problems are those of the default kit.
func ForKits(l *lesson.Lesson, p *lesson.Pack) (*Lesson, problem.List) {
	kit, data := p.DefaultKit(), tablesFor(l, p)
	w, problems := ForKit(l, kit, data)
	if len(w.KitUsed) == 0 || problems.HasErrors() {
		return w, problems
	}
	for _, other := range p.Kits {
		if other != kit && other.Has(w.KitUsed) {
			w.Others = append(w.Others, resultsFor(l, other, data))
		}
	}
	return w, problems
}

// tablesFor are a pack's files of runs. What may be in a folder that could not be read is there and empty, as are
// single files that could not be read, so that nobody is told that it is missing.
func tablesFor(l *lesson.Lesson, p *lesson.Pack) map[string]*table.Table {
	data := p.Data
	if len(p.Unread) == 0 {
		return data
	}
	for _, name := range l.DataFiles() {
		if _, there := data[name]; !there && p.IsUnread(name) {
			data = maps.Clone(data)
			data[name] = &table.Table{File: source.NewFile(name, nil)}
		}
	}
	return data
}

// A worker works one lesson out, statement by statement in the order of the lesson: each sees the names defined
// before it. Its maps grow as it goes; only usesKit, fromKit and later are filled beforehand, by lookAhead.
type worker struct {
	data       map[string]*table.Table
	out        *Lesson
	problems   problem.List
	defined    map[string]*lesson.Statement
	later      map[string]*lesson.Statement // where each name of the lesson is first defined
	usesKit    map[string]bool              // names that formulas and figures of the lesson use
	fromKit    map[string]bool              // fields of the kit that the students measure
	statements []*lesson.Statement          // those that define a name and that students see, in order
	reported   map[quantity.Expr]bool       // what has no program and has a problem already
	mentors    map[string]bool              // names that only mentors see
	varies     map[string]bool              // names whose value is another for another team or kit
	hidden     bool                         // the block in hand is for mentors only
	current    *lesson.Statement            // the statement being worked out
	spent      int                          // formulas worked again so far; see doubt
	examples   int                          // formulas worked again so far; see another
	secrets    map[string]bool              // what no example may show, once all is worked out; see another
	figured    []shownNumber                // what the lesson's figures show
	reportedOf map[string]bool              // what is missing, and was reported once
	keptBack   int                          // how many problems were not reported as others say the same
	order      []binding                    // what is worked out from other names

	resultsOnly bool // no keys, slips and doubts: they are those of the pack's own kit
}

// lookAhead notes where names are defined, to tell a name that comes too early from
// one that never comes.
func (w *worker) lookAhead() {
	_ = ast.Walk(w.out.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			w.noteShown(n)
		}
		if show, ok := n.(*lesson.DataBlock); ok && entering && show.Name == lesson.ShowBlock {
			w.noteFigures(show)
		}
		if block, ok := n.(*lesson.WorkBlock); ok && entering {
			for _, s := range block.Statements {
				w.noteNames(s)
				if _, seen := w.later[s.Name]; !seen && !s.Kind.BelongsAbove() {
					w.later[s.Name] = s
				}
			}
		}
		return ast.WalkContinue, nil
	})
}

// statement works a statement out and defines its name for all that follow. A broken one defines its name all the
// same, as unknown, so that one mistake is one problem.
func (w *worker) statement(s *lesson.Statement) {
	if s.Broken && (s.Name == "" || s.Kind.BelongsAbove()) || w.resultsOnly && s.Kind.BelongsAbove() {
		return
	}
	switch s.Kind {
	case lesson.Key:
		w.key(s)
	case lesson.Slip:
		w.slipBelow(s)
	case lesson.Listen: // a text and nothing more
	case lesson.Given, lesson.Measure, lesson.Record, lesson.Predict, lesson.Find, lesson.Choose, lesson.Say:
		w.define(s)
	}
}

// define works out a statement that gives a name its value.
func (w *worker) define(s *lesson.Statement) {
	w.current = s
	r := w.resultOf(s)
	if first, twice := w.defined[s.Name]; twice {
		if !s.Broken {
			w.definedTwice(s, first)
		}
		r.Value = quantity.Unknown{}
		w.out.results[s] = r
		return
	}
	w.defined[s.Name] = s
	if w.mentors[s.Name] = w.hidden; !w.hidden {
		w.statements = append(w.statements, s)
	}
	w.out.results[s] = r
	if (s.Kind == lesson.Say || s.Kind == lesson.Choose) && !s.Broken { // words are no part of a formula
		w.inWords(s)
		return
	}
	w.out.Env[s.Name] = r.inFormulas()
	w.varies[s.Name] = r.Varies
	if s.Broken {
		return
	}
	if s.Kind == lesson.Given || s.Kind == lesson.Find || onKit(s.Expr) {
		w.order = append(w.order, binding{s.Name, s.Expr, s.Target})
	}
	if s.Kind == lesson.Find {
		w.out.Finds = append(w.out.Finds, s)
		if !r.Guessed {
			r.Steps = quantity.Worked(s.Name, s.Expr, w.out.Env, s.Target)
		}
		w.doubt(s.Expr, r)
	}
}

// resultOf works out the value that a statement gives its name.
func (w *worker) resultOf(s *lesson.Statement) *Result {
	r := &Result{Target: s.Target}
	if s.Broken {
		r.Value, r.OfStudents = quantity.Unknown{}, true
		return r
	}
	switch s.Kind {
	case lesson.Record:
		r.Value = quantity.Record{Name: s.Name, Numbers: s.Numbers, Texts: s.Texts, Unit: s.Target.Unit,
			Step: s.Target.Step.Float(), Runs: w.sameRuns(s), InOrder: s.InOrder}
		r.OfStudents = true
	case lesson.Measure:
		r.Value = w.measured(s)
		r.OfStudents = true
	case lesson.Predict:
		r.Value, r.unit, r.Guessed, r.OfStudents, r.Varies = quantity.Unknown{}, s.Target.Unit, true, true, true
		return r
	case lesson.Given:
		if _, literal := s.Expr.(*quantity.Literal); literal {
			r.Value = w.inUnit(w.measured(s), s.Expr, s.Target) // its ± is an input of the name that it is given
		} else {
			w.worked(r, s.Expr)
		}
		r.OfStudents = w.hidden || w.dependsOnStudents(s.Expr)
	case lesson.Find:
		w.worked(r, s.Expr)
		w.oneValue(r, s.Expr)
		r.OfStudents = true
	case lesson.Choose, lesson.Say:
		r.Value, r.OfStudents = quantity.Unknown{}, true
		return r
	case lesson.Key, lesson.Slip, lesson.Listen: // they define nothing
	}
	r.Varies = r.OfStudents || w.dependsOnVarying(s.Expr)
	r.Inexact = w.inexact(s.Expr)
	if s.Kind != lesson.Find && !s.Target.HasUnit && s.Target.Step.IsZero() {
		r.Written = written(s.Expr)
		if n, ok := s.Expr.(*quantity.Name); ok && s.Kind == lesson.Given {
			if q, ok := w.out.Env[n.Text].(quantity.Quantity); ok {
				r.Written = q.Written() // of the kit: 3:5
			}
		}
	}
	return r
}

// oneValue reports a find that comes to several readings: a box takes one number.
func (w *worker) oneValue(r *Result, e quantity.Expr) {
	if v, record := r.Value.(quantity.Record); record {
		w.problems.Error(w.out.File, source.Span(e.Span()), "record-as-number",
			"this comes to "+problem.Plural(len(v.Numbers), "reading")+", and a find asks for one number",
			"take one value of them, such as mean("+e.String()+")")
		r.Value = quantity.Unknown{}
	}
}

// definedTwice reports a name that is defined again. The first value holds.
func (w *worker) definedTwice(s, first *lesson.Statement) {
	w.problems.Add(problem.Problem{
		Slug: "name-twice", File: w.out.File, Span: s.NameAt,
		What:    "the name " + s.Name + " is defined twice in this lesson",
		Hint:    "choose another name here; a value keeps its name to the end of its lesson",
		Related: []problem.Related{{File: w.out.File, Span: first.NameAt, What: s.Name + " is defined here first"}},
	})
}

// measured gives the sample of a measure, as an input of its own; a field of the
// kit stays the same input wherever it is used.
func (w *worker) measured(s *lesson.Statement) quantity.Value {
	lit, ok := s.Expr.(*quantity.Literal)
	minus, signed := s.Expr.(*quantity.Unary)
	if signed {
		lit, ok = minus.Operand.(*quantity.Literal)
	}
	if !ok {
		return w.eval(s.Expr, quantity.Target{})
	}
	q, err := lit.Quantity(s.Name)
	if err != nil {
		w.problems.FromQuantity(w.out.File, err)
		return quantity.Unknown{}
	}
	if signed {
		return q.Negative()
	}
	return q
}

// value works out a value in prose or filled code.
func (w *worker) value(v *lesson.Value) {
	w.out.Shown = append(w.out.Shown, v)
	r := &Result{
		Target: v.Target, OfStudents: w.dependsOnStudents(v.Expr), Varies: w.dependsOnVarying(v.Expr),
	}
	w.worked(r, v.Expr)
	if _, isRecord := r.Value.(quantity.Record); isRecord {
		w.problems.Error(w.out.File, v.At, "record-as-number",
			"a record is a list of readings and cannot be shown in a sentence",
			"take one value of it, such as {mean("+v.Expr.String()+")}")
		r.Value = quantity.Unknown{}
	}
	if n, ok := v.Expr.(*quantity.Name); ok && !r.Target.HasUnit && r.Target.Step.IsZero() {
		if s := w.defined[n.Text]; s != nil {
			r.Target, r.Written = s.Target, w.out.results[s].Written // a name alone is shown as where it is defined
		}
	}
	if _, name := v.Expr.(*quantity.Name); !name { // a name is looked at where it is found
		w.doubt(v.Expr, r)
	}
	w.live(r, v.Expr)
	w.out.values[v] = r
}

// slip works out a wrong way to a find, in the unit of the find.
func (w *worker) slip(s *lesson.Statement) *Result {
	r := &Result{Target: s.Of.Target, OfStudents: true}
	if of := w.out.results[s.Of]; of != nil && of.Value == (quantity.Unknown{}) && !of.Guessed {
		r.Target = quantity.Target{} // what is wrong with the find's unit was reported
	}
	w.worked(r, s.Expr)
	return r
}

// written gives a quantity as the lesson writes it, "" for anything that is worked out.
func written(e quantity.Expr) string {
	switch e := e.(type) {
	case *quantity.Literal:
		return quantity.Shown{Number: e.Number.Text, Unit: e.Unit.Symbol()}.Text()
	case *quantity.Unary:
		if inner := written(e.Operand); inner != "" && !strings.HasPrefix(inner, quantity.Minus) {
			return quantity.Minus + inner
		}
	}
	return ""
}

// eval works an expression out and brings it to the unit asked for.
func (w *worker) eval(e quantity.Expr, t quantity.Target) quantity.Value {
	v, errs := quantity.Eval(e, w.out.Env)
	for _, err := range errs {
		if w.ofStandIn(e, err) {
			continue
		}
		w.explain(err)
		if w.again(err) {
			continue
		}
		w.problems.FromQuantity(w.out.File, err)
		w.unitForgotten(err)
	}
	return w.inUnit(v, e, t)
}

// inUnit brings a value to the unit asked for.
func (w *worker) inUnit(v quantity.Value, e quantity.Expr, t quantity.Target) quantity.Value {
	q, ok := v.(quantity.Quantity)
	if !ok || !t.HasUnit {
		return v
	}
	c, ok := q.In(t.Unit)
	if !ok {
		hint := "ask for a unit of that kind, such as " + q.Unit.Examples()
		if _, literal := e.(*quantity.Literal); literal && q.Unit.IsNumber() {
			hint = "give the number its own unit before the word in, as in 48 in in cm"
		} else if q.Unit.IsArc() && t.Unit.IsLength() {
			hint = "for the length of an arc write arc(angle, radius), as in arc(90 deg, 20 cm)"
		} else if q.Unit.IsNumber() {
			hint = "leave the unit out, or ask for % or rot"
		} else if q.Unit.IsTruth() {
			hint = "leave the unit out; the answer is yes or no"
		}
		w.problems.Error(w.out.File, source.Span(t.UnitAt), "mixed-dimensions",
			"this comes out as "+q.Unit.Dimension().String()+" and cannot be given in "+t.Unit.String()+
				", which is "+t.Unit.Dimension().String(), hint)
		return quantity.Unknown{}
	}
	return c
}
