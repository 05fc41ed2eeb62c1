package quantity_test

import (
	"math"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/testdata/outside"
)

func TestWholeNumbersHaveCommasBetweenTheirThousands(t *testing.T) {
	for n, want := range map[int]string{
		0: "0", 999: "999", 1000: "1,000", 12345: "12,345", 1_000_000: "1,000,000", -999: "−999", -1000: "−1,000",
	} {
		if got := quantity.Grouped(n); got != want {
			t.Errorf("%d is written %s, want %s", n, got, want)
		}
	}
}

func TestRoundingToAStep(t *testing.T) {
	for _, c := range []struct {
		x          float64
		step, want string
	}{
		{20.4204, "0.1", "20.4"}, {-0.5, "0.01", "−0.50"}, {8.03, "1/32", "8 1/32"}, {12, "0.1", "12.0"},
		{2.675, "0.01", "2.68"},
		{-2.675, "0.01", "−2.68"},
		{1.005, "0.01", "1.01"}, {2.5, "1", "3"}, {-2.5, "1", "−3"}, {3.5, "1", "4"}, {0.5, "1", "1"}, {-0.04, "0.1", "0.0"},
		{-0.4, "1", "0"}, {0, "0.1", "0.0"},
		{1234, "10", "1230"}, {1235, "10", "1240"}, {7, "5", "5"}, {7.5, "5", "10"}, {0.3, "0.25", "0.25"},
		{20.4, "0.5", "20.5"},
		{0.4, "1/4", "1/2"}, {-8.03125, "1/32", "−8 1/32"},
		{-0.25, "1/4", "−1/4"}, {0.99, "1/16", "1"}, {-0.01, "1/16", "0"}, {1, "1/3", "1"}, {0.7, "1/3", "2/3"},
		{1.4, "1/3", "1 1/3"},
		{1e300, "1", "1" + strings.Repeat("0", 0)},
	} {
		got := quantity.FormatStep(c.x, step(c.step))
		if c.x == 1e300 {
			if len(got) != 301 || !strings.HasPrefix(got, "1000000000000") {
				t.Errorf("1e300 to 1 is %.40s… of %d digits", got, len(got))
			}
			continue
		}
		if got != c.want {
			t.Errorf("%g to %s is %s, want %s", c.x, c.step, got, c.want)
		}
	}
	if got := quantity.FormatStep(math.Inf(1), step("0.1")); got != "+Inf" {
		t.Errorf("infinity is %s", got)
	}
}

func TestStepsOfATapeAreFractions(t *testing.T) {
	for text, fraction := range map[string]bool{"1/16": true, "1/2": true, "0.5": false, "0.25": false, "1/3": false,
		"3/4": false, "0.1": false, "1": false, "2": false} {
		if s := step(text); s.IsFraction() != fraction || s.IsZero() {
			t.Errorf("%s: a fraction of a tape: %v, want %v", text, s.IsFraction(), fraction)
		}
	}
	none := quantity.Rounding{}
	if !none.IsZero() || none.Float() != 0 || none.String() != "" || none.IsFraction() {
		t.Error("no step is a step")
	}
	if !step("0").IsZero() {
		t.Error("a step of zero is a step")
	}
	for text, want := range map[string]string{"1/16": "1/16", "1/3": "1/3", "0.10": "0.1", "10": "10"} {
		if got := step(text).String(); got != want {
			t.Errorf("%s is written %s", text, got)
		}
	}
}

func TestPlainNumbers(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{121.92, "121.92"}, {5.8764745, "5.876"}, {0, "0"}, {-3, "−3"}, {0.1 + 0.2, "0.3"}, {1234567, "1234567"},
		{2149.385, "2149.385"}, {1000001, "1000001"}, {1234567.8, "1234568"}, {123456789012.34, "123456789012"},
		{12345678901234, "12345678901234"}, {999999999999.7, "1000000000000"},
		{123456, "123456"}, {1e20, "1e+20"},
		{2.0 / 3, "0.6667"}, {-2.0 / 3, "−0.6667"}, {0.00123456, "0.00123456"}, {1234560, "1234560"}, {1e-12, "1e−12"},
		{1e-9, "0.000000001"}, {1e14, "100000000000000"}, {2e15, "2e+15"},
		{-1.5e-20, "−1.5e−20"},
	} {
		if got := quantity.FormatPlain(c.x); got != c.want {
			t.Errorf("%g is written %s, want %s", c.x, got, c.want)
		}
	}
	for _, c := range []struct {
		x    float64
		n    int
		want string
	}{{1234.5, 2, "1200"}, {0.0012345, 3, "0.00123"}, {2.676, 3, "2.68"}, {99.96, 3, "100"}, {-99.96, 3, "−100"},
		{1e-20, 2, "1e−20"}, {1e20, 2, "1e+20"}, {1.26e-20, 2, "1.3e−20"}} {
		if got := quantity.FormatSignificant(c.x, c.n); got != c.want {
			t.Errorf("%g to %d digits is %s, want %s", c.x, c.n, got, c.want)
		}
	}
}

