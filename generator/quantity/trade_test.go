package quantity_test

// Tests of the units of motors and batteries, and of what coaches write beside plain numbers with one unit.

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// named are values that lessons like to call by one letter.
var named = quantity.Env{
	"d": quantity.New(65, unit("mm")), "h": quantity.New(2, unit("cm")), "A": quantity.New(3, unit("cm^2")),
	"V": quantity.New(4, unit("mL")), "W": quantity.New(5, unit("cm")), "L": quantity.New(120, unit("cm")),
	"n": quantity.New(2.5, unit("rot")),
}

func TestWhatIsWrittenIsShown(t *testing.T) {
	for _, c := range []struct{ text, in, want string }{
		{"7.4 volts * 2000 mAh", "Wh", "14.8 Wh"},
		{"2 Ah / 500 mA", "h", "4 h"},
		{"7.4 volts * 1.5 amps", "W", "11.1 W"},
		{"11.1 watts / 7.4 volts", "A", "1.5 A"},
		{"100 rpm * 3 min", "", "300 rotations"},
		{"circumference(65 mm) * 100 rpm", "cm/s", "34.03 cm/s"},
		{"300 rot / (3 min)", "rpm", "100 rpm"},
		{"10 rot/s", "rpm", "600 rpm"},
		{"2 * 100 rpm", "", "200 rpm"},
		{"3 mph * 2 hours", "mi", "6 mi"},
		{"10 km/h", "m/s", "2.778 m/s"},
		{"1 lbf", "N", "4.448 N"},
		{"5 Hz * 3 s", "", "15"},
		{"360 counts/rot * n", "counts", "900 counts"},
		{"360 * n", "counts", "900 counts"},
		{"n * 360°", "deg", "900°"},
		{"n * 90 deg / (360 deg)", "", "0.625 rotations"},
		{"360° * n", "rot", "2.5 rotations"},
		{"2 rot * 90 deg", "deg", "180°"},
		{"arc(90 deg, 20 cm)", "cm", "31.42 cm"},
		{"arc(n, 20 cm)", "m", "3.142 m"},
		{"2 weeks", "", ""},
		{"3 days", "h", "72 h"},
		{"90 seconds", "min", "1.5 min"},
		{"25 millimetres", "cm", "2.5 cm"},
		{"15 cm/seconds", "", "15 cm/s"},
		{"3 amps", "mA", "3000 mA"},
	} {
		shown(t, c.text, c.in, c.want)
	}
}

// TestNamesOfOneLetterStayNames holds what was read as a name before there were volts and hours. A unit after a
// number was a problem then.
func TestNamesOfOneLetterStayNames(t *testing.T) {
	for _, c := range []struct{ text, in, want string }{
		{"1/d", "", "0.01538 1/mm"}, {"1/h * 4 cm", "", "2"}, {"3 cm*d", "cm^2", "19.5 cm²"}, {"2*h", "", "4 cm"},
		{"L/d", "", "18.46"}, {"3 cm·W", "cm^2", "15 cm²"}, {"2 * V + 1 mL*2", "", "10 mL"}, {"A/h", "", "1.5 cm"},
	} {
		shown(t, c.text, c.in, c.want)
	}
}

// TestAUnitThatIsANameIsSaid would be a silent mistake otherwise: 2 d was a problem before there were days.
func TestAUnitThatIsANameIsSaid(t *testing.T) {
	for text, hint := range map[string]string{
		"2 d": "write 2 × d for yours, or 2 days for the unit", "120 cm/d": "or write days for the unit",
		"7.4 V": "7.4 volts", "3 A": "3 amps", "5 W": "5 watts", "2.5 h + 3 h": "2.5 hours",
	} {
		e, err := quantity.ParseExpr(text)
		if err != nil {
			t.Fatal(text, err.What)
		}
		_, errs := quantity.Eval(e, named)
		if len(errs) == 0 || errs[0].Slug != "unit-or-name" || !strings.Contains(errs[0].Hint, hint) {
			t.Errorf("%s: %v", text, errs)
		}
		if _, errs := quantity.Eval(e, quantity.Env{}); len(errs) > 0 {
			t.Errorf("%s: %s where no value is called so", text, errs[0].What)
		}
	}
	for _, text := range []string{"10 km/h", "2 days", "7.4 volts", "3 mA", "5 mi/h"} {
		if e, _ := quantity.ParseExpr(text); e != nil {
			if _, errs := quantity.Eval(e, named); len(errs) > 0 {
				t.Errorf("%s: %s", text, errs[0].What)
			}
		}
	}
}

// shown works a text out and compares it as it is shown in a unit; "" where it cannot be read.
func shown(t *testing.T, text, in, want string) {
	t.Helper()
	e, err := quantity.ParseExpr(text)
	if err != nil {
		if want != "" {
			t.Errorf("%s: %s (%s)", text, err.What, err.Hint)
		}
		return
	}
	v, errs := quantity.Eval(e, named)
	q, ok := v.(quantity.Quantity)
	if !ok {
		t.Errorf("%s: %v", text, errs)
		return
	}
	target := quantity.Target{}
	if in != "" {
		target = quantity.Target{Unit: unit(in), HasUnit: true}
		if _, ok := q.In(target.Unit); !ok {
			t.Errorf("%s is in %s, and not in %s", text, q.Unit, in)
		}
	}
	if got := quantity.ShowText(q, target); got != want {
		t.Errorf("%s is shown as %q, not %q", text, got, want)
	}
}
