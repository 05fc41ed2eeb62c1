package site_test

// Tests that the page writes numbers and units as Go does.

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"trundle/generator/quantity"
	"trundle/site/words"
)

func TestThePageWritesUnitsAfterNumbersAsGoDoes(t *testing.T) {
	units := []string{"", "m²", "cm/s", "mm/s", "rotations²", "rotations·m", "1/rotation", "rotations/min", "°/s"}
	for _, symbol := range quantity.UnitSymbols() {
		u, _ := quantity.LookupUnit(symbol)
		units = append(units, u.Symbol())
	}
	var calls []call
	for _, unit := range units {
		for _, number := range []string{"1", "1.00", "0", "11", "−1", "1/4", "3/4", "1 1/4", "5.97", "", "1…"} {
			calls = append(calls, call{"after", number, unit})
		}
	}
	singular := 0
	for i, got := range inNode[string](t, calls) {
		number, unit := calls[i][1].(string), calls[i][2].(string)
		if want := quantity.AfterNumber(number, unit); got != want {
			t.Errorf("after %q the page writes %q as %q, Go as %q", number, unit, got, want)
		}
		if got != unit {
			singular++
		}
	}
	if singular < 9 {
		t.Errorf("only %d of %d have a singular", singular, len(calls))
	}
}

func show(x *float64) string {
	if x == nil {
		return "NaN"
	}
	return strconv.FormatFloat(*x, 'g', -1, 64)
}

// unitOf reads a unit, "" being that of a plain number.
func unitOf(t *testing.T, text string) quantity.Unit {
	t.Helper()
	if text == "" {
		return quantity.Unit{}
	}
	u, err := (*quantity.Vocabulary)(nil).ReadUnit(text)
	if err != nil {
		t.Fatalf("%q: %s", text, err.What)
	}
	return u
}

// figures gives numbers of many sizes and forms, among them halves of every step.
func figures(r typist, n int) []float64 {
	out := []float64{
		0, math.Copysign(0, -1), 1, -1, 2.675, -2.675, 0.05, -0.05, 0.5, 1.5, 2.5, -0.5, 1.005, 8.03125, 0.045, 1e15, 1e14,
		1e-9, 1e-7, -1e-6, 123456, 1234567, 12345000, 12355000, -12345000,
		999999.5, 99999.95, 0.99995, 9.9995, 1234567890122.5, 1234567890123.5, 121.92, 5.876474, 1e21, 1e22, 1.5e300,
		2e-300, 1.234e16, 1.2e-10, 0.1 + 0.2, 1.0 / 3, math.Pi, 200000000.0 / 3, 1155827.12393, 123456789012.34,
		99999999999999, 1234567890123.4, 999999999999.7, 9999999999999.7, 123456789012345678, 1.23456789e20 / 3,
	}
	for len(out) < n {
		x := r.NormFloat64() * math.Pow(10, float64(r.IntN(24)-8))
		switch r.IntN(6) {
		case 0:
			x *= math.Pow(10, float64(r.IntN(40)-20))
		case 1: // as written with a few digits
			x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', r.IntN(8), 64), 64)
		case 2:
			x = math.Round(r.NormFloat64()*2000) / 2
		case 3:
			x = (math.Round(r.NormFloat64()*5000) + 0.5) / math.Pow(10, float64(r.IntN(5)))
		case 4:
			x = math.Round(r.NormFloat64()*1000) / float64(int(2)<<r.IntN(7))
		}
		out = append(out, x)
	}
	return out
}

func TestThePageRoundsToAStepAsGoDoes(t *testing.T) {
	r := typist{rand.New(rand.NewPCG(2, 675))}
	var steps []quantity.Rounding
	for _, text := range []string{
		"0.1", "0.01", "0.001", "0.000001", "0.10", "0.5", "0.05", "0.25", "0.125", "1", "2", "5", "10", "100", "2.5", "12.5",
		"1/2", "1/4", "1/8", "1/16", "1/32", "1/64", "2/3", "1/3", "3/4", "5/7", "6/9", "1/5", "1/6", "4/2", "1 1/2",
		"1 1/3", "36 1/2",
	} {
		n, _, _, err := quantity.NewParser(text, func(i int) int { return i }).Number("a step")
		if err != nil {
			t.Fatal(err)
		}
		steps = append(steps, n.Step())
	}
	numbers := figures(r, 40_000)
	calls := make([]call, len(numbers))
	chosen := make([]quantity.Rounding, len(numbers))
	for i := range numbers {
		chosen[i] = steps[r.IntN(len(steps))]
		if r.IntN(8) == 0 {
			numbers[i] = (math.Round(r.NormFloat64()*300) + 0.5) * chosen[i].Float()
		}
		calls[i] = call{"step", numbers[i], chosen[i].String()}
	}
	for i, got := range inNode[string](t, calls) {
		if want := quantity.FormatStep(numbers[i], chosen[i]); got != want {
			t.Errorf("%v to %s: the page writes %q, Go %q", numbers[i], chosen[i], got, want)
		}
	}
}

