package quantity_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

func TestAnswersAreReadAsTheyAreSpoken(t *testing.T) {
	for _, c := range []struct{ text, want, unit string }{
		{"65 mm.", "65", "mm"}, {"8 1/32 in.", "257/32", "in"}, {"65.", "65", ""}, {"5 ft. 3 in.", "63", "in"},
		{"12 centimetres", "12", "cm"}, {"12 Centimeters", "12", "cm"}, {"12 cms", "12", "cm"}, {"204 MM", "204", "mm"},
		{"20.4 Cm", "102/5", "cm"}, {"4 sec", "4", "s"}, {"4 seconds", "4", "s"}, {"2 mins", "2", "min"},
		{"5.97 rots", "597/100", "rot"}, {"3 Turns", "3", "rot"}, {"3 ml", "3", "mL"}, {"3 lbs", "3", "lb"},
		{"15 cm / s", "15", "cm/s"}, {"15 cm per s", "15", "cm/s"}, {"15 centimetres per second", "15", "cm/s"},
		{"5 per cent", "5", "%"}, {"5 per cent.", "5", "%"}, {"37-3/8", "299/8", ""},
		{"3 ft 1 3/8 in", "299/8", "in"}, {"3′ 1 3/8″", "299/8", "in"}, {"3'1\"", "37", "in"}, {"6cm 5mm", "65", "mm"},
		{"1 min 20 s", "80", "s"}, {"3 ft 1-3/8 in", "299/8", "in"}, {"1 rotation 90°", "450", "deg"},
	} {
		a, err := readAnswer(c.text)
		if err != nil {
			t.Errorf("%q: %s", c.text, err.What)
		} else if a.Number.Exact.RatString() != c.want || a.Unit.String() != c.unit || a.Negative {
			t.Errorf("%q is read as %s %s, want %s %s", c.text, a.Number.Exact.RatString(), a.Unit, c.want, c.unit)
		}
	}
	for _, text := range []string{
		"3 ft 12 in", "2 cm 1 m", "3.5 ft 1 in", "3 ft 1", "3 ft 1 kg", "3 m^2 1 cm", "3 cm 3 cm", "3 ft 1 in 2 mm", "3 RPN",
		"15 per s", "37 - 3/8", "1 rot 1 rad",
	} {
		if a, err := readAnswer(text); err == nil {
			t.Errorf("%q is read as %s %s", text, a.Number.Exact.RatString(), a.Unit)
		}
	}
}

func TestACommaBeforeThreeDigitsIsReadWhereAClassWritesDecimalCommas(t *testing.T) {
	for text, want := range map[string]string{"1,030": "103/100", "12,345 cm": "2469/200", "0,998": "499/500"} {
		a, err := (*quantity.Vocabulary)(nil).ReadAnswer(text, true)
		if err != nil || a.Number.Exact.RatString() != want {
			t.Errorf("%q is read as %v (%v), want %s", text, a.Number.Exact, err, want)
		}
	}
	if _, err := readAnswer("-1,030 cm"); err == nil || err.Slug != "answer-unclear" || err.Name != "1,030" {
		t.Errorf("elsewhere it is unclear, and not %v", err)
	}
	if _, err := (*quantity.Vocabulary)(nil).ReadAnswer("1.030.5", true); err == nil || err.Name != "" {
		t.Errorf("two marks stay unclear, and not %v", err)
	}
}

// TestNoTwoUnitsAreCalledTheSameInSmallLetters: capitals are not looked at in an answer.
func TestNoTwoUnitsAreCalledTheSameInSmallLetters(t *testing.T) {
	sizes := map[string]quantity.UnitFactor{}
	factors := quantity.AnswerFactors()
	for _, name := range slices.Sorted(maps.Keys(factors)) {
		small := strings.ToLower(name)
		if first, twice := sizes[small]; twice && first != factors[name] {
			t.Errorf("%s is also another unit", name)
		}
		sizes[small] = factors[name]
	}
}
