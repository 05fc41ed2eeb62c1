package quantity_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// near tells whether two numbers agree but for the noise of binary arithmetic.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-13*math.Max(math.Abs(a), math.Abs(b)) }

type valued struct {
	text string
	want float64
	unit string
	u    float64 // standard uncertainty
}

func checkValues(t *testing.T, cases []valued) {
	t.Helper()
	for _, c := range cases {
		q := worth(t, c.text, bench())
		if !near(q.Number, c.want) && math.Abs(q.Number-c.want) > 1e-15 || q.Unit.String() != c.unit ||
			!near(q.Uncertainty(), c.u) {
			t.Errorf("%s is %.17g ± %.17g %s, want %.17g ± %.17g %s", c.text, q.Number, q.Uncertainty(), q.Unit, c.want, c.u,
				c.unit)
		}
	}
}

// Where a row says "practice", the formula is common practice and has no published source.
func TestFormulasOfTheTrade(t *testing.T) {
	n := 1200 / (math.Pi * 65)
	checkValues(t, []valued{
		{"circumference(65 mm)", 204.20352248333654, "mm", 0},            // definition
		{"circumference(d)", 204.20352248333654, "mm", math.Pi / 2},      // definition
		{"rotations(L, d)", n, "rot", n / 130},                           // practice
		{"rotations(L, d, gear)", 3 * n, "rot", 3 * n / 130},             // practice
		{"distance(3 rot, 65 mm)", 612.6105674500096, "mm", 0},           // practice
		{"distance(3, 65 mm)", 612.6105674500096, "mm", 0},               // practice
		{"distance(1080 deg, 65 mm)", 612.6105674500096, "mm", 0},        // practice
		{"distance(3 rot, 65 mm, 3)", 204.20352248333654, "mm", 0},       // practice
		{"percent_error(119.76 cm, L)", 0.2, "%", 0},                     // practice
		{"percent_error(120.24 cm, L)", 0.2, "%", 0},                     // practice
		{"percent_error(-95, -100)", 5, "%", 0},                          // practice
		{"effective_diameter(612.6105674500096 mm, 3 rot)", 65, "mm", 0}, // practice
		{"effective_diameter(612.6105674500096 mm, 3)", 65, "mm", 0},     // practice
		{"correction(100 cm, 0.98 m)", 100.0 / 98, "", 0},                // practice
		{"drift_angle(10 cm, 100 mm)", 45, "deg", 0},                     // trigonometry
		{"drift_angle(-1 m, 1 m)", -45, "deg", 0},                        // trigonometry
		{"drift_angle(0 m, 1 m)", 0, "deg", 0},                           // trigonometry
		{"wheel_mismatch(3 cm, 100 cm, 11.2 cm)", 67.2 / 10009, "", 0},   // circle geometry
		{"spin_turn(90 deg, 112 mm, 56 mm)", 0.5, "rot", 0},              // practice
		{"spin_turn(1/4 rot, 112 mm, 56 mm)", 0.5, "rot", 0},             // practice
		{"pivot_turn(90 deg, 112 mm, 56 mm)", 1, "rot", 0},               // practice
		{"pivot_turn(-90 deg, 112 mm, 56 mm)", -1, "rot", 0},             // practice
		{"speed(L, t)", 20, "cm/s", 0},                                   // definition
		{"travel_time(L, 20 cm/s)", 6, "s", 0},                           // definition
		{"vapour_ppm(60.1 g, 60.1 g/mol, 24.45 m^3)", 1000, "ppm", 0},
		// NIOSH: molar volume 24.45 L/mol
		{"vapour_ppm(0.0601 kg, 60.1 g/mol, 24450000 mL)", 1000, "ppm", 0},
		// NIOSH: molar volume 24.45 L/mol
		{"spin_turn(90 deg, kit.track, kit.wheel)", 0.5, "rot", 0.5 * math.Hypot(1.0/112, 0.5/56)}, // practice
	})
}

