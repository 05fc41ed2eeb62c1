package check

// Where vapour may be estimated, and who sees it.

import (
	"slices"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// vapour sees to it that an estimate of vapour is worked out in a find of its own, where
// only mentors see it and where the page says what it means; and that nothing that students
// see is made of it.
func vapour(l *work.Lesson, problems *problem.List) {
	v := vapours{lesson: l, problems: problems, resting: map[string]bool{}}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		mentors := lesson.ForMentors(n)
		switch n := n.(type) { // the others: notes for mentors hold nodes like any part
		case *lesson.WorkBlock:
			for _, s := range n.Statements {
				v.statement(s, mentors)
			}
		case *lesson.Value:
			v.value(n, mentors)
		case *lesson.FilledCode:
			for _, part := range n.Parts {
				if part.Value != nil {
					v.value(part.Value, mentors)
				}
			}
		case *lesson.GaugeBlock:
			for _, g := range n.Gauges {
				v.elsewhere(mentors, g.Expr)
			}
		case *lesson.DataBlock:
			for _, line := range n.Entries {
				v.elsewhere(mentors, line.Expr, line.From, line.To, line.Within, line.Second)
			}
		}
		return ast.WalkContinue, nil
	})
}

// vapours follows the names that depend on an estimate through a lesson.
type vapours struct {
	lesson   *work.Lesson
	problems *problem.List
	resting  map[string]bool // names whose value depends on the vapour formula
}

// statement notes what the statement defines, and refuses it where students would see an estimate.
func (v *vapours) statement(s *lesson.Statement, mentors bool) {
	if s.Expr == nil || s.Broken {
		return
	}
	call, at, rests := v.rests(s.Expr)
	if !rests {
		return
	}
	if s.Kind != lesson.Slip {
		v.resting[s.Name] = true
	}
	switch {
	case mentors:
		v.ofMentors(s, call, at)
	case call || s.Kind != lesson.Find: // a find that only uses such a name has a problem of its own, mentors-name
		v.forStudents(at, "this work block")
	}
}

// ofMentors looks at a statement that only mentors see and that depends on the formula.
func (v *vapours) ofMentors(s *lesson.Statement, call bool, at source.Span) {
	switch {
	case s.IsVapour():
		v.shown(s, at)
	case call && s.Kind == lesson.Slip && s.Of != nil && s.Of.IsVapour(): // a wrong estimate of the same
	case call:
		v.alone(at)
	case !s.Kind.BelongsAbove():
		v.workedOn(at)
	}
}

// value looks at a value in a sentence or a program.
func (v *vapours) value(n *lesson.Value, mentors bool) {
	v.elsewhere(mentors, n.Expr)
	if call, at, rests := v.rests(n.Expr); rests && !call && mentors {
		v.rounded(v.lesson.OfValue(n), at)
	}
}

// shown sees to it that an estimate is more than nothing, and shown as what it is.
func (v *vapours) shown(s *lesson.Statement, at source.Span) {
	if q, ok := v.lesson.Of(s).Quantity(); ok && q.Number <= 0 {
		v.problems.Error(v.lesson.File, at, "vapour-positive", "an estimate of vapour must be more than zero",
			"give the mass, the molar mass and the room as what they are, all more than zero")
		return
	}
	v.rounded(v.lesson.Of(s), at)
}

// rounded sees to it that an estimate does not look much lower than it is.
func (v *vapours) rounded(r *work.Result, at source.Span) {
	q, ok := r.Quantity()
	if !ok || r.Target.Step.IsZero() {
		return
	}
	const muchLess = 0.9
	if r.Target.Step.Round(q.Number) < muchLess*q.Number {
		v.problems.Error(v.lesson.File, at, "vapour-rounded",
			"rounded to this step, the estimate of vapour looks much lower than it is",
			"round it to a smaller step, as in  to 0.1")
	}
}

// elsewhere looks at calculations that are not of a work block.
func (v *vapours) elsewhere(mentors bool, sums ...quantity.Expr) {
	for _, e := range sums {
		call, at, rests := v.rests(e)
		switch {
		case rests && !mentors:
			v.forStudents(at, "this")
		case call:
			v.alone(at)
		case rests && !isName(e):
			v.workedOn(at)
		}
	}
}

// isName tells whether an expression is a name alone: showing an estimate again is not using it.
func isName(e quantity.Expr) bool {
	_, ok := e.(*quantity.Name)
	return ok
}

// workedOn refuses what is made of an estimate. Divided by five it would look as safe as a room
// five times as large, and no page would say where it comes from.
func (v *vapours) workedOn(at source.Span) {
	v.problems.Error(v.lesson.File, at, "vapour-alone",
		"an estimate of vapour cannot be used in another calculation: the page says what it means only where it "+
			"is estimated",
		"work the mass or the room out first, and put them into another  find … = vapour_ppm(mass, molar_mass, room)")
}

// rests tells whether a calculation depends on the vapour formula, whether it calls it, and where.
func (v *vapours) rests(e quantity.Expr) (call bool, at source.Span, rests bool) {
	if e == nil {
		return false, at, false
	}
	if c := lesson.VapourCall(e); c != nil {
		return true, source.Span(c.Span()), true
	}
	rests = slices.ContainsFunc(quantity.Names(e), func(name string) bool { return v.resting[name] })
	return false, source.Span(e.Span()), rests
}

// forStudents refuses an estimate that students would see.
func (v *vapours) forStudents(at source.Span, where string) {
	v.problems.Error(v.lesson.File, at, "vapour-for-students",
		"an estimate of vapour is for mentors, and students see "+where,
		"put it below  ## Mentor notes  or into a block quote that starts with  > Mentor:")
}

// alone refuses a call of the formula anywhere but in a find of its own.
func (v *vapours) alone(at source.Span) {
	v.problems.Error(v.lesson.File, at, "vapour-alone",
		"vapour_ppm needs a find of its own, where the page says what it means",
		"write  find air in ppm to 0.1 = vapour_ppm(mass, molar_mass, room)  in a work block, nothing more in "+
			"the calculation, and use its name here")
}
