package quantity_test

import (
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// ofMathematics are functions of which a sheet of paper says nothing: their argument is the author's own calculation.
var ofMathematics = []string{"abs", "sqrt", "round", "sin", "cos", "tan", "atan", "atan2", "floor", "ceil", "mod", "if"}

func callOf(t *testing.T, name string, args int) quantity.Expr {
	t.Helper()
	names := make([]string, args)
	for i := range names {
		names[i] = "q" + string(rune('a'+i))
	}
	e, err := quantity.ParseExpr(name + "(" + strings.Join(names, ", ") + ")")
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func TestEachFormulaSaysWhatItIsInWords(t *testing.T) {
	for _, name := range quantity.FormulaNames() {
		args := max(quantity.Params(name), 2)
		if quantity.Params(name) == 1 {
			args = 1
		}
		step, ok := quantity.RelationOf(callOf(t, name, args))
		if ok == slices.Contains(ofMathematics, name) {
			t.Errorf("%s: said is %t; write a relation for it, or list it as one of mathematics", name, ok)
			continue
		}
		if !ok {
			continue
		}
		text := step.Text()
		if strings.Contains(text, "_") || strings.Contains(text, "qa") || !strings.Contains(text, " = ") {
			t.Errorf("%s says %q", name, text)
		}
	}
}

func TestARelationHasTheWordsOfTheTrade(t *testing.T) {
	for call, want := range map[string]string{
		"rotations(L, d)":       "rotations = distance ÷ circumference",
		"rotations(L, d, g)":    "rotations = distance ÷ circumference × gear ratio",
		"distance(n, d, g)":     "distance = rotations × circumference ÷ gear ratio",
		"percent_error(a, b)":   "percent error = |measured − expected| ÷ expected × 100 %",
		"circumference(b)":      "circumference = π × diameter",
		"mean(s)":               "mean = sum of all values ÷ how many there are",
		"spin_turn(90 deg,b,d)": "rotations = angle ÷ 360° × track ÷ wheel diameter",
	} {
		e, err := quantity.ParseExpr(call)
		if err != nil {
			t.Fatal(err)
		}
		if step, _ := quantity.RelationOf(e); step.Text() != want {
			t.Errorf("%s says %q, not %q", call, step.Text(), want)
		}
	}
}

// TestTheAuthorsOwnCalculationIsNotSaid: it would be the answer.
func TestTheAuthorsOwnCalculationIsNotSaid(t *testing.T) {
	for _, own := range []string{
		"trip / 3", "s - 2 * s - s", "abs(avg - L)", "range(side) / 2", "sqrt(a ^ 2 + b ^ 2)", "bridge",
	} {
		e, err := quantity.ParseExpr(own)
		if err != nil {
			t.Fatal(err)
		}
		if step, ok := quantity.RelationOf(e); ok {
			t.Errorf("%s is given away: %s", own, step.Text())
		}
	}
}