func TestArithmeticWithUnitsAndUncertainty(t *testing.T) {
	checkValues(t, []valued{
		{"20 in + 70 cm", 20 + 70/2.54, "in", 0},
		{"70 cm + 20 in", 120.8, "cm", 0},
		{"70 cm − 20 in", 19.2, "cm", 0},
		{"d - d", 0, "mm", 0},
		{"d + d", 130, "mm", 1},
		{"2 * d", 130, "mm", 1},
		{"d * d", 4225, "mm^2", 65},
		{"d ^ 2", 4225, "mm^2", 65},
		{"d²", 4225, "mm^2", 65},
		{"d ^ -1", 1.0 / 65, "1/mm", 0.5 / 4225},
		{"d ^ 0", 1, "", 0},
		{"d / d", 1, "", 0},
		{"d / 65 mm", 1, "", 0.5 / 65},
		{"L / d", 1200.0 / 65, "", 1200.0 / 65 / 130},
		{"1 / x", 0.4, "", 0.25 / 6.25},
		{"-d", -65, "mm", 0.5},
		{"2 ^ x", math.Pow(2, 2.5), "", math.Pow(2, 2.5) * math.Ln2 * 0.25},
		{"x ^ x", math.Pow(2.5, 2.5), "", math.Pow(2.5, 2.5) * (math.Log(2.5) + 1) * 0.25},
		{"x ^ 0.5", math.Sqrt(2.5), "", 0.125 / math.Sqrt(2.5)},
		{"z ^ 1", 0, "", 1},
		{"z ^ 2", 0, "", 0},
		{"z ^ 0.5", 0, "", 0},
		{"z ^ 0", 1, "", 0},
		{"0 ^ x", 0, "", 0},
		{"(-2) ^ 3", -8, "", 0},
		{"2 ^ (200 %)", 4, "", 0},
		{"(50 %) ^ 2", 0.25, "", 0},
		{"10 % * 50 cm", 5, "cm", 0},
		{"10 % * 10 %", 0.01, "", 0},
		{"10 % + 5 %", 15, "%", 0},
		{"10 % + 0.05", 15, "%", 0},
		{"5 ppm / 1 %", 0.0005, "", 0},
		{"6 cm / 2 s", 3, "cm/s", 0},
		{"3 cm/s * 2 s", 6, "cm", 0},
		{"3 m/min * 30 s", 1.5, "m", 0},
		{"2 rot * 3", 6, "rot", 0},
		{"1 in ± 1 mm", 1, "in", 1 / 25.4},
		{"1 ft * 1 in", 1.0 / 12, "ft^2", 0},
		{"1 N / 1 kg", 1, "N/kg", 0},
		{"1 N / 1 kg / 1 m * 1 s * 1 s", 1, "", 0},
		{"(10 cm) ^ -9", 1e-9, "1/cm^9", 0},
		{"pi", math.Pi, "", 0},
	})
}

func TestFunctions(t *testing.T) {
	checkValues(t, []valued{
		{"abs(-3 cm)", 3, "cm", 0}, {"abs(-d)", 65, "mm", 0.5}, {"abs(d)", 65, "mm", 0.5}, {"abs(z)", 0, "", 0},
		{"sqrt(9 cm^2)", 3, "cm", 0}, {"sqrt(9)", 3, "", 0}, {"sqrt(d ^ 2)", 65, "mm", 0.5}, {"sqrt(0)", 0, "", 0},
		{"sqrt(z)", 0, "", 0},
		{"sqrt(25 %)", 0.5, "", 0}, {"sqrt(4 m^2/s^4)", 2, "m/s^2", 0},
		{"sqrt(x)", math.Sqrt(2.5), "", 0.125 / math.Sqrt(2.5)},
		{"round(2.5 cm)", 3, "cm", 0}, {"round(-2.5)", -3, "", 0}, {"round(2.4999)", 2, "", 0}, {"round(d)", 65, "mm", 0},
		{"sin(30 deg)", 0.5, "", 0}, {"sin(90°)", 1, "", 0}, {"sin(180°)", 0, "", 0}, {"sin(-90°)", -1, "", 0},
		{"sin(270°)", -1, "", 0},
		{"sin(450°)", 1, "", 0},
		{"cos(60 deg)", 0.5, "", 0}, {"cos(90°)", 0, "", 0}, {"cos(180°)", -1, "", 0}, {"cos(1/2 rot)", -1, "", 0},
		{"cos(270°)", 0, "", 0},
		{"cos(-180°)", -1, "", 0},
		{"sin(120°)", math.Sqrt(3) / 2, "", 0}, {"cos(120°)", -0.5, "", 0}, {"sin(210°)", -0.5, "", 0},
		{"cos(300°)", 0.5, "", 0},
		{"sin(300°)", -math.Sqrt(3) / 2, "", 0},
		{"tan(45 deg)", 1, "", 0}, {"tan(0.25 rad)", math.Tan(0.25), "", 0}, {"tan(135 deg)", -1, "", 0},
		{"sin(60° ± 1°)", math.Sqrt(3) / 2, "", 0.5 * math.Pi / 180},
		{"cos(30° ± 1°)", math.Sqrt(3) / 2, "", 0.5 * math.Pi / 180},
		{"sin(0 rad ± 0.1 rad)", 0, "", 0.1}, {"tan(45° ± 1°)", 1, "", 2 * math.Pi / 180},
		{"atan(1)", 45, "deg", 0}, {"atan(-1)", -45, "deg", 0}, {"atan(1 ± 0.1)", 45, "deg", 0.05 * 180 / math.Pi},
		{"atan(100 %)", 45, "deg", 0},
		{"atan2(1 cm, 10 mm)", 45, "deg", 0}, {"atan2(-1, -1)", -135, "deg", 0}, {"atan2(1, 0)", 90, "deg", 0},
		{"atan2(0, -1)", 180, "deg", 0},
		{"atan2(3 ± 0.1, 4)", math.Atan2(3, 4) * 180 / math.Pi, "deg", 0.4 / 25 * 180 / math.Pi},
		{"atan2(3, 4 ± 0.1)", math.Atan2(3, 4) * 180 / math.Pi, "deg", 0.3 / 25 * 180 / math.Pi},
	})
}

