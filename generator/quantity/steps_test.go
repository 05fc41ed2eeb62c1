package quantity_test

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// shelf is the bench with what the worked sums need beside it.
func shelf() quantity.Env {
	env := bench()
	cm := unit("cm")
	env["m0"] = quantity.New(119.76, cm)
	env["neg"] = quantity.New(-3, cm)
	env["r"] = quantity.Record{Name: "r", Numbers: []float64{3, 4}, Unit: cm}
	env["r3"] = quantity.Record{Name: "r", Numbers: []float64{3, 4, 5}, Unit: cm}
	env["dozen"] = quantity.Record{Name: "a", Numbers: []float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, Unit: cm}
	env["long"] = quantity.Record{Name: "long", Numbers: []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, Unit: cm}
	return env
}

type workedSum struct{ name, text, in, to, want string }

func TestWorkedSums(t *testing.T) {
	for _, c := range workedSums {
		var lines []string
		for _, s := range quantity.Worked(c.name, parsed(t, c.text), shelf(), target(c.in, c.to)) {
			lines = append(lines, s.Text())
		}
		if got := strings.Join(lines, "\n"); got != strings.TrimSpace(c.want) {
			t.Errorf("%s in %s to %s is worked\n%s\nwant%s", c.text, c.in, c.to, got, c.want)
		}
	}
}

