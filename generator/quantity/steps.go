package quantity

// This file works an expression out step by step, as a class would on paper.

import (
	"math/big"
	"slices"
	"strings"
)

// StepKind tells what a step shows.
type StepKind int

const (
	FormulaStep    StepKind = iota // the calculation in its trade form
	NumbersStep                    // the numbers put in
	ConversionStep                 // one unit turned into another, aside
	ResultStep                     // the result with its digits
	RoundedStep                    // the result as asked for
)

// WorkedStep is one line of a worked calculation: Left Relation Right. Left is nil where the line
// goes on from the one before.
type WorkedStep struct {
	Kind     StepKind
	Left     Math
	Relation string // "=" or "≈"
	Right    Math
}

// Text writes the step in one line.
func (s WorkedStep) Text() string {
	left := ""
	if s.Left != nil {
		left = s.Left.Text() + " "
	}
	return left + s.Relation + " " + s.Right.Text()
}

// Worked returns the steps that lead from an expression to its result: the formula
// in its trade form, the numbers put in, conversions, the result, and the rounding,
// which comes last and once. The expression must have a value in env; name is what
// the result is called, "" if nothing.
func Worked(name string, e Expr, env Env, t Target) []WorkedStep {
	return worked(worker{env: env, target: t}, name, e)
}

// WorkedOpen is Worked with a Slot for each number that varies from team to team, and for
// every number that is worked out: only what the lesson itself says is shown. env must hold
// a value of the right unit for every name.
func WorkedOpen(name string, e Expr, env Env, varies func(name string) bool, t Target) []WorkedStep {
	return worked(worker{env: env, target: t, varies: varies}, name, e)
}

func worked(w worker, name string, e Expr) []WorkedStep {
	v, errs := Eval(e, w.env)
	q, ok := v.(Quantity)
	if len(errs) > 0 || !ok {
		return nil
	}
	full := expand(e)
	w.prefer(e, full)
	if lit, ok := e.(*Literal); ok && name == "" {
		return w.literal(lit, q)
	}
	first := WorkedStep{Kind: FormulaStep, Left: w.asWritten(e), Relation: "=", Right: w.symbols(full)}
	if name != "" {
		first.Left = SymbolOf(name)
	}
	if _, yesNo := e.(*Comparison); yesNo { // name = 3 < 5 would be two statements
		first.Right = Parens{first.Right}
		if name == "" {
			first.Left = Parens{first.Left}
		}
	}
	if first.Left.Text() == first.Right.Text() {
		// A calculation that is its own formula: the first line that says more takes its place.
		return opened(first.Left, w.results(nil, e, full, q))
	}
	return w.results([]WorkedStep{first}, e, full, q)
}

// opened puts the left side before the first step that is not an aside.
func opened(left Math, steps []WorkedStep) []WorkedStep {
	i := slices.IndexFunc(steps, func(s WorkedStep) bool { return s.Kind != ConversionStep })
	if i >= 0 && steps[i].Right.Text() == left.Text() {
		steps = slices.Delete(steps, i, i+1)
		i = slices.IndexFunc(steps, func(s WorkedStep) bool { return s.Kind != ConversionStep })
	}
	if i >= 0 {
		steps[i].Left = left
	}
	return steps
}

// results adds the numbers put in, the conversions and the result. full is e with its formulas written out.
func (w *worker) results(steps []WorkedStep, e, full Expr, q Quantity) []WorkedStep {
	numbers, converted := w.numbers(full, false), w.numbers(full, true)
	if _, yesNo := e.(*Comparison); yesNo {
		numbers, converted = Parens{numbers}, Parens{converted}
	}
	steps = w.append(steps, WorkedStep{Kind: NumbersStep, Relation: "=", Right: numbers})
	if len(w.conversions) > 0 {
		steps = append(steps, w.conversions...)
		steps = w.append(steps, WorkedStep{Kind: NumbersStep, Relation: "=", Right: converted})
	}
	if w.varies != nil {
		return w.finishOpen(steps, e, q)
	}
	return w.finish(steps, q)
}

