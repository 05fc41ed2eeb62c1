package work

// What the page may show beside a record's readings, and when: the mean, the spread, and what they are compared with.

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// record notes what the page may show beside a record's readings.
func (w *worker) record(f *Field) {
	for _, find := range w.studentsFinds() {
		middle, spread := asked(find.Expr, f.Statement.Name)
		if middle {
			f.MiddleAsked = append(f.MiddleAsked, find.Name)
		}
		if spread {
			f.SpreadAsked = append(f.SpreadAsked, find.Name)
		}
	}
	if goal := w.goal(f.Statement.Name); goal != nil {
		p, _, err := quantity.Compile(goal, w.out.Env, func(name string) bool { return w.varies[name] },
			quantity.Target{Unit: f.Unit, HasUnit: true})
		if err == nil { // a goal of another kind is none
			f.Goal, f.Aim = p, w.sameForAll(goal, p, f.Unit)
		}
		if w.toldToStudents(goal) {
			f.Mark = w.textOf(goal, f.Unit)
		}
	}
}

// sameForAll gives a goal in a unit, if its program asks for nothing that a team measures; else nil.
func (w *worker) sameForAll(goal quantity.Expr, p quantity.Program, unit quantity.Unit) *quantity.Quantity {
	for _, word := range strings.Fields(string(p)) {
		if w.varies[word] || strings.HasPrefix(word, "kit.") {
			return nil
		}
	}
	v, errs := quantity.Eval(goal, w.out.Env)
	q, single := v.(quantity.Quantity)
	if len(errs) > 0 || !single {
		return nil
	}
	in, alike := q.In(unit)
	if !alike || math.IsNaN(in.Number) || math.IsInf(in.Number, 0) {
		return nil
	}
	return &in
}

// AimOf gives what a record's runs are compared with, in its unit: what its finds compare them with, else the target of
// the column of its name in the lesson's own data. It is nil if that is no one place for all teams.
func (l *Lesson) AimOf(f *Field) *quantity.Quantity {
	if f.Goal != "" || f.Aim != nil {
		return f.Aim
	}
	for _, d := range l.Data {
		for _, m := range d.Measured {
			if !strings.EqualFold(m.Line.Column, f.Statement.Name) || math.IsNaN(m.Target) {
				continue
			}
			if in, alike := quantity.New(m.Target, m.Unit).In(f.Unit); alike {
				return &in
			}
		}
	}
	return nil
}

// toldToStudents tells whether students read a value in the lesson: a number as it is written, or a given's.
func (w *worker) toldToStudents(e quantity.Expr) bool {
	n, named := e.(*quantity.Name)
	if !named {
		return written(e) != ""
	}
	s := w.defined[n.Text]
	return s != nil && s.Kind == lesson.Given && !w.mentors[s.Name] && !w.varies[s.Name]
}

// sameRuns gives the name under which the runs of a record count: that of the record in whose runs it is read, "" for
// runs of its own. Of several records read together it is the first for all.
func (w *worker) sameRuns(s *lesson.Statement) string {
	if s.With == nil {
		return ""
	}
	other := w.defined[s.With.Text]
	if other == nil || other.Kind != lesson.Record {
		w.problems.Error(w.out.File, source.Span(s.With.At), "record-with",
			"there is no record "+s.With.Text+" above this one",
			"name a record whose readings were taken in the same runs, or leave out with "+s.With.Text)
		return ""
	}
	if n, m := len(s.Numbers), len(other.Numbers); n != m && !other.Broken {
		w.problems.Error(w.out.File, source.Span(s.With.At), "record-with",
			s.Name+" has "+problem.Plural(n, "reading")+" and "+other.Name+" "+itoa(m)+"; they cannot be of the same runs",
			"record both in every run, or leave out with "+other.Name)
		return ""
	}
	if v, ok := w.out.Env[other.Name].(quantity.Record); ok && v.Runs != "" {
		return v.Runs
	}
	return other.Name
}

// Apart lists the records that a value depends on as if they had been read in runs of their own, though they
// have equally many readings; nothing if there are not two. Of records read together the first is named.
func (l *Lesson) Apart(q quantity.Quantity) []string {
	byCount := map[int][]string{}
	for _, input := range q.Inputs() {
		r, ok := l.Env[input].(quantity.Record)
		if n := len(r.Numbers); ok && !slices.Contains(byCount[n], cmp.Or(r.Runs, r.Name)) {
			byCount[n] = append(byCount[n], cmp.Or(r.Runs, r.Name))
		}
	}
	for _, count := range slices.Sorted(maps.Keys(byCount)) {
		if len(byCount[count]) > 1 {
			return byCount[count]
		}
	}
	return nil
}

