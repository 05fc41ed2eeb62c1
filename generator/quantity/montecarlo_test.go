package quantity_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"trundle/generator/quantity"
)

// A model is a sum with measured inputs x and y, and the same as plain arithmetic in
// the unit of the sum's result. doubt is what propagation of distributions (JCGM
// 101:2008) shows; borderline ones are held to neither side.
type model struct {
	text   string
	x, ux  float64
	y, uy  float64
	in     string
	direct func(x, y float64) float64
	doubt  string
}

func sum(x, y float64) float64      { return x + y }
func product(x, y float64) float64  { return x * y }
func quotient(x, y float64) float64 { return x / y }
func square(x, _ float64) float64   { return x * x }
func size(x, _ float64) float64     { return math.Abs(x) }
func root(x, _ float64) float64     { return math.Sqrt(x) }
func percent(x, y float64) float64  { return 100 * math.Abs(x-y) / y }
func drift(x, y float64) float64    { return math.Atan(x/y) * 180 / math.Pi }
func around(x, _ float64) float64   { return math.Pi * x }
func turns(x, y float64) float64    { return 10 * x / (math.Pi * y) }
func cosine(x, _ float64) float64   { return math.Cos(x * math.Pi / 180) }

var models = []model{
	{"x + y", 3, 1, 4, 2, "", sum, "no"},
	{"x + y", 0, 1, 0, 1, "", sum, "no"},
	{"x * y", 10, 0.1, 20, 0.2, "", product, "no"},
	{"x * y", 1, 0.2, 1, 0.2, "", product, "no"},
	{"x * y", 0, 1, 0, 1, "", product, "yes"},
	{"x * y", 1, 1, 1, 1, "", product, "yes"},
	{"x / y", 10, 0.1, 20, 0.2, "", quotient, "no"},
	{"x / y", 10, 0.1, 20, 1, "", quotient, "borderline"},
	{"x / y", 10, 0.1, 20, 3, "", quotient, "yes"}, // 15 % in the divisor
	{"x ^ 2", 0, 0.005, 0, 0, "", square, "yes"},   // at 0, as in JCGM 101:2008, 9.4
	{"x ^ 2", 0.01, 0.005, 0, 0, "", square, "yes"},
	{"x ^ 2", 0.05, 0.005, 0, 0, "", square, "borderline"}, // the mean is off by a twentieth of u exactly
	{"x ^ 2", 0.1, 0.005, 0, 0, "", square, "no"},
	{"abs(x)", 0, 1, 0, 0, "", size, "yes"},
	{"abs(x)", 0.5, 1, 0, 0, "", size, "yes"},
	{"abs(x)", -0.5, 1, 0, 0, "", size, "yes"},
	{"abs(x)", 2.5, 1, 0, 0, "", size, "no"},
	{"abs(x)", 5, 1, 0, 0, "", size, "no"},
	{"sqrt(x)", 1, 0.05, 0, 0, "", root, "no"},
	{"sqrt(x)", 1, 0.5, 0, 0, "", root, "yes"}, // no value for one draw in forty
	{"sqrt(x)", 0, 1, 0, 0, "", root, "yes"},
	{"percent_error(x * 1 cm, y * 1 cm)", 120, 1, 120, 0.1, "%", percent, "yes"},
	{"percent_error(x * 1 cm, y * 1 cm)", 120.5, 1, 120, 0.1, "%", percent, "yes"},
	{"percent_error(x * 1 cm, y * 1 cm)", 125, 1, 120, 0.1, "%", percent, "no"},
	{"drift_angle(x * 1 cm, y * 1 cm)", 3, 0.2, 100, 1, "deg", drift, "no"},
	{"drift_angle(x * 1 cm, y * 1 cm)", 3, 1, 5, 3, "deg", drift, "yes"},
	{"drift_angle(x * 1 cm, y * 1 cm)", 0, 0.5, 100, 1, "deg", drift, "no"},
	{"circumference(x * 1 mm)", 65, 0.5, 0, 0, "mm", around, "no"},
	{"circumference(x * 1 mm)", 65, 30, 0, 0, "mm", around, "no"},
	{"rotations(x * 1 cm, y * 1 mm)", 120, 0.5, 65, 0.5, "rot", turns, "no"},
	{"rotations(x * 1 cm, y * 1 mm)", 120, 0.5, 65, 10, "rot", turns, "yes"},
	{"cos(x * 1 deg)", 0, 5, 0, 0, "", cosine, "yes"},
	{"cos(x * 1 deg)", 45, 2, 0, 0, "", cosine, "no"},
}

