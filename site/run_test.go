package site_test

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

//go:embed scripts/run.js
var runScript string

//go:embed scripts/show.js
var showScript string // which run.js rounds by

// runPrograms has node run programs, each with its values; one without a value comes
// as null.
const runPrograms = `
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const { values, programs } = JSON.parse(text);
	const out = programs.map(({ program, set }) => {
		const y = globalThis.trundle.run(program, Object.assign(Object.create(null), values[set]));
		return Number.isNaN(y) || y === undefined ? null : String(y);
	});
	process.stdout.write(JSON.stringify(out));
});`

// nodeReads runs a script with an input as JSON and reads its output as JSON.
func nodeReads[T any](t *testing.T, script string, input any) T {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Fatal("this test needs node in the PATH")
	}
	data, err := json.Marshal(input)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, "-e", script)
	cmd.Stdin = bytes.NewReader(data)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("node: %v\n%s", err, stderr.Bytes())
	}
	var result T
	if err := json.Unmarshal(out, &result); err != nil {
		t.Fatal(err)
	}
	return result
}

// missingFunctions has node call functions of run.js, each with so many values, and gives
// those that are not there.
const missingFunctions = `
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const missing = JSON.parse(text).filter((name) => {
		try {
			globalThis.trundle.run("1 1 " + name + ":2", {});
		} catch {
			return true;
		}
	});
	process.stdout.write(JSON.stringify(missing));
});`

// TestNoLineIsFittedToEqualXOnThePage takes three tenths, whose mean is rounded to none of them.
func TestNoLineIsFittedToEqualXOnThePage(t *testing.T) {
	t.Parallel()
	const found = `
process.stdin.on("data", () => {}).on("end", () => process.stdout.write(JSON.stringify(
	["1 2 4 0.1 0.1 0.1 fit_slope:6", "1 2 4 0.1 0.1 0.1 fit_intercept:6", "1 2 4 0.1 0.2 0.2 fit_slope:6"]
		.map((program) => Number.isFinite(globalThis.trundle.run(program, {}))))));`
	if got := nodeReads[[]bool](t, showScript+runScript+found, nil); !slices.Equal(got, []bool{false, false, true}) {
		t.Errorf("lines are found: %v", got)
	}
	const start = `
process.stdin.on("data", () => {}).on("end", () => process.stdout.write(JSON.stringify(
	globalThis.trundle.run("0.3 0.6 0.9 2.1 0.1 0.2 0.3 0.7 fit_intercept:8", {}))));`
	if got := nodeReads[float64](t, showScript+runScript+start, nil); got != 0 {
		t.Errorf("a line through 0 is at %g there", got)
	}
}

// TestEveryFunctionHasItsTwinOnThePage says what is missing after a function was added: its
// row in run.js, or a way for the test below to grow an expression with it.
func TestEveryFunctionHasItsTwinOnThePage(t *testing.T) {
	t.Parallel()
	var names []string // the page is given what is in a formula of the trade
	for _, d := range quantity.DescribeFunctions() {
		names = append(names, d.Name)
	}
	if len(names) < 10 {
		t.Fatalf("only %q are functions", names)
	}
	missing := nodeReads[[]string](t, showScript+runScript+missingFunctions, append(names, "nothing"))
	if !slices.Contains(missing, "nothing") {
		t.Error("what is not there is not missed")
	}
	for _, name := range missing[:len(missing)-1] {
		t.Errorf("functions in site/scripts/run.js lacks %s", name)
	}
	ways := fmt.Sprint(grows)
	for _, name := range names {
		if !strings.Contains(ways, name+"(") {
			t.Errorf("grows in site/run_test.go has no way to an expression with %s", name)
		}
	}
}

type toRun struct {
	Program quantity.Program `json:"program"`
	Set     int              `json:"set"`
}

var programs = flag.Int("programs", 30_000, "how many random programs the page and Go work out")

