package runs

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"trundle/testdata/outside"
)

// table reads a file of published values, each row by its column names.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	names, rows := outside.Table(t, name)
	var out []map[string]string
	for _, row := range rows {
		m := map[string]string{}
		for i, column := range names {
			m[column] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func near(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if !(math.Abs(got-want) <= part*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// Source: NIST/SEMATECH e-Handbook 1.3.6.7.2; digits recomputed with mpmath.
func TestCriticalValuesOfStudentsT(t *testing.T) {
	rows := 0
	for _, r := range table(t, "student-t.csv") {
		degrees, err := strconv.ParseFloat(r["df"], 64)
		if err != nil || math.IsInf(degrees, 0) {
			continue // the normal distribution
		}
		rows++
		got := Critical(degrees, number(t, r["two_sided_confidence"]))
		near(t, "df "+r["df"]+", "+r["two_sided_confidence"], got, number(t, r["t_computed_mpmath"]), 1e-9)
		if r["t_table_3_decimals"] == "" {
			continue // not in the printed table
		}
		if math.Abs(got-number(t, r["t_table_3_decimals"])) > 0.0005001 {
			t.Errorf("df %s: %g is not the printed %s", r["df"], got, r["t_table_3_decimals"])
		}
	}
	if rows < 150 {
		t.Errorf("only %d rows", rows)
	}
}

// Sources: NIST/SEMATECH e-Handbook 1.3.5.3; NAG Library Manual G07CAF; Student 1908; Michelson 1879 (see the file).
func TestWelchAgainstPublishedExamples(t *testing.T) {
	for _, r := range table(t, "runs/welch.csv") {
		a := Summary{N: int(number(t, r["n1"])), Mean: number(t, r["mean1"]), SD: number(t, r["sd1"])}
		b := Summary{N: int(number(t, r["n2"])), Mean: number(t, r["mean2"]), SD: number(t, r["sd2"])}
		a.Error, b.Error = a.SD/math.Sqrt(float64(a.N)), b.SD/math.Sqrt(float64(b.N))
		part := 1e-9
		if r["data1"] != "" {
			a, b = Summarise(list(t, r["data1"])), Summarise(list(t, r["data2"]))
		}
		got, ok := Welch(a, b)
		if !ok {
			t.Fatalf("%s has no test", r["case"])
		}
		near(t, r["case"]+" t", got.T, number(t, r["recomputed_welch_t"]), part)
		near(t, r["case"]+" df", got.Degrees, number(t, r["recomputed_welch_df"]), part)
		near(t, r["case"]+" p", got.P, number(t, r["recomputed_welch_p_two_sided"]), 1e-6)
		pooled, _ := Column{Groups: []Group{{Summary: a}, {Summary: b}}}.Spread()
		near(t, r["case"]+" pooled", pooled, number(t, r["recomputed_pooled_sd"]), part)
	}
}

func list(t *testing.T, s string) []float64 {
	t.Helper()
	var x []float64
	for _, word := range strings.Fields(s) {
		x = append(x, number(t, word))
	}
	return x
}

// Source: R's power.t.test, two samples, two-sided.
func TestRunsNeededAgainstR(t *testing.T) {
	rows := 0
	for _, r := range table(t, "runs/sample-size.csv") {
		if !strings.HasPrefix(r["situation"], "two means") {
			continue
		}
		rows++
		size, n := number(t, r["delta_over_sigma"]), number(t, r["published_n"])
		if number(t, r["alpha"]) != 0.05 {
			t.Fatal("another level than 5 %")
		}
		// The published number is the real n at which the power is reached.
		low, high := PowerOf(int(math.Floor(n)), size, Level), PowerOf(int(math.Ceil(n)), size, Level)
		if want := 1 - number(t, r["beta"]); low >= want || high < want {
			t.Errorf("size %g: power %g to %g round n = %g, want %g between", size, low, high, n, want)
		}
		if r["beta"] == "0.20" {
			if got, ok := RunsNeeded(size, 1, 1); !ok || got != int(math.Ceil(n)) {
				t.Errorf("size %g: %d runs, want %g", size, got, math.Ceil(n))
			}
		}
	}
	if rows < 5 {
		t.Errorf("only %d rows", rows)
	}
	near(t, "power of 20 runs at 1", PowerOf(20, 1, Level), 0.8689528, 1e-6)
}

// Source: ISO 9283:1998, formulas from memory; invented runs worked out with R.
func TestPoseAgainstOtherTools(t *testing.T) {
	points := map[string][]Point{}
	for _, r := range table(t, "runs/pose-runs.csv") {
		if r["set"] == "point-2d" {
			points[r["group"]] = append(points[r["group"]], Point{number(t, r["x_mm"]), number(t, r["y_mm"])})
		}
	}
	checked := 0
	for _, r := range table(t, "runs/pose.csv") {
		runs := points[r["group"]]
		if len(runs) == 0 {
			continue
		}
		p, ok := PoseOf(runs, Point{1000, 0})
		if !ok {
			t.Fatal("no pose")
		}
		ours := map[string]float64{"mean_x": p.Mean.X, "mean_y": p.Mean.Y, "AP": p.Accuracy, "RP": p.Repeatability}
		if got, known := ours[r["quantity"]]; known {
			checked++
			near(t, r["group"]+" "+r["quantity"], got, number(t, r["value"]), 1e-10)
		}
	}
	if checked != 8 {
		t.Errorf("%d values were checked, 8 were expected", checked)
	}
}

// Source: NIST Statistical Reference Datasets, univariate: certified means and sample standard deviations.
func TestSummariesAgainstCertifiedData(t *testing.T) {
	checked := 0
	for _, r := range table(t, "strd.csv") {
		name, fromFile := strings.CutPrefix(r["given"], "y = @")
		quantity := r["expr"]
		if !fromFile || quantity != "mean(y)" && quantity != "stdev(y)" {
			continue
		}
		name, _, _ = strings.Cut(name, " ")
		text, err := os.ReadFile("../../testdata/outside/" + name)
		if err != nil {
			t.Fatal(err)
		}
		s := Summarise(list(t, string(text)))
		got := map[string]float64{"mean(y)": s.Mean, "stdev(y)": s.SD}[quantity]
		want, within := number(t, r["want"]), 0.0
		switch part, isPart := strings.CutSuffix(r["within"], "r"); {
		case isPart:
			within = number(t, part) * math.Abs(want)
		case r["within"] != "":
			within = number(t, r["within"])
		default: // half of the last printed digit
			_, decimals, _ := strings.Cut(r["want"], ".")
			within = 0.5001 * math.Pow(10, -float64(len(decimals)))
		}
		checked++
		if math.Abs(got-want) > within {
			t.Errorf("%s of %s: got %.17g, certified %s", quantity, name, got, r["want"])
		}
	}
	if checked < 14 {
		t.Errorf("only %d values were checked", checked)
	}
}