// literal works a quantity that is only shown in another unit.
func (w *worker) literal(e *Literal, q Quantity) []WorkedStep {
	written, _, _ := w.leaf(e)
	number, unit := Show(q, w.target)
	if c, _ := q.In(w.target.Unit); w.target.HasUnit && !c.Unit.Equal(q.Unit) {
		after := Shown{digitsOf(c.Number), c.Unit.Symbol()}
		right := conversionShown(Shown{Number: e.Number.Text}, q, c.Unit, after)
		steps := []WorkedStep{{Kind: ConversionStep, Left: written, Relation: "=", Right: right}}
		if (Shown{number, unit}) != after {
			steps = append(steps, w.relation(WorkedStep{Kind: RoundedStep, Right: Shown{number, unit}}, after.Number, c))
		}
		return w.also(steps, q)
	}
	rounded := WorkedStep{Kind: RoundedStep, Left: written, Relation: "≈", Right: Shown{number, unit}}
	switch {
	case w.target.Also != nil: // then there is something to show anyhow
	case rounded.Right.Text() == written.Text(),
		w.target.Step.IsZero() && number == FormatSignificant(q.Number, trusted(q.Number)):
		return nil
	case sameNumber(e.Number.Text, q, w.target):
		rounded.Relation = "="
	}
	return w.also([]WorkedStep{rounded}, q)
}

// A worker knows what the steps are for, and gathers the conversions met on the way.
type worker struct {
	env         Env
	target      Target
	varies      func(name string) bool // nil if nothing does
	preferred   []*atom
	counting    bool // rotations are what degrees are multiplied by, and angles stay as they are
	conversions []WorkedStep
}

// append adds a step unless it repeats the line before.
func (w *worker) append(steps []WorkedStep, s WorkedStep) []WorkedStep {
	if n := len(steps); n > 0 && steps[n-1].Right.Text() == s.Right.Text() {
		return steps
	}
	if n := len(steps); n == 1 && steps[0].Left != nil && steps[0].Left.Text() == s.Right.Text() {
		return steps
	}
	return append(steps, s)
}

func (w *worker) asWritten(e Expr) Math {
	return layout{leaf: w.symbolLeaf, env: Env{}, readings: nil}.math(e)
}

func (w *worker) symbols(e Expr) Math {
	return layout{leaf: w.symbolLeaf, env: w.env, readings: indexed}.math(e)
}

// indexed writes the readings of a record as s₁ + s₂ + … + s₅.
func indexed(r Record) []Math {
	n := len(r.Numbers)
	at := func(i int) Math { return Symbol{r.Name, itoa(i)} }
	if n > 3 {
		return []Math{at(1), at(2), Word{"…"}, at(n)}
	}
	terms := make([]Math, n)
	for i := range terms {
		terms[i] = at(i + 1)
	}
	return terms
}

func (w *worker) symbolLeaf(e Expr) Math {
	switch e := e.(type) {
	case *Name:
		return SymbolOf(e.Text)
	case *Reading:
		return Symbol{e.Record.Text, itoa(e.Number)}
	case *Literal:
		return Shown{e.Number.Text, e.Unit.Symbol()}
	}
	return Word{e.String()}
}

// mostTerms is how many readings are written out in a sum.
const mostTerms = 12

func (w *worker) numbers(e Expr, convert bool) Math {
	return layout{
		leaf: func(e Expr) Math { return w.numberLeaf(e, convert) },
		env:  w.env,
		readings: func(r Record) []Math {
			if len(r.Numbers) > mostTerms {
				return nil
			}
			terms := make([]Math, len(r.Numbers))
			for i := range r.Numbers {
				if w.varies != nil {
					terms[i] = Slot{Program: Program(r.Name), Index: i + 1, Unit: r.Unit.Symbol()}
					continue
				}
				terms[i] = Shown{r.text(i), r.Unit.Symbol()}
			}
			return terms
		},
		value: func(e *Call) Math { return w.statisticShown(e, convert) },
	}.math(e)
}

