package quantity_test

// This file compares degrees of freedom, steps of reading and correlated records with published examples.

import (
	"math"
	"math/rand/v2"
	"testing"

	"trundle/generator/quantity"
)

func worked(t *testing.T, text string, env quantity.Env) quantity.Quantity {
	t.Helper()
	v, errs := quantity.Eval(parsed(t, text), env)
	q, ok := v.(quantity.Quantity)
	if len(errs) > 0 || !ok {
		t.Fatalf("%s has no value: %v", text, errs)
	}
	return q
}

// JCGM 100:2008, H.1: end-gauge calibration, Table H.1 with its degrees of freedom; 16.7 before truncation, u = 32 nm,
// t99(16) = 2.92, U99 = 93 nm. Two published copies of the table agree; 16.7 is from memory, recomputed.
func TestEndGaugeCalibrationHasThePublishedDegreesOfFreedom(t *testing.T) {
	in := func(name string, x, u, degrees float64) quantity.Quantity {
		q := quantity.Measured(name, x, u, quantity.Unit{})
		if degrees > 0 {
			q = q.WithFreedom(degrees)
		}
		return q
	}
	q := worked(t, "ls + d - ls * (da * th + as * dt)", quantity.Env{
		"ls": in("ls", 50000623, 25, 18), "d": in("d", 215, 9.7, 25.6), "as": in("as", 11.5e-6, 1.2e-6, 0),
		"th": in("th", -0.1, 0.41, 0), "da": in("da", 0, 0.58e-6, 50), "dt": in("dt", 0, 0.029, 2),
	})
	for _, c := range []struct {
		what              string
		got, want, within float64
	}{
		{"value", q.Number, 50000838, 0.5}, {"u", q.Uncertainty(), 32, 0.5}, {"degrees of freedom", q.Freedom(), 16.7, 0.1},
		{"99 % interval", q.Expanded(0.99), 93, 0.5}, {"95 % interval", q.Expanded(0.95), 2.12 * 31.7106, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("the %s is %g, published %g", c.what, c.got, c.want)
		}
	}
}

// Sandia PSL course ENGR224: u = 0.57 with 9 degrees of freedom and 0.25 with none to speak of make 12.8.
func TestTwoPartsHaveThePublishedDegreesOfFreedom(t *testing.T) {
	q := worked(t, "a + b", quantity.Env{"a": quantity.Measured("a", 0, 0.57, quantity.Unit{}).WithFreedom(9),
		"b": quantity.Measured("b", 0, 0.25, quantity.Unit{})})
	if math.Abs(q.Freedom()-12.79564903) > 1e-6 {
		t.Errorf("%g degrees of freedom", q.Freedom())
	}
	alone := worked(t, "b", quantity.Env{"b": quantity.Measured("b", 0, 0.25, quantity.Unit{})})
	if f := alone.Freedom(); !math.IsInf(f, 1) {
		t.Errorf("a value without readings has %g degrees of freedom", f)
	}
}

// JCGM 100:2008, 4.4.3: 20 temperatures, u = 0.333 with 19 degrees of freedom; t95(19) = 2.09 (Table G.2).
func TestAMeanHasOneDegreeOfFreedomLessThanReadings(t *testing.T) {
	q := worked(t, "mean(r)", quantity.Env{"r": quantity.Record{Name: "r", Numbers: []float64{96.90, 98.18, 98.25, 98.61,
		99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36,
		102.72}}})
	if math.Abs(q.Uncertainty()-0.3329157472) > 1e-9 || math.Abs(q.Freedom()-19) > 1e-9 ||
		math.Abs(q.Expanded(0.95)-2.093024*0.3329157472) > 1e-5 {
		t.Errorf("u is %g with %g degrees of freedom, 95 %% within %g", q.Uncertainty(), q.Freedom(), q.Expanded(0.95))
	}
}

