package quantity_test

// This file holds worked steps that once said something false, or left out what a class would ask for: each
// line must be true for a reader with a calculator.

import (
	"math"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// written is a value as a lesson writes it, whose digits the steps keep.
func written(text string) quantity.Quantity {
	e, err := quantity.ParseExpr(text)
	if err != nil {
		panic(text + ": " + err.What)
	}
	v, errs := quantity.Eval(e, nil)
	if len(errs) > 0 {
		panic(text + ": " + errs[0].What)
	}
	return v.(quantity.Quantity)
}

func readings(name, in string, texts ...string) quantity.Record {
	r := quantity.Record{Name: name, Unit: unit(in)}
	for _, text := range texts {
		q := written(strings.Replace(text, "−", "-", 1))
		r.Numbers, r.Texts = append(r.Numbers, q.Number), append(r.Texts, text)
	}
	return r
}

var faultySteps = []workedSum{
	// Brackets around a fraction, which binds like a division for whoever reads it.
	{"", "(2/3)^2", "", "", `
(2/3)² = 0.444444…
≈ 0.4444
`},
	{"", "6 cm / (2/3)", "", "", `
6 cm ÷ (2/3) = 9 cm
`},
	{"", "2^(2/3)", "", "0.1", `
2^(2/3) = 1.58740…
≈ 1.6
`},
	{"", "sqrt(2/3)", "", "0.1", `
√(2/3) = 0.816496…
≈ 0.8
`},
	{"m", "mean(side)", "", "", `
m = (side₁ + side₂ + side₃) ÷ 3
= ((−22 mm) + (−39 mm) + (−66 mm)) ÷ 3
= −42.3333… mm
≈ −42.33 mm
`},
	// Angles are counted as rotations before they are multiplied.
	{"", "distance(720 deg, 65 mm)", "", "", `
distance(720°, 65 mm) = 720° × π × 65 mm
720° = (720 ÷ 360) rotations = 2 rotations
= 2 rotations × π × 65 mm
= 408.407… mm
≈ 408.4 mm
`},
	{"", "effective_diameter(118.4 cm, 2088 deg)", "", "", `
effective_diameter(118.4 cm, 2088°) = 118.4 cm ÷ (π × 2088°)
2088° = (2088 ÷ 360) rotations = 5.8 rotations
= 118.4 cm ÷ (π × 5.8 rotations)
= 6.49791… cm
≈ 6.498 cm
`},
	{"x", "distance(atan(1), 65 mm)", "mm", "0.1", `
x = atan(1) ÷ 360° × π × 65 mm
= 25.5254… mm
≈ 25.5 mm
`},
	// A division by a unit, as the language itself reads it, needs its brackets.
	{"", "65 mm", "in", "", `
65 mm = (65 ÷ 25.4) in = 2.55905… in
≈ 2.559 in
`},
	// An equals sign beside digits that were cut, and zeros that nobody measured.
	{"", "2 / 3 * 100000000", "", "0.0001", `
2 ÷ 3 × 100000000 = 66666666.6…
≈ 66666666.6667
`},
	{"", "67.45 m^3 / 0.298 ft + 33 3/8 ft^2", "in^2", "", `
67.45 m³ = 4116051.5… in³
0.298 ft = 0.298 × 12 in = 3.576 in
33 3/8 ft² = 33 3/8 × 144 in² = 4806 in²
67.45 m³ ÷ 0.298 ft + 33 3/8 ft² = 4116051.5… in³ ÷ 3.576 in + 4806 in²
= 1155827.1… in²
≈ 1155827 in²
`},
	{"", "123456789012.34", "", "0.001", `
123456789012.34 = 123456789012.340
`},
	{"", "99999999999999", "", "1", `
`},
	{"", "1234567 mm", "", "", `
`},
	{"", "1234567.891 mm", "", "", `
1234567.891 mm ≈ 1234568 mm
`},
	{"", "1000000 + 1", "", "", `
1000000 + 1 = 1000001
`},
	{"", "1234567890123456 * 3.5", "", "", `
1234567890123456 × 3.5 = 4.32098…e+15
≈ 4.321e+15
`},
	// Zeros that were measured stay.
	{"y", "far * 2", "m", "0.01", `
y = far × 2
= 4.990 m × 2
= 9.98 m
`},
	{"y", "far * 2", "cm", "1", `
y = far × 2
= 4.990 m × 2
4.990 m = 4.990 × 100 cm = 499 cm
= 499 cm × 2
= 998 cm
`},
	{"m", "mean(tape)", "", "0.1", `
m = (tape₁ + tape₂) ÷ 2
= (44.0 cm + 45.5 cm) ÷ 2
= 44.75 cm
≈ 44.8 cm
`},
	// Spreads with their numbers.
	{"y", "range(tape)", "", "0.1", `
y = largest − smallest
= 45.5 cm − 44.0 cm
= 1.5 cm
`},
	{"y", "stdev(tape)", "", "0.1", `
y = √(sum of (each − mean)² ÷ (2 − 1))
= √(((44.0 cm − 44.75 cm)² + (45.5 cm − 44.75 cm)²) ÷ (2 − 1))
= 1.06066… cm
≈ 1.1 cm
`},
	{"y", "range(side)", "cm", "0.1", `
y = largest − smallest
= (−22 mm) − (−66 mm)
= 44 mm
= 4.4 cm
`},
	{"y", "stdev(d, L)", "mm", "1", `
y = √(sum of (each − mean)² ÷ (2 − 1))
= √(((65 mm − 632.5 mm)² + (120 cm − 632.5 mm)²) ÷ (2 − 1))
120 cm = 120 × 10 mm = 1200 mm
= √(((65 mm − 632.5 mm)² + (1200 mm − 632.5 mm)²) ÷ (2 − 1))
= 802.566… mm
≈ 803 mm
`},
}

func TestStepsAreTrueForWhoeverFollowsThem(t *testing.T) {
	env := shelf()
	env["far"] = written("4.990 m")
	env["tape"] = readings("tape", "cm", "44.0", "45.5")
	env["side"] = readings("side", "mm", "−22", "−39", "−66")
	for _, c := range faultySteps {
		var lines []string
		for _, s := range quantity.Worked(c.name, parsed(t, c.text), env, target(c.in, c.to)) {
			lines = append(lines, s.Text())
		}
		if got := strings.Join(lines, "\n"); got != strings.TrimSpace(c.want) {
			t.Errorf("%s in %s to %s is worked\n%s\nwant%s", c.text, c.in, c.to, got, c.want)
		}
	}
}

func TestTheUnitAskedForMayBeTheInchAfterABareNumber(t *testing.T) {
	for text, want := range map[string]string{
		"65 mm * 3 in in": "in", "3 in ″": "″", "3 in ′": "′", "3 in in^2": "in^2", "3 in in/s": "in/s", "3 in 1/s": "1/s",
		"3 in in in": "in", "3 in in cm": "cm", "3 in in to 0.1": "in",
	} {
		p := quantity.NewParser(text, func(i int) int { return i })
		e, err := p.Expr()
		if err != nil {
			t.Errorf("%s: %s", text, err.What)
			continue
		}
		got, err := p.Target()
		if err != nil || !got.HasUnit || !got.Unit.Equal(unit(want)) || !p.AtEnd() {
			t.Errorf("%s is read as %s with the target %v: %v", text, e, got, err)
		}
	}
}

func TestARootOfAnAreaInMixedUnitsHasAUnit(t *testing.T) {
	env := quantity.Env{"v": quantity.New(8, unit("mL")), "h": quantity.New(2, unit("ft"))}
	q := worked(t, "sqrt(v / h)", env)
	if want := math.Sqrt(8e-6 / 0.6096); q.Unit.Symbol() != "m" || math.Abs(q.Number-want) > 1e-15 {
		t.Errorf("√(8 mL ÷ 2 ft) is %g %s, want %g m", q.Number, q.Unit.Symbol(), want)
	}
	varies := func(string) bool { return true }
	p, u, err := quantity.Compile(parsed(t, "sqrt(v / h)"), env, varies, quantity.Target{})
	if err != nil || u.Symbol() != "m" || !strings.HasSuffix(string(p), "sqrt:1") {
		t.Errorf("its program is %q in %s: %v", p, u.Symbol(), err)
	}
	if _, errs := quantity.Eval(parsed(t, "sqrt(v)"), env); len(errs) != 1 || errs[0].Slug != "no-value" {
		t.Errorf("the root of a volume is %v", errs)
	}
}

func TestWhatIsTooSmallIsNotTakenForNothing(t *testing.T) {
	for _, text := range []string{"10^-300 * 10^-300 * 1 cm", "10^-300 / 10^300"} {
		if _, errs := quantity.Eval(parsed(t, text), nil); len(errs) != 1 || errs[0].Slug != "not-finite" {
			t.Errorf("%s is %v", text, errs)
		}
	}
	if q := worked(t, "0 * 10^-300 / 3", nil); q.Number != 0 {
		t.Errorf("zero times a small number is %g", q.Number)
	}
}