// numberLeaf writes a literal or the value of a name, in the preferred unit if convert is
// set; then the conversion is noted as an aside, each one once.
func (w *worker) numberLeaf(e Expr, convert bool) Math {
	written, q, ok := w.leaf(e)
	if !ok || !convert {
		return written
	}
	u := w.inPreferred(q.Unit, true)
	one, _ := written.(Shown)
	if u.Equal(q.Unit) && !one.inParts() {
		return written
	}
	c, _ := q.In(u)
	var after Math = Shown{digitsOf(c.Number), u.Symbol()}
	var number Math = Shown{Number: q.text()}
	if w.varies != nil && !one.inParts() {
		after = w.slot(e, Target{Unit: u, HasUnit: true})
	}
	if slot, ok := written.(Slot); ok {
		number = Slot{Program: slot.Program, Index: slot.Index}
	}
	right := after
	if !u.Equal(q.Unit) {
		right = conversionShown(number, q, u, after)
	}
	step := WorkedStep{Kind: ConversionStep, Left: written, Relation: "=", Right: right}
	if !slices.ContainsFunc(w.conversions, func(s WorkedStep) bool { return s.Text() == step.Text() }) {
		w.conversions = append(w.conversions, step)
	}
	return after
}

// conversionShown shows how one unit becomes another: 48 × 2.54 cm = 121.92 cm. A factor
// that would need many digits is left out. What is written in parts is first one number: 6 ft 3 in = 75 in.
func conversionShown(number Math, q Quantity, u Unit, after Math) Math {
	exact, ok := ExactRatio(q.Unit, u)
	if !ok {
		return after
	}
	if one, ok := number.(Shown); ok && (Shown{one.Number, q.Unit.Symbol()}).inParts() {
		plain := Shown{Number: digitsOf(q.Number)}
		return Row{[]Math{Shown{plain.Number, q.Unit.Symbol()}, Sign{"="}, conversionShown(plain, q, u, after)}}
	}
	sign := "×"
	if exact.Cmp(big.NewRat(1, 1)) < 0 {
		sign, exact = "÷", exact.Inv(exact)
	}
	factor := Rounding{size: exact}
	if places := factor.decimals(); places < 0 || places > 8 {
		return after
	}
	if sign == "÷" { // 65 ÷ 25.4 in would be read as one over an inch
		quotient := Row{[]Math{number, Sign{sign}, Shown{Number: factor.String()}}}
		return Row{[]Math{WithUnit{Parens{quotient}, u.Symbol()}, Sign{"="}, after}}
	}
	return Row{[]Math{number, Sign{sign}, Shown{factor.String(), u.Symbol()}, Sign{"="}, after}}
}

// statisticShown is what a statistic comes to, in the preferred unit if convert is set. A reading is shown as
// it was written.
func (w *worker) statisticShown(e *Call, convert bool) Math {
	v, _ := Eval(e, w.env)
	q, ok := v.(Quantity)
	if !ok {
		return Word{e.String()}
	}
	u := q.Unit
	if convert {
		u = w.inPreferred(u, true)
	}
	if w.varies != nil {
		return w.slot(e, Target{Unit: u, HasUnit: true})
	}
	c, _ := q.In(u)
	if n, ok := e.Args[0].(*Name); ok && len(e.Args) == 1 && e.Name != "mean" {
		if r, ok := w.env[n.Text].(Record); ok && r.Unit.Equal(u) {
			return Shown{r.text(slices.Index(r.Numbers, c.Number)), u.Symbol()}
		}
	}
	return Shown{digitsOf(c.Number), u.Symbol()}
}

