package work

// One like it: the same calculation with other numbers, for a team that is stuck. Students see it, so nothing
// of the sample and no answer of the lesson may be in it.

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/wording"
)

// scales are what the example's numbers are multiplied by, the next where one comes too near to an answer.
var scales = []float64{0.8, 1.4, 0.6, 1.7, 2.3, 0.45, 1.15, 2.9}

// A change is what the numbers of an example are multiplied by: each further name by a little more, so that
// no two lengths keep their ratio.
type change struct{ scale, apart float64 }

func (c change) of(i int) float64 { return c.scale * (1 + c.apart*float64(i)) }

// mostExamples limits how many formulas of one lesson are worked again for examples.
const mostExamples = 20000

// another works a find out with other numbers; nil if that cannot be done without giving something away.
func (w *worker) another(s *lesson.Statement) []quantity.WorkedStep {
	if w.out.results[s].IsTruth() || chooses(s.Expr) {
		return nil // with numbers that are only a little different, yes would stay yes
	}
	names := w.measuredNames(s.Expr)
	var kept map[string]bool
	if len(names) > 0 {
		kept = literals(s.Expr)
	}
	for i, scale := range scales {
		if w.examples += 1 + len(w.order); w.examples > mostExamples {
			return nil
		}
		by := change{scale, 0.01 + 0.02*float64(i)}
		expr := s.Expr
		if len(names) == 0 {
			expr = scaledLiterals(w.out.Words, expr, by)
		}
		steps := quantity.Worked(s.Name, expr, w.scaled(names, s, by), s.Target)
		if len(steps) > 0 && !w.givesAway(steps, kept) {
			return steps
		}
	}
	return nil
}

// chooses tells whether an if is in an expression.
func chooses(e quantity.Expr) bool {
	found := false
	quantity.Walk(e, func(e quantity.Expr) {
		call, ok := e.(*quantity.Call)
		found = found || ok && call.Name == "if"
	})
	return found
}

// measuredNames are what a formula depends on in the end, through finds and givens: what is
// measured, recorded or given, in the order in which it is named.
func (w *worker) measuredNames(e quantity.Expr) []string {
	var names []string
	fromOthers := func(s *lesson.Statement) bool { return isMade(s) && len(quantity.Names(s.Expr)) > 0 }
	w.reaches(e, fromOthers, func(name string, s *lesson.Statement) bool {
		if (s == nil || !fromOthers(s)) && w.out.Env[name] != nil {
			names = append(names, name)
		}
		return false
	})
	return names
}

// scaled gives those names other values, and works out again what depends on them, up to a find.
func (w *worker) scaled(names []string, until *lesson.Statement, changed change) quantity.Env {
	env := maps.Clone(w.out.Env)
	for i, name := range names {
		by := changed.of(i)
		switch v := env[name].(type) {
		case quantity.Quantity:
			env[name] = quantity.New(roundedLike(v.Number, v.Number*by), v.Unit)
		case quantity.Record:
			env[name] = quantity.Record{Name: v.Name, Unit: v.Unit, Numbers: w.scaledReadings(name, v, by)}
		}
	}
	for _, b := range w.order {
		if b.name == until.Name {
			break
		}
		if slices.Contains(names, b.name) {
			continue
		}
		v, errs := quantity.Eval(b.expr, env)
		q, ok := v.(quantity.Quantity)
		if ok && b.target.HasUnit {
			q, ok = q.In(b.target.Unit)
		}
		if len(errs) > 0 || !ok {
			env[b.name] = quantity.Unknown{}
			continue
		}
		if step := b.target.Step.Float(); step > 0 { // as a team would go on with it
			q.Number = math.Round(q.Number/step) * step
		}
		env[b.name] = quantity.New(q.Number, q.Unit)
	}
	return env
}

// scaledReadings keeps the step of a record.
func (w *worker) scaledReadings(name string, v quantity.Record, by float64) []float64 {
	step := 0.0
	if s := w.defined[name]; s != nil {
		step = s.Target.Step.Float()
	}
	numbers := make([]float64, len(v.Numbers))
	for i, x := range v.Numbers {
		numbers[i] = roundedLike(x, x*by)
		if step > 0 {
			numbers[i] = math.Round(x*by/step) * step
		}
	}
	return numbers
}