// JCGM 100:2008, H.2: five sets of voltage, current and phase, read together. R = 127.732 ± 0.071,
// X = 219.847 ± 0.295, Z = 254.260 ± 0.236 (Table H.4). The readings are from memory; means and results agree.
func TestRecordsOfTheSameRunsHaveTheirCovariance(t *testing.T) {
	env := func(runs string) quantity.Env {
		return quantity.Env{
			"V": quantity.Record{Name: "V", Numbers: []float64{5.007, 4.994, 5.005, 4.990, 4.999}},
			"I": quantity.Record{Name: "I", Runs: runs,
				Numbers: []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}},
			"p": quantity.Record{Name: "p", Runs: runs, Numbers: []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}},
		}
	}
	for _, c := range []struct {
		text, runs   string
		want, u, off float64
	}{
		{"mean(V) / mean(I) * cos(mean(p) * 1 rad)", "V", 127.732, 0.071, 0.0005},
		{"mean(V) / mean(I) * sin(mean(p) * 1 rad)", "V", 219.847, 0.295, 0.001},
		{"mean(V) / mean(I)", "V", 254.260, 0.236, 0.0005},
		{"mean(V) / mean(I) * cos(mean(p) * 1 rad)", "", 127.732, 0.195, 0.0005}, // taken as independent
		{"mean(V) / mean(I) * sin(mean(p) * 1 rad)", "", 219.847, 0.201, 0.0005},
	} {
		q := worked(t, c.text, env(c.runs))
		if math.Abs(q.Number-c.want) > 0.0006 || math.Abs(q.Uncertainty()-c.u) > c.off {
			t.Errorf("%s in the runs of %q is %g ± %g, want %g ± %g", c.text, c.runs, q.Number, q.Uncertainty(), c.want, c.u)
		}
	}
}

// JCGM 100:2008, F.2.2.1: readings that are all the same are no surer than the step, δ/√12 = 0.29 δ.
func TestEqualReadingsAreNoSurerThanTheirStep(t *testing.T) {
	env := quantity.Env{
		"same":  quantity.Record{Name: "same", Step: 0.1, Unit: unit("cm"), Numbers: []float64{20.3, 20.3, 20.3}},
		"near":  quantity.Record{Name: "near", Step: 1, Unit: unit("mm"), Numbers: []float64{20, 21, 22}},
		"alone": quantity.Record{Name: "alone", Step: 1, Unit: unit("mm"), Numbers: []float64{20}},
	}
	for text, want := range map[string]float64{
		"mean(same)": 0.1 / math.Sqrt(12), "mean(near)": math.Sqrt(1.0/3 + 1.0/12), "mean(near) - mean(near)": 0,
		"sum(same)": 0.3 / math.Sqrt(12), "mean(alone)": 1 / math.Sqrt(12),
		"mean(near) - mean(same)": math.Sqrt(1.0/3 + 2.0/12),
	} {
		if got := worked(t, text, env).Uncertainty(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s has the uncertainty %g, want %g", text, got, want)
		}
	}
	// s²/3 with 2 degrees of freedom, the step with none: (1/3 + 1/12)² ÷ ((1/3)² ÷ 2) = 3.125, by hand.
	if got := worked(t, "mean(near)", env).Freedom(); math.Abs(got-3.125) > 1e-9 {
		t.Errorf("%g degrees of freedom", got)
	}
}

// The interval of 95 % holds the truth in 95 % of records, of three readings too, where ± twice u would in 82 %; in
// more where the step is coarse, since it counts as one limit of all readings. Seeded.
func TestTheIntervalOfAMeanHoldsTheTruth(t *testing.T) {
	const records = 4000
	for _, n := range []int{3, 5, 8, 10, 30} {
		for _, step := range []float64{0.1, 1} { // of a spread of 1
			r := rand.New(rand.NewPCG(uint64(n), 95))
			held, twice := 0, 0
			for range records {
				truth := 100 + r.Float64()
				numbers := make([]float64, n)
				for i := range numbers {
					numbers[i] = math.Round((truth+r.NormFloat64())/step) * step
				}
				q := worked(t, "mean(s)", quantity.Env{"s": quantity.Record{Name: "s", Step: step, Numbers: numbers}})
				if math.Abs(q.Number-truth) <= q.Expanded(0.95) {
					held++
				}
				if math.Abs(q.Number-truth) <= 2*q.Uncertainty() {
					twice++
				}
			}
			t.Logf("%d readings to %g: the interval holds the truth in %.1f %%, ± twice u in %.1f %%", n, step,
				100*float64(held)/records, 100*float64(twice)/records)
			if share := float64(held) / records; share < 0.94 || step < 1 && share > 0.96 {
				t.Errorf("%d readings to %g: the interval holds the truth in %.1f %%", n, step, 100*share)
			}
		}
	}
}

func TestTheIntervalIsWrittenToThePlaceOfItsUncertainty(t *testing.T) {
	low, high := quantity.FormatInterval(worked(t, "mean(s)", bench()))
	if low != "118.65" || high != "120.87" { // 119.76 ± 2.776 · 0.4007
		t.Errorf("from %s to %s", low, high)
	}
	if low, high := quantity.FormatInterval(quantity.New(3, unit("cm"))); low != "" || high != "" {
		t.Errorf("an exact value lies between %q and %q", low, high)
	}
}
