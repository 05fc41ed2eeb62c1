package quantity

// This file holds formulas that a pack defines itself: how they are read and looked at before a lesson uses them.

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Formula is what the call applies, nil if there is no such formula.
func (e *Call) Formula() *Formula {
	if f := functions[e.Name]; f != nil {
		return f
	}
	return e.words.formula(e.Name)
}

// with is the same call of other values.
func (e *Call) with(args []Expr) *Call {
	other := *e
	other.Args = args
	return &other
}

// Written gives the calculation that a call of a pack's own formula stands for, with the call's own values in it; false
// for any other call.
func (e *Call) Written() (Expr, bool) {
	f := e.Formula()
	if f == nil || !f.own || !f.takes(len(e.Args)) {
		return nil, false
	}
	return substitute(f.long, f.Params, e.Args), true
}

func (v *Vocabulary) formula(name string) *Formula {
	if v == nil {
		return nil
	}
	i := slices.IndexFunc(v.formulas, func(f *Formula) bool { return f.Name == name })
	if i < 0 {
		return nil
	}
	return v.formulas[i]
}

// formulaNames are the names of all that can be called.
func (v *Vocabulary) formulaNames() []string {
	names := FormulaNames()
	if v != nil {
		for _, f := range v.formulas {
			names = append(names, f.Name)
		}
	}
	return names
}

// IsFormula tells whether a name is that of a formula of the pack's own.
func (v *Vocabulary) IsFormula(name string) bool { return v.formula(name) != nil }

// expanded is the body of a formula in which no other formula is called.
func (f *Formula) expanded(args int) Expr {
	if f.own {
		return f.full
	}
	return f.body(args)
}

// relation is what a formula of the pack's own says on paper: its calculation, in the words of the pack, with what it
// calls written out if that is short.
func (f *Formula) relation() WorkedStep {
	const short = 20
	words, said := layout{leaf: wordLeaf, env: Env{}}, f.long
	if countNodes([]Expr{f.full}) <= short {
		said = f.full
	}
	return WorkedStep{Kind: FormulaStep, Left: Word{blanks(f.Name)}, Relation: "=", Right: words.math(said)}
}

// kinds are the words for what a value of a formula can be, beside the units of which it may be in any.
var kinds = []struct {
	word string
	like Param
}{
	{"number", Param{}},
	{"rotations", Param{Count: true}},
	{"length", Param{Takes: lengthDim}},
	{"angle", Param{Takes: angleDim}},
	{"time", Param{Takes: timeDim}},
	{"mass", Param{Takes: massDim}},
	{"speed", Param{Takes: speedDim}},
	{"area", Param{Takes: Dimension{length: 2}}},
	{"volume", Param{Takes: volumeDim}},
	{"money", Param{Takes: moneyDim}},
}

// Kinds are the words for what a value of a formula can be.
func Kinds() []string {
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = k.word
	}
	return words
}

// ReadParam reads what a value of a formula is: one of Kinds, or a unit of that kind.
func (v *Vocabulary) ReadParam(name, kind string, at Span) (Param, *Error) {
	for _, k := range kinds {
		if k.word != kind {
			continue
		}
		k.like.Name, k.like.Written = name, kind
		if k.like.Takes == moneyDim {
			if k.like.like = v.currency(); k.like.like == "" {
				return Param{}, &Error{Span: at, Slug: "own-formula", What: "the pack counts in no currency",
					Hint: "name one in pack.yaml, as in  money: EUR", Reported: v.hasLost("")}
			}
		}
		return k.like, nil
	}
	u, err := v.ParseUnit(kind)
	if err != nil {
		hint := DidYouMean(kind, Kinds())
		if hint == "" {
			hint = "write one of " + strings.Join(Kinds(), ", ") + ", or a unit such as V"
		}
		return Param{}, &Error{Span: at, Slug: "own-formula", What: quote(kind) + " does not say what " + name + " is",
			Hint: hint}
	}
	p := Param{Name: name, Written: kind, Takes: u.Dimension(), like: kind}
	p.Count = u.Equal(mustUnit("rot"))
	return p, nil
}

// CheckName says why a formula, or a value of one, cannot have a name; nil if it can.
func (v *Vocabulary) CheckName(name string, isFormula bool, at Span) *Error {
	what := "a value"
	if isFormula {
		what = "a formula"
	}
	fault := func(because string) *Error {
		return &Error{Span: at, Slug: "own-formula", What: quote(name) + " cannot be the name of " + what + because,
			Hint: "choose another, of letters, digits and _"}
	}
	switch {
	case name == "" || nameLength(name) != len(name) || strings.ContainsAny(name, ".π") || isCurrency(name):
		return fault("")
	case slices.Contains([]string{"in", "to", limitWord, "pi", "kit"}, name):
		return fault(", since it means something else")
	case isFormula && functions[name] != nil:
		return fault(": it is a formula already")
	}
	return nil
}