// MeanText writes the mean of a record's readings, to a tenth of their step if they have one;
// "" if the result is not a record.
func (r *Result) MeanText() string {
	v, ok := r.Value.(quantity.Record)
	if !ok {
		return ""
	}
	mean := stat.Mean(v.Numbers, nil)
	if !r.Target.Step.IsZero() {
		tenth := r.Target.Step.Float() / 10
		mean = math.Round(mean/tenth) * tenth
	}
	return quantity.FormatPlain(mean)
}

// studentsFinds are the finds that students see; those of mentors must leave no trace.
func (w *worker) studentsFinds() []*lesson.Statement {
	return slices.DeleteFunc(slices.Clone(w.out.Finds), func(s *lesson.Statement) bool { return w.mentors[s.Name] })
}

// asked tells whether a formula works out a record's middle or spread.
func asked(e quantity.Expr, record string) (middle, spread bool) {
	quantity.Walk(e, func(e quantity.Expr) {
		call, ok := e.(*quantity.Call)
		if !ok || !slices.ContainsFunc(call.Args, func(a quantity.Expr) bool {
			return isName(a, record) || !isSingle(a) && slices.Contains(quantity.Names(a), record) // after − before
		}) {
			return
		}
		switch call.Name {
		case "mean", "sum", "median":
			middle = true
		case "range", "stdev", "stderr", "min", "max", "lower_quartile", "upper_quartile", "population_stdev",
			"mean_absolute_deviation":
			spread = true
		}
	})
	return middle, spread
}

// isSingle tells whether an expression is one value, whatever records are in it: a statistic, or one reading.
func isSingle(e quantity.Expr) bool {
	switch e := e.(type) {
	case *quantity.Call:
		return statistics[e.Name] || e.Name == "count" || strings.HasPrefix(e.Name, "fit_")
	case *quantity.Reading:
		return true
	}
	return false
}

// isName tells whether an expression is this name alone.
func isName(e quantity.Expr, name string) bool {
	n, ok := e.(*quantity.Name)
	return ok && n.Text == name
}

// goal finds what the lesson compares a record's readings with: the expected value of
// an error, the other side of a difference, the straight line of a drift.
func (w *worker) goal(record string) quantity.Expr {
	middles := map[string]bool{}
	isMiddle := func(e quantity.Expr) bool {
		if n, ok := e.(*quantity.Name); ok {
			return middles[n.Text]
		}
		call, ok := e.(*quantity.Call)
		return ok && (call.Name == "mean" || call.Name == "median") && len(call.Args) == 1 && isName(call.Args[0], record)
	}
	var goal quantity.Expr
	against := func(a, b quantity.Expr) {
		if goal == nil && isMiddle(a) && !isMiddle(b) && !w.dependsOn(b, record) {
			goal = b
		}
	}
	for _, find := range w.studentsFinds() {
		if isMiddle(find.Expr) {
			middles[find.Name] = true
		}
		quantity.Walk(find.Expr, func(e quantity.Expr) {
			switch e := e.(type) {
			case *quantity.Binary:
				if e.Op == '-' {
					against(e.Left, e.Right)
					against(e.Right, e.Left)
				}
			case *quantity.Call:
				w.goalOfCall(e, isMiddle, against, &goal)
			}
		})
	}
	return goal
}

// goalOfCall finds the goal in a call of a function that compares a measured value with a wanted one. The drift
// functions want a straight line, which is 0 sideways.
func (w *worker) goalOfCall(e *quantity.Call, isMiddle func(quantity.Expr) bool, against func(a, b quantity.Expr),
	goal *quantity.Expr) {
	if len(e.Args) < 2 {
		return
	}
	switch e.Name {
	case "percent_error":
		against(e.Args[0], e.Args[1])
	case "correction":
		against(e.Args[1], e.Args[0])
	case "drift_angle", "wheel_mismatch":
		if *goal == nil && isMiddle(e.Args[0]) {
			zero, err := quantity.ParseExpr("0 mm")
			if err == nil {
				*goal = zero
			}
		}
	}
}

// dependsOn tells whether a formula uses a record, directly or through other names.
func (w *worker) dependsOn(e quantity.Expr, record string) bool {
	return w.reaches(e, isMade, func(name string, _ *lesson.Statement) bool { return name == record })
}