// The record s is 118.8, 120.3, 119.6, 121.0, 119.1: mean 119.76, squares of the
// differences 0.9216, 0.2916, 0.0256, 1.5376, 0.4356 with the sum 3.212.
func TestStatistics(t *testing.T) {
	sd := math.Sqrt(3.212 / 4)
	checkValues(t, []valued{
		{"mean(s)", 119.76, "cm", sd / math.Sqrt(5)},
		{"sum(s)", 598.8, "cm", sd * math.Sqrt(5)},
		{"median(s)", 119.6, "cm", 0},
		{"stdev(s)", sd, "cm", 0},
		{"stderr(s)", sd / math.Sqrt(5), "cm", 0},
		{"range(s)", 2.2, "cm", 0},
		{"min(s)", 118.8, "cm", 0},
		{"max(s)", 121, "cm", 0},
		{"count(s)", 5, "", 0},
		{"sum(10 mm, s)", 5998, "mm", 10 * sd * math.Sqrt(5)},
		{"sum(1 m, s)", 6.988, "m", sd * math.Sqrt(5) / 100},
		{"stdev(2 ± 1, 2 ± 1)", 0, "", 0},
		{"mean(1 cm, 20 mm)", 1.5, "cm", 0},
		{"mean(s, 100 cm)", (598.8 + 100) / 6, "cm", sd * math.Sqrt(5) / 6},
		{"count(s, 100 mm)", 6, "", 0},
		{"median(1, 4, 2, 3)", 2.5, "", 0},
		{"median(3, 1, 2)", 2, "", 0},
		{"median(d, 10 mm)", 37.5, "mm", 0.25},
		{"median(d, 10 mm, 90 mm)", 65, "mm", 0.5},
		{"min(d, 10 mm)", 10, "mm", 0},
		{"max(d, 10 mm)", 65, "mm", 0.5},
		{"range(d, 10 mm)", 55, "mm", 0.5},
		{"range(d, d)", 0, "mm", 0},
		{"sum(d, d, 1 cm)", 140, "mm", 1},
		{"mean(d, d)", 65, "mm", 0.5},
		{"stdev(d, 63 mm)", math.Sqrt2, "mm", 0.5 / math.Sqrt2},
		{"stderr(d, 63 mm)", 1, "mm", 0.25},
		{"stdev(2, 2)", 0, "", 0},
		{"mean(5)", 5, "", 0},
		{"stdev(2, 4, 4, 4, 5, 5, 7, 9)", math.Sqrt(32.0 / 7), "", 0}, // squares' sum 32 by hand
		{"percent_error(mean(s), L)", 0.2, "%", sd / math.Sqrt(5) / 120 * 100},
	})
}

func TestOneReadingHasNoSpread(t *testing.T) {
	env := quantity.Env{"r": quantity.Record{Name: "r", Numbers: []float64{3}, Unit: unit("cm")}}
	if q := worth(t, "mean(r)", env); q.Number != 3 || q.Uncertainty() != 0 {
		t.Errorf("the mean of one reading is %g ± %g", q.Number, q.Uncertainty())
	}
	_, errs := quantity.Eval(parsed(t, "stdev(r)"), env)
	if len(errs) != 1 || errs[0].Slug != "no-value" {
		t.Errorf("got %v", errs)
	}
}