// TestRoundingAsPublished holds every row of rounding.csv that this package follows.
func TestRoundingAsPublished(t *testing.T) {
	held := 0
	_, rows := outside.Table(t, "rounding.csv")
	for _, row := range rows {
		rule, input, how, want := row[0], row[1], row[2], row[3]
		number := func(s string) float64 { return floats(t, []string{strings.Fields(s)[0]})[0] }
		switch {
		case rule == "uncertainty" && want != "":
			u := number(input)
			if _, got := quantity.FormatUncertain(1000, u); got != strings.Fields(want)[0] {
				t.Errorf("the uncertainty %s is shown as %s, want %s", input, got, want)
			}
		case rule == "value with uncertainty":
			value, uncertainty, _ := strings.Cut(input, "u = ")
			from := map[bool]string{true: "mohm", false: "mg"}[strings.Contains(input, "mohm")]
			if !strings.HasSuffix(uncertainty, from) {
				t.Errorf("the unit of %s is not known", input)
			}
			want, _, _ = strings.Cut(strings.Fields(want)[0], "(")
			if got, _ := quantity.FormatUncertain(number(value), number(uncertainty)/1000); got != want {
				t.Errorf("%s is shown as %s, want %s", input, got, want)
			}
		case rule == "nearest" || strings.HasPrefix(rule, "tie rule B") || rule == "one step only":
			size := strings.Fields(how)[1]
			if got := quantity.FormatStep(number(input), step(size)); got != want {
				t.Errorf("%s to %s is %s, want %s", input, size, got, want)
			}
		default: // rule A of the standard, which is not the one taught; a row without a result
			continue
		}
		held++
	}
	if held != 15 {
		t.Errorf("%d rows held, want 15", held)
	}
}

func TestUncertaintyHasTwoDigits(t *testing.T) {
	for _, c := range []struct {
		x, u        float64
		value, part string
	}{
		{10.05762, 0.027, "10.058", "0.027"}, // JCGM 100:2008, 7.2.6
		{20.42035, 0.15708, "20.42", "0.16"}, // definition
		{20.42035, 0.1047, "20.42", "0.11"},  // JCGM 100:2008, 7.2.6: 10.47 becomes 11
		{5.876, 0.0452, "5.876", "0.045"},    // definition
		{-5.876, 0.0452, "−5.876", "0.045"},  // definition
		{1, 0.0997, "1.00", "0.10"},          // definition: carried into one more digit
		{1, 0.0994, "1.000", "0.099"},        // definition
		{12345, 678, "12350", "680"},         // definition
		{12345, 99.7, "12350", "100"},        // definition
		{3, 25, "3", "25"},                   // definition
		{3, 0, "3", ""}, {3, -1, "3", ""}, {2.0 / 3, math.NaN(), "0.6667", ""}, {3, math.Inf(1), "3", ""},
		{7, 12.2, "7", "12"}, // 12.2 is understated by less than one part in forty
		{7, 12.4, "7", "13"}, // 12.4 by more
		{7, 1, "7.0", "1.0"},
	} {
		value, part := quantity.FormatUncertain(c.x, c.u)
		if value != c.value || part != c.part {
			t.Errorf("%g ± %g is shown as %s ± %s, want %s ± %s", c.x, c.u, value, part, c.value, c.part)
		}
	}
}

func TestNearestWords(t *testing.T) {
	words := []string{"circumference", "rotations", "in", "in", "mean", "median", "Mean", "meant"}
	for word, want := range map[string]string{
		"circumfrence": "circumference", "rotation": "rotations", "roattions": "rotations", "rottaions": "rotations",
		"rotatiosn": "rotations",
		"mean":      "Mean meant", "meen": "Mean mean", "mea": "Mean mean", "eman": "Mean mean", "nmea": "", "inn": "in",
		"im": "", "xyz": "", "rotatinos": "rotations",
		"rottoations": "", "menat": "meant", "means": "Mean mean meant", "MEDIAN": "median", "xmean": "Mean mean",
		"ean": "Mean mean",
	} {
		if got := strings.Join(quantity.Nearest(word, words), " "); got != want {
			t.Errorf("near %s: %q, want %q", word, got, want)
		}
	}
}

func TestTwoOtherLettersAreNotASwap(t *testing.T) {
	if near := quantity.Nearest("roabt", []string{"rocat", "robct", "robat"}); strings.Join(near, " ") != "robat" {
		t.Errorf("near roabt: %v", near)
	}
}

