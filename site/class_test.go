package site_test

// The statistics of the class's page against those of tally, on random classes.

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/tally"
	"trundle/site/figure"
	"trundle/site/words"
	"trundle/testdata/outside"
)

// classScripts are the page's statistics.
func classScripts(t *testing.T) string {
	t.Helper()
	all := ""
	for _, name := range []string{"student", "groups"} {
		text, err := os.ReadFile("scripts/class/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		all += string(text)
	}
	return all
}

const askClasses = `
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const number = (x) => (x === null ? NaN : x);
	const out = JSON.parse(text).map(({ series, target, step }) => {
		const all = series.map((s, i) => ({ name: "g" + i, numbers: s.map(number) }));
		const c = trundle.column(all, number(target), step);
		return {
			groups: c.groups.map((g) => ({ odd: g.odd, empty: g.empty, numbers: [g.n, g.mean, g.sd, g.error, g.low, g.high,
				g.bias, g.percent, g.without, g.distance.mean, g.distance.error].map((x) => (Number.isFinite(x) ? x : null)) })),
			pairs: [...c.near, ...(c.aim ?? [])].map(({ first, second, verdict, p }) => ({ first, second, verdict, p:
				p === p ? p : null })),
		};
	});
	process.stdout.write(JSON.stringify(out));
});`

// askedClass is a class as node gets it, null for a run without a number.
type askedClass struct {
	Series [][]*float64 `json:"series"`
	Target *float64     `json:"target"`
	Step   float64      `json:"step"`
}

// toldClass is what it comes to there.
type toldClass struct {
	Groups []struct {
		Odd     []int
		Empty   int
		Numbers []*float64
	}
	Pairs []struct {
		First, Second int
		Verdict       string
		P             *float64
	}
}

// randomClass makes two to six groups of up to thirty runs, some read so roughly that they are equal, some with a run
// that went astray, some without a number.
func randomClass(r *rand.Rand) (askedClass, []runs.Series, float64) {
	steps := []float64{0, 0.1, 1, 0.0254, 5}
	in := askedClass{Step: steps[r.IntN(len(steps))]}
	target := math.NaN()
	if r.IntN(4) > 0 {
		target = float64(r.IntN(3)) * 60
		in.Target = &target
	}
	var series []runs.Series
	spread := math.Pow(10, 2*r.Float64()-1)
	if in.Step == 0 && r.IntN(4) == 0 {
		spread = 0
	}
	for range 2 + r.IntN(5) {
		s, own := runs.Series{}, []*float64{}
		mean := 60*float64(r.IntN(3)) + r.NormFloat64()*spread*r.Float64()*4
		for i := range r.IntN(12) * (1 + 2*r.IntN(2)) {
			x := mean + r.NormFloat64()*spread
			if r.IntN(25) == 0 {
				x += 20 * spread
			}
			if in.Step > 0 {
				x = math.Round(x/in.Step) * in.Step
			}
			s.Rows = append(s.Rows, i)
			if r.IntN(15) == 0 {
				s.Numbers, own = append(s.Numbers, math.NaN()), append(own, nil)
				continue
			}
			s.Numbers, own = append(s.Numbers, x), append(own, &x)
		}
		series, in.Series = append(series, s), append(in.Series, own)
	}
	return in, series, target
}

// closeTo compares what node tells with a number of Go: one part in 1e9; what is no number is null. A difference of
// two large numbers has the last bits of those, whose size is given.
func closeTo(got *float64, want, size float64) bool {
	if math.IsNaN(want) || math.IsInf(want, 0) {
		return got == nil
	}
	return got != nil && math.Abs(*got-want) <= 1e-9*math.Abs(want)+1e-13*size
}

func TestThePageWorksOutAClassAsTallyDoes(t *testing.T) {
	const classes = 1000
	r := rand.New(rand.NewPCG(23, 1))
	var asked []askedClass
	var want []runs.Column
	for range classes {
		in, series, target := randomClass(r)
		asked, want = append(asked, in), append(want, runs.NewColumn(series, target, in.Step))
	}
	told := nodeReads[[]toldClass](t, classScripts(t)+askClasses, asked)
	verdicts := map[runs.Verdict]string{runs.Apart: "apart", runs.Together: "together", runs.NoSpread: "no-spread",
		runs.TooFew: "too-few"}
	seen, odd := map[runs.Verdict]int{}, 0
	for i, c := range want {
		for k, g := range c.Groups {
			got := told[i].Groups[k]
			numbers := []float64{float64(g.N), g.Mean, g.SD, g.Error, g.Low, g.High, g.Bias, g.Percent, g.Without,
				g.Distance.Mean, g.Distance.Error}
			for n, x := range numbers {
				if !closeTo(got.Numbers[n], x, 200) {
					t.Errorf("class %d, group %d: number %d is %v, in Go %v", i, k, n, shownOf(got.Numbers[n]), x)
				}
			}
			odd += len(g.Odd)
			if len(got.Odd) != len(g.Odd) || len(g.Odd) > 0 && got.Odd[0] != g.Odd[0] || got.Empty != g.Empty {
				t.Errorf("class %d, group %d: odd runs %v, in Go %v", i, k, got.Odd, g.Odd)
			}
		}
		for k, p := range append(append([]runs.Pair{}, c.Near...), c.Aim...) {
			got := told[i].Pairs[k]
			seen[p.Verdict]++
			chance := math.NaN()
			if p.Verdict == runs.Apart || p.Verdict == runs.Together {
				chance = p.P
			}
			if got.First != p.First || got.Second != p.Second || got.Verdict != verdicts[p.Verdict] ||
				!closeTo(got.P, chance, 0) {
				t.Errorf("class %d, pair %d: %v %v, in Go %+v", i, k, got, shownOf(got.P), p)
			}
		}
	}
	if len(seen) < 4 || odd < 20 {
		t.Errorf("these classes are too much alike: %v, %d odd runs", seen, odd)
	}
}

func shownOf(x *float64) any {
	if x == nil {
		return "none"
	}
	return *x
}

const tellClasses = `
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const { words, thousands, comma, classes } = JSON.parse(text);
	Object.assign(trundle, { words, thousands, comma });
	const number = (x) => (x === null ? NaN : x);
	process.stdout.write(JSON.stringify(classes.map(({ series, target, step }) => {
		const all = series.map((s, i) => ({ name: "g" + i, numbers: s.map(number), rows: s.map((_, k) => "f:" + k) }));
		const { rows, says } = trundle.findings(trundle.column(all, number(target), step),
			{ by: "base", unit: "cm", isLength: true });
		return { rows, says };
	})));
});`

// In German, which has commas before decimals and points between thousands.
func TestThePageTellsOfAClassWhatTallyTellsInALanguageWithCommas(t *testing.T) {
	de, err := words.Load("de")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]string{}
	for name, text := range de.StartingWith("runs-") {
		said["runs-"+name] = text
	}
	cm, _ := quantity.LookupUnit("cm")
	r := rand.New(rand.NewPCG(23, 2))
	var asked []askedClass
	report := &tally.Report{By: "base"}
	for range 100 {
		in, series, target := randomClass(r)
		for i := range series {
			series[i].Name = "g" + strconv.Itoa(i)
		}
		one := tally.Column{Column: runs.NewColumn(series, target, in.Step), Name: "stop", Unit: cm}
		for i := range 40 {
			one.Places = append(one.Places, tally.Place{File: "f", Line: i})
		}
		asked, report.Columns = append(asked, in), append(report.Columns, one)
	}
	scripts := ""
	for _, name := range []string{"say", "show", "class/student", "class/groups", "class/say"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts += string(text)
	}
	type told struct {
		Rows [][]string
		Says []string
	}
	forms := de.Forms()
	got := nodeReads[[]told](t, scripts+tellClasses, map[string]any{"words": said, "comma": true, "classes": asked,
		"thousands": map[string]any{"mark": forms.Thousands, "from": forms.ThousandsFrom}})
	sum := ""
	for i, want := range figure.TallyTables(de, report) {
		says := append(append([]string{}, want.Look...), want.Says...)
		if !reflect.DeepEqual(got[i].Rows, want.Rows) {
			t.Errorf("class %d: the page has %q, tally %q", i, got[i].Rows, want.Rows)
		}
		for k, text := range got[i].Says { // a page has the blank before a unit that does not break
			got[i].Says[k] = strings.ReplaceAll(text, "\u00a0", " ")
		}
		if !slices.Equal(got[i].Says, says) {
			t.Errorf("class %d: the page says\n%q, tally\n%q", i, got[i].Says, says)
		}
		sum += strings.Join(says, "\n")
	}
	if !strings.Contains(sum, "von 1.000") && !regexp.MustCompile(`von \d\.000`).MatchString(sum) {
		t.Error("no chance among these is one in thousands")
	}
}