var workedSums = []workedSum{
	{"C", "circumference(d)", "cm", "0.1", `
C = π × d
= π × 65 mm
65 mm = (65 ÷ 10) cm = 6.5 cm
= π × 6.5 cm
= 20.4203… cm
≈ 20.4 cm
`},
	{"n", "rotations(L, d)", "rot", "0.01", `
n = L ÷ (π × d)
= 120 cm ÷ (π × 65 mm)
65 mm = (65 ÷ 10) cm = 6.5 cm
= 120 cm ÷ (π × 6.5 cm)
= 5.87649… rotations
≈ 5.88 rotations
`},
	{"n", "rotations(L, d, gear)", "rot", "0.01", `
n = L ÷ (π × d) × gear
= 120 cm ÷ (π × 65 mm) × 3
65 mm = (65 ÷ 10) cm = 6.5 cm
= 120 cm ÷ (π × 6.5 cm) × 3
= 17.6294… rotations
≈ 17.63 rotations
`},
	{"m", "mean(s)", "cm", "0.1", `
m = (s₁ + s₂ + … + s₅) ÷ 5
= (118.8 cm + 120.3 cm + 119.6 cm + 121 cm + 119.1 cm) ÷ 5
= 119.76 cm
≈ 119.8 cm
`},
	{"m", "mean(r)", "cm", "0.1", `
m = (r₁ + r₂) ÷ 2
= (3 cm + 4 cm) ÷ 2
= 3.5 cm
`},
	{"m", "mean(long)", "cm", "0.1", `
m = (long₁ + long₂ + … + long₁₃) ÷ 13
= mean(long)
= 6 cm
= 6.0 cm
`},
	{"e", "percent_error(m0, L)", "%", "0.1", `
e = |m₀ − L| ÷ |L|
= |119.76 cm − 120 cm| ÷ |120 cm|
= 0.2 %
`},
	{"", "48 in", "cm", "", `
48 in = 48 × 2.54 cm = 121.92 cm
`},
	{"", "48 in", "cm", "1", `
48 in = 48 × 2.54 cm = 121.92 cm
≈ 122 cm
`},
	{"", "L", "in", "1/16", `
L = 120 cm
120 cm = (120 ÷ 2.54) in = 47.2440… in
= 47.2440… in
≈ 47 1/4 in
`},
	{"", "48 in", "", "10", `
48 in ≈ 50 in
`},
	{"", "48 in", "", "", `
`},
	{"y", "20 in + 70 cm", "cm", "0.1", `
y = 20 in + 70 cm
20 in = 20 × 2.54 cm = 50.8 cm
= 50.8 cm + 70 cm
= 120.8 cm
`},
	{"n", "spin_turn(90 deg, kit.track, kit.wheel)", "rot", "0.01", `
n = 90° ÷ 360° × (π × kit.track) ÷ (π × kit.wheel)
= 90° ÷ 360° × (π × 112 mm) ÷ (π × 56 mm)
= 0.5 rotations
= 0.50 rotations
`},
	{"a", "drift_angle(3 cm, 1 m)", "deg", "0.1", `
a = atan(3 cm ÷ 1 m)
1 m = 1 × 100 cm = 100 cm
= atan(3 cm ÷ 100 cm)
= 1.71835…°
≈ 1.7°
`},
	{"y", "neg - -2 cm", "cm", "", `
y = neg − (−2 cm)
= (−3 cm) − (−2 cm)
= −1 cm
`},
	{"y", "neg * -2", "cm", "", `
y = neg × (−2)
= (−3 cm) × (−2)
= 6 cm
`},
	{"y", "neg ^ 2", "cm^2", "", `
y = neg²
= (−3 cm)²
= 9 cm²
`},
	{"y", "-(d + L)", "cm", "1", `
y = −(d + L)
= −(65 mm + 120 cm)
65 mm = (65 ÷ 10) cm = 6.5 cm
= −(6.5 cm + 120 cm)
= −126.5 cm
≈ −127 cm
`},
	{"y", "L / (d + 1 mm) / 2", "", "", `
y = L ÷ (d + 1 mm) ÷ 2
= 120 cm ÷ (65 mm + 1 mm) ÷ 2
65 mm = (65 ÷ 10) cm = 6.5 cm
1 mm = (1 ÷ 10) cm = 0.1 cm
= 120 cm ÷ (6.5 cm + 0.1 cm) ÷ 2
= 9.09090…
≈ 9.091
`},
	{"y", "abs(neg)", "cm", "0.1", `
y = |neg|
= |−3 cm|
= 3 cm
= 3.0 cm
`},
	{"y", "sqrt(neg ^ 2 + (4 cm) ^ 2)", "cm", "", `
y = √(neg² + (4 cm)²)
= √((−3 cm)² + (4 cm)²)
= 5 cm
`},
	{"y", "stdev(s)", "cm", "0.01", `
y = √(sum of (each − mean)² ÷ (5 − 1))
= √(((118.8 cm − 119.76 cm)² + (120.3 cm − 119.76 cm)² + … + (119.1 cm − 119.76 cm)²) ÷ (5 − 1))
= 0.896102… cm
≈ 0.90 cm
`},
	{"y", "stderr(s)", "cm", "0.01", `
y = √(sum of (each − mean)² ÷ (5 − 1)) ÷ √5
= √(((118.8 cm − 119.76 cm)² + (120.3 cm − 119.76 cm)² + … + (119.1 cm − 119.76 cm)²) ÷ (5 − 1)) ÷ √5
= 0.400749… cm
≈ 0.40 cm
`},
	{"y", "range(s)", "cm", "0.1", `
y = largest − smallest
= 121 cm − 118.8 cm
= 2.2 cm
`},
	{"y", "sum(r, 2 cm)", "cm", "", `
y = r₁ + r₂ + 2 cm
= 3 cm + 4 cm + 2 cm
= 9 cm
`},
	{"y", "median(s)", "", "", `
y = median(s)
= 119.6 cm
`},
	{"y", "count(s)", "", "", `
y = count(s)
= 5
`},
	{"y", "d * 2 ^ x", "mm", "0.1", `
y = d × 2^x
= 65 mm × 2^2.5
= 367.695… mm
≈ 367.7 mm
`},
	{"v", "speed(L, t)", "m/s", "0.01", `
v = L ÷ t
= 120 cm ÷ 6 s
120 cm = (120 ÷ 100) m = 1.2 m
= 1.2 m ÷ 6 s
= 0.2 m/s
= 0.20 m/s
`},
	{"y", "2 * (3 - 5)", "", "0.1", `
y = 2 × (3 − 5)
= −4
= −4.0
`},
	{"y", "4 cm * 3 cm", "cm^2", "", `
y = 4 cm × 3 cm
= 12 cm²
`},
	{"y", "max(d, 10 mm)", "in", "1/32", `
y = max(d, 10 mm)
= max(65 mm, 10 mm)
65 mm = (65 ÷ 25.4) in = 2.55905… in
10 mm = (10 ÷ 25.4) in = 0.393700… in
= max(2.55905… in, 0.393700… in)
= 2.55905… in
≈ 2 9/16 in
`},
	{"", "2 + 2", "", "", `
2 + 2 = 4
`},
	{"", "gear", "", "0.1", `
gear = 3
= 3.0
`},
	{"y", "circumference(d) * 1/2", "cm", "1/8", `
y = π × d × 1/2
= π × 65 mm × 1/2
65 mm = (65 ÷ 10) cm = 6.5 cm
= π × 6.5 cm × 1/2
= 10.2101… cm
≈ 10 1/4 cm
`},
	{"w", "wheel_mismatch(3 cm, 1 m, kit.track)", "%", "0.01", `
w = 2 × kit.track × 3 cm ÷ ((1 m)² + (3 cm)²)
= 2 × 112 mm × 3 cm ÷ ((1 m)² + (3 cm)²)
3 cm = 3 × 10 mm = 30 mm
1 m = 1 × 1000 mm = 1000 mm
= 2 × 112 mm × 30 mm ÷ ((1000 mm)² + (30 mm)²)
= 0.00671395…
= 0.671395… %
≈ 0.67 %
`},

	{"y", "sqrt(x) ^ 2", "", "", `
y = (√x)²
= (√2.5)²
= 2.5
`},
	{"y", "mean(d, L)", "mm", "1", `
y = (d + L) ÷ 2
= (65 mm + 120 cm) ÷ 2
120 cm = 120 × 10 mm = 1200 mm
= (65 mm + 1200 mm) ÷ 2
= 632.5 mm
≈ 633 mm
`},
	{"y", "mean(s)", "m", "0.01", `
y = (s₁ + s₂ + … + s₅) ÷ 5
= (118.8 cm + 120.3 cm + 119.6 cm + 121 cm + 119.1 cm) ÷ 5
= 119.76 cm
= 1.1976 m
≈ 1.20 m
`},
	{"y", "-(L / d)", "", "0.1", `
y = −L ÷ d
= −120 cm ÷ 65 mm
65 mm = (65 ÷ 10) cm = 6.5 cm
= −120 cm ÷ 6.5 cm
= −18.4615…
≈ −18.5
`},
	{"y", "-L + d", "", "", `
y = −L + d
= −120 cm + 65 mm
65 mm = (65 ÷ 10) cm = 6.5 cm
= −120 cm + 6.5 cm
= −113.5 cm
`},
	{"y", "sum(d)", "", "", `
y = d
= 65 mm
`},
	{"y", "1.2345678 cm * 1", "", "", `
y = 1.2345678 cm × 1
= 1.2345678 cm
≈ 1.235 cm
`},
	{"y", "3 / 10 ^ 12", "", "", `
y = 3 ÷ 10¹²
= 3e−12
`},
	{"", "2 N", "kg·m/s^2", "", `
2 N = 2 × 1 kg·m/s² = 2 kg·m/s²
`},
	{"m", "mean(r3)", "", "", `
m = (r₁ + r₂ + r₃) ÷ 3
= (3 cm + 4 cm + 5 cm) ÷ 3
= 4 cm
`},
	{"m", "sum(dozen)", "", "", `
m = a₁ + a₂ + … + a₁₂
= 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm + 1 cm
= 12 cm
`},
	{"", "2 m/s", "ft/min", "", `
2 m/s = 393.700… ft/min
≈ 393.7 ft/min
`},
	{"", "2 oz", "kg", "", `
2 oz = 0.0566990… kg
≈ 0.0567 kg
`},
	{"y", "1 cm / 3", "", "1/3", `
y = 1 cm ÷ 3
= 0.333333… cm
≈ 1/3 cm
`},
	{"", "1 rad", "deg", "", `
1 rad = 57.2957…°
≈ 57.3°
`},
	{"", "1/3 in", "cm", "0.1", `
1/3 in = 1/3 × 2.54 cm = 0.846666… cm
≈ 0.8 cm
`},
}

