package quantity_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/testdata/outside"
)

const outsideFolder = "../../testdata/outside"

// TestOutsideValues works every row of testdata/outside and compares it with what its
// source published. Each row names the source.
func TestOutsideValues(t *testing.T) {
	files, err := filepath.Glob(outsideFolder + "/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatal("no tables of outside values", err)
	}
	held := 0
	sources := map[string]bool{}
	for _, file := range files {
		names, rows := outside.Table(t, filepath.Base(file))
		if strings.Join(names, ",") != "case,given,expr,in,want,within,want_u,within_u,source,status" {
			continue // a table of another form, with a test of its own
		}
		t.Run(filepath.Base(file), func(t *testing.T) {
			for _, row := range rows {
				if row[8] == "" {
					t.Errorf("%s: no source", row[0])
				}
				sources[row[8]] = true
				t.Run(row[0], func(t *testing.T) { checkRow(t, row) })
				held++
			}
		})
	}
	t.Logf("%d outside values from %d sources", held, len(sources))
	if held < 300 || len(sources) < 10 {
		t.Errorf("%d values from %d sources are too few: at least 300 from 10", held, len(sources))
	}
}

func checkRow(t *testing.T, row []string) {
	expr, in := row[2], row[3]
	e, perr := quantity.ParseExpr(expr)
	if perr != nil {
		t.Fatalf("%s: %s", expr, perr.What)
	}
	v, errs := quantity.Eval(e, givens(t, row[1]))
	for _, err := range errs {
		t.Fatalf("%s: %s", expr, err.What)
	}
	q := v.(quantity.Quantity)
	unit := quantity.Unit{}
	if in != "" {
		if unit, perr = quantity.ParseUnit(in); perr != nil {
			t.Fatal(in, perr.What)
		}
	}
	q, ok := q.In(unit)
	if !ok {
		t.Fatalf("%s comes out in %s, not %s", expr, v.(quantity.Quantity).Unit, in)
	}
	agree(t, "value", q.Number, row[4], row[5])
	if row[6] != "" {
		agree(t, "uncertainty", q.Uncertainty(), row[6], row[7])
	}
}

// agree compares with a published number: to half its last digit, or as told.
func agree(t *testing.T, what string, got float64, want, within string) {
	t.Helper()
	x, err := strconv.ParseFloat(want, 64)
	if err != nil {
		t.Fatalf("%s %q is no number", what, want)
	}
	tolerance := 0.0
	switch relative, isRelative := strings.CutSuffix(within, "r"); {
	case within == "":
		tolerance = halfLastDigit(want) * (1 + 1e-9)
	case isRelative:
		part, _ := strconv.ParseFloat(relative, 64)
		tolerance = math.Abs(x) * part
	default:
		tolerance, _ = strconv.ParseFloat(within, 64)
	}
	tolerance += math.Abs(x) * 4e-16 // the binary form of the published number itself
	if math.IsNaN(got) || math.Abs(got-x) > tolerance {
		t.Errorf("%s is %.17g, published %s (off by %.3g, allowed %.3g)", what, got, want, got-x, tolerance)
	}
}

func halfLastDigit(s string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(s), "e")
	places := 0
	if dot := strings.IndexByte(mantissa, '.'); dot >= 0 {
		places = len(mantissa) - dot - 1
	}
	power := 0
	if exponent != "" {
		power, _ = strconv.Atoi(exponent)
	}
	return 0.5 * math.Pow(10, float64(power-places))
}

// givens reads "d = 65 mm ± 0.5 mm; x = @data/file.csv; y = [1, 2] mm".
func givens(t *testing.T, s string) quantity.Env {
	t.Helper()
	env := quantity.Env{}
	for _, part := range strings.Split(s, ";") {
		name, value, ok := strings.Cut(part, "=")
		if !ok {
			continue
		}
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		switch {
		case strings.HasPrefix(value, "@"):
			file, unit, _ := strings.Cut(value[1:], " ")
			env[name] = quantity.Record{Name: name, Numbers: column(t, file), Unit: unitOf(t, unit)}
		case strings.HasPrefix(value, "["):
			list, unit, _ := strings.Cut(value[1:], "]")
			env[name] = quantity.Record{Name: name, Numbers: floats(t, strings.Split(list, ",")), Unit: unitOf(t, unit)}
		default:
			env[name] = input(t, name, value)
		}
	}
	return env
}

func input(t *testing.T, name, s string) quantity.Quantity {
	number, uncertainty, _ := strings.Cut(s, "±")
	n, unit, _ := strings.Cut(strings.TrimSpace(number), " ")
	u := unitOf(t, unit)
	x := floats(t, []string{n})[0]
	if uncertainty == "" {
		return quantity.New(x, u)
	}
	n, unit, _ = strings.Cut(strings.TrimSpace(uncertainty), " ")
	from := u
	if strings.TrimSpace(unit) != "" {
		from = unitOf(t, unit)
	}
	q, ok := quantity.New(floats(t, []string{n})[0], from).In(u)
	if !ok {
		t.Fatal(s)
	}
	return quantity.Measured(name, x, q.Number, u)
}

func unitOf(t *testing.T, s string) quantity.Unit {
	if s = strings.TrimSpace(s); s == "" {
		return quantity.Unit{}
	}
	u, err := quantity.ParseUnit(s)
	if err != nil {
		t.Fatal(s, err.What)
	}
	return u
}

func floats(t *testing.T, texts []string) []float64 {
	var all []float64
	for _, s := range texts {
		x, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, x)
	}
	return all
}

func column(t *testing.T, file string) []float64 {
	data, err := os.ReadFile(filepath.Join(outsideFolder, file))
	if err != nil {
		t.Fatal(err)
	}
	return floats(t, strings.Fields(string(data)))
}