func (m model) env(dx, dy float64) quantity.Env {
	plain := quantity.Unit{}
	return quantity.Env{"x": quantity.Measured("x", m.x+dx*m.ux, m.ux, plain), "y": quantity.Measured("y", m.y+dy*m.uy,
		m.uy, plain)}
}

// TestDoubtOfFirstOrderAgainstDraws holds the doubt against 200 000 draws a model:
// told where the mean or the standard deviation is off by more than a tenth of u, and
// silent where both are off by less than a twentieth.
func TestDoubtOfFirstOrderAgainstDraws(t *testing.T) {
	const draws = 200_000
	random := rand.New(rand.NewPCG(2008, 101))
	for _, m := range models {
		y := worth(t, m.text, m.env(0, 0))
		d, misleads := quantity.FirstOrderDoubt(y, 2000, func(moved map[string]float64) (float64, bool) {
			v, errs := quantity.Eval(parsed(t, m.text), m.env(moved["x"], moved["y"]))
			if len(errs) > 0 {
				return 0, false
			}
			return v.(quantity.Quantity).Number, true
		})
		var drawn []float64
		for range draws {
			if v := m.direct(m.x+m.ux*random.NormFloat64(), m.y+m.uy*random.NormFloat64()); !math.IsNaN(v) {
				drawn = append(drawn, v)
			}
		}
		mean, sd := stat.MeanStdDev(drawn, nil)
		u := y.Uncertainty()
		off := max(math.Abs(mean-y.Number), math.Abs(sd-u))
		name := func(s string) string { return m.text + " " + s }
		if direct := m.direct(m.x, m.y); y.Unit.String() != m.in || math.Abs(direct-y.Number) > 1e-12 {
			t.Errorf(name("is %g %s, directly %g %s"), y.Number, y.Unit, direct, m.in)
		}
		shown := "borderline"
		switch missing := draws - len(drawn); {
		case off > 0.1*u || missing > draws/1000:
			shown = "yes"
		case off < 0.05*u-0.005*u: // three standard errors of the mean of the draws
			shown = "no"
		}
		if shown != m.doubt {
			t.Errorf(name("with x = %g ± %g, y = %g ± %g: the draws say doubt %s, expected %s "+
				"(mean off %.3f u, deviation %.3f u)"),
				m.x, m.ux, m.y, m.uy, shown, m.doubt, (mean-y.Number)/u, (sd-u)/u)
		}
		if m.doubt != "borderline" && misleads != (m.doubt == "yes") {
			t.Errorf(name("with x = %g ± %g, y = %g ± %g: doubt %v, want %s; %+v"), m.x, m.ux, m.y, m.uy, misleads, m.doubt, d)
		}
	}
}