// TestTheEvaluatorOfThePageAgreesWithGo compares random programs with random values with what Eval makes of them, to
// 1e-12 of the value. The few that differ must be ones whose value is beyond doubles; see settled.
func TestTheEvaluatorOfThePageAgreesWithGo(t *testing.T) {
	t.Parallel()
	const sets = 200
	own := ownWords(t)
	r := rand.New(rand.NewPCG(4, 2026))
	envs := make([]quantity.Env, sets)
	values := make([]map[string]any, sets)
	for i := range sets {
		envs[i], values[i] = randomValues(r)
	}
	var runs []toRun
	var want []float64
	var texts []quantity.Expr
	for len(runs) < *programs {
		text := grow(r, 4, kinds[r.IntN(len(kinds))])
		e, err := own.ParseExpr(text)
		if err != nil {
			t.Fatalf("%s: %s", text, err.What)
		}
		set := r.IntN(sets)
		program, unit, err := quantity.Compile(e, envs[set], func(string) bool { return true }, quantity.Target{})
		v, errs := quantity.Eval(e, envs[set])
		q, ok := v.(quantity.Quantity)
		switch {
		case err != nil && len(errs) == 0 && ok:
			t.Fatalf("%s has a value and no program: %s", text, err.What)
		case err != nil:
			continue
		case len(errs) > 0 || !ok:
			q.Number = math.NaN()
		case !unit.Equal(q.Unit):
			t.Fatalf("%s comes out in %s, its program in %s", text, q.Unit, unit)
		}
		runs, want, texts = append(runs, toRun{program, set}), append(want, q.Number), append(texts, e)
	}
	got := nodeReads[[]*string](t, showScript+runScript+runPrograms, map[string]any{"values": values, "programs": runs})
	without, unsettled := 0, 0
	for i, w := range want {
		g := math.NaN()
		if got[i] != nil {
			g, _ = strconv.ParseFloat(*got[i], 64)
		} else {
			without++
		}
		switch {
		case agree(g, w):
		case !settled(texts[i], envs[runs[i].Set]):
			unsettled++
		default:
			t.Errorf("%s\n%s\nwith %v: the page comes to %v, Go to %v", texts[i], runs[i].Program, values[runs[i].Set], g, w)
		}
	}
	if without > *programs/4 {
		t.Errorf("%d of %d programs have no value; that tests little", without, *programs)
	}
	if unsettled > *programs/500 {
		t.Errorf("%d of %d programs differ where doubles do not settle the value", unsettled, *programs)
	}
	t.Logf("%d programs, %d without a value on both sides, %d whose value doubles do not settle", *programs, without,
		unsettled)
}

// settled tells whether doubles settle a program's value to twelve digits: no sum cancels
// more than three of them, no angle stands so close to a zero of its sine, cosine or
// tangent, or so many turns away, and no power is so high, that the last bit of what goes
// in moves more. It also leaves out where Eval refuses because of an uncertainty, which
// the page does not carry: exponents that rest on records, and numbers of extreme size.
func settled(e quantity.Expr, env quantity.Env) bool {
	good := true
	number := func(e quantity.Expr) (quantity.Quantity, float64) {
		v, _ := quantity.Eval(e, env)
		q, _ := v.(quantity.Quantity)
		return q, math.Abs(q.Number)
	}
	quantity.Walk(e, func(e quantity.Expr) {
		_, size := number(e)
		good = good && (size == 0 || 1e-100 < size && size < 1e100)
		switch e := e.(type) {
		case *quantity.Binary:
			left, _ := number(e.Left)
			right, _ := number(e.Right)
			if c, ok := right.In(left.Unit); ok && (e.Op == '+' || e.Op == '-') {
				good = good && math.Abs(left.Number)+math.Abs(c.Number) <= 1000*size
			}
			if e.Op == '^' {
				power := math.Abs(right.Number)
				good = good && len(right.Inputs()) == 0 && power < 100 && power*math.Abs(math.Log(math.Abs(left.Number))) < 100
			}
		case *quantity.Comparison:
			good = good && settledComparison(e, number)
		case *quantity.Call:
			good = good && settledCall(e, number)
		}
	})
	return good
}

// settledComparison tells whether what is compared differs by more than the last bits of what went into it. Single
// readings are not looked at.
func settledComparison(e *quantity.Comparison, number func(quantity.Expr) (quantity.Quantity, float64)) bool {
	left, size := number(e.Left)
	right, _ := number(e.Right)
	c, ok := right.In(left.Unit)
	off := math.Abs(left.Number - c.Number)
	size = max(size, math.Abs(c.Number))
	if e.Within != nil {
		within, _ := number(e.Within)
		w, _ := within.In(left.Unit)
		off = math.Abs(off - w.Number)
	}
	return ok && off > 1e-9*size
}

// settledStep tells whether a number is not between two steps, to the last bits of what went into it.
func settledStep(e *quantity.Call, number func(quantity.Expr) (quantity.Quantity, float64)) bool {
	x, _ := number(e.Args[0])
	step := quantity.New(1, x.Unit)
	if len(e.Args) > 1 {
		given, _ := number(e.Args[1])
		step, _ = given.In(x.Unit)
	}
	steps := x.Number / step.Number
	if _, left := number(e); e.Name == "mod" && math.Abs(x.Number) > 1000*left {
		return false
	}
	border := math.Round(2*steps) / 2
	return math.Abs(steps) < 1e6 && math.Abs(steps-border) > 1e-9
}