// MaxFormula bounds a formula with all that it calls written out.
const MaxFormula = 300

// DefineFormula reads the calculation of a formula that has its name and values, and adds it to those of the pack. It
// may call formulas that are defined already.
func (v *Vocabulary) DefineFormula(f *Formula, at func(int) int) []*Error {
	f.own = true
	p := v.NewParser(f.Body, at)
	e, err := p.Expr()
	if err == nil {
		err = p.End()
	}
	if err != nil {
		return []*Error{err}
	}
	if errs := f.foreign(e); len(errs) > 0 {
		return errs
	}
	f.long, f.short, f.full = e, e, expand(e)
	if countNodes([]Expr{f.full}) > MaxFormula {
		return []*Error{{Span: e.Span(), Slug: "own-formula", What: "this formula is too long to be followed",
			Hint: "make two formulas of it"}}
	}
	if errs := f.tried(); len(errs) > 0 {
		return errs
	}
	v.formulas = append(v.formulas, f)
	return nil
}

// foreign reports what a formula cannot have: names that are none of its values, and numbers with a ±.
func (f *Formula) foreign(e Expr) (errs []*Error) {
	var names []string
	for _, p := range f.Params {
		names = append(names, p.Name)
	}
	Walk(e, func(e Expr) {
		switch e := e.(type) {
		case *Literal:
			if e.Uncertainty.Exact != nil {
				errs = append(errs, &Error{Span: e.At, Slug: "own-formula", What: "a number of a formula is exact",
					Hint: "make it a value of the formula, so that a lesson can give it its ±"})
			}
		case *Name:
			if e.Text == "pi" || slices.Contains(names, e.Text) {
				return
			}
			hint := DidYouMean(e.Text, names)
			if hint == "" {
				hint = "its values are " + strings.Join(names, ", ") + "; add it to them, and give it in the call"
			}
			errs = append(errs, &Error{Span: e.At, Slug: "unknown-name", Hint: hint,
				What: quote(e.Text) + " is not one of the values of the formula " + f.Name})
		}
	})
	return errs
}

// tried works a formula out with made-up values, and reports what is wrong with it whatever its values are.
func (f *Formula) tried() []*Error {
	for _, from := range []float64{1.25, 7.5, 0.0625} {
		env := Env{}
		for i, p := range f.Params {
			env[p.Name] = p.Sample(from / float64(i+1))
		}
		v, errs := Eval(f.long, env)
		errs = slices.DeleteFunc(errs, func(e *Error) bool { // they come from the values
			return slices.Contains([]string{"no-value", "not-finite", "division-by-zero"}, e.Slug)
		})
		for _, err := range errs {
			f.plainer(err)
		}
		if len(errs) > 0 {
			return errs
		}
		q, ok := v.(Quantity)
		if !ok {
			continue
		}
		if _, fits := q.In(f.in); f.Unit != "" && !fits {
			return []*Error{{Span: f.long.Span(), Slug: "own-formula",
				What: "this comes out as " + q.Unit.Dimension().String() + " and cannot be given in " + f.Unit + ", which is " +
					f.in.Dimension().String(), Hint: "change the calculation or the unit of its result"}}
		}
		return nil
	}
	return nil
}

// Sample is a made-up value of what the parameter takes.
func (p Param) Sample(number float64) Quantity {
	if p.Count {
		return New(number, mustUnit("rot"))
	}
	return New(number, baseUnit(p.Takes))
}

// madeUp is a value of tried with its kind.
var madeUp = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\([-−0-9.]+[^(),]*, (an? [^()]*)\)`)
})

// plainer says what is wrong without the values that were made up to find it.
func (f *Formula) plainer(err *Error) {
	err.What = madeUp().ReplaceAllString(err.What, "($1)")
	if err.Slug == "unknown-formula" && err.Instead == "" {
		err.Hint = "a formula can call those above it, and those that trundle help language formulas lists"
	}
}

// currency is the unit of money that the pack names, "" if it names none.
func (v *Vocabulary) currency() string {
	if v == nil {
		return ""
	}
	for _, a := range v.units {
		if a.dim == moneyDim {
			return a.symbol
		}
	}
	return ""
}

// ResultIn says what a formula's result is called.
func (f *Formula) ResultIn(u Unit) { f.in, f.Unit = u, u.String() }