func TestProblemsOfEvaluation(t *testing.T) {
	for _, c := range []wrong{
		{"y + 1", "unknown-name", "y", "nothing is called “y” yet", "define it first"},
		{"kit.whel", "unknown-name", "kit.whel", "nothing is called “kit.whel” yet", "did you mean kit.wheel?"},
		{"rotations", "unknown-name", "rotations", "nothing is called “rotations”",
			"rotations is a formula: write rotations(…)"},
		{"circumfrence(d)", "unknown-formula", "circumfrence", "there is no formula “circumfrence”",
			"did you mean circumference?"},
		{"frobnicate(d)", "unknown-formula", "frobnicate", "", "trundle help language formulas lists them"},
		{"20 in + 70 s", "mixed-dimensions", "20 in + 70 s", "70 s (a time) cannot be added to 20 in (a length)",
			"bring both to the same kind"},
		{"L - t", "mixed-dimensions", "L - t", "t (6 s, a time) cannot be taken from L (120 cm, a length)", ""},
		{"L + 2", "mixed-dimensions", "L + 2", "2 (a number) cannot be added to L (120 cm, a length)",
			"give the plain number a unit"},
		{"2 + L", "mixed-dimensions", "2 + L", "", "give the plain number a unit"},
		{"2 rot + 1", "mixed-dimensions", "2 rot + 1", "1 (a number) cannot be added to 2 rotations (an angle)", ""},
		{"3 mm ± 1 s", "mixed-dimensions", "3 mm ± 1 s", "the ± is a time, its number a length",
			"give both in units of one kind"},
		{"2 ^ L", "mixed-dimensions", "L", "an exponent must be a plain number; this is a length", ""},
		{"L / (t - 6 s)", "division-by-zero", "t - 6 s", "“t - 6 s” is zero", "look at the values"},
		{"0 ^ -1", "division-by-zero", "0 ^ -1", "zero to a negative power", "look at the value of 0"},
		{"L ^ 0.5", "unit-power", "0.5", "needs a whole power of at most 9", "sqrt"},
		{"L ^ 10", "unit-power", "10", "needs a whole power", ""},
		{"L ^ x", "unit-power", "x", "needs a whole power", ""},
		{"L ^ (2 ± 1)", "unit-power", "2 ± 1", "needs a whole power", ""},
		{"(L ^ 5) ^ 2", "unit-power", "L ^ 5) ^ 2", "this unit's power is too high", ""},
		{"L ^ 9 * L", "unit-power", "L ^ 9 * L", "comes out as cm¹⁰, which measures nothing", "check the formula"},
		{"1 / L ^ 9 / L", "unit-power", "1 / L ^ 9 / L", "which measures nothing", ""},
		{"10 ^ 400", "not-finite", "10 ^ 400", "this has no finite value", "too large"},
		{"(-2) ^ 0.5", "not-finite", "-2) ^ 0.5", "no finite value", "negative"},
		{"(-2) ^ x", "no-value", "-2) ^ x", "a power of a negative value", ""},
		{"10 ^ 300 * 10 ^ 300", "not-finite", "10 ^ 300 * 10 ^ 300", "", ""},
		{"10 ^ 308 + 10 ^ 308", "not-finite", "10 ^ 308 + 10 ^ 308", "", ""},
		{"10 ^ 300 / 10 ^ -300", "not-finite", "10 ^ 300 / 10 ^ -300", "", ""},
		{"circumference(s)", "record-as-number", "s", "“s” is a record of 5 readings, not one value", "such as mean(s)"},
		{"circumference()", "argument-count", "circumference()", "circumference takes 1 value (diameter); 0 given here", ""},
		{"rotations(L)", "argument-count", "rotations(L)",
			"rotations takes 2 or 3 values (distance, diameter, gear); 1 given here", ""},
		{"speed(L, t, t)", "argument-count", "speed(L, t, t)", "speed takes 2 values (distance, time); 3 given here", ""},
		{"mean()", "argument-count", "mean()", "mean takes a record or some values; none given here", ""},
		{"circumference(t)", "mixed-dimensions", "t",
			"circumference needs a length for its diameter; t (6 s, a time) is given", ""},
		{"circumference(65)", "mixed-dimensions", "65",
			"circumference needs a length for its diameter; 65 (a number) is given", "such as mm, cm or m"},
		{"distance(L, d)", "mixed-dimensions", "L", "distance needs rotations for its rotations", "as in 3 rot"},
		{"rotations(L, d, L)", "mixed-dimensions", "L", "rotations needs a number for its gear", "plain number"},
		{"sin(30)", "mixed-dimensions", "30", "sin needs an angle for its angle", "a unit, such as deg, rad or rot"},
		{"travel_time(L, 20)", "mixed-dimensions", "20", "needs a speed for its speed", "cm/s"},
		{"percent_error(L, t)", "mixed-dimensions", "percent_error(L, t)", "percent_error: ", ""},
		{"percent_error(L, 0 cm)", "division-by-zero", "percent_error(L, 0 cm)", "percent_error: ", ""},
		{"mean(L, t)", "mixed-dimensions", "t", "mean needs values of one kind; “t” is a time, the first is a length", ""},
		{"stdev(5)", "no-value", "stdev(5)", "the spread of a single value is not known", ""},
		{"stderr(5)", "no-value", "stderr(5)", "the spread of a single value is not known", ""},
		{"sqrt(-1)", "no-value", "sqrt(-1)", "a negative value has no square root", ""},
		{"sqrt(3 cm)", "no-value", "sqrt(3 cm)", "the square root of a length in cm has no unit; square it first", ""},
		{"tan(90°)", "no-value", "tan(90°)", "the tangent has no value at a right angle", ""},
		{"atan2(0, 0)", "no-value", "atan2(0, 0)", "no value where both are zero", ""},
		{"atan2(L, t)", "no-value", "atan2(L, t)", "must be of one kind", ""},
	} {
		v, errs := quantity.Eval(parsed(t, c.text), bench())
		if _, unknown := v.(quantity.Unknown); !unknown || len(errs) != 1 {
			t.Errorf("%s: %v with %d problems", c.text, v, len(errs))
			continue
		}
		c.check(t, errs[0])
	}
}

