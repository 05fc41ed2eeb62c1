package quantity_test

// This file compares what is said where first order misleads with propagation of distributions.

import (
	"math"
	"testing"

	"trundle/generator/quantity"
)

// Each real spread is that of many draws by a program of its own; |x| and stdev of two have closed forms,
// √(1 − 2/π) = 0.603 of u.
func TestTheCautionNamesTheRealUncertainty(t *testing.T) {
	cm := unit("cm")
	for _, c := range []struct {
		text           string
		a, ua, b, ub   float64
		uncertainty    float64
		firstOrderSays float64
	}{
		{"min(a, b)", 11.773, 0.059, 11.773, 1.177, 0.69, 0.059},
		{"abs(a)", 0, 3, 0, 0, 1.8, 0},
		{"stdev(a, b)", 5, 1.43, 5, 1.43, 0.87, 0},
		{"range(a, b)", 5, 1, 5, 1, 0.853, math.Sqrt2},
		{"percent_error(a, b)", 100, 1, 100, 0, 0.603, 0},
		{"a ^ 2", 0, 0.005, 0, 0, 3.54e-5, 0},
	} {
		env := quantity.Env{"a": quantity.Measured("a", c.a, c.ua, cm), "b": quantity.Measured("b", c.b, c.ub, cm)}
		y := worked(t, c.text, env)
		if got := y.Uncertainty(); math.Abs(got-c.firstOrderSays) > 1e-3*c.ua {
			t.Errorf("%s has the first-order uncertainty %g", c.text, got)
		}
		d, misleads := quantity.FirstOrderDoubt(y, 2000, func(moved map[string]float64) (float64, bool) {
			env := quantity.Env{"a": quantity.New(c.a+moved["a"]*c.ua, cm), "b": quantity.New(c.b+moved["b"]*c.ub, cm)}
			return worked(t, c.text, env).Number, true
		})
		if !misleads || math.Abs(d.Uncertainty/c.uncertainty-1) > 0.03 {
			t.Errorf("%s is really ± %g; doubted: %v, %+v", c.text, c.uncertainty, misleads, d)
		}
	}
}

func TestAPlusMinusInAnExpressionIsMoved(t *testing.T) {
	e := parsed(t, "1 / (2 cm ± 0.5 cm)")
	v, _ := quantity.Eval(e, nil)
	inputs := v.(quantity.Quantity).Inputs()
	if len(inputs) != 1 || !quantity.InExpression(inputs[0]) || quantity.InExpression("d") {
		t.Fatalf("the inputs are %v", inputs)
	}
	moved, errs := quantity.EvalMoved(e, nil, map[string]float64{inputs[0]: 2})
	if len(errs) > 0 || math.Abs(moved.(quantity.Quantity).Number-1.0/3) > 1e-12 {
		t.Errorf("moved by two, it is %v: %v", moved, errs)
	}
	if _, errs := quantity.EvalMoved(e, nil, map[string]float64{inputs[0]: -4}); len(errs) != 1 {
		t.Errorf("a division by zero is %v", errs)
	}
}