func TestThePageWritesNumbersAsGoDoes(t *testing.T) {
	numbers := figures(typist{rand.New(rand.NewPCG(121, 92))}, 40_000)
	var calls []call
	for _, x := range numbers {
		calls = append(calls, call{"plain", x}, call{"digits", x})
	}
	name, err := quantity.ParseExpr("x")
	if err != nil {
		t.Fatal(err)
	}
	got := inNode[string](t, calls)
	for i, x := range numbers {
		if want := quantity.FormatPlain(x); got[2*i] != want {
			t.Errorf("%v: the page writes %q, Go %q", x, got[2*i], want)
		}
		// The second line of a worked sum shows the numbers put in.
		sum := quantity.Worked("y", name, quantity.Env{"x": quantity.New(x, quantity.Unit{})}, quantity.Target{})
		if want := sum[1].Right.Text(); got[2*i+1] != want {
			t.Errorf("%v, not to be rounded: the page writes %q, Go %q", x, got[2*i+1], want)
		}
	}
}

// TestThePageWritesNumbersWithCommasAsGoDoes is about packs in a language that has them.
func TestThePageWritesNumbersWithCommasAsGoDoes(t *testing.T) {
	t.Parallel()
	german, err := words.Load("de")
	if err != nil {
		t.Fatal(err)
	}
	name, unread := quantity.ParseExpr("x")
	tenth, _, _, _ := quantity.NewParser("0.01", func(i int) int { return i }).Number("a step")
	if unread != nil {
		t.Fatal(unread)
	}
	inches := quantity.Target{Unit: unitOf(t, "in"), Over: unitOf(t, "ft"), HasUnit: true, Step: tenth.Step()}
	calls, want := []call{{"comma", true}}, []string{""}
	expect := func(number string, c call) { calls, want = append(calls, c), append(want, number) }
	for _, x := range figures(typist{rand.New(rand.NewPCG(20, 1))}, 10_000) {
		sum := quantity.Worked("y", name, quantity.Env{"x": quantity.New(x, quantity.Unit{})}, quantity.Target{})
		parts, _ := quantity.Show(quantity.New(x, inches.Unit), inches)
		expect(german.Number(quantity.FormatPlain(x)), call{"plain", x})
		expect(german.Number(quantity.FormatStep(x, tenth.Step())), call{"step", x, "0.01"})
		expect(quantity.StepIn(german, sum[1]).Right.Text(), call{"digits", x})
		expect(german.Number(parts), call{"parts", x, "0.01", inches.Larger()})
	}
	for i, got := range inNode[string](t, calls) {
		if got != want[i] {
			t.Errorf("%v: the page writes %q, Go %q", calls[i], got, want[i])
		}
	}
}

func TestWhatIsNotFiniteIsWrittenAsNothing(t *testing.T) {
	var calls []call
	for _, x := range []string{"NaN", "Infinity", "-Infinity"} {
		calls = append(calls, call{"step", x, "0.1"}, call{"step", x, "1/16"}, call{"plain", x}, call{"digits", x})
	}
	for i, got := range inNode[string](t, append(calls, call{"step", "1e308", "0.01"})) {
		if got != "" {
			t.Errorf("call %d gives %q", i, got)
		}
	}
}

// TestThePageWritesNumbersInPartsAsGoDoes writes lengths in feet and inches and times in minutes and seconds.
func TestThePageWritesNumbersInPartsAsGoDoes(t *testing.T) {
	pairs := [][2]string{{"ft", "in"}, {"min", "s"}, {"h", "min"}, {"lb", "oz"}, {"m", "cm"}, {"yd", "in"}, {"h", "s"}}
	steps := []string{"", "1/16", "1/2", "0.1", "1", "5", "0.25"}
	r := typist{rand.New(rand.NewPCG(6, 3))}
	numbers := append(figures(r, 20_000), 71.9999999999, 71.97, 72, -72, -0.01, 12, 11.99, 59.9996, 60)
	var calls []call
	var want []string
	for _, x := range numbers {
		pair, step := pairs[r.IntN(len(pairs))], steps[r.IntN(len(steps))]
		target := quantity.Target{Unit: unitOf(t, pair[1]), Over: unitOf(t, pair[0]), HasUnit: true}
		var to any
		if step != "" {
			n, _, _, err := quantity.NewParser(step, func(i int) int { return i }).Number("a step")
			if err != nil {
				t.Fatal(err)
			}
			target.Step, to = n.Step(), n.Step().String()
		}
		if r.IntN(4) == 0 {
			x = math.Round(x*16) / 16
		}
		number, _ := quantity.Show(quantity.New(x, target.Unit), target)
		calls, want = append(calls, call{"parts", x, to, target.Larger()}), append(want, number)
	}
	for i, got := range inNode[string](t, calls) {
		if got != want[i] {
			t.Errorf("%v: the page writes %q, Go %q", calls[i], got, want[i])
		}
	}
}
