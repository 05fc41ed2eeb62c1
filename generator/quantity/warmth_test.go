package quantity_test

// Tests of temperatures and of differences of temperatures.

import (
	"testing"

	"trundle/generator/quantity"
)

func TestTemperaturesAndDifferences(t *testing.T) {
	for text, want := range map[string]string{
		"20 °C":                       "20 °C",
		"20 °C in °F":                 "68 °F", // the two scales, as everybody knows them
		"68°F in °C":                  "20 °C",
		"-40 °C in °F":                "−40 °F",
		"212 °F in °C":                "100 °C",
		"25 °C - 20 °C":               "5 °C",
		"25 °C - 20 °C in °F":         "9 °F",
		"77 °F - 20 °C in °F":         "9 °F",
		"25 °C - 68 °F":               "5 °C",
		"20 °C + 5 Δ°C in °F":         "77 °F",
		"20 °C + 9 Δ°F":               "25 °C",
		"20 °C + 5 °C":                "25 °C",
		"5 Δ°C + 20 °C in °F":         "77 °F",
		"9 Δ°F + 20 °C":               "77 °F",
		"20 °C - 9 Δ°F":               "15 °C",
		"mean(20 °C, 86 °F)":          "25 °C",
		"(20 °C + 30 °C) / 2 in °F":   "77 °F",
		"range(20 °C, 77 °F)":         "5 °C",
		"range(20 °C, 25 °C) in °F":   "9 °F",
		"stdev(20 °C, 22 °C) in °F":   "2.546 °F",
		"max(20 °C, 30 °C) in °F":     "86 °F",
		"(30 °C - 20 °C) / (5 min)":   "2 °C/min",
		"2 °C/min * 5 min":            "10 °C",
		"2 °C/min * 5 min in °F":      "18 °F",
		"20 °C + 2 °C/min * 5 min":    "30 °C",
		"20 °C ± 1 Δ°F in °C":         "20 °C",
		"abs(20 °C - 25 °C) in °F":    "9 °F",
		"percent_error(22 °C, 20 °C)": "10 %",
		"90°":                         "90°",
	} {
		got, err := asked(text)
		if err != nil {
			t.Errorf("%s: %s (%s)", text, err.What, err.Hint)
		} else if got != want {
			t.Errorf("%s is shown as %q, not %q", text, got, want)
		}
	}
	for _, text := range []string{"20 °C + 68 °F", "5 Δ°C - 20 °C", "20 °C + 3 cm", "3 °Cx", "20 °C in cm"} {
		if got, err := asked(text); err == nil && text != "20 °C in cm" {
			t.Errorf("%s is shown as %s", text, got)
		}
	}
}

// TestProgramsConvertTemperaturesAsGoDoes looks at the words that the page gets.
func TestProgramsConvertTemperaturesAsGoDoes(t *testing.T) {
	env := quantity.Env{"t": quantity.New(20, unit("°C")), "f": quantity.New(68, unit("°F"))}
	for _, c := range [][3]string{
		{"t", "°F", "t 9 * 5 / 32 +"}, {"f", "°C", "f -32 + 5 * 9 /"}, {"t - f", "°F", "t f -32 + 5 * 9 / - 9 * 5 /"},
		{"t + 9 Δ°F", "°F", "t 9 5 * 9 / + 9 * 5 / 32 +"}, {"range(t, f)", "°F", "t f -32 + 5 * 9 / range:2 9 * 5 /"},
	} {
		e, err := quantity.ParseExpr(c[0])
		if err != nil {
			t.Fatal(err.What)
		}
		target := quantity.Target{Unit: unit(c[1]), HasUnit: true}
		p, u, err := quantity.Compile(e, env, func(string) bool { return true }, target)
		if err != nil || string(p) != c[2] || u.Symbol() != c[1] {
			t.Errorf("%s in %s is %q in %s (%v), not %q", c[0], c[1], p, u, err, c[2])
		}
	}
}
