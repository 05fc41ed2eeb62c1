package quantity

// Sums of decimals that cancel: what rounding in binary leaves of them is no value.

import (
	"math"
	"testing"
)

func TestDecimalsThatCancelComeToZero(t *testing.T) {
	for _, text := range []string{
		"0.1 cm + 0.2 cm - 0.3 cm", "0.3 - 0.1 - 0.2", "sqrt(0.3 - 0.1 - 0.2)", "percent_error(0.1 cm + 0.2 cm, 0.3 cm)",
		"0.1 + 0.7 - 0.8", "1.1 m + 2.2 m - 330 cm", "sum(0.1, 0.2, -0.3)", "mean(0.1, 0.2, -0.3)", "32 °F - 0 °C",
		"20 in - 50.8 cm",
	} {
		e, err := ParseExpr(text)
		if err != nil {
			t.Fatalf("%s: %s", text, err.What)
		}
		v, errs := Eval(e, nil)
		if q, ok := v.(Quantity); !ok || q.Number != 0 || len(errs) > 0 {
			t.Errorf("%s is %v, %v; want 0", text, v, errs)
		}
	}
}

func TestSmallDifferencesThatWereMeantStay(t *testing.T) {
	for text, want := range map[string]float64{
		"1.00000000001 - 1": 1e-11, "0.000001 + 0.000002": 3e-6, "1 - 0.9999999999": 1e-10,
	} {
		e, err := ParseExpr(text)
		if err != nil {
			t.Fatal(err.What)
		}
		v, _ := Eval(e, nil)
		if q, ok := v.(Quantity); !ok || math.Abs(q.Number-want) > 1e-4*want {
			t.Errorf("%s is %v, want %g", text, v, want)
		}
	}
}

func TestWhatIsDividedByASumThatCancelsIsReported(t *testing.T) {
	for text, want := range map[string]string{
		"1 / (0.1 + 0.2 - 0.3)": "division-by-zero", "10 ^ -330": "not-finite", "10 ^ -200 * 10 ^ -200": "not-finite",
	} {
		e, err := ParseExpr(text)
		if err != nil {
			t.Fatal(err.What)
		}
		if _, errs := Eval(e, nil); len(errs) != 1 || errs[0].Slug != want {
			t.Errorf("%s: %v, want %s", text, errs, want)
		}
	}
}

// TestASumOfZeroIsAsUnsureAsItsParts keeps the shares of what cancels.
func TestASumOfZeroIsAsUnsureAsItsParts(t *testing.T) {
	a, b := Measured("a", 0.1, 0.03, Unit{}), Measured("b", 0.2, 0.04, Unit{})
	sum, _ := a.add(b, 1)
	zero, ok := sum.add(New(0.3, Unit{}), -1)
	if !ok || zero.Number != 0 || math.Abs(zero.Uncertainty()-0.05) > 1e-15 {
		t.Errorf("the sum is %v ± %v, want 0 ± 0.05", zero.Number, zero.Uncertainty())
	}
}