func TestDoubtTellsHowFarFirstOrderIsOff(t *testing.T) {
	close := func(got, want float64) bool { return math.Abs(got/want-1) < 0.01 } // as near as the points are
	at := func(m model) func(map[string]float64) (float64, bool) {
		return func(moved map[string]float64) (float64, bool) {
			v, errs := quantity.Eval(parsed(t, m.text), m.env(moved["x"], moved["y"]))
			if len(errs) > 0 {
				return 0, false
			}
			return v.(quantity.Quantity).Number, true
		}
	}
	// Of a square at x ± u the mean is x² + u², the variance 4x²u² + 2u⁴ (definition).
	m := model{text: "x ^ 2", x: 3, ux: 2}
	d, misleads := quantity.FirstOrderDoubt(worth(t, m.text, m.env(0, 0)), 2000, at(m))
	if !misleads || d.Broken || !close(d.MeanShift, 4) || !close(d.Uncertainty, math.Sqrt(4*9*4+2*16)) {
		t.Errorf("a square: %v %+v", misleads, d)
	}
	// Of a product the variance has the part u(x)²u(y)² beside the first-order one (definition).
	m = model{text: "x * y", x: 2, ux: 1, y: 1, uy: 2}
	d, misleads = quantity.FirstOrderDoubt(worth(t, m.text, m.env(0, 0)), 2000, at(m))
	if !misleads || d.Broken || math.Abs(d.MeanShift) > 0.02 || !close(d.Uncertainty, math.Sqrt(21)) {
		t.Errorf("a product: %v %+v", misleads, d)
	}
	m = model{text: "sqrt(x)", x: 1, ux: 1}
	if d, misleads = quantity.FirstOrderDoubt(worth(t, m.text, m.env(0, 0)), 2000, at(m)); !misleads || !d.Broken {
		t.Errorf("a root: %v %+v", misleads, d)
	}
	d, misleads = quantity.FirstOrderDoubt(quantity.New(3, unit("cm")), 2000, nil)
	if misleads || d != (quantity.Doubt{}) {
		t.Errorf("an exact value: %v %+v", misleads, d)
	}
	nan := func(map[string]float64) (float64, bool) { return math.NaN(), true }
	d, misleads = quantity.FirstOrderDoubt(quantity.Measured("x", 1, 1, unit("cm")), 2000, nan)
	if !misleads || !d.Broken {
		t.Errorf("no number: %v %+v", misleads, d)
	}
	infinite := func(map[string]float64) (float64, bool) { return math.Inf(1), true }
	d, misleads = quantity.FirstOrderDoubt(quantity.Measured("x", 1, 1, unit("cm")), 2000, infinite)
	if !misleads || !d.Broken {
		t.Errorf("no finite number: %v %+v", misleads, d)
	}
	// The noise of binary arithmetic on a large value is no effect.
	tiny := func(moved map[string]float64) (float64, bool) { return 1e6 + moved["x"]*1e-6 + 1e-4, true }
	d, misleads = quantity.FirstOrderDoubt(quantity.Measured("x", 1e6, 1e-6, unit("cm")), 2000, tiny)
	if misleads {
		t.Errorf("noise: %+v", d)
	}
}

func TestInputsOfARecordCountAsOne(t *testing.T) {
	env := bench()
	q := worth(t, "mean(s) + d", env)
	if got := q.Inputs(); len(got) != 2 || got[0] != "d" || got[1] != "s" {
		t.Errorf("inputs: %v", got)
	}
	if q.Share("s[1]") == 0 || q.Share("s[5]") == 0 || q.Share("s[0]") != 0 || q.Share("s") != 0 {
		t.Error("the share of a reading is not kept")
	}
	many := quantity.New(0, unit("cm"))
	env = quantity.Env{"all": many}
	text := "all"
	for i := range 13 {
		name := string(rune('a' + i))
		env[name] = quantity.Measured(name, 1, 1, unit("cm"))
		text += " + " + name
	}
	asked := false
	if _, misleads := quantity.FirstOrderDoubt(worth(t, text, env), 2000, func(map[string]float64) (float64,
		bool) {
		asked = true
		return 0, false
	}); misleads || asked {
		t.Error("thirteen inputs are looked into")
	}
	none := func(map[string]float64) (float64, bool) { return 0, false }
	if _, misleads := quantity.FirstOrderDoubt(worth(t, "a + b + c + e + f + g + h + i + j + k + l + m", env), 2000,
		none); !misleads {
		t.Error("twelve inputs are not looked into")
	}
}