func TestNoStepsWithoutAValue(t *testing.T) {
	for _, text := range []string{"s", "nothing", "1/1 - 1 + gone"} {
		if steps := quantity.Worked("y", parsed(t, text), shelf(), quantity.Target{}); len(steps) > 0 {
			t.Errorf("%s has the steps %v", text, steps)
		}
	}
}

// Calls within calls of a definition that names a parameter twice would double with
// every level.
func TestDeepCallsAreWrittenInReasonableTime(t *testing.T) {
	text := strings.Repeat("percent_error(3, ", 60) + "2" + strings.Repeat(")", 60)
	steps := quantity.Worked("y", parsed(t, text), nil, quantity.Target{})
	if len(steps) == 0 || len(steps[0].Text()) > 5000 {
		t.Errorf("%d steps", len(steps))
	}
}

func TestKindsOfSteps(t *testing.T) {
	want := []quantity.StepKind{quantity.FormulaStep, quantity.NumbersStep, quantity.ConversionStep,
		quantity.NumbersStep, quantity.ResultStep, quantity.RoundedStep}
	steps := quantity.Worked("C", parsed(t, "circumference(d)"), shelf(), target("cm", "0.1"))
	if len(steps) != len(want) {
		t.Fatalf("%d steps", len(steps))
	}
	for i, s := range steps {
		if s.Kind != want[i] {
			t.Errorf("step %d is of kind %d, want %d", i, s.Kind, want[i])
		}
	}
}

