package quantity_test

// Tests of quantities in parts, of ratios and times with colons, and of what is shown in two units.

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// asked reads and works out a text as it stands in braces: an expression and what it is shown in.
func asked(text string) (string, *quantity.Error) {
	p := quantity.NewParser(text, func(i int) int { return i })
	e, err := p.Expr()
	if err != nil {
		return "", err
	}
	target, err := p.Targets()
	if err == nil {
		err = p.End()
	}
	if err != nil {
		return "", err
	}
	v, errs := quantity.Eval(e, named)
	if len(errs) > 0 {
		return "", errs[0]
	}
	return quantity.ShowText(v.(quantity.Quantity), target), nil
}

func TestQuantitiesInPartsAreShownAsTheyAreAskedFor(t *testing.T) {
	for text, want := range map[string]string{
		"6 ft 3 1/2 in":                         "75.5 in",
		"6 ft 3 1/2 in in ft and in":            "6 ft 3.5 in",
		"6 ft 3 1/2 in in ft and in to 1/2":     "6 ft 3 1/2 in",
		"6 ft 3½ in in cm":                      "191.77 cm",
		"2 * 6 ft 3 in in ft and in":            "12 ft 6 in",
		"6′ 3″ in in":                           "75 in",
		"5 ft 3 in + 1 ft in ft and in":         "6 ft 3 in",
		"-(6 ft 3 in) in ft and in":             "−6 ft 3 in",
		"71.99 in in ft and in to 1/16":         "6 ft 0 in",
		"71.9999999 in in ft and in":            "6 ft 0 in",
		"0 in in ft and in to 1/16":             "0 ft 0 in",
		"1 h 2 min 5 s":                         "3725 s",
		"1 h 30 min in h":                       "1.5 h",
		"150 s in min and s":                    "2 min 30 s",
		"150 s in minutes and seconds":          "2 min 30 s",
		"2:30 min":                              "2.5 min",
		"2:30 min in s":                         "150 s",
		"2:30.5 min in s":                       "150.5 s",
		"1:05 h in min":                         "65 min",
		"1:02:30 h in s":                        "3750 s",
		"3:5":                                   "0.6",
		"36:12":                                 "3",
		"L * 1:20":                              "6 cm",
		"2.5:1":                                 "2.5",
		"½ in in cm":                            "1.27 cm",
		"36 ¼ in":                               "36.25 in",
		"L – 20 cm":                             "100 cm",
		"–3 cm + 5 cm":                          "2 cm",
		"20.399 cm in cm to 0.1 and in to 1/16": "20.4 cm (8 in)",
		"L in cm and in":                        "120 cm (47.24 in)",
		"L in cm to 0.1 and ft and in to 1/16":  "120.0 cm (3 ft 11 1/4 in)",
		"L in in to 1/4 and mm to 1":            "47 1/4 in (1200 mm)",
		"3 lb 4 oz in oz":                       "52 oz",
		"1 m 20 cm":                             "120 cm",
		"10 lb in lb and oz to 1":               "10 lb 0 oz",
		"6 ft 3 in within 1/2 in":               "75 in",
		"3 in in cm":                            "7.62 cm",
		"2 ft 3 in in cm":                       "68.58 cm",
		"200 s in h and min to 1":               "0 h 3 min",
	} {
		got, err := asked(text)
		if err != nil {
			t.Errorf("%s: %s (%s)", text, err.What, err.Hint)
		} else if got != want {
			t.Errorf("%s is shown as %q, not %q", text, got, want)
		}
	}
}

func TestWhatIsNoQuantityInPartsIsSaid(t *testing.T) {
	for _, c := range []struct{ text, slug, what, hint string }{
		{"3 in 6 ft", "two-units", "“3 in 6 ft” is not one quantity", "the larger unit first"},
		{"6.5 ft 3 in", "two-units", "only the last part of “6.5 ft 3 in” may have a fraction", "whole ft"},
		{"6 ft 14 in", "two-units", "more than one ft in its last part", "less than 12 in"},
		{"6 ft 3 cm", "two-units", "not a whole number of cm", "write + between"},
		{"6 ft 3 s", "syntax", "", "the unit of each"},
		{"6 ft 3", "syntax", "", "the unit of each"},
		{"3:5 cm", "time-unit", "a ratio such as 3:5 has no unit", "take cm away"},
		{"2:75 min", "time-unit", "not a time as a clock shows it", "2:30 min"},
		{"2:5 min", "time-unit", "not a time as a clock shows it", "2:30 min"},
		{"2:30 s", "time-unit", "not a time as a clock shows it", "2:30 min"},
		{"1:02:30", "time-unit", "could be a time", "1:02:30 h"},
		{"3:0", "division-by-zero", "the ratio 3:0", ""},
		{"120 rot / min", "unknown-name", "", "without blanks, as in rot/min"},
		{"120 cm / s", "unknown-name", "", "without blanks, as in cm/s"},
		{"L in cm and s", "mixed-dimensions", "s is a time, and cm is a length", "units of one kind"},
		{"L in cm and", "syntax", "", ""},
		{"L in cm to 2:3", "time-unit", "a number with a colon", ""},
	} {
		got, err := asked(c.text)
		switch {
		case err == nil:
			t.Errorf("%s is read as %s", c.text, got)
		case err.Slug != c.slug || !strings.Contains(err.What, c.what) || !strings.Contains(err.Hint, c.hint):
			t.Errorf("%s: %s: %s (%s)", c.text, err.Slug, err.What, err.Hint)
		}
	}
}

func TestStepsShowWhatWasWritten(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"6 ft 3 1/2 in * 2 in cm", "6 ft 3 1/2 in = 75.5 in = 75.5 × 2.54 cm = 191.77 cm"},
		{"6 ft 3 1/2 in * 2", "6 ft 3 1/2 in = 75.5 in\n"},
		{"2:30 min * 2 in s", "2:30 min = 2.5 min = 2.5 × 60 s = 150 s"},
		{"2:30 min * 10 cm/s in cm", "2:30 min = 2.5 min\n"},
		{"L * 3:5 in cm to 0.1 and in to 1/16", "≈ 28 3/8 in"},
		{"L + 3 ft 1 in in ft and in", "≈ 7 ft 0.2441 in"},
		{"n * 360° in deg", "y = n × 360°\n= 2.5 rotations × 360°\n= 900°"},
		{"12 in * 6 in ft and in", "= 6 ft 0 in"},
	} {
		p := quantity.NewParser(c.text, func(i int) int { return i })
		e, err := p.Expr()
		if err != nil {
			t.Fatal(c.text, err.What)
		}
		target, err := p.Targets()
		if err != nil {
			t.Fatal(c.text, err.What)
		}
		var lines []string
		for _, s := range quantity.Worked("y", e, named, target) {
			lines = append(lines, s.Text())
		}
		if all := strings.Join(lines, "\n"); !strings.Contains(all, c.want) {
			t.Errorf("%s: the steps lack %q:\n%s", c.text, c.want, all)
		}
	}
}

func TestTargetsAreWrittenAsTheyAreRead(t *testing.T) {
	for _, text := range []string{
		"in cm", "in ft and in to 1/16", "in cm to 0.1 and in to 1/16", "in cm and ft and in", "to 2",
	} {
		p := quantity.NewParser(text, func(i int) int { return i })
		target, err := p.Targets()
		if err != nil || strings.TrimSpace(target.String()) != text {
			t.Errorf("%s is written as %s (%v)", text, target, err)
		}
	}
}
