package work

// The coach's own answers, and whether the lesson agrees with them.

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strconv"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

func itoa(n int) string { return strconv.Itoa(n) }

// Key is the coach's own answer to a find.
type Key struct {
	Statement *lesson.Statement
	Value     quantity.Quantity // in the key's own unit
	Computed  quantity.Quantity // the find's value in the key's unit
	Within    float64           // how far the two may be apart, in the key's unit
	Compared  bool              // false if the find has no value, or one of another kind
	Holds     bool
}

// Text writes the key as the coach did, its limit included.
func (k *Key) Text() string {
	if sure := k.Statement.Literal.Sure(); sure != "" {
		return k.Amount() + " " + sure
	}
	return k.Amount()
}

// Amount writes the key's number and unit as the coach did.
func (k *Key) Amount() string {
	lit := k.Statement.Literal
	number := lit.Number.Text
	if k.Statement.Negative {
		number = quantity.Minus + number
	}
	return quantity.Shown{Number: number, Unit: lit.Unit.Symbol()}.Text()
}

// key compares a key with its find.
func (w *worker) key(s *lesson.Statement) {
	find := w.defined[s.Name]
	if find == nil || find.Kind != lesson.Find {
		w.keyWithoutFind(s, find)
		return
	}
	r := w.out.results[find]
	if !w.noGuess(find.Expr, s.NameAt, "a key") {
		return
	}
	if r.Key != nil {
		w.problems.Error(w.out.File, s.NameAt, "key-twice", "the find "+s.Name+" has a key already", "keep one of the two")
		return
	}
	value, err := s.Literal.Quantity(s.Name)
	if err != nil {
		w.problems.FromQuantity(w.out.File, err)
		return
	}
	if s.Negative {
		value.Number = -value.Number
	}
	r.Key = &Key{Statement: s, Value: value}
	computed, ok := r.Quantity()
	if !ok {
		return // its problem is reported already
	}
	unit := value.Unit
	// A key of 20.4 for a find in cm: the likeliest mistake, and worth a hint of its own.
	if computed.Unit.IsTruth() != unit.IsTruth() {
		hint := "write the number with its unit"
		if computed.Unit.IsTruth() {
			hint = "write yes or no"
		}
		w.problems.Error(w.out.File, source.Span(s.Literal.At), "key-unit",
			"this key is "+unit.Dimension().String()+"; the lesson works out "+r.Text(), hint)
		return
	}
	if unit.IsNumber() && !quantity.Alike(computed.Unit, unit) {
		w.problems.Error(w.out.File, source.Span(s.Literal.At), "key-unit",
			"this key has no unit; the lesson works out "+r.Text(), "write the key with its unit")
		return
	}
	if computed, ok = computed.In(unit); !ok {
		w.problems.Error(w.out.File, source.Span(s.Literal.At), "key-unit",
			"this key is "+unit.Dimension().String()+"; the lesson works out "+r.Text()+
				", which is "+r.Value.(quantity.Quantity).Unit.Dimension().String(),
			"write the key in a unit of that kind")
		return
	}
	r.Key.Computed, r.Key.Compared = computed, true
	r.Key.Within, r.Key.Holds = Holds(computed.Number, value.Number, s.Literal)
}

// keyWithoutFind reports a key whose find is missing, comes later, or is not a find.
func (w *worker) keyWithoutFind(s, other *lesson.Statement) {
	if other != nil && !other.Kind.Judged() {
		w.problems.Error(w.out.File, s.NameAt, "never-judged",
			"a "+string(other.Kind)+" is never judged, so "+s.Name+" cannot have a key",
			"take it away; a number that can be checked is asked for by a find")
		return
	}
	what, hint := "there is no find "+s.Name+" above this key", "put the key below its find"
	if other != nil {
		what = s.Name + " is a " + string(other.Kind) + ", and only a find has a key"
		hint = "name the find that this key belongs to"
		if other.Kind == lesson.Choose {
			hint = "take the key away, and end the right answer of the choose with a *"
		}
	} else if later, ok := w.later[s.Name]; ok {
		line := w.out.File.LineSeenFrom(later.NameAt.Start, s.NameAt.Start)
		hint = "move it below line " + line + ", where " + s.Name + " is found"
	} else {
		hint = cmp.Or(quantity.DidYouMean(s.Name, slices.Sorted(maps.Keys(w.defined))), hint)
	}
	w.problems.Error(w.out.File, s.NameAt, "key-without-find", what, hint)
}

// Holds tells whether a computed number agrees with a key in the same unit: within
// the key's own limit, else within half of its last written place, both ends in. It also
// gives that distance. A few units in the thirteenth digit are forgiven, since 40.9 ÷ 2
// must be allowed to be 20.45.
func Holds(computed, key float64, lit *quantity.Literal) (within float64, holds bool) {
	if lit.Uncertainty.Exact != nil {
		u, _ := quantity.New(lit.Uncertainty.Float(), lit.UncertaintyUnit.Difference()).In(lit.Unit)
		within = u.Number
	} else {
		place, _ := lit.Number.Place.Float64()
		within = place / 2
	}
	const forgiven = 1e-12
	return within, math.Abs(computed-key) <= within+forgiven*max(1, math.Abs(computed), math.Abs(key))
}
