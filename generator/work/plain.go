package work

// Where a plain number is enough, so that a keyboard of digits can be offered: it has no letters, no sign and no stroke
// for fractions, and whoever needs one of these must not be left without.

import (
	"slices"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// Plain tells whether an answer or reading is sure to be written in digits with a decimal mark: it cannot be
// negative, and neither its unit nor its step asks for a fraction. Samples do not count: a team's robot may go to
// the other side.
func (l *Lesson) Plain(s *lesson.Statement) bool {
	f := l.fieldOf(s)
	if s.Target.Also != nil || !s.Target.Over.IsNumber() || f != nil && strings.ContainsAny(f.Unit.Symbol(), "CF") {
		return false // 6 ft 3 in has letters, and it may be less than 0 °C outside
	}
	if f == nil || f.Unit.Symbol() == "in" || f.Unit.Symbol() == "ft" || s.Target.Step.IsFraction() {
		return false
	}
	return (&signs{l, map[*lesson.Statement]bool{}}).isPositive(s)
}

// signs is what is known of a lesson's statements: each is looked at once, however many ways lead to it.
type signs struct {
	*Lesson
	positive map[*lesson.Statement]bool
}

// isPositive tells whether a statement's value cannot be negative, whoever measures.
func (l *signs) isPositive(s *lesson.Statement) bool {
	positive, known := l.positive[s]
	if !known {
		positive = l.neverBelowZero(s)
		l.positive[s] = positive
	}
	return positive
}

// neverBelowZero is isPositive for a statement that was not looked at before.
func (l *signs) neverBelowZero(s *lesson.Statement) bool {
	switch s.Kind {
	case lesson.Given, lesson.Find:
		return l.cannotBeNegative(s.Expr)
	case lesson.Measure, lesson.Record:
		f := l.fieldOf(s)
		return f != nil && (f.Bounds.Positive || f.KitField != "" || isTime(f.Unit) || l.hasGoalAhead(f))
	case lesson.Predict, lesson.Choose, lesson.Say, lesson.Key, lesson.Slip, lesson.Listen: // anybody may guess anything
	}
	return false
}

// hasGoalAhead tells whether readings are lengths on the way to a place that the lesson names.
func (l *Lesson) hasGoalAhead(f *Field) bool {
	first, _, _ := strings.Cut(string(f.Goal), " ")
	goal, err := strconv.ParseFloat(first, 64)
	metre, _ := quantity.LookupUnit("m")
	return err == nil && goal > 0 && f.Bounds.Low > 0 && quantity.Alike(f.Unit, metre)
}

// isTime tells whether a unit is one of time: no clock shows less than nothing.
func isTime(u quantity.Unit) bool { return slices.Contains([]string{"s", "min", "h", "d"}, u.Symbol()) }

func (l *Lesson) fieldOf(s *lesson.Statement) *Field {
	i := slices.IndexFunc(l.Fields, func(f *Field) bool { return f.Statement == s })
	if i < 0 {
		return nil
	}
	return l.Fields[i]
}

// neverNegative are the functions whose value has no sign of its own; positiveIf those that are positive if all
// that they are given is.
var (
	neverNegative = []string{"abs", "percent_error", "range", "stdev", "stderr", "count", "sqrt",
		"population_stdev", "mean_absolute_deviation"}
	positiveIf = []string{
		"circumference", "rotations", "distance", "effective_diameter", "correction", "speed", "travel_time",
		"mean", "median", "min", "max", "sum", "round",
		"floor", "ceil", "mod", "lower_quartile", "upper_quartile", "mode",
	}
)

// cannotBeNegative tells whether a formula's value has no sign, whatever a team measures.
func (l *signs) cannotBeNegative(e quantity.Expr) bool {
	switch e := e.(type) {
	case *quantity.Literal:
		return e.Number.Float() >= 0
	case *quantity.Name:
		if _, isKit := lesson.KitFact(e.Text); isKit || e.Text == "pi" || e.Text == "π" {
			return true
		}
		s := l.Named(e.Text)
		return s != nil && l.isPositive(s)
	case *quantity.Binary:
		return e.Op != '-' && l.cannotBeNegative(e.Left) && (e.Op == '^' || l.cannotBeNegative(e.Right))
	case *quantity.Call:
		if slices.Contains(neverNegative, e.Name) {
			return true
		}
		negative := func(a quantity.Expr) bool { return !l.cannotBeNegative(a) }
		return slices.Contains(positiveIf, e.Name) && !slices.ContainsFunc(e.Args, negative)
	}
	return false
}
