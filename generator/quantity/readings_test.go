package quantity_test

// Single readings, calculations reading by reading, comparisons and choices.

import (
	"math"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// pairedBench has two records of the same runs, one of other runs, and one of three readings.
func pairedBench() quantity.Env {
	env := bench()
	cm := unit("cm")
	env["before"] = quantity.Record{Name: "before", Numbers: []float64{10, 12, 11, 13}, Unit: cm, Step: 0.1}
	env["after"] = quantity.Record{Name: "after", Numbers: []float64{11, 14, 12, 15}, Unit: cm, Step: 0.1, Runs: "before",
		Texts: []string{"11.0", "14.0", "12.0", "15.0"}}
	env["other"] = quantity.Record{Name: "other", Numbers: []float64{110, 140, 120, 150}, Unit: unit("mm")}
	env["three"] = quantity.Record{Name: "three", Numbers: []float64{1, 2, 3}, Unit: cm}
	env["p"] = quantity.New(4, unit("%"))
	return env
}

func evalIn(t *testing.T, env quantity.Env, text string) quantity.Quantity {
	t.Helper()
	e, err := quantity.ParseExpr(text)
	if err != nil {
		t.Fatalf("%s: %s", text, err.What)
	}
	v, errs := quantity.Eval(e, env)
	q, ok := v.(quantity.Quantity)
	if len(errs) > 0 || !ok {
		t.Fatalf("%s comes to %v, %v", text, v, errs)
	}
	return q
}

func TestFunctionsThatGoBySteps(t *testing.T) {
	checkValues(t, []valued{
		{"floor(2.9 cm)", 2, "cm", 0}, {"floor(-2.1)", -3, "", 0}, {"ceil(2.1 rot)", 3, "rot", 0}, {"ceil(-2.9)", -2, "", 0},
		{"floor(0.3 / 0.1)", 3, "", 0}, {"ceil(0.3 / 0.1)", 3, "", 0}, {"floor(d)", 65, "mm", 0},
		{"round(12.34 cm, 0.1 cm)", 12.3, "cm", 0}, {"round(12.34 cm, 5 mm)", 12.5, "cm", 0},
		{"round(13 cm, 5 cm)", 15, "cm", 0},
		{"round(2.25, 0.5)", 2.5, "", 0}, {"round(-2.25, 0.5)", -2.5, "", 0}, {"round(3 1/10 in, 1/16 in)", 3.125, "in", 0},
		{"ceil(41 cm, 10 cm)", 50, "cm", 0}, {"floor(49 cm, 1 ft)", 30.48, "cm", 0}, {"round(2.675, 0.01)", 2.68, "", 0},
		{"mod(7, 3)", 1, "", 0}, {"mod(-10 deg, 360 deg)", 350, "deg", 0}, {"mod(370 deg, 1 rot)", 10, "deg", 0},
		{"mod(1 m, 30 cm)", 0.1, "m", 0}, {"mod(0.3, 0.1)", 0, "", 0}, {"mod(7, -3)", -2, "", 0},
		{"mod(d, 10 mm)", 5, "mm", 0.5},
	})
}

func TestQuartilesModeAndSpreadsOfAWhole(t *testing.T) {
	// s in order is 118.8, 119.1, 119.6, 120.3, 121.0; the middle one is in neither half.
	checkValues(t, []valued{
		{"lower_quartile(s)", 118.95, "cm", 0}, {"upper_quartile(s)", 120.65, "cm", 0},
		{"lower_quartile(1, 2, 3, 4)", 1.5, "", 0}, {"upper_quartile(4, 3, 2, 1)", 3.5, "", 0},
		{"lower_quartile(3 cm, 10 mm)", 1, "cm", 0}, {"upper_quartile(3 cm, 10 mm)", 3, "cm", 0},
		{"lower_quartile(1, 2, 3, 4, 5, 6, 7)", 2, "", 0}, {"upper_quartile(1, 2, 3, 4, 5, 6, 7)", 6, "", 0},
		{"mode(1, 2, 2, 3)", 2, "", 0}, {"mode(2 cm, 20 mm, 3 cm)", 2, "cm", 0}, {"mode(5)", 5, "", 0},
		{"mode(0.1 + 0.2, 0.3, 1)", 0.3, "", 0},
		{"population_stdev(s)", math.Sqrt(3.212 / 5), "cm", 0}, {"population_stdev(7)", 0, "", 0},
		{"population_stdev(2, 4, 4, 4, 5, 5, 7, 9)", 2, "", 0},
		{"mean_absolute_deviation(2, 4, 6)", 4.0 / 3, "", 0}, {"mean_absolute_deviation(s)", 3.56 / 5, "cm", 0},
		{"mean_absolute_deviation(3, 3)", 0, "", 0},
	})
}

// By hand: after − before is 1, 2, 1, 2, with the mean 1.5 and the standard deviation √(1/3).
func TestPairedRecordsGoTogetherReadingByReading(t *testing.T) {
	env := pairedBench()
	sd := math.Sqrt(1.0 / 3)
	step := 0.1 / math.Sqrt(12)
	for _, c := range []struct {
		text   string
		number float64
		u      float64
	}{
		{"mean(after - before)", 1.5, math.Hypot(sd/2, step*math.Sqrt2)},
		{"mean(after) - mean(before)", 1.5, math.Hypot(sd/2, step*math.Sqrt2)},
		{"mean(after - before) - (mean(after) - mean(before))", 0, 0},
		{"mean(2 * after)", 26, 2 * math.Hypot(math.Sqrt(10.0/3)/2, step)},
		{"mean(-after) + mean(after)", 0, 0},
		{"mean(after / 2) - mean(after) / 2", 0, 0},
		{"stdev(after - before)", sd, 0},
		{"median(other - after)", 0, 0},
		{"mean(other - after)", 0, 10 * step},
		{"max(abs(before - 12 cm))", 2, 0},
		{"sum(after + 1 cm)", 56, math.Hypot(2*math.Sqrt(10.0/3), 4*step)},
		{"after[2]", 14, 0},
		{"after[4] - after[1]", 4, 0},
		{"count(after - before)", 4, 0},
		{"count(after > before)", 4, 0},
		{"count(before >= 12 cm)", 2, 0},
		{"count(before within 1 cm of 11 cm)", 3, 0},
		{"count(after within 1 cm of before)", 2, 0},
		{"count(before = 12 cm)", 1, 0},
		{"count(before != 12 cm)", 3, 0},
		{"count(before within 1 cm of 11 cm) / count(before)", 0.75, 0},
	} {
		q := evalIn(t, env, c.text)
		if math.Abs(q.Number-c.number) > 1e-12 || math.Abs(q.Uncertainty()-c.u) > 1e-12 {
			t.Errorf("%s is %v ± %v, want %v ± %v", c.text, q.Number, q.Uncertainty(), c.number, c.u)
		}
	}
}

func TestComparisonsAreYesOrNo(t *testing.T) {
	env := pairedBench()
	for text, want := range map[string]string{
		"1 < 2": "yes", "2 < 2": "no", "2 <= 2": "yes", "2 ≤ 1": "no", "3 > 2": "yes", "2 ≥ 2": "yes", "1 = 1": "yes",
		"1 == 1": "yes", "1 ≠ 1": "no", "1 != 2": "yes", "0.1 + 0.2 = 0.3": "yes", "0.1 + 0.2 <= 0.3": "yes",
		"0.1 + 0.2 > 0.3": "no", "120.1 cm - 118.1 cm < 2 cm": "no",
		"20 in > 50 cm": "yes", "p < 5 %": "yes", "p < 0.05": "yes", "3 rot > 2": "yes",
		"3 cm within 2 cm of 5 cm": "yes", "3 cm within 2 cm of 5.1 cm": "no", "L within 1 cm of 47 in": "yes",
		"(L - 1 cm) within 1 cm of L": "yes", "120.3 cm within 0.3 cm of L": "yes", "3 within 2 of 4": "yes",
		"yes": "yes", "no": "no", "if(L > 1 m, yes, no)": "yes", "if(yes, 1 < 2, no)": "yes",
		"d > 6 cm": "yes", "before[1] < after[1]": "yes",
	} {
		q := evalIn(t, env, text)
		if got := quantity.ShowText(q, quantity.Target{}); got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"if(L > 1 m, 1 cm, 2 cm)": "1 cm", "if(L < 1 m, 1 cm, 20 mm)": "2 cm", "if(1 = 1, 5, 1 / 0)": "5",
		"if(gear = 0, 0 cm, L / gear)": "40 cm", "if(1 = 2, 1 cm / 0, 3 mm)": "0.3 cm", "1 + if(p < 5 %, 1, 0)": "2",
		"if(d > 60 mm, d, L)": "65 mm",
	} {
		if got := quantity.ShowText(evalIn(t, env, text), quantity.Target{}); got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
	if q := evalIn(t, env, "if(d > 60 mm, d, L)"); q.Uncertainty() != 0.5 {
		t.Errorf("the branch that is taken has ± %v", q.Uncertainty())
	}
}

func TestANameOfTheLessonGoesBeforeYesAndNo(t *testing.T) {
	env := quantity.Env{"no": quantity.New(7, unit("cm"))}
	if got := quantity.ShowText(evalIn(t, env, "no + 1 cm"), quantity.Target{}); got != "8 cm" {
		t.Errorf("no + 1 cm is %s", got)
	}
}

func TestProblemsOfComparisonsAndReadings(t *testing.T) {
	env := pairedBench()
	for _, c := range []struct{ text, slug, says string }{
		{"1 < 2 < 3", "compare-two", "only two values"},
		{"x within 2 cm", "syntax", "“of” is missing"},
		{"before[0]", "no-reading", "counted 1, 2, 3"},
		{"before[x]", "no-reading", "counted 1, 2, 3"},
		{"before[5]", "no-reading", "has 4 readings, and so no before[5]"},
		{"L[1]", "no-reading", "is one value"},
		{"before - three", "pairs", "“before” has 4 readings and “three” 3"},
		{"mean(before + three)", "pairs", "do not belong together"},
		{"before - L > 3 s", "mixed-dimensions", "cannot be compared"},
		{"L > 3", "mixed-dimensions", "cannot be compared with L"},
		{"(1 < 2) + 1", "yes-or-no", "“1 < 2” is yes or no"},
		{"sqrt(1 < 2)", "yes-or-no", "is yes or no"},
		{"mean(before > 11 cm)", "yes-or-no", "mean needs numbers"},
		{"if(L, 1, 2)", "yes-or-no", "if needs a yes or no first"},
		{"if(1 < 2, 1 cm, 2 s)", "mixed-dimensions", "one value of this if is a length, the other a time"},
		{"if(1 < 2, 1)", "argument-count", "if takes 3 values"},
		{"if(1 < 2, 1, 1 cm + 2 s)", "mixed-dimensions", "cannot be added"},
		{"if(before > 11 cm, 1, 2)", "record-as-number", "is a record of 4 readings"},
		{"round(L, 0.1)", "no-value", "its step is a number and not a length"},
		{"round(L, 0 cm)", "no-value", "a step must be more than zero"},
		{"mod(L, 0 cm)", "no-value", "division by zero"},
		{"mod(L, 3 s)", "no-value", "must be of one kind"},
		{"mode(1, 1, 2, 2)", "no-value", "several values come equally often"},
		{"lower_quartile(1)", "no-value", "a single value has no quartiles"},
		{"1 < gone_too", "unknown-name", "gone_too"},
	} {
		e, err := quantity.ParseExpr(c.text)
		errs := []*quantity.Error{err}
		if err == nil {
			_, errs = quantity.Eval(e, env)
		}
		if len(errs) != 1 || errs[0].Slug != c.slug || !strings.Contains(errs[0].What, c.says) {
			t.Errorf("%s: want one %s %q, got %d", c.text, c.slug, c.says, len(errs))
			for _, err := range errs {
				t.Logf("  %s: %s (%s)", err.Slug, err.What, err.Hint)
			}
		}
	}
}

func TestStepsOfWhatIsDoneReadingByReading(t *testing.T) {
	env := pairedBench()
	for _, c := range []struct{ text, want string }{
		{"mean(after - before)", "y = ((after₁ − before₁) + (after₂ − before₂) + … + (after₄ − before₄)) ÷ 4 | " +
			"= ((11.0 cm − 10 cm) + (14.0 cm − 12 cm) + (12.0 cm − 11 cm) + (15.0 cm − 13 cm)) ÷ 4 | = 1.5 cm"},
		{"after[2] - L", "y = after₂ − L | = 14.0 cm − 120 cm | = −106 cm"},
		{"p < 5 %", "y = (p < 5 %) | = (4 % < 5 %) | = yes"},
		{"L within 1 cm of 4 ft", "y = (L within 1 cm of 4 ft) | = (120 cm within 1 cm of 4 ft) | " +
			"4 ft = 4 × 30.48 cm = 121.92 cm | = (120 cm within 1 cm of 121.92 cm) | = no"},
		{"count(before within 1 cm of 11 cm)", "y = count(before within 1 cm of 11 cm) | = 3"},
		{"if(p < 5 %, 1, 0)", "y = if(p < 5 %, 1, 0) | = if(4 % < 5 %, 1, 0) | = 1"},
		{"round(L / 7, 1 cm)", "y = round(L ÷ 7, 1 cm) | = round(120 cm ÷ 7, 1 cm) | = 17 cm"},
		{"mode(before, 12 cm)", "y = mode(before, 12 cm) | = 12 cm"},
	} {
		e, err := quantity.ParseExpr(c.text)
		if err != nil {
			t.Fatal(err.What)
		}
		var lines []string
		for _, s := range quantity.Worked("y", e, env, quantity.Target{}) {
			lines = append(lines, s.Text())
		}
		if got := strings.Join(lines, " | "); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestFirstOrderIsDoubtedWhereAStepIsNear(t *testing.T) {
	for text, want := range map[string]bool{
		"floor(x)": true, "x > 2.4": true, "x > 9": false, "if(x > 2.4, 1, 2)": true,
		"floor(x / 100)": false,
	} {
		e, _ := quantity.ParseExpr(text)
		q := evalIn(t, bench(), text)
		_, misleads := quantity.FirstOrderDoubt(q, 0, func(moved map[string]float64) (float64, bool) {
			env := bench()
			env["x"] = quantity.New(2.5+0.25*moved["x"], quantity.Unit{})
			v, errs := quantity.Eval(e, env)
			y, ok := v.(quantity.Quantity)
			return y.Number, ok && len(errs) == 0
		})
		if misleads != want {
			t.Errorf("%s: misleads is %t, want %t", text, misleads, want)
		}
	}
}

func TestHintsForWhatOtherLanguagesWouldSay(t *testing.T) {
	env := pairedBench()
	for _, c := range []struct{ text, hint string }{
		{"L > 1 m and L < 2 m", "write an if within an if"},
		{"L > 1 m or L < 2 m", "where one is"},
		{"L between 1 m and 2 m", "write how far it may be from the middle"},
		{"7 % 3", "write mod(7, 3)"},
		{"7 mod 3", "as in mod(L, 20 cm)"},
		{"if L > 1 m", "as in if(e < 5 %, 1, 0)"},
		{"before(1)", "for one reading of it write before[1]"},
		{"before2 + 1 cm", "for one reading of before write before[2]"},
		{"L(2)", "write × between L and the bracket"},
		{"p < 5", "write 5 %"},
		{"average(before)", "here it is called mean"},
		{"Q1(before)", "lower_quartile"},
		{"countif(before)", "count(s within 2 cm of L)"},
		{"modd(7, 3)", "did you mean one of mod, mode?"},
	} {
		e, err := quantity.ParseExpr(c.text)
		if err == nil {
			_, errs := quantity.Eval(e, env)
			if len(errs) == 0 {
				t.Errorf("%s has no problem", c.text)
				continue
			}
			err = errs[0]
		}
		if !strings.Contains(err.Hint, c.hint) {
			t.Errorf("%s: %s (%s)", c.text, err.What, err.Hint)
		}
	}
}