func settledCall(e *quantity.Call, number func(quantity.Expr) (quantity.Quantity, float64)) bool {
	switch e.Name {
	case "sin", "cos", "tan":
		rad, _ := quantity.LookupUnit("rad")
		q, _ := number(e.Args[0])
		q, _ = q.In(rad)
		x := q.Number
		condition := map[string]float64{"sin": x / math.Tan(x), "cos": x * math.Tan(x), "tan": 2 * x / math.Sin(2*x)}[e.Name]
		return x != 0 && math.Abs(condition) < 500
	case "floor", "ceil", "round", "mod":
		return settledStep(e, number)
	case "fit_slope", "fit_intercept", "fit_through_origin":
		return settledFit(e, number)
	case "mean", "sum", "median", "range", "stdev", "stderr", "lower_quartile", "upper_quartile", "mode",
		"population_stdev", "mean_absolute_deviation":
		_, size := number(e)
		for _, a := range e.Args {
			if _, part := number(a); part > 1000*size {
				return false
			}
		}
	case "percent_error":
		measured, size := number(e.Args[0])
		expected, _ := number(e.Args[1])
		if c, ok := expected.In(measured.Unit); ok {
			return size+math.Abs(c.Number) <= 1000*math.Abs(measured.Number-c.Number)
		}
	}
	return true
}

// settledFit tells whether no sum of a fit to s and drift cancels more than three digits, by how small the slope and
// the intercept are beside the readings.
func settledFit(e *quantity.Call, number func(quantity.Expr) (quantity.Quantity, float64)) bool {
	size := func(text string) float64 {
		e, _ := quantity.ParseExpr(text)
		_, x := number(e)
		return x
	}
	_, got := number(e)
	if e.Name == "fit_intercept" {
		middle, way := size("mean(s)"), size("fit_slope(s, drift) * mean(drift)")
		return got > 0.001*(middle+10*way) && size("fit_slope(s, drift)") > 0.001*size("range(s) / range(drift)")
	}
	most := size("(max(drift) - min(drift) + abs(mean(drift))) / (max(s) - min(s) + abs(mean(s)))")
	return got > 0.001*most && size("range(s)") > 0.001*size("mean(s)")
}

func agree(page, here float64) bool {
	if math.IsNaN(page) || math.IsNaN(here) {
		return math.IsNaN(page) && math.IsNaN(here)
	}
	return math.Abs(page-here) <= 1e-12*math.Abs(here)
}

func randomValues(r *rand.Rand) (quantity.Env, map[string]any) {
	env, values := quantity.Env{}, map[string]any{}
	for _, v := range [][2]string{{"d", "mm"}, {"kit.wheel", "mm"}, {"L", "cm"}, {"h", "in"}, {"a", "deg"},
		{"b", "rad"}, {"n", "rot"}, {"k", ""}, {"p", "%"}, {"t", "s"}, {"constructor", "cm"},
		{"c", "°C"}, {"f", "°F"}} {
		name := v[0]
		x := float64(r.IntN(100000)+1) / 100
		if r.IntN(8) == 0 {
			x = -x
		}
		u, _ := quantity.LookupUnit(v[1])
		env[name], values[name] = quantity.New(x, u), x
	}
	many := 2 + r.IntN(9) // as many of both, so that lines can be fitted to them
	for _, name := range []string{"s", "drift"} {
		u, _ := quantity.LookupUnit(map[string]string{"s": "cm", "drift": "mm"}[name])
		readings := make([]float64, many)
		for i := range readings {
			readings[i] = float64(r.IntN(20000)-4000) / 100
		}
		env[name], values[name] = quantity.Record{Name: name, Numbers: readings, Unit: u}, readings
	}
	return env, values
}

var kinds = []string{"length", "number", "angle", "time", "speed", "warmth", "truth"}

