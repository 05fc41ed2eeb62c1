package quantity

// This file holds the formulas of the trade, written in the language itself, and what
// their parameters take.

import (
	"maps"
	"slices"
	"strings"
)

// Formula is a calculation with a name: one of the trade, with a body in the language
// itself, or a function of mathematics.
type Formula struct {
	Name   string
	Params []Param
	Body   string // with every parameter; "" for a function of mathematics
	Short  string // without the optional last parameter, if it has one
	Unit   string // what the result is called, "" for what comes out
	Doc    string // what it gives, and its source
	Says   string // of a pack's own: what it gives

	long, short Expr
	own         bool // of a pack, with the calculation that it calls no other formula in, and the unit of its result
	full        Expr
	in          Unit
	// A native function gives its result, or says in words why there is none. It has a
	// value where each argument is 1 in its unit: Compile learns the unit of the result there.
	native    func([]Quantity) (Quantity, string)
	statistic func(sample) (Quantity, string)
	fit       func(pairs) (Quantity, string)
	choice    bool // it is if
}

// Param is a parameter: its name and the kind of quantity that it takes.
type Param struct {
	Name     string
	Written  string // what a pack's own formula says that it is
	like     string // a unit of its kind, for hints; "" for those that the kind has
	Takes    Dimension
	Any      bool // takes every kind
	Plain    bool // takes every kind, a part such as 4 % as the number 0.04
	Square   bool // in a unit with even powers, if there is one
	Count    bool // rotations, for which a plain number will do
	Optional bool
}

func (p Param) kind() string {
	if p.Count {
		return "rotations"
	}
	return p.Takes.String()
}

// accept brings an argument to what the parameter takes; false if it is of another kind.
func (p Param) accept(q Quantity) (Quantity, bool) {
	switch {
	case p.Any:
		return q, true
	case p.Square:
		return q.plainNumber().squared(), true
	case p.Plain:
		return q.plainNumber(), true
	case p.Count:
		return q.In(mustUnit("rot"))
	case p.Takes == Dimension{}:
		return q.In(Unit{})
	}
	return q, q.Unit.Dimension() == p.Takes
}

func (p Param) hint(q Quantity) string {
	switch {
	case p.Count:
		return "give a number of rotations, as in 3 rot"
	case p.Takes == Dimension{}:
		return "give a plain number"
	case p.like != "":
		return "give a value in a unit such as " + p.like
	case q.Unit.IsNumber():
		return "give it a unit, such as " + ExampleUnits(p.Takes)
	}
	return "give a value in a unit such as " + ExampleUnits(p.Takes)
}

func lengthOf(name string) Param { return Param{Name: name, Takes: lengthDim} }
func angleOf(name string) Param  { return Param{Name: name, Takes: angleDim} }
func countOf(name string) Param  { return Param{Name: name, Count: true} }
func numberOf(name string) Param { return Param{Name: name} }
func anyOf(name string) Param    { return Param{Name: name, Any: true} }

var gear = Param{Name: "gear", Optional: true}

// The grounds of a formula of the trade that has no published source.
const (
	trade      = "common practice, no source"
	definition = "definition"
)

