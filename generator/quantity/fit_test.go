package quantity_test

// Fits of straight lines. Published values are in testdata/outside/fits.csv.

import (
	"math"
	"math/rand/v2"
	"testing"

	"trundle/generator/quantity"
)

func fitEnv(y, x []float64) quantity.Env {
	mm, _ := quantity.LookupUnit("mm")
	rot, _ := quantity.LookupUnit("rot")
	s, _ := quantity.LookupUnit("s")
	return quantity.Env{
		"y": quantity.Record{Name: "y", Numbers: y, Unit: mm}, "x": quantity.Record{Name: "x", Numbers: x, Unit: rot},
		"t": quantity.Record{Name: "t", Numbers: x, Unit: s}, "a": quantity.New(3, mm),
	}
}

func TestFitsNeedTwoRecordsOfAsManyReadings(t *testing.T) {
	env := fitEnv([]float64{1, 2, 3}, []float64{1, 1, 1})
	env["two"] = quantity.Record{Name: "two", Numbers: []float64{1, 2}}
	env["one"], env["none"] = quantity.Record{Name: "one", Numbers: []float64{1}}, quantity.Record{Numbers: []float64{0}}
	for _, c := range []wrong{
		{"fit_slope(y)", "argument-count", "fit_slope(y)", "takes two records, y and x; 1 given here",
			"fit_slope(stop, turns)"},
		{"fit_slope(y, a)", "fit-records", "fit_slope(y, a)", "fits a line to the readings of two records",
			"as many readings"},
		{"fit_slope(y, two)", "fit-records", "fit_slope(y, two)", "the two records have 3 and 2 readings", ""},
		{"fit_slope(one, one)", "no-value", "fit_slope(one, one)", "a line needs at least two readings", ""},
		{"fit_slope(y, x)", "no-value", "fit_slope(y, x)", "all values of x are equal", ""},
		{"fit_intercept(y, x)", "no-value", "fit_intercept(y, x)", "all values of x are equal", ""},
	} {
		e, err := quantity.ParseExpr(c.text)
		if err != nil {
			t.Fatal(err.What)
		}
		_, errs := quantity.Eval(e, env)
		if len(errs) != 1 {
			t.Fatalf("%s: %d problems", c.text, len(errs))
		}
		c.check(t, errs[0])
	}
}

// The slope has the unit of y over that of x, and a count of rotations is a plain number: by hand, (1·20 + 2·41 +
// 3·60) ÷ (1 + 4 + 9) = 282 ÷ 14.
func TestASlopeHasTheUnitOfYForEachX(t *testing.T) {
	env := fitEnv([]float64{20, 41, 60}, []float64{1, 2, 3})
	for text, unit := range map[string]string{"fit_through_origin(y, x)": "mm", "fit_through_origin(y, t)": "mm/s"} {
		e, _ := quantity.ParseExpr(text)
		v, errs := quantity.Eval(e, env)
		u, _ := quantity.LookupUnit("mm")
		if unit == "mm/s" {
			if second, err := quantity.ParseExpr("1 mm/s"); err == nil {
				w, _ := quantity.Eval(second, nil)
				u = w.(quantity.Quantity).Unit
			}
		}
		q, _ := v.(quantity.Quantity)
		in, ok := q.In(u)
		if len(errs) > 0 || !ok || math.Abs(in.Number-282.0/14) > 1e-9 {
			t.Errorf("%s: %v %v in %s", text, in.Number, errs, unit)
		}
	}
}

// Two points lie on a line however wrong they are: nothing says how sure it is.
func TestALineThroughTwoPointsClaimsNothing(t *testing.T) {
	e, _ := quantity.ParseExpr("fit_slope(y, x) + fit_intercept(y, x) / 1 rot")
	v, errs := quantity.Eval(e, fitEnv([]float64{1, 5}, []float64{1, 2}))
	if len(errs) > 0 || v.(quantity.Quantity).Uncertainty() != 0 {
		t.Errorf("%v %v", v, errs)
	}
}

// A calibration by lines: y = 200·x + 5 with scatter. The standard uncertainty must be what the results scatter by,
// of the slope, of the intercept, and of a place between, where both count together.
func TestTheUncertaintyOfAFitIsItsScatter(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	texts := []string{"fit_slope(y, x)", "fit_intercept(y, x)", "fit_intercept(y, x) + 3 rot * fit_slope(y, x)"}
	const classes = 3000
	for _, text := range texts {
		e, _ := quantity.ParseExpr(text)
		var sum, squares, claimed float64
		for range classes {
			x := []float64{1, 2, 3, 4, 5}
			y := make([]float64, len(x))
			for i := range x {
				y[i] = 200*x[i] + 5 + 2*r.NormFloat64()
			}
			v, _ := quantity.Eval(e, fitEnv(y, x))
			q := v.(quantity.Quantity)
			sum, squares = sum+q.Number, squares+q.Number*q.Number
			claimed += q.Uncertainty() * q.Uncertainty()
		}
		scatter := squares/classes - sum/classes*sum/classes
		t.Logf("%s: scatters by %.3f, claims %.3f", text, math.Sqrt(scatter), math.Sqrt(claimed/classes))
		if ratio := claimed / classes / scatter; ratio < 0.92 || ratio > 1.08 {
			t.Errorf("%s: it claims %.2f of its variance", text, ratio)
		}
	}
}

// The interval of a fit has Student's t with as many degrees of freedom as there are points beyond those that the
// line takes (NIST/SEMATECH e-Handbook, 4.1.4.1, from memory).
func TestAFitHasTheDegreesOfFreedomOfItsScatter(t *testing.T) {
	env := fitEnv([]float64{203, 409, 604, 803, 1009}, []float64{1, 2, 3, 4, 5})
	for text, want := range map[string]float64{
		"fit_slope(y, x)": 3, "fit_intercept(y, x) + 3 rot * fit_slope(y, x)": 3, "fit_through_origin(y, x)": 4,
	} {
		e, _ := quantity.ParseExpr(text)
		v, _ := quantity.Eval(e, env)
		q, ok := v.(quantity.Quantity)
		if !ok || math.Abs(q.Freedom()-want) > 1e-9 {
			t.Errorf("%s has %v degrees of freedom, not %v", text, q.Freedom(), want)
		}
	}
}