func TestFormulasInOneLine(t *testing.T) {
	a, b := quantity.Symbol{Name: "a"}, quantity.Symbol{Name: "b"}
	shown := func(n string) quantity.Math { return quantity.Shown{Number: n} }
	row := func(sign string) quantity.Math {
		return quantity.Row{Parts: []quantity.Math{a, quantity.Sign{Sign: sign}, b}}
	}
	for _, c := range []struct {
		m    quantity.Math
		want string
	}{
		{quantity.Shown{Number: "90", Unit: "°"}, "90°"}, {quantity.Shown{Number: "3", Unit: "cm"}, "3 cm"},
		{shown("3"), "3"},
		{quantity.Fraction{Over: row("+"), Under: row("×")}, "(a + b) ÷ (a × b)"},
		{quantity.Fraction{Over: row("×"), Under: b}, "a × b ÷ b"},
		{quantity.Fraction{Over: row("−"), Under: shown("−3")}, "(a − b) ÷ (−3)"},
		{quantity.Fraction{Over: a, Under: quantity.Fraction{Over: a, Under: b}}, "a ÷ (a ÷ b)"},
		{quantity.Power{Base: a, Exponent: shown("12")}, "a¹²"},
		{quantity.Power{Base: row("+"), Exponent: shown("2")}, "(a + b)²"},
		{quantity.Power{Base: a, Exponent: shown("2.5")}, "a^2.5"},
		{quantity.Power{Base: a, Exponent: shown("−2")}, "a^(−2)"},
		{quantity.Power{Base: a, Exponent: quantity.Shown{Number: "2", Unit: "%"}}, "a^2 %"},
		{quantity.Power{Base: a, Exponent: row("+")}, "a^(a + b)"},
		{quantity.Power{Base: quantity.Root{Of: a}, Exponent: shown("2")}, "(√a)²"},
		{quantity.Root{Of: row("+")}, "√(a + b)"},
		{quantity.Root{Of: a}, "√a"},
		{quantity.Bars{Of: row("−")}, "|a − b|"}, {quantity.Parens{Of: a}, "(a)"}, {quantity.Word{Words: "of"}, "of"},
		{quantity.Apply{Name: "f", Args: []quantity.Math{a, b}}, "f(a, b)"}, {quantity.Apply{Name: "f"}, "f()"},
	} {
		if got := c.m.Text(); got != c.want {
			t.Errorf("%#v is written %s, want %s", c.m, got, c.want)
		}
	}
}
