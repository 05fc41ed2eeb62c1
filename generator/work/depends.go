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
	w.reaches(e, isGiven, func(name string, s *lesson.Statement) bool {
		if s != nil && s.Kind != lesson.Given {
			all = append(all, name)
		}
		return false
	})
	return all
}

// restsOn adds the finds that an expression is made of: without them the page has no value for it.
func (w *worker) restsOn(e quantity.Expr, all map[string]bool) {
	w.reaches(e, isGiven, func(name string, s *lesson.Statement) bool {
		if s != nil && s.Kind == lesson.Find {
			all[name] = true
		}
		return false
	})
}

// isMade and isGiven are true of statements whose name stands for a calculation.
func isMade(s *lesson.Statement) bool  { return s.Kind == lesson.Given || s.Kind == lesson.Find }
func isGiven(s *lesson.Statement) bool { return s.Kind == lesson.Given }

// reaches tells whether found is true of a name that an expression depends on: one that is in it or, where through says
// so of a name's statement, in what that is worked out from. Each is looked at once, however many ways lead to it: with
// names that are each made of all before, the ways double with every one.
func (w *worker) reaches(e quantity.Expr, through func(*lesson.Statement) bool,
	found func(name string, s *lesson.Statement) bool) bool {
	seen := map[string]bool{}
	var look func(e quantity.Expr) bool
	look = func(e quantity.Expr) bool {
		return e != nil && slices.ContainsFunc(quantity.Names(e), func(name string) bool {
			if seen[name] {
				return false
			}
			seen[name] = true
			s := w.defined[name]
			return found(name, s) || s != nil && through(s) && look(s.Expr)
		})
	}
	return look(e)
}