// leaf returns a literal or the value of a name, as it is to be read.
func (w *worker) leaf(e Expr) (Math, Quantity, bool) {
	switch e := e.(type) {
	case *Literal:
		q := New(e.Number.Float(), e.Unit)
		q.written = e.Number.Text
		return Shown{q.written, e.Unit.Symbol()}, q, true
	case *Name:
		if q, ok := w.env[e.Text].(Quantity); ok {
			if w.varies != nil && w.varies(e.Text) {
				return Slot{Program: Program(e.Text), Unit: q.Unit.Symbol()}, q, true
			}
			if q.Unit.IsTruth() {
				return Word{TruthText(q.Number)}, q, true
			}
			return Shown{q.text(), q.Unit.Symbol()}, q, true
		}
		if q, ok := truths[e.Text]; ok && w.env[e.Text] == nil {
			return Word{e.Text}, q, true
		}
		return SymbolOf(e.Text), Quantity{}, false
	case *Reading:
		r, ok := w.env[e.Record.Text].(Record)
		if !ok || e.Number > len(r.Numbers) {
			break
		}
		q := New(r.Numbers[e.Number-1], r.Unit)
		if q.written = r.text(e.Number - 1); w.varies != nil {
			return Slot{Program: Program(r.Name), Index: e.Number, Unit: r.Unit.Symbol()}, q, true
		}
		return Shown{q.written, r.Unit.Symbol()}, q, true
	}
	return Word{e.String()}, Quantity{}, false
}

// finish adds the result in the unit that the calculation leads to, in the unit asked for,
// and rounded.
func (w *worker) finish(steps []WorkedStep, q Quantity) []WorkedStep {
	natural, _ := q.In(w.inPreferred(q.Unit, false))
	wanted := natural
	if w.target.HasUnit {
		wanted, _ = q.In(w.target.Unit)
	}
	result := func(q Quantity) WorkedStep {
		return WorkedStep{Kind: ResultStep, Relation: "=", Right: Shown{digitsOf(q.Number), q.Unit.Symbol()}}
	}
	if q.Unit.IsTruth() {
		return w.append(steps, WorkedStep{Kind: ResultStep, Relation: "=", Right: Shown{Number: TruthText(q.Number)}})
	}
	if wanted.Number != natural.Number {
		steps = w.append(steps, result(natural))
	}
	steps = w.append(steps, result(wanted))
	number, unit := Show(q, w.target)
	last := steps[len(steps)-1].Right
	if last.Text() == (Shown{number, unit}).Text() {
		return w.also(steps, q)
	}
	rounded := WorkedStep{Kind: RoundedStep, Relation: "≈", Right: Shown{number, unit}}
	if shown, ok := last.(Shown); ok {
		rounded = w.relation(rounded, shown.Number, wanted)
	}
	return w.also(append(steps, rounded), q)
}

// relation gives a rounded step its = where rounding changes nothing.
func (w *worker) relation(s WorkedStep, digits string, q Quantity) WorkedStep {
	s.Relation = "≈"
	inParts := !w.target.Over.IsNumber() && w.target.Step.IsZero() && !strings.Contains(digits, "…")
	if inParts || sameNumber(digits, q, w.target) {
		s.Relation = "="
	}
	return s
}

// also adds the result in the other units that it is asked for in.
func (w *worker) also(steps []WorkedStep, q Quantity) []WorkedStep {
	for next := w.target.Also; next != nil; next = next.Also {
		number, unit := Show(q, *next)
		s := WorkedStep{Kind: RoundedStep, Relation: "≈", Right: Shown{number, unit}}
		if c, ok := q.In(next.Unit); ok && next.Over.IsNumber() && sameNumber(digitsOf(c.Number), c, *next) {
			s.Relation = "="
		}
		steps = append(steps, s)
	}
	return steps
}

// sameNumber tells whether rounding to the step only changes how the number is
// written, as in 12 and 12.0.
func sameNumber(digits string, q Quantity, t Target) bool {
	if t.Step.IsZero() || strings.Contains(digits, "…") {
		return false
	}
	return snap(t.Step.Round(q.Number)) == snap(q.Number)
}