// roundedLike rounds to as many significant digits as another number has: two at least, three at most.
func roundedLike(other, x float64) float64 {
	const fewest, most = 2, 3
	digits := strings.Trim(strings.ReplaceAll(quantity.FormatSignificant(other, most), ".", ""), "0"+quantity.Minus)
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', max(fewest, len(digits)), 64), 64)
	if err != nil {
		return x
	}
	return y
}

// scaledLiterals gives the numbers that have a unit other values, in a calculation that has no names.
func scaledLiterals(words *quantity.Vocabulary, e quantity.Expr, by change) quantity.Expr {
	fresh, err := words.WithPoints().ParseExpr(e.String())
	if err != nil {
		return e
	}
	i := 0
	quantity.Walk(fresh, func(e quantity.Expr) {
		lit, ok := e.(*quantity.Literal)
		if !ok || lit.Unit.IsNumber() {
			return
		}
		x := roundedLike(lit.Number.Float(), lit.Number.Float()*by.of(i))
		i++
		text := strings.TrimPrefix(quantity.FormatPlain(x), quantity.Minus)
		if number, _, _, err := quantity.NewParser(text, func(i int) int { return i }).Number("a number"); err == nil {
			lit.Number = number
		}
	})
	return fresh
}

// literals are the numbers that a formula has itself: every team's steps show them.
func literals(e quantity.Expr) map[string]bool {
	texts := map[string]bool{}
	quantity.Walk(e, func(e quantity.Expr) {
		if lit, ok := e.(*quantity.Literal); ok {
			texts[quantity.Shown{Number: lit.Number.Text, Unit: lit.Unit.Symbol()}.Text()] = true
		}
	})
	return texts
}

// givesAway tells whether worked steps show an answer of the lesson, or a number of its samples, that is not in the
// formula.
func (w *worker) givesAway(steps []quantity.WorkedStep, own map[string]bool) bool {
	var lines []string
	for _, step := range steps {
		lines = append(lines, step.Text())
	}
	shown := plainBlanks(strings.Join(lines, " ¦ "))
	if w.secrets == nil {
		w.secrets = secretsIn(w.out.results)
	}
	for text := range w.secrets {
		if !own[text] && hasNumber(shown, plainBlanks(text)) {
			return true
		}
	}
	return false
}

// secretsIn are the texts of all statements.
func secretsIn(results map[*lesson.Statement]*Result) map[string]bool {
	all := map[string]bool{}
	for s, r := range results {
		for _, text := range secretsOf(s, r) {
			if text != "" {
				all[text] = true
			}
		}
	}
	return all
}

// secretsOf are the texts of a statement that students find, or measure for themselves. Yes and no are none: each says
// nothing of another question.
func secretsOf(s *lesson.Statement, r *Result) []string {
	if r.IsTruth() {
		return nil
	}
	switch s.Kind {
	case lesson.Find:
		texts := r.AllTexts()
		if r.Key != nil {
			texts = append(texts, r.Key.Amount())
		}
		return texts
	case lesson.Measure:
		return []string{r.Text()}
	case lesson.Record:
		var texts []string
		for _, number := range s.Texts {
			texts = append(texts, quantity.Shown{Number: number, Unit: r.Unit()}.Text())
		}
		return texts
	case lesson.Given, lesson.Key, lesson.Slip: // students see them, or they belong to a find
	case lesson.Predict, lesson.Choose, lesson.Say, lesson.Listen: // no number of the lesson is in them
	}
	return nil
}

func plainBlanks(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

var (
	endsNumber = wording.New(`[\p{L}\p{N}.,−-]$`)
	startsWord = wording.New(`^[\p{L}\p{N}/]`)
)

// hasNumber tells whether a text has a number that is not part of a longer one.
func hasNumber(text, number string) bool {
	for {
		before, after, found := strings.Cut(text, number)
		if !found {
			return false
		}
		if !endsNumber.MatchString(before) && !startsWord.MatchString(after) {
			return true
		}
		text = after
	}
}