// formulas are the ones of the trade. Gear is the number of motor rotations for
// one rotation of the wheel, so rotations are the motor's where it is given.
var formulas = []*Formula{
	{Name: "circumference", Params: []Param{lengthOf("diameter")}, Body: "pi * diameter",
		Doc: "how far one rotation of a wheel carries; " + definition},
	{Name: "rotations", Params: []Param{lengthOf("distance"), lengthOf("diameter"), gear},
		Body: "distance / (pi * diameter) * gear", Short: "distance / (pi * diameter)", Unit: "rot",
		Doc: "wheel (with a gear ratio: motor) rotations for a distance; " + trade},
	{Name: "distance", Params: []Param{countOf("rotations"), lengthOf("diameter"), gear},
		Body: "rotations * pi * diameter / gear", Short: "rotations * pi * diameter",
		Doc: "distance for a number of rotations; " + trade},
	{Name: "percent_error", Params: []Param{anyOf("measured"), anyOf("expected")},
		Body: "abs(measured - expected) / abs(expected)", Unit: "%",
		Doc: "how far a measured value is off, as a part of the expected one, never negative; " + trade},
	{Name: "effective_diameter", Params: []Param{lengthOf("distance"), countOf("rotations")},
		Body: "distance / (pi * rotations)",
		Doc:  "the diameter that a wheel acts as if it had; " + trade},
	{Name: "correction", Params: []Param{anyOf("commanded"), anyOf("measured")}, Body: "commanded / measured",
		Doc: "what to multiply the commanded value by next time; " + trade},
	{Name: "drift_angle", Params: []Param{lengthOf("sideways"), lengthOf("forward")}, Body: "atan(sideways / forward)",
		Unit: "deg", Doc: "direction from the start to where the robot stopped, off the straight line; trigonometry"},
	{Name: "wheel_mismatch", Params: []Param{lengthOf("sideways"), lengthOf("forward"), lengthOf("track")},
		Body: "2 * track * sideways / (forward ^ 2 + sideways ^ 2)",
		Doc: "difference of the two wheels' travel over their mean that drives an arc through the point; " +
			"exact for an arc (circle geometry)"},
	{Name: "spin_turn", Params: []Param{angleOf("angle"), lengthOf("track"), lengthOf("diameter")},
		Body: "angle / (360 deg) * (pi * track) / (pi * diameter)", Unit: "rot",
		Doc: "rotations of each wheel, one forward and one back, to turn on the spot; " + trade},
	{Name: "pivot_turn", Params: []Param{angleOf("angle"), lengthOf("track"), lengthOf("diameter")},
		Body: "angle / (360 deg) * (2 * pi * track) / (pi * diameter)", Unit: "rot",
		Doc: "rotations of the one wheel that moves, to turn about the other; " + trade},
	{Name: "arc", Params: []Param{angleOf("angle"), lengthOf("radius")}, Body: "angle / (360 deg) * (2 * pi * radius)",
		Doc: "length of an arc of a circle; circle geometry"},
	{Name: "speed", Params: []Param{lengthOf("distance"), {Name: "time", Takes: timeDim}}, Body: "distance / time",
		Doc: "mean speed; " + definition},
	{Name: "travel_time", Params: []Param{lengthOf("distance"), {Name: "speed", Takes: speedDim}},
		Body: "distance / speed", Doc: "time at a steady speed; " + definition},
	{Name: "vapour_ppm", Params: []Param{{Name: "mass", Takes: massDim}, {Name: "molar_mass", Takes: molarDim},
		{Name: "room", Takes: volumeDim}}, Body: "mass / molar_mass * 24450 mL/mol / room", Unit: "ppm",
		Doc: "upper bound of the mean vapour in a room if all of it evaporates immediately and none leaves, " +
			"at 25 °C and 1 atm; " +
			"molar volume 24.45 L/mol as in NIOSH's and ACGIH's conversion of mg/m³ to ppm"},
}

// functions holds the formulas of the trade and the functions of mathematics by
// name. It is made here, once, and only read afterwards.
var functions = func() map[string]*Formula {
	byName := make(map[string]*Formula)
	for _, f := range slices.Concat(formulas, mathematics, stepped, choices, statistics, spreads, fits) {
		byName[f.Name] = f
		f.long = mustParse(f.Body)
		f.short = f.long
		if f.Short != "" {
			f.short = mustParse(f.Short)
		}
	}
	return byName
}()

func mustParse(body string) Expr {
	if body == "" {
		return nil
	}
	e, err := ParseExpr(body)
	if err != nil {
		panic("quantity: formula " + body + ": " + err.What)
	}
	return e
}

// FormulaNames lists all formulas and functions, sorted.
func FormulaNames() []string { return slices.Sorted(maps.Keys(functions)) }

func (f *Formula) optional() int {
	n := 0
	for _, p := range f.Params {
		if p.Optional {
			n++
		}
	}
	return n
}

// takes tells whether a call may have so many arguments.
func (f *Formula) takes(args int) bool {
	return len(f.Params)-f.optional() <= args && args <= len(f.Params)
}

// signature says what a call needs: "2 or 3 values (distance, diameter, gear)".
func (f *Formula) signature() string {
	names := make([]string, len(f.Params))
	for i, p := range f.Params {
		names[i] = p.Name
	}
	needed := itoa(len(names))
	if f.optional() > 0 {
		needed = itoa(len(names)-f.optional()) + " or " + needed
	}
	noun := " values ("
	if needed == "1" {
		noun = " value ("
	}
	return needed + noun + strings.Join(names, ", ") + ")"
}

// body is the definition that a call with so many arguments uses.
func (f *Formula) body(args int) Expr {
	if args < len(f.Params) {
		return f.short
	}
	return f.long
}

// result calls what comes out by the name that the trade uses.
func (f *Formula) result(q Quantity) Quantity {
	if f.own {
		if c, ok := q.In(f.in); ok && f.Unit != "" {
			return c
		}
		return q
	}
	if f.Unit != "" {
		q, _ = q.In(mustUnit(f.Unit))
		return q
	}
	rest := Unit{slices.DeleteFunc(slices.Clone(q.Unit.terms), func(t term) bool { return t.atom.symbol == "rot" })}
	q, _ = q.In(rest)
	return q
}
