package quantity_test

// This file holds what goes on one line of worked steps.

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// TestOneLineLeadsFromTheNameToTheValue looks at the line with a □ for each number that only a team knows.
func TestOneLineLeadsFromTheNameToTheValue(t *testing.T) {
	env := bench()
	varies := func(name string) bool { return name != "L" }
	for _, c := range []struct{ e, in, to, want string }{
		// The conversion to centimetres stays out, and with it the line of converted numbers.
		{"circumference(d)", "cm", "0.1", "y = π × d | = π × □ mm | = □ cm | ≈ □ cm"},
		{"rotations(L, d)", "rot", "0.01",
			"y = L ÷ (π × d) | = 120 cm ÷ (π × □ mm) | = □ rotations | ≈ □ rotations"},
		// A long sum that is divided is one number; then its formula says less than that.
		{"mean(s)", "cm", "0.1", "y = □ cm ÷ 5 | = □ cm | ≈ □ cm"},
		{"mean(s) - L", "cm", "0.1", "y = □ cm ÷ 5 − 120 cm | = □ cm | ≈ □ cm"},
		{"sum(s)", "cm", "0.1",
			"y = s₁ + s₂ + … + s₅ | = □ cm + □ cm + □ cm + □ cm + □ cm | = □ cm | ≈ □ cm"},
		{"range(s)", "cm", "0.1", "y = largest − smallest | = □ cm − □ cm | = □ cm | ≈ □ cm"},
		// Of two results the one in the unit asked for stays.
		{"percent_error(mean(s), L)", "%", "0.1",
			"y = |□ cm ÷ 5 − 120 cm| ÷ |120 cm| | = □ % | ≈ □ %"},
		// What is too long for a line is left to the steps.
		{"stdev(s)", "cm", "0.01", "y = √(sum of (each − mean)² ÷ (5 − 1)) | = □ cm | ≈ □ cm"},
		// Whether two parts come to the same digits only the page knows.
		{"x", "", "", "y = x | = □ | = □"},
	} {
		e, err := quantity.ParseExpr(c.e)
		if err != nil {
			t.Fatal(c.e, err.What)
		}
		var parts []string
		for _, s := range quantity.OneLine(quantity.WorkedOpen("y", e, env, varies, target(c.in, c.to))) {
			parts = append(parts, s.Text())
		}
		got := strings.Join(strings.Fields(strings.ReplaceAll(strings.Join(parts, " | "), "\u00a0", " ")), " ")
		if got != c.want {
			t.Errorf("%s\nis on one line  %s\nand not         %s", c.e, got, c.want)
		}
	}
	if got := quantity.OneLine(nil); got != nil {
		t.Errorf("no steps are the line %v", got)
	}
}