// Source: NIST/SEMATECH e-Handbook 1.3.6.7.2; digits recomputed with mpmath.
func TestThePagesCriticalValuesAreThePublishedOnes(t *testing.T) {
	names, rows := outside.Table(t, "student-t.csv")
	column := map[string]int{}
	for i, name := range names {
		column[name] = i
	}
	type point struct{ Degrees, Confidence, Want float64 }
	var points []point
	for _, r := range rows {
		at := func(name string) float64 { x, _ := strconv.ParseFloat(r[column[name]], 64); return x }
		p := point{at("df"), at("two_sided_confidence"), at("t_computed_mpmath")}
		if !math.IsInf(p.Degrees, 0) && p.Degrees > 0 {
			points = append(points, p)
		}
	}
	got := nodeReads[[]float64](t, classScripts(t)+`
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => process.stdout.write(JSON.stringify(
	JSON.parse(text).map((p) => trundle.critical(p.Degrees, p.Confidence)))));`, points)
	if len(points) < 50 {
		t.Fatalf("only %d published values", len(points))
	}
	for i, p := range points {
		if math.Abs(got[i]-p.Want) > 1e-9*p.Want {
			t.Errorf("t of %g degrees at %g: %.12g, published %.12g", p.Degrees, p.Confidence, got[i], p.Want)
		}
	}
}

