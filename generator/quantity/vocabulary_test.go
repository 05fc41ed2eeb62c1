package quantity_test

// Tests of what a pack names itself.

import (
	"math"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

func same(i int) int { return i }

// own is a vocabulary with some units, a currency and formulas, each "name(value: kind, …) = body [in unit]".
func own(t *testing.T, formulas ...string) *quantity.Vocabulary {
	t.Helper()
	v := &quantity.Vocabulary{}
	v.DefineMoney("EUR")
	for _, u := range [][2]string{{"ticks", "360 a rotation"}, {"tiles", "30 cm"}, {"halves", "2 per in"}} {
		if err := v.DefineUnit(u[0], u[1], same); err != nil {
			t.Fatalf("%s: %s", u[0], err.What)
		}
	}
	for _, text := range formulas {
		head, body, _ := strings.Cut(text, " = ")
		name, values, _ := strings.Cut(strings.TrimSuffix(head, ")"), "(")
		f := &quantity.Formula{Name: name, Doc: "d"}
		for _, value := range strings.Split(values, ", ") {
			value, kind, _ := strings.Cut(value, ": ")
			p, err := v.ReadParam(value, kind, quantity.Span{})
			if err != nil {
				t.Fatalf("%s: %s", text, err.What)
			}
			f.Params = append(f.Params, p)
		}
		var in string
		if f.Body, in, _ = strings.Cut(body, " in "); in != "" {
			u, err := v.ParseUnit(in)
			if err != nil {
				t.Fatalf("%s: %s", text, err.What)
			}
			f.ResultIn(u)
		}
		for _, err := range v.DefineFormula(f, same) {
			t.Fatalf("%s: %s", text, err.What)
		}
	}
	return v
}

func TestUnitsOfAPacksOwnAreCalculatedWith(t *testing.T) {
	v := own(t)
	for text, want := range map[string]string{
		"2 rot in ticks": "720 ticks", "90 ticks in deg": "90°", "1/2 rot + 90 ticks": "0.75 rotations",
		"5 tiles in m": "1.5 m", "1 tile": "1 tile", "1 tiles": "1 tile", "3 tiles / (1 tile)": "3",
		"60 cm in tiles": "2 tiles", "3 halves in in": "1 1/2 in", "1 tile^2 in cm^2": "900 cm²",
		"100 ticks/s in rot/min": "16.67 rotations/min", "4 * 2.50 EUR": "10 EUR", "3 € + 1 EUR": "4 €",
		"€5 + 2 * €1.50": "8 EUR", "-€2": "−2 EUR",
		"6 EUR / (3 m)": "2 EUR/m", "20 cm/tick": "20 cm/tick", "circumference(1 tile) in tiles": "3.142 tiles",
	} {
		p := v.NewParser(text, same)
		e, err := p.Expr()
		var target quantity.Target
		if err == nil {
			target, err = p.Target()
		}
		if err == nil {
			err = p.End()
		}
		if err != nil {
			t.Errorf("%s: %s", text, err.What)
			continue
		}
		value, errs := quantity.Eval(e, nil)
		q, ok := value.(quantity.Quantity)
		if !ok || len(errs) > 0 {
			t.Errorf("%s has no value: %v", text, errs)
			continue
		}
		if strings.HasSuffix(want, " 1/2 in") {
			n, _, _, _ := quantity.NewParser("1/2", same).Number("a step")
			target.Step = n.Step()
		}
		got := quantity.ShowText(q, target)
		if want = strings.ReplaceAll(want, "4 €", "4 EUR"); strings.ReplaceAll(got, "\u00a0", " ") != want {
			t.Errorf("%s comes to %s, not %s", text, got, want)
		}
		again, err := v.ParseExpr(e.String())
		if err != nil || again.String() != e.String() {
			t.Errorf("%s is written as %s, which does not read the same", text, e)
		}
	}
	for _, text := range []string{"3 ticks", "3 EUR", "3 tile"} {
		if _, err := quantity.ParseExpr(text); err == nil || err.Slug != "unknown-unit" {
			t.Errorf("another pack reads %s", text)
		}
	}
}

func TestAUnitOfAPacksOwnAndALengthAreNotAdded(t *testing.T) {
	v := own(t)
	for _, text := range []string{"3 ticks + 2 cm", "2 EUR + 1", "3 tiles - 2 EUR", "3 ticks + 2"} {
		e, err := v.ParseExpr(text)
		if err != nil {
			t.Fatal(err.What)
		}
		if _, errs := quantity.Eval(e, nil); len(errs) != 1 || errs[0].Slug != "mixed-dimensions" {
			t.Errorf("%s is worked out: %v", text, errs)
		}
	}
	two, ticks := quantity.New(2, quantity.Unit{}), mustRead(t, v, "ticks")
	if _, ok := two.In(ticks); ok {
		t.Error("a plain number is taken for ticks, which are not rotations")
	}
}

func mustRead(t *testing.T, v *quantity.Vocabulary, unit string) quantity.Unit {
	t.Helper()
	u, err := v.ParseUnit(unit)
	if err != nil {
		t.Fatal(err.What)
	}
	return u
}

func TestANameKeepsItsMeaningBesideAUnitOfThatName(t *testing.T) {
	v := own(t)
	env := quantity.Env{"ticks": quantity.New(5, unit("cm")), "tile": quantity.New(2, quantity.Unit{})}
	for text, want := range map[string]float64{"ticks": 5, "2 * ticks": 10, "ticks / tile": 2.5, "tile * 3 tiles": 6,
		"1/tile": 0.5} {
		e, err := v.ParseExpr(text)
		if err != nil {
			t.Errorf("%s: %s", text, err.What)
			continue
		}
		value, _ := quantity.Eval(e, env)
		if q, _ := value.(quantity.Quantity); q.Number != want && text != "1/tile" {
			t.Errorf("%s comes to %v, not %v", text, q.Number, want)
		}
	}
}

func TestFormulasOfAPacksOwn(t *testing.T) {
	v := own(t, "ticks_for(distance: length, diameter: length) = rotations(distance, diameter) in ticks",
		"lost(a: length, b: cm) = (a - b) / a in %",
		"gone(a: length, b: length) = lost(a + b, b) * (a + b) + lost(b + b, a) * a",
		"deep(x: length, y: length) = gone(gone(y, x), y) / 2 + gone(x, x)", "twice(n: rotations) = 2 * n")
	env := quantity.Env{"L": quantity.New(150, unit("cm")), "d": quantity.Measured("d", 65, 0.5, unit("mm"))}
	for text, want := range map[string]float64{
		"ticks_for(L, d)":         150 / (math.Pi * 6.5) * 360,
		"lost(L, d)":              (150 - 6.5) / 150 * 100,
		"gone(L, d)":              150 + (13-150.0)/13*150,
		"gone(L, L)":              150 + 75,
		"twice(3)":                6,
		"twice(90 ticks)":         0.5,
		"lost(gone(L, L), 2 * L)": (225 - 300.0) / 225 * 100,
	} {
		e, err := v.ParseExpr(text)
		if err != nil {
			t.Errorf("%s: %s", text, err.What)
			continue
		}
		value, errs := quantity.Eval(e, env)
		q, ok := value.(quantity.Quantity)
		if !ok || math.Abs(q.Number-want) > 1e-9*math.Abs(want) {
			t.Errorf("%s comes to %v, not %v; %v", text, q.Number, want, errs)
			continue
		}
		_, u, err := quantity.Compile(e, env, func(name string) bool { return name == "d" }, quantity.Target{})
		if err != nil || !u.Equal(q.Unit) {
			t.Errorf("the program of %s comes out in %s, and %s was expected; %v", text, u, q.Unit, err)
		}
	}
	steps := quantity.Worked("n", mustParseIn(t, v, "ticks_for(L, d)"), env, quantity.Target{})
	if got := steps[0].Text(); got != "n = L ÷ (π × d)" {
		t.Errorf("the steps begin with %s", got)
	}
	if said, ok := quantity.RelationOf(mustParseIn(t, v, "lost(L, d)")); !ok || said.Text() != "lost = (a − b) ÷ a" {
		t.Errorf("on paper it says %s", said.Text())
	}
	if !quantity.HasPi(mustParseIn(t, v, "ticks_for(L, d)"), env) || quantity.HasPi(mustParseIn(t, v, "lost(L, d)"), env) {
		t.Error("it is not known in which of them π is")
	}
	q, _ := quantity.Eval(mustParseIn(t, v, "lost(d, d)"), env)
	if got := q.(quantity.Quantity); got.Number != 0 || got.Uncertainty() != 0 {
		t.Errorf("a value that is named twice is sure of itself: %v ± %v", got.Number, got.Uncertainty())
	}
}

func mustParseIn(t *testing.T, v *quantity.Vocabulary, text string) quantity.Expr {
	t.Helper()
	e, err := v.ParseExpr(text)
	if err != nil {
		t.Fatal(err.What)
	}
	return e
}

func TestVocabulariesOfOneContentAreTheSame(t *testing.T) {
	const formula = "lost(a: length, b: cm) = (a - b) / a in %"
	if !own(t, formula).Same(own(t, formula)) || own(t, formula).Same(own(t)) || own(t).Same(nil) {
		t.Error("what a pack names is not compared by what it says")
	}
	other := own(t, "lost(a: length, b: mm) = (a - b) / a in %")
	if other.Same(own(t, formula)) {
		t.Error("another kind of a value is not noticed")
	}
}
