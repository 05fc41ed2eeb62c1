package quantity_test

import (
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// gnuNames are the names that GNU units gives to the units of the language.
var gnuNames = map[string]string{
	"mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "foot", "yd": "yard", "deg": "degree", "rad": "radian",
	"rot": "turn",
	"s":   "s", "min": "minute", "g": "gram", "kg": "kg", "oz": "ounce", "lb": "pound", "N": "newton", "mL": "milliliter",
	"mol": "mol",
	"%":   "percent", "ppm": "ppm",
	"km": "km", "mi": "mile", "h": "hour", "d": "day", "Hz": "1/s", "rpm": "turn/minute", "mph": "mile/hour",
	"lbf": "lbf", "A": "ampere", "mA": "mA", "V": "volt", "W": "watt", "Ah": "ampere hour", "mAh": "mA hour",
	"Wh": "watt hour", "count": "1", "Δ°C": "degC", "Δ°F": "degF",
}

// compounds are pairs of composed units, ours and theirs.
var compounds = [][2]string{
	{"cm/s", "cm/s"}, {"m/min", "m/minute"}, {"in/s", "inch/s"}, {"ft/min", "foot/minute"}, {"m^2", "m^2"},
	{"in^2", "inch^2"},
	{"m^3", "m^3"}, {"ft^3", "foot^3"},
	{"rot/min", "turn/minute"}, {"deg/s", "degree/s"}, {"rad/s", "radian/s"}, {"g/mol", "gram/mol"}, {"kg/mol", "kg/mol"},
	{"lb·ft/s^2", "pound foot/s^2"},
	{"kg·m/s^2", "kg m/s^2"}, {"ft/s^2", "foot/s^2"}, {"m/s^2", "m/s^2"},
}

// TestUnitsAgreeWithGNUUnits compares every ordered pair of units of one kind with
// Debian's GNU units, which must be installed.
func TestUnitsAgreeWithGNUUnits(t *testing.T) {
	ours := make([]string, 0)
	theirs := map[string]string{}
	for _, symbol := range quantity.UnitSymbols() {
		if symbol == "°C" || symbol == "°F" { // no multiples of each other: see TestTemperaturesAndDifferences
			continue
		}
		name, ok := gnuNames[symbol]
		if !ok {
			t.Fatalf("what does GNU units call %s?", symbol)
		}
		ours, theirs[symbol] = append(ours, symbol), name
	}
	for _, c := range compounds {
		ours, theirs[c[0]] = append(ours, c[0]), c[1]
	}
	var questions strings.Builder
	var pairs [][2]string
	for _, a := range ours {
		for _, b := range ours {
			if unit(a).Dimension() == unit(b).Dimension() {
				pairs = append(pairs, [2]string{a, b})
				fmt.Fprintf(&questions, "1 %s\n%s\n", theirs[a], theirs[b])
			}
		}
	}
	answers := gnuUnits(t, questions.String())
	if len(answers) != len(pairs) || len(pairs) < 120 {
		t.Fatalf("%d answers to %d questions", len(answers), len(pairs))
	}
	for i, p := range pairs {
		want, err := strconv.ParseFloat(answers[i], 64)
		if err != nil {
			t.Fatalf("%s in %s: GNU units says %q", p[0], p[1], answers[i])
		}
		q, ok := quantity.New(1, unit(p[0])).In(unit(p[1]))
		if !ok || math.Abs(q.Number-want) > 1e-14*want {
			t.Errorf("1 %s is %.17g %s, GNU units says %.17g", p[0], q.Number, p[1], want)
		}
	}
	t.Logf("%d pairs", len(pairs))
}

// gnuUnits puts all questions to one run of units and gives its answers.
func gnuUnits(t *testing.T, questions string) []string {
	t.Helper()
	cmd := exec.Command("units", "-q", "-t", "-o", "%.17g")
	cmd.Env = append(cmd.Environ(), "LC_ALL=C", "UNITS_ENGLISH=US")
	cmd.Stdin = strings.NewReader(questions)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("GNU units (Debian package units) must be installed: %v\n%.300s", err, out)
	}
	return strings.Fields(string(out))
}

// TestEveryUnitHasItsSpokenNames looks for a singular and a plural of each unit. Prose is
// searched for them: pairs of units and answers given away would go unnoticed otherwise.
func TestEveryUnitHasItsSpokenNames(t *testing.T) {
	owner := map[string]string{}
	for _, symbol := range quantity.UnitSymbols() {
		names := quantity.NamesOfUnit(symbol)
		if len(names) == 0 || names[0] != symbol {
			t.Errorf("the names of %s are %q; its symbol comes first", symbol, names)
		}
		written := 0
		for _, name := range names {
			if len(name) > 2 { // day is as long as a name gets to be short
				written++
			}
			if other, taken := owner[name]; taken {
				t.Errorf("%q is a name of %s and of %s", name, other, symbol)
			}
			owner[name] = symbol
		}
		// "per cent" has no plural; the others are written as symbols, or in several words.
		if written < 2 && !slices.Contains([]string{"%", "lbf", "Ah", "mAh", "Wh", "°C", "°F", "Δ°C", "Δ°F"}, symbol) {
			t.Errorf("%s is written %q: its row lacks the names that prose has for it, one and many", symbol, names)
		}
	}
	if names := quantity.NamesOfUnit("turns"); !slices.Contains(names, "rotation") {
		t.Errorf("turns are also %q", names)
	}
	if names := quantity.NamesOfUnit("wheels"); names != nil {
		t.Errorf("wheels are %q", names)
	}
}

func TestPeopleReadRotationsAndProgramsRot(t *testing.T) {
	for _, c := range []struct{ number, in, people string }{
		{"5.97", "rot", "5.97 rotations"}, {"1", "rot", "1 rotation"}, {"1.00", "rot", "1.00 rotations"},
		{"1/4", "rot", "1/4 rotation"},
		{"1 1/4", "rot", "1 1/4 rotations"}, {"0", "rot", "0 rotations"}, {"−1", "rot", "−1 rotations"},
		{"1", "rot/s", "1 rotation/s"},
		{"2", "rot/s", "2 rotations/s"}, {"1", "cm/rot", "1 cm/rotation"}, {"1", "deg", "1°"}, {"1", "", "1"},
		{"1", "in", "1 in"},
	} {
		u := unit(c.in)
		if u.String() != c.in {
			t.Errorf("programs read %s for %s", u, c.in)
		}
		if got := (quantity.Shown{Number: c.number, Unit: u.Symbol()}).Text(); got != c.people {
			t.Errorf("%s %s is read as %q, not %q", c.number, c.in, got, c.people)
		}
	}
}

func TestHintsNameAFewUnitsOfAKind(t *testing.T) {
	for _, c := range [][2]string{
		{"yd", "mm, cm or m"}, {"cm/s", "cm/s or m/s"}, {"m^3", "mL or m^3"}, {"g/mol", "g/mol"}, {"N", "N or lbf"},
		{"s", "s, min or h"},
		{"cm^2", "m^2"}, {"deg/s", "rpm or deg/s"}, {"Hz", "Hz"}, {"mAh", "Ah or mAh"}, {"m^2/s", "m^2/s"}, {"%", "% or ppm"},
	} {
		if got := quantity.ExampleUnits(unit(c[0]).Dimension()); got != c[1] {
			t.Errorf("units like %s: %s, not %s", c[0], got, c[1])
		}
	}
}
