package work

// Predictions: guesses of the students' own. What is worked out from one has a unit and no number, in no edition, until
// a team has written its guess on its page.

import (
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// standIn is what formulas see in a guess's place, so that their units can be worked out. It is shown nowhere.
const standIn = 10

// guessIn gives the prediction that an expression depends on, through other names too, or "".
func (w *worker) guessIn(e quantity.Expr) string {
	guess := ""
	w.reaches(e, isMade, func(name string, s *lesson.Statement) bool {
		if s != nil && s.Kind == lesson.Predict {
			guess = name
		}
		return guess != ""
	})
	return guess
}

// worked gives a result what its expression comes to, or only the unit of that if a guess is in it.
func (w *worker) worked(r *Result, e quantity.Expr) {
	if w.guessIn(e) == "" {
		r.Value = w.eval(e, r.Target)
		return
	}
	r.Value = quantity.Unknown{}
	r.unit, r.Guessed = w.unitOfGuess(e, r.Target)
}

// unitOfGuess works out the unit of something that a guess is in.
func (w *worker) unitOfGuess(e quantity.Expr, t quantity.Target) (quantity.Unit, bool) {
	before := w.problems.Count()
	if q, ok := w.eval(e, t).(quantity.Quantity); ok {
		return q.Unit, true
	}
	if w.problems.ErrorsSince(before) {
		return quantity.Unit{}, false
	}
	_, u, err := quantity.Compile(e, w.out.Env, func(name string) bool { return w.varies[name] }, t)
	return u, err == nil
}

// byNumber are the problems of an expression that depend on the numbers in it, and not on their units.
var byNumber = []string{"division-by-zero", "no-value", "not-finite"}

// ofStandIn tells whether something went wrong only because of the number that stands for a guess.
func (w *worker) ofStandIn(e quantity.Expr, err *quantity.Error) bool {
	guessed := false
	if slices.Contains(byNumber, err.Slug) {
		quantity.Walk(e, func(part quantity.Expr) {
			guessed = guessed || part.Span() == err.Span && w.guessIn(part) != ""
		})
	}
	return guessed
}

// inFormulas is what formulas further down see of a result.
func (r *Result) inFormulas() quantity.Value {
	if r.Guessed {
		return quantity.New(standIn, r.unit)
	}
	return r.Value
}

// kind gives the unit that a value is in, be it a guess's; ok is false if there is none.
func (r *Result) kind() (u quantity.Unit, ok bool) {
	switch v := r.Value.(type) {
	case quantity.Quantity:
		return v.Unit, true
	case quantity.Record:
		return v.Unit, true
	}
	return r.unit, r.Guessed
}

// noGuess reports an expression that must come to a number for something, at a place, and has a guess in it.
func (w *worker) noGuess(e quantity.Expr, at source.Span, what string) bool {
	name := w.guessIn(e)
	if name == "" {
		return true
	}
	w.problems.Error(w.out.File, at, "guess-without-number",
		"this depends on "+name+", which every team predicts for itself, so there is no number for "+what,
		"take "+name+" or this line out; a prediction can be used in sentences, and in finds without a key")
	return false
}

// noGuesses does so for the lines of a runs, chart, compare or readers block.
func (w *worker) noGuesses(b *lesson.DataBlock) bool {
	sound := true
	look := func(e quantity.Expr) {
		if e != nil {
			sound = w.noGuess(e, source.Span(e.Span()), "a "+string(b.Name)+" block") && sound
		}
	}
	for _, l := range b.Entries {
		for _, e := range []quantity.Expr{l.Expr, l.From, l.To, l.Within} {
			look(e)
		}
		if l.Matters != nil {
			look(l.Matters.Expr)
		}
	}
	return sound
}