// Source: NIST/SEMATECH e-Handbook 6.3.2.1, for the formulas of c4 and of the limits of X-bar and s charts and for the
// table of c4, n from 2 to 10; the factors of limits follow from the formulas by math.Gamma.
func TestThePagesControlLimitsAreThoseOfTheGammaFunction(t *testing.T) {
	table := []float64{0.7979, 0.8862, 0.9213, 0.9400, 0.9515, 0.9594, 0.9650, 0.9693, 0.9727}
	type limits struct{ C4, A3, B3, B4 float64 }
	got := nodeReads[[]limits](t, classScripts(t)+seasonScript(t)+`
process.stdout.write(JSON.stringify([2, 3, 4, 5, 6, 7, 8, 9, 10, 25].map((n) => {
	const [p] = trundle.control([{ n, bias: 0, sd: 1 }]); // one record: its s is the mean of s
	return { C4: trundle.c4(n), A3: p.limit, B3: p.low, B4: p.high };
})));`, nil)
	for i, g := range got {
		n := float64(i + 2)
		if i == len(table) {
			n = 25
		} else if math.Abs(g.C4-table[i]) > 0.00005001 {
			t.Errorf("c4 of %g: %g, published %g", n, g.C4, table[i])
		}
		c4 := math.Sqrt(2/(n-1)) * math.Gamma(n/2) / math.Gamma((n-1)/2)
		part := 3 * math.Sqrt(1-c4*c4) / c4
		want := limits{c4, 3 / (c4 * math.Sqrt(n)), math.Max(0, 1-part), 1 + part}
		for k, pair := range [][2]float64{{g.C4, want.C4}, {g.A3, want.A3}, {g.B3, want.B3}, {g.B4, want.B4}} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*(1+pair[1]) {
				t.Errorf("n = %g, factor %d of c4, A3, B3, B4: %.12g, by math.Gamma %.12g", n, k, pair[0], pair[1])
			}
		}
	}
}

func seasonScript(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("scripts/class/season.js")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The page says what is wrong with a file by the fault's name.
func TestTheClassHasWordsForEachFaultOfAFile(t *testing.T) {
	all, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	said, seen := all.StartingWith("class-"), 0
	for _, name := range []string{"files", "class/roster", "class/table"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range regexp.MustCompile(`fault: "([a-z-]+)"`).FindAllSubmatch(text, -1) {
			if seen++; said[string(found[1])] == "" {
				t.Errorf("%s.js finds the fault %s, and there is no class-%s", name, found[1], found[1])
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d faults are found in the scripts", seen)
	}
}