// Conversions between units that are whole multiples of each other are exact as
// long as the whole numbers behind them fit.
func TestWholeRatiosConvertExactly(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     float64
	}{
		{"lb·ft^2", "oz·in^2", 2304}, {"ft^4", "in^4", 20736}, {"yd^3", "ft^3", 27},
		{"yd^6", "ft^6", 729}, {"lb^3", "oz^3", 4096}, {"oz^3", "lb^3", 1.0 / 4096},
		{"lb^5·in^2", "oz^5·in^2", 1048576},
	} {
		if q, ok := quantity.New(1, unit(c.from)).In(unit(c.to)); !ok || q.Number != c.want {
			t.Errorf("1 %s is %.17g %s, want %.17g", c.from, q.Number, c.to, c.want)
		}
	}
}

func TestWhatMayBeGivenInWhat(t *testing.T) {
	for _, c := range []struct {
		a, b string
		ok   bool
	}{
		{"", "rot", true}, {"rot", "", true}, {"cm", "in", true}, {"deg", "rot", true}, {"deg", "rad", true},
		{"", "deg", false}, {"rad", "", false},
		{"cm", "cm·rot", true}, {"cm", "cm·deg", false}, {"cm/rot", "in", true}, {"cm", "s", false}, {"%", "ppm", true},
		{"%", "rot", true},
		{"1/s", "rot/min", true},
		{"m/s", "rot/s", false}, {"N", "kg·m/s^2", true}, {"mL", "m^3", true}, {"rot", "deg^2", false},
	} {
		if got := quantity.Alike(unit(c.a), unit(c.b)); got != c.ok {
			t.Errorf("%s in %s: %v, want %v", c.a, c.b, got, c.ok)
		}
		if _, ok := quantity.New(1, unit(c.a)).In(unit(c.b)); ok != c.ok {
			t.Errorf("1 %s converted to %s: %v, want %v", c.a, c.b, ok, c.ok)
		}
	}
}

func TestWordsOfDimensions(t *testing.T) {
	for text, want := range map[string]string{
		"": "a number", "%": "a number", "cm": "a length", "rot": "an angle", "s": "a time", "lb": "a mass",
		"m/s": "a speed", "deg/s": "a turning speed",
		"in^2": "an area", "mL": "a volume", "N": "a force", "kg·m/s^2": "a force", "g/mol": "a molar mass",
		"m/s^2": "an acceleration",
		"cm·s":  "length × time", "mol/s": "time⁻¹ × amount", "kg/m^3": "length⁻³ × mass", "m^9·s": "length⁹ × time",
		"1/rot": "angle⁻¹",
	} {
		if got := unit(text).Dimension().String(); got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
}

func TestUnitsAreWrittenForPeopleAndForTheLanguage(t *testing.T) {
	for _, c := range []struct{ text, language, people string }{
		{"cm/s", "cm/s", "cm/s"}, {"m²", "m^2", "m²"}, {"deg", "deg", "°"}, {"kg·m/s^2", "kg·m/s^2", "kg·m/s²"},
		{"1/s", "1/s", "1/s"},
		{"m/s/kg", "m/s/kg", "m/s/kg"},
		{"deg^2/s^3", "deg^2/s^3", "°²/s³"},
	} {
		u := unit(c.text)
		if u.String() != c.language || u.Symbol() != c.people {
			t.Errorf("%s is written %s and %s", c.text, u, u.Symbol())
		}
	}
	if !unit("kg·m").Equal(unit("m·kg")) || unit("kg·m").Equal(unit("kg")) || unit("m").Equal(unit("m^2")) ||
		unit("m").Equal(unit("cm")) {
		t.Error("units are compared wrongly")
	}
	if got := strings.Join(quantity.UnitsOf(unit("rad").Dimension()), " "); got != "deg rad rot" {
		t.Errorf("units of an angle: %s", got)
	}
}

func TestExactRatios(t *testing.T) {
	for _, c := range []struct{ a, b, want string }{
		{"in", "cm", "127/50"}, {"cm", "in", "50/127"}, {"rot", "deg", "360"}, {"lb", "oz", "16"},
		{"m^2", "cm^2", "10000"}, {"1/min", "1/s", "1/60"},
		{"rad", "rad", "1"}, {"rad", "deg", ""}, {"cm", "s", ""}, {"m/rad", "m/rot", ""}, {"", "%", "100"},
	} {
		r, ok := quantity.ExactRatio(unit(c.a), unit(c.b))
		if ok != (c.want != "") || ok && r.RatString() != c.want {
			t.Errorf("%s in %s: %v %v, want %s", c.a, c.b, r, ok, c.want)
		}
	}
}