// grows are the ways to make an expression of a kind; a kind in <> grows in its turn.
var grows = map[string][]string{
	"length": {"<x> mm", "<x> in", "d", "L", "h", "kit.wheel", "constructor", "(<length> + <length>)",
		"(<length> − <length>)", "<length> × <number>", "<length> / <number>",
		"circumference(<length>)", "distance(<number>, <length>)", "distance(n, <length>, <number>)",
		"effective_diameter(<length>, <number>)",
		"abs(<length>)", "sqrt(<length> × <length>)", "mean(s)", "mean(drift, s)", "median(s, <length>)", "stdev(s)",
		"stderr(drift)", "range(s)", "min(s, <length>)",
		"max(<length>, drift)", "sum(s)", "round(<length>)", "round(<length>, <length>)", "floor(<length>, <x> cm)",
		"ceil(<length>, 5 mm)", "mod(<length>, <length>)", "mod(<length>, <x> mm)", "s[1]", "drift[2]",
		"mean(s - drift)", "median(abs(drift - <length>))", "max(drift / <number>, s)", "sum(-s × <number>)",
		"lower_quartile(s)", "upper_quartile(drift, <length>)", "mode(s, drift)", "mode(<length>, <length>, <length>)",
		"mode(floor(s, 1 m))", "population_stdev(drift)", "mean_absolute_deviation(s)", "stdev(s - <length>)",
		"if(<truth>, <length>, <length>)", "min(ceil(s, 1 cm))", "fit_intercept(s, drift)", "<speed> × <time>", "-<length>",
		"<length> × <length> / <length>", "<p> × <length>", "(<length>) ^ 3 / <length> ^ 2",
		"<x> km", "<x> mi", "6 ft 3 1/2 in", "arc(<angle>, <length>)",
		"<x> tiles", "gone(<length>, <length>)", "leftover(<length>, <length>, <number>)"},
	"number": {"<x>", "k", "p", "<p>", "<length> / <length>", "percent_error(<length>, <length>)",
		"correction(<length>, <length>)", "sin(<angle>)", "cos(<angle>)",
		"tan(<angle>)", "count(s)", "wheel_mismatch(<length>, <length>, <length>)", "(<number>) ^ 2", "(<number>) ^ (-1)",
		"sqrt(<number>)", "<number> + <number>", "(<number> − <number>)",
		"rotations(<length>, <length>) / n", "abs(<number>)", "round(<number>)", "π", "<time> / <time>",
		"(<number>) ^ (<number>)", "floor(<number>)", "ceil(<number>)", "mod(<number>, <number>)",
		"if(<truth>, <number>, <number>)", "count(s > <length>)", "count(s within <length> of drift)", "mean(s / drift)",
		"count(<truth>, <truth>)", "mean(fit_slope(s - drift, s), <number>)", "floor(n) / n", "fit_slope(drift, s)",
		"fit_through_origin(drift, s)", "vapour_ppm(<x> g, 60.1 g/mol, <x> m^3)", "3:5",
		"(<warmth> − <warmth>) / (<x> Δ°F)",
		"<x> Hz × <time>", "<x> counts/rot × n", "stdev(<warmth>, c) / (<x> Δ°C)", "(<x> V × <x> mA) / (<x> W)",
		"lost_way(<length>, <length>)", "<x> EUR / (<x> EUR)", "cost(<number>, <x> EUR) / (<x> €)"},
	"angle": {"<x> deg", "<x> rad", "a", "b", "drift_angle(<length>, <length>)", "atan(<number>)",
		"atan2(<length>, <length>)", "<angle> × <number>", "(<angle> − <angle>)",
		"mean(<angle>, <angle>)", "spin_turn(<angle>, <length>, <length>)", "pivot_turn(<angle>, <length>, <length>)",
		"rotations(<length>, <length>)", "rotations(<length>, <length>, <number>)",
		"<x> rpm × <time>",
		"<x> ticks", "ticks_for(<length>, <length>)"},
	"time": {"<x> s", "<x> min", "t", "travel_time(<length>, <speed>)", "(<time> + <time>)", "<time> / <number>",
		"<x> hours", "2:30 min",
		"1 h 5 min", "<x> Ah / (<x> mA)"},
	"speed": {"<x> cm/s", "speed(<length>, <time>)", "<length> / <time>", "<number> × <speed>", "<x> mph", "<x> km/h",
		"circumference(<length>) × <x> rpm"},
	"warmth": {"<x> °C", "<x> °F", "c", "f", "mean(<warmth>, <warmth>)", "max(<warmth>, c)", "(<warmth> + <x> Δ°F)",
		"(<warmth> − <x> Δ°C)", "<warmth> + (<warmth> − <warmth>)"},
	"p": {"<x> %", "p"},
	"truth": {"<x> cm < d", "k > <x>", "<length> <= <length>", "<number> ≥ <number>", "<angle> < <angle>",
		"<time> = <time>", "k ≠ k", "<length> within <x> cm of <length>", "<speed> > <speed>", "yes", "no",
		"if(<truth>, <truth>, <truth>)", "count(s < drift) = <number>", "L = L + 0 mm"},
}

func grow(r *rand.Rand, depth int, kind string) string {
	if kind == "x" {
		return strconv.FormatFloat(float64(r.IntN(99999)+1)/math.Pow(10, float64(r.IntN(4))), 'f', -1, 64)
	}
	ways := grows[kind]
	way := ways[r.IntN(len(ways))]
	if depth <= 0 {
		way = ways[r.IntN(2)] // the first two of each kind lead to an end
	}
	out := ""
	for i := 0; i < len(way); i++ {
		if way[i] != '<' || way[i+1] == ' ' || way[i+1] == '=' { // not a kind, but a sign of a comparison
			out += way[i : i+1]
			continue
		}
		end := i + 1
		for way[end] != '>' {
			end++
		}
		part := grow(r, depth-1, way[i+1:end])
		if kind == "p" || way[i+1:end] == "x" {
			out += part
		} else {
			out += "(" + part + ")"
		}
		i = end
	}
	return fmt.Sprint(out)
}
