package work

// The facts of the kit, as names that a lesson can use.

import (
	"slices"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// defineKit defines the names of the kit's facts. Without a usable kit, and for a field that is
// written wrong, the value is Unknown: the problem is reported where the kit is.
func (w *worker) defineKit(kit *lesson.Kit) {
	if kit == nil {
		for _, f := range lesson.KitFields {
			w.out.Env[lesson.KitName(f.Name)] = quantity.Unknown{}
		}
		return
	}
	for _, f := range kit.Fields {
		w.out.Env[lesson.KitName(f.Name)] = quantity.Unknown{}
		if f.Literal == nil {
			continue
		}
		if q, err := f.Literal.Quantity(lesson.KitName(f.Name)); err == nil {
			w.out.Env[lesson.KitName(f.Name)] = q
		}
	}
}

// kitNames are the facts that a lesson may name: the usual ones, and those of the pack's own.
func kitNames(kit *lesson.Kit) []string {
	var names []string
	for _, f := range lesson.KitFields {
		names = append(names, lesson.KitName(f.Name))
	}
	if kit == nil {
		return names
	}
	for _, f := range kit.Fields {
		if name := lesson.KitName(f.Name); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// noteShown notes the kit's facts of the pack's own in what students read, in sentences and programs: these follow the
// kit that a team picks, as many are there for nothing else. The usual facts do so where a formula uses them, too.
func (w *worker) noteShown(n ast.Node) {
	var values []*lesson.Value
	switch n := n.(type) { // the others: they hold nothing that follows a kit
	case *lesson.Value:
		values = append(values, n)
	case *lesson.FilledCode:
		for _, part := range n.Parts {
			if part.Value != nil {
				values = append(values, part.Value)
			}
		}
	}
	if len(values) == 0 || lesson.ForMentors(n) {
		return
	}
	for _, v := range values {
		for _, name := range quantity.Names(v.Expr) {
			if _, isFact := lesson.KitFact(name); isFact && !slices.Contains(kitNames(nil), name) {
				w.usesKit[name] = true
			}
		}
	}
}

// noteNames notes the kit's facts that a statement uses, and those that it has students measure.
func (w *worker) noteNames(s *lesson.Statement) {
	if s.Expr == nil {
		return
	}
	for _, name := range quantity.Names(s.Expr) {
		w.usesKit[name] = true
	}
	if n, ok := s.Expr.(*quantity.Name); ok && s.Kind == lesson.Measure {
		w.fromKit[n.Text] = true
	}
}

// noteKit notes which facts of the kit the lesson uses. They vary from the start; other names as they are
// defined.
func (w *worker) noteKit(kit *lesson.Kit) {
	w.varies = map[string]bool{}
	for _, f := range lesson.KitFields {
		w.varies[lesson.KitName(f.Name)] = true
	}
	if kit == nil {
		return
	}
	for _, f := range kit.Fields {
		w.varies[lesson.KitName(f.Name)] = true
		if f.Literal == nil || !w.usesKit[lesson.KitName(f.Name)] {
			continue
		}
		w.out.KitUsed = append(w.out.KitUsed, f)
		if !w.fromKit[lesson.KitName(f.Name)] {
			w.out.KitGiven = append(w.out.KitGiven, f)
		}
	}
}
