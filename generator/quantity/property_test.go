package quantity_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trundle/generator/quantity"
)

// drawLiteral gives a number as one may be written.
func drawLiteral(t *rapid.T) quantity.Expr {
	number := rapid.SampledFrom([]string{"0", "1", "2", "3.50", ".5", "65", "120", "1/6", "36 1/2", "0.001",
		"7 3/16"}).Draw(t, "number")
	in := rapid.SampledFrom([]string{"", "", "mm", "in", "cm/s", "m^2", "deg", "rot", "%", "kg·m/s^2", "1/s", "1/s^2",
		"g/mol"}).Draw(t, "unit")
	text := number
	if in != "" {
		text += " " + in
	}
	if rapid.IntRange(0, 4).Draw(t, "measured") == 0 {
		text += " ± 0.5"
	}
	e, err := quantity.ParseExpr(text)
	if err != nil {
		t.Fatalf("%s: %s", text, err.What)
	}
	return e
}

// drawTree gives any tree that can be written, three levels deep or so.
func drawTree(t *rapid.T, depth int) quantity.Expr {
	kind := rapid.IntRange(0, 7).Draw(t, "kind")
	if depth == 0 {
		kind %= 2
	}
	switch kind {
	case 0:
		return drawLiteral(t)
	case 1:
		return &quantity.Name{Text: rapid.SampledFrom([]string{"d", "L", "kit.wheel", "pi", "in", "to", "e",
			"x_1"}).Draw(t, "name")}
	case 2:
		return &quantity.Unary{Operand: drawTree(t, depth-1)}
	case 3:
		c := &quantity.Call{Name: rapid.SampledFrom([]string{"f", "mean", "circumference", "pi"}).Draw(t, "call")}
		for range rapid.IntRange(0, 3).Draw(t, "arguments") {
			c.Args = append(c.Args, drawTree(t, depth-1))
		}
		return c
	}
	op := rapid.SampledFrom([]byte("+-*/^")).Draw(t, "op")
	return &quantity.Binary{Op: op, Left: drawTree(t, depth-1), Right: drawTree(t, depth-1)}
}

func TestWhatIsPrintedReadsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawTree(t, 4)
		again, err := quantity.ParseExpr(e.String())
		if err != nil {
			t.Fatalf("%s: %s", e, err.What)
		}
		if !sameTree(e, again) {
			t.Fatalf("%s is read as %s", e, again)
		}
	})
}

func TestConversionThereAndBack(t *testing.T) {
	symbols := quantity.UnitSymbols()
	rapid.Check(t, func(t *rapid.T) {
		a := unit(rapid.SampledFrom(symbols).Draw(t, "from"))
		b := unit(rapid.SampledFrom(quantity.UnitsOf(a.Dimension())).Draw(t, "to"))
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		there, ok := quantity.New(x, a).In(b)
		back, okBack := there.In(a)
		if x != 0 && math.Abs(x) < 1e-290 {
			return // a larger unit could need a number smaller than a float64 has full digits for
		}
		ulp := math.Nextafter(math.Abs(x), math.Inf(1)) - math.Abs(x)
		if strings.Contains(a.String(), "°") {
			ulp += 1e-14 // 32 is added, and taken away again
		}
		if !ok || !okBack || math.Abs(back.Number-x) > 2*ulp {
			t.Fatalf("%.17g %s is %.17g %s, and back %.17g", x, a, there.Number, b, back.Number)
		}
	})
}

// Rotations grow with the distance alone; where the wheel grows alike, they stay.
func TestScalingOfLengths(t *testing.T) {
	positive := rapid.Float64Range(0.01, 1000)
	rapid.Check(t, func(t *rapid.T) {
		distance, wheel, k := positive.Draw(t, "L"), positive.Draw(t, "d"), positive.Draw(t, "k")
		rotations := func(distance, wheel float64) quantity.Quantity {
			return worth(t, "rotations(L, d)", quantity.Env{"L": quantity.New(distance, unit("cm")),
				"d": quantity.Measured("d", wheel, wheel/100, unit("cm"))})
		}
		n, far, both := rotations(distance, wheel), rotations(k*distance, wheel), rotations(k*distance, k*wheel)
		if !near(far.Number, k*n.Number) || !near(far.Uncertainty(), k*n.Uncertainty()) {
			t.Fatalf("%g times as far takes %g instead of %g rotations", k, far.Number, n.Number)
		}
		if !near(both.Number, n.Number) || !near(both.Uncertainty(), n.Uncertainty()) {
			t.Fatalf("all %g times as large takes %g instead of %g rotations", k, both.Number, n.Number)
		}
	})
}

func TestOneInputUsedTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.1, 1e6).Draw(t, "x")
		u := rapid.Float64Range(1e-6, 1).Draw(t, "u") * x
		in := unit(rapid.SampledFrom([]string{"mm", "in", "deg", "%", "cm/s"}).Draw(t, "unit"))
		env := quantity.Env{"d": quantity.Measured("d", x, u, in), "k": quantity.New(3, in)}
		for _, text := range []string{"d - d", "2 * d - d - d", "d * k - k * d"} {
			if q := worth(t, text, env); q.Number != 0 || q.Uncertainty() != 0 {
				t.Fatalf("%s is %g ± %g", text, q.Number, q.Uncertainty())
			}
		}
		square := worth(t, "d * d", env)
		if !near(square.Uncertainty()/square.Number, 2*u/x) {
			t.Fatalf("d * d has the relative uncertainty %g, d has %g", square.Uncertainty()/square.Number, u/x)
		}
	})
}

func TestUncertaintyOfASumIsAtMostTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		env := quantity.Env{}
		for _, name := range []string{"a", "b"} {
			from := rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "input")
			env[name] = quantity.Measured(from, rapid.Float64Range(-100, 100).Draw(t, name), rapid.Float64Range(0, 10).Draw(t,
				"u"), unit("cm"))
		}
		most := env["a"].(quantity.Quantity).Uncertainty() + env["b"].(quantity.Quantity).Uncertainty()
		for _, text := range []string{"a + b", "a - b"} {
			if u := worth(t, text, env).Uncertainty(); u > most*(1+1e-15) {
				t.Fatalf("u(%s) is %g, more than %g", text, u, most)
			}
		}
	})
}

// slopes are sums of a, b, c with a range of values for each; their units are in the
// sum itself.
var slopes = []struct {
	text string
	low  float64
	high float64
}{
	{"a + b", -9, 9}, {"a - b", -9, 9}, {"a * b", -9, 9}, {"a / b", 1, 9}, {"a ^ b", 0.5, 3}, {"a ^ 3", -9, 9},
	{"a ^ -2", 1, 9},
	{"-a", -9, 9}, {"2 ^ a", -3, 3},
	{"abs(a)", 1, 9}, {"abs(-a)", 1, 9}, {"sqrt(a)", 1, 9}, {"sin(a * 1 deg)", -200, 200}, {"cos(a * 1 rad)", -9, 9},
	{"tan(a * 0.1 rad)", -9, 9}, {"sin(a * 1 rot)", -2, 2},
	{"atan(a)", -9, 9}, {"atan2(a * 1 cm, b * 1 in)", 1, 9}, {"atan2(a, -b)", 1, 9}, {"a * 1 in + b * 1 cm", -9, 9},
	{"(a * 1 in) * (b * 1 cm)", 1, 9}, {"(a * 1 in) / (b * 1 cm)", 1, 9},
	{"mean(a, b, c)", -9, 9}, {"sum(a, b, a)", -9, 9}, {"stdev(a, 2 * b + 20, c - 20)", 1, 9},
	{"stderr(a, 2 * b + 20, c - 20)", 1, 9},
	{"range(a, b + 20, c - 20)", 1, 9},
	{"median(a, b + 20, c - 20)", 1, 9}, {"median(a, b + 20)", 1, 9}, {"min(a, b + 20)", 1, 9}, {"max(a, b + 20)", 1, 9},
	{"circumference(a * 1 cm)", 1, 9}, {"rotations(a * 1 m, b * 1 in)", 1, 9}, {"rotations(a * 1 m, b * 1 in, c)", 1, 9},
	{"distance(a, b * 1 cm)", 1, 9}, {"distance(a * 1 rot, b * 1 cm, c)", 1, 9},
	{"percent_error((a + 20) * 1 cm, b * 1 in)", 1, 3}, {"percent_error(a * 1 cm, (b + 20) * 1 cm)", 1, 3},
	{"effective_diameter(a * 1 m, b)", 1, 9}, {"correction(a * 1 ft, b * 1 in)", 1, 9},
	{"drift_angle(a * 1 cm, b * 1 m)", 1, 9}, {"wheel_mismatch(a * 1 cm, b * 1 m, c * 1 cm)", 1, 9},
	{"spin_turn(a * 10 deg, b * 1 cm, c * 1 in)", 1, 9}, {"pivot_turn(a * 1 rad, b * 1 cm, c * 1 cm)", 1, 9},
	{"speed(a * 1 cm, b * 1 min)", 1, 9}, {"travel_time(a * 1 cm, b * 1 m/s)", 1, 9},
	{"vapour_ppm(a * 1 g, b * 60 g/mol, c * 1 m^3)", 1, 9},
}

