package work

// The facts of the kit, as names that a lesson can use.

import (
	"strings"

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

func kitFields() string { return strings.Join(kitNames(), ", ") }

func kitNames() []string {
	names := make([]string, len(lesson.KitFields))
	for i, f := range lesson.KitFields {
		names[i] = lesson.KitName(f.Name)
	}
	return names
}
