package work

// What an expression depends on: what students do, the kit, boxes, finds. It decides who may see its value, and when.

import (
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// dependsOnStudents tells whether an expression depends on what students measure, record or find.
func (w *worker) dependsOnStudents(e quantity.Expr) bool {
	for _, name := range quantity.Names(e) {
		if w.fromKit[name] {
			return true
		}
		if s, ok := w.defined[name]; ok && w.out.results[s].OfStudents {
			return true
		}
	}
	return false
}

// dependsOnVarying tells whether an expression has another value for another team or kit.
func (w *worker) dependsOnVarying(e quantity.Expr) bool {
	for _, name := range quantity.Names(e) {
		if w.varies[name] {
			return true
		}
	}
	return false
}

// boxesOf are the names that a team fills in, or finds, before an expression has a value.
func (w *worker) boxesOf(e quantity.Expr) []string {
	var all []string
	for _, name := range quantity.Names(e) {
		s := w.defined[name]
		switch {
		case s == nil || slices.Contains(all, name):
		case s.Kind != lesson.Given:
			all = append(all, name)
		case s.Expr != nil:
			all = append(all, w.boxesOf(s.Expr)...)
		}
	}
	return all
}

// restsOn adds the finds that an expression is made of: without them the page has no value for it.
func (w *worker) restsOn(e quantity.Expr, all map[string]bool) {
	if e == nil {
		return
	}
	for _, name := range quantity.Names(e) {
		s := w.defined[name]
		switch {
		case s == nil:
		case s.Kind == lesson.Find:
			all[name] = true
		case s.Kind == lesson.Given && s.Expr != nil:
			w.restsOn(s.Expr, all)
		}
	}
}