func TestEveryProblemIsToldOnce(t *testing.T) {
	for text, want := range map[string]string{
		"y + w":              "unknown-name unknown-name",
		"gone + y":           "unknown-name",
		"f(y, w)":            "unknown-formula unknown-name unknown-name",
		"circumference(y)":   "unknown-name",
		"mean(y, s, t)":      "unknown-name mixed-dimensions",
		"-(y)":               "unknown-name",
		"(y + 1) * (w + 2)":  "unknown-name unknown-name",
		"rotations(t, t)":    "mixed-dimensions mixed-dimensions",
		"rotations(y, d, d)": "unknown-name",
		"rotations(y)":       "unknown-name argument-count",
	} {
		_, errs := quantity.Eval(parsed(t, text), bench())
		var slugs []string
		for _, err := range errs {
			slugs = append(slugs, err.Slug)
		}
		if got := strings.Join(slugs, " "); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
	if v, errs := quantity.Eval(parsed(t, "gone + 1"), bench()); len(errs) != 0 || v != (quantity.Unknown{}) {
		t.Errorf("a value that is unknown already gives %v, %v", v, errs)
	}
}

func TestRadiusForDiameter(t *testing.T) {
	for text, want := range map[string]float64{
		"circumference(d)": 2 * 65 * math.Pi, "circumference(d) + d": 2*65*math.Pi + 65,
		"rotations(L, d)": 600 / (65 * math.Pi), "L": 120,
	} {
		v, errs := quantity.EvalScaled(parsed(t, text), bench(), "diameter", 2)
		if q, ok := v.(quantity.Quantity); !ok || len(errs) > 0 || !near(q.Number, want) {
			t.Errorf("%s with a diameter twice as large: %v %v, want %g", text, v, errs, want)
		}
	}
	if v, errs := quantity.EvalScaled(parsed(t, "y"), bench(), "diameter", 2); len(errs) != 1 ||
		v != (quantity.Unknown{}) {
		t.Errorf("got %v %v", v, errs)
	}
}

func TestFormulasSayWhatTheyAre(t *testing.T) {
	var described []string
	for _, d := range slices.Concat(quantity.DescribeFormulas(), quantity.DescribeFunctions()) {
		if d.Meaning == "" || !strings.HasPrefix(d.Form, d.Name+"(") {
			t.Errorf("%s does not say what it gives, or how it is called", d.Name)
		}
		described = append(described, d.Name)
	}
	slices.Sort(described)
	if names := quantity.FormulaNames(); !slices.Equal(described, names) || len(slices.Compact(described)) < len(names) {
		t.Errorf("described are %v, and there are %v, or one of them is there twice", described, names)
	}
	if !slices.ContainsFunc(quantity.DescribeFunctions(), func(d quantity.Description) bool { return d.Name == "mean" }) {
		t.Error("mean is not among the functions")
	}
}