func TestSharesAreDerivatives(t *testing.T) {
	for _, s := range slopes {
		t.Run(s.text, func(t *testing.T) {
			names := quantity.Names(parsed(t, s.text))
			rapid.Check(t, func(t *rapid.T) {
				x := map[string]float64{}
				for _, name := range names {
					x[name] = rapid.Float64Range(s.low, s.high).Draw(t, name)
					if math.Abs(x[name]) < 1e-100 { // products that are too small are refused
						x[name] = 0
					}
				}
				for _, name := range names {
					compareSlope(t, s.text, x, name)
				}
			})
		})
	}
}

func compareSlope(t *rapid.T, text string, x map[string]float64, name string) {
	at := func(h, u float64) quantity.Quantity {
		env := quantity.Env{}
		for n, v := range x {
			env[n] = quantity.New(v, quantity.Unit{})
			if n == name {
				env[n] = quantity.Measured(n, v+h, u, quantity.Unit{})
			}
		}
		return worth(t, text, env)
	}
	const h = 1e-5
	got := at(0, 1)
	want := (at(h, 0).Number - at(-h, 0).Number) / (2 * h)
	if math.Abs(got.Share(name)-want) > 1e-6*(math.Abs(want)+math.Abs(got.Number)+1) {
		t.Fatalf("the share of %s in %s at %v is %g, the slope %g", name, text, x, got.Share(name), want)
	}
	if got.Share("nobody") != 0 || !slices.Equal(got.Inputs(), []string{name}) && want != 0 {
		t.Fatalf("the inputs of %s are %v", text, got.Inputs())
	}
}

func TestStepsEndWithWhatIsShown(t *testing.T) {
	sums := []string{"circumference(d)", "rotations(L, d)", "L + d", "L * d", "mean(s)", "percent_error(mean(s), L)",
		"d ^ 2 / L",
		"-(L - d)", "L / t", "sqrt(L ^ 2 + d ^ 2)", "x * 3 %", "spin_turn(x * 36 deg, kit.track, kit.wheel)"}
	rapid.Check(t, func(t *rapid.T) {
		env := bench()
		env["d"] = quantity.New(float64(rapid.IntRange(1, 99999).Draw(t, "d"))/100, unit("mm"))
		env["L"] = quantity.New(float64(rapid.IntRange(-99999, 99999).Draw(t, "L"))/8+0.0625, unit("in"))
		e := parsed(t, rapid.SampledFrom(sums).Draw(t, "sum"))
		q := worth(t, e.String(), env)
		goal := quantity.Target{Step: step(rapid.SampledFrom([]string{"0.1", "0.001", "1/16", "10"}).Draw(t, "step"))}
		if units := quantity.UnitsOf(q.Unit.Dimension()); len(units) > 0 && rapid.Bool().Draw(t, "in") {
			goal.Unit, goal.HasUnit = unit(rapid.SampledFrom(units).Draw(t, "unit")), true
		}
		steps := quantity.Worked("y", e, env, goal)
		last := steps[len(steps)-1].Right.Text()
		if number, in := quantity.Show(q, goal); last != (quantity.Shown{Number: number, Unit: in}).Text() {
			t.Fatalf("%s: the last step is %s, shown is %s", e, last, fmt.Sprint(number, " ", in))
		}
	})
}
