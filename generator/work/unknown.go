package work

// What is said about names and units that are not known, and what is said only once.

import (
	"cmp"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// unitForgotten takes a given whose unit was left out for unknown once that was noticed: wherever it is used the same
// would be said.
func (w *worker) unitForgotten(err *quantity.Error) {
	name := w.out.File.Slice(source.Span(err.Span))
	s := w.defined[name]
	if err.Slug != "mixed-dimensions" || s == nil || s.Kind != lesson.Given {
		return
	}
	if literal, ok := s.Expr.(*quantity.Literal); ok && literal.Unit.IsNumber() {
		w.out.Env[name] = quantity.Unknown{}
	}
}

// again tells whether a name is missing that was reported as missing above: to define it is to fix both. A slip of the
// pen in a name is one of its own wherever it is.
func (w *worker) again(err *quantity.Error) bool {
	missing := err.Slug == "unknown-name" || err.Slug == "name-too-early"
	return missing && !strings.HasPrefix(err.Hint, "did you mean") && !w.once(err.Slug+" "+err.Name)
}

// once tells whether something is reported for the first time, and notes it.
func (w *worker) once(what string) bool {
	if w.reportedOf[what] {
		w.keptBack++
		return false
	}
	if w.reportedOf == nil {
		w.reportedOf = map[string]bool{}
	}
	w.reportedOf[what] = true
	return true
}

// unitApart is the upper half of a unit that is written with blanks, as in 120 rot / min.
var unitApart = wording.New(`[0-9]\s*(\pL+)\s*/\s*$`)

// explain says more about a name that is unknown here but not in the lesson.
func (w *worker) explain(err *quantity.Error) {
	if err.Slug != "unknown-name" {
		return
	}
	if w.later[err.Name] == nil && w.out.Words.IsFormula(err.Name) {
		err.Hint, err.Instead = err.Name+" is a formula: write "+err.Name+"(…)", ""
		return
	}
	if s := w.defined[err.Name]; s != nil && s.Kind == lesson.Say {
		err.Slug, err.Instead = "words-as-number", ""
		err.What = "“" + err.Name + "” is room for words, and cannot be worked with"
		err.Hint = "use the name of a number; only a person can read what is said"
		return
	}
	if w.isChoice(err) {
		return
	}
	if s, ok := w.later[err.Name]; ok && s == w.current && w.defined[err.Name] == nil {
		err.Slug, err.Instead = "name-too-early", ""
		err.What = "“" + err.Name + "” is only being defined here, and cannot be part of its own calculation"
		err.Hint = "use another name for the new value"
		return
	}
	if s, ok := w.later[err.Name]; ok {
		err.Slug, err.Instead = "name-too-early", ""
		err.What = "“" + err.Name + "” is used before it is defined"
		line := w.out.File.LineSeenFrom(s.NameAt.Start, err.Span.Start)
		err.Hint = "move this below line " + line + ", where " + err.Name + " is defined"
		return
	}
	if m := unitApart.FindSubmatch(w.out.File.Text()[max(0, err.Span.Start-40):err.Span.Start]); m != nil {
		if _, none := quantity.ParseUnit(string(m[1]) + "/" + err.Name); none == nil {
			err.Hint, err.Instead = "if this is a unit, write it without blanks: "+string(m[1])+"/"+err.Name, ""
		}
	}
	if field, isKit := lesson.KitFact(err.Name); isKit {
		err.What = "the kit has no " + field
		if near := quantity.Nearest(err.Name, kitNames(w.out.Kit)); len(near) == 1 {
			err.Instead = near[0]
		}
		err.Hint = cmp.Or(quantity.DidYouMean(err.Name, kitNames(w.out.Kit)),
			"a kit has "+strings.Join(kitNames(w.out.Kit), ", ")+"; look at kits.yaml and at the kit that pack.yaml names")
	}
}
