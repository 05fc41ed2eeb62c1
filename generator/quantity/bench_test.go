package quantity_test

import (
	"testing"

	"trundle/generator/quantity"
)

const benchSum = "percent_error(mean(s), L) + rotations(L, d) / 100 rot"

func benchEnv() quantity.Env {
	mm, _ := quantity.LookupUnit("mm")
	cm, _ := quantity.LookupUnit("cm")
	return quantity.Env{
		"d": quantity.Measured("d", 65, 0.5, mm),
		"L": quantity.New(120, cm),
		"s": quantity.Record{Name: "s", Numbers: []float64{118.8, 120.3, 119.6, 121.0, 119.1}, Unit: cm},
	}
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := quantity.ParseExpr(benchSum); err != nil {
			b.Fatal(err.What)
		}
	}
}

func BenchmarkEval(b *testing.B) {
	e, err := quantity.ParseExpr(benchSum)
	if err != nil {
		b.Fatal(err.What)
	}
	env := benchEnv()
	for b.Loop() {
		if _, errs := quantity.Eval(e, env); len(errs) > 0 {
			b.Fatal(errs[0].What)
		}
	}
}

func BenchmarkWorked(b *testing.B) {
	e, err := quantity.ParseExpr(benchSum)
	if err != nil {
		b.Fatal(err.What)
	}
	env := benchEnv()
	for b.Loop() {
		if steps := quantity.Worked("x", e, env, quantity.Target{}); len(steps) == 0 {
			b.Fatal("no steps")
		}
	}
}
