package site_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"trundle/generator/parse"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// The page reads and writes numbers with scripts of its own. These tests run the scripts
// in node and hold each result against what Go gives for the same input.

// harness answers calls, given as JSON on standard input: the sizes of the units, then
// a function's name with its arguments for each call.
const harness = `
const vm = require("vm"), fs = require("fs");
for (const name of ["read", "show"]) vm.runInThisContext(fs.readFileSync("scripts/" + name + ".js", "utf8"), name);
const input = JSON.parse(fs.readFileSync(0, "utf8"));
trundle.units = input.units;
const functions = {
  comma: (on) => void (trundle.comma = on), // for all calls after it
  read: (text, other) => {
    const a = trundle.read(text, other);
    return "fault" in a ? a : { ...a, size: trundle.unit(a.unit) };
  },
  unit: (text) => trundle.unit(text),
  convert: (x, from, to) => trundle.convert(x, trundle.unit(from), trundle.unit(to)),
  step: (x, step) => trundle.step(Number(x), step),
  plain: (x) => trundle.plain(Number(x)),
  parts: (x, to, larger) => trundle.parts(x, to ?? undefined, larger),
  digits: (x) => trundle.digits(Number(x)),
  after: (number, unit) => trundle.after(number, unit),
  often: (text, length, times) => {
    const long = text.repeat(length);
    const before = performance.now();
    for (let i = 0; i < times; i++) trundle.read(long);
    return { ...trundle.read(long), milliseconds: performance.now() - before };
  },
};
process.stdout.write(JSON.stringify(input.calls.map(([name, ...given]) => functions[name](...given))));
`

type call []any

// inNode gives the results of the calls, each a T.
func inNode[T any](t *testing.T, calls []call) []T {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Fatal("these tests need node: ", err)
	}
	input, err := json.Marshal(map[string]any{"units": unitSizes(t), "calls": calls})
	if err != nil {
		t.Fatal(err)
	}
	var out, complaint bytes.Buffer
	cmd := exec.Command(node, "-e", harness)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(input), &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, complaint.String())
	}
	var results []T
	if err := json.Unmarshal(out.Bytes(), &results); err != nil {
		t.Fatal(err)
	}
	if len(results) != len(calls) {
		t.Fatalf("%d results of %d calls", len(results), len(calls))
	}
	return results
}

// unitSizes are the sizes of all units as the page has them.
func unitSizes(t *testing.T) map[string][3]any {
	units := map[string][3]any{}
	for name, f := range allFactors(t) {
		dim := make([]string, len(f.Dim))
		for i, d := range f.Dim {
			dim[i] = strconv.Itoa(int(d))
		}
		units[name] = [3]any{strings.Join(dim, ","), f.Num, f.Den}
	}
	return units
}

type unitSize struct {
	Dim      quantity.Dimension
	Num, Den float64
	Rot      bool
}

type readResult struct {
	X           float64
	Unit, Plain string
	Size        *unitSize
	Fault, Part string
}

// checkRead holds one result against quantity.ReadAnswer and gives the slug, "" if the
// text was read.
func checkRead(t *testing.T, text string, got readResult) string {
	t.Helper()
	a, err := ownWords(t).ReadAnswer(text, false)
	return compareRead(t, text, got, a, err)
}

func compareRead(t *testing.T, text string, got readResult, a quantity.Answer, err *quantity.Error) string {
	t.Helper()
	if err != nil {
		if got.Fault != err.Slug || got.Part != err.Name {
			t.Errorf("%q: the page says %q %q, Go %q %q", text, got.Fault, got.Part, err.Slug, err.Name)
		}
		return err.Slug
	}
	if got.Fault != "" || got.Size == nil {
		t.Errorf("%q is refused by the page: %+v", text, got)
		return ""
	}
	x, plain := a.Number.Float(), a.Number.Text
	if a.Negative {
		x = -x
	}
	if a.Negative && plain != "" { // an answer of two parts has no text of its own
		plain = "-" + plain
	}
	if !near(got.X, x) || got.Plain != plain || (got.Unit != "") != a.HasUnit {
		t.Errorf("%q: the page reads %v %q %q, Go %v %q %q", text, got.X, got.Plain, got.Unit, x, plain, a.Unit)
	}
	checkUnit(t, text, *got.Size, a.Unit)
	return ""
}

func checkUnit(t *testing.T, text string, got unitSize, want quantity.Unit) {
	t.Helper()
	size, rot := sizeOf(t, want)
	if got.Dim != want.Dimension() || !near(got.Num/got.Den, size) || got.Rot != rot {
		t.Errorf("%q: the page takes the unit for %+v, Go for %s (%v, %v, %v)", text, got, want, want.Dimension(), size, rot)
	}
}

// sizeOf gives a unit's size in base units, and whether all its angles are rotations.
func sizeOf(t *testing.T, u quantity.Unit) (size float64, rot bool) {
	size, rot = 1, true
	factors := allFactors(t)
	for i, part := range strings.Split(u.String(), "/") {
		for _, factor := range strings.Split(part, "·") {
			name, power, raised := strings.Cut(factor, "^")
			f, ok := factors[name]
			if !ok {
				continue // the 1 of 1/s
			}
			n := 1
			if raised {
				n, _ = strconv.Atoi(power)
			}
			if i > 0 {
				n = -n
			}
			size *= math.Pow(f.Num/f.Den, float64(n))
			rot = rot && (f.Dim != factors["rot"].Dim || name == "rot")
		}
	}
	return size, rot
}

func near(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-12*math.Abs(b) }

func TestThePageReadsAnswersAsGoDoes(t *testing.T) {
	texts := []string{
		"", " ", " \t\u00a0", "\u200f", "abc", "cm", "cm 5", "-", "+", "--", "--3", "-+3", "+-3", "- 3", "(3)", "€5", "€",
		"π", "<script>", "<script>alert(1)</script>", "3<script>",
		"1e999", "1E3", "1e", "1e-3", "1e5x", "3 e9", "3 eggs", "1,234.5", "1.234,5", "1,234", "-12,345", "123,456",
		"1,234,567", "1.2.3", "1234,567", "0,125", ",125", "00,125", "1,2345",
		"1,234 mm", "1,234mm", "3 rot", "3 rotations", "1 rotation", "2 turns", "1 turn", "3 rotations/s", "3 cm/rotation",
		"20.4", "20,4", " 20.4 ", "20.40", ".5", ",5", "5.", "5,", "0", "-0", "00", "007", "٣٫٥", "٠١٢٣٤٥٦٧٨٩",
		"०१२३४५६७८९", "𝟗𝟖", "𝟎𝟏𝟘𝟙𝟶𝟿", "３．５", "３，５ ｃｍ", "－３", "＋３",
		"\u200f٣", "2\u00ad0.4", "\ufeff3", "3\u180e", "3\u2028cm", "3\u0085cm", "3\u3000cm", "204 mm", "20.4cm",
		"20.4\u00a0cm", "8 1/32 in", "8  1/32\"", "8 1/32”", "5'", "5’", "5′ 3″", "3 m/s", "3 kg",
		"3 m / s", "3 m/ s", "3 m /s", "½", "-½", "8½", "½3", "5 ½ ½", "3/½", "⅐", "⅞″", "3⁄4", "3∕4", "3／4", "1÷2", "1/0",
		"3 1/0", "1/00", "0/0", "0/5", "1/2/3", "1/2 1/0",
		"🙂", "5 🙂", "5🤖m", "90°", "90º", "90˚", "5 %", "5٪", "5％", "5%%", "5 in rot", "5 in in", "5 in %", "5 in", "5 to",
		"5 to 3", "5 π", "5π", "5 cm/π", "5 cm/to", "5 mπ", "5 a.π", "5 kit.wheel", "5 kit,wheel", "5.0 kit,wheel",
		"3 4", "3 + 4", "3=", "3 cm €", "3 cm 4", "5 constructor", "5 __proto__", "5 toString", "5 m·toString",
		"5 hasOwnProperty",
		"5 1/s", "5 1÷s", "51/s", "5 1 /s", "5 1/ s", "5 1/foo", "5 1/°", "5 m1/s", "5%1/s", "5.5 01/s", "1/2 1/s",
		"5 1/s/s", "5 1/s·m", "5 m/°", "5 °/s", "5 m/foo", "5 m·foo", "5 m*s", "5 m×s", "5 m÷s", "5 m//s", "5 m/", "5 m·",
		"5 m²", "5 m³", "5 m²³", "5²", "5 ²", "5 m ²", "5 %²", "5 m²s", "5 m^2", "5 m^ 2", "5 m ^2", "5 m^", "5 m^0",
		"5 m^9", "5 m^10", "5 m^2.5", "5 m^2.0", "5 m^02", "5 m^-2", "5 m^4/2", "5 m^3/2", "5 m^2 4/2", "5 m^2 1/2",
		"5 m^.5",
		"5 m^1/0", "5 m^9·m^1/0", "5 m^9·m", "5 m^9/m", "5 in^5·inch^5", "5 in^5·ft^5", "5 deg/deg", "5 deg/rad",
		"5 rot/rot", "5 m/m", "5 N^9/lb^9", "5 m^9·m x", "5 m^0 x", "5 foo bar",
		strings.Repeat("9", 30), strings.Repeat("9", 31), "0." + strings.Repeat("1", 29), "8" + strings.Repeat(" ",
			30) + "1/2", "m^" + strings.Repeat("0", 28) + "2", "5 m^" + strings.Repeat("0", 29) + "2",
		"5 m^" + strings.Repeat("0", 30) + "2",
		strings.Repeat("1", 60), strings.Repeat("1", 61), strings.Repeat(" ", 59) + "3", strings.Repeat(" ", 60) + "3",
		strings.Repeat("𝟗", 30), strings.Repeat("𝟗", 60), strings.Repeat("𝟗", 61), strings.Repeat("🙂", 61),
		"\ufffd", "3\ufffd", "3 cm\ufffd", "3 ℃", "3 Ω", "3 µm", "3 सेमी", "3_", "3 _a", "3 a_b", "3 m2", "3 e", "3 mm,",
		"3, mm", "3 mm.", "mm 3",
		"65 mm. ", "8 1/32 in.", "5 ft. 3 in.", "3 m.m", "3 m. m", "3. mm", "65. ", "65.5.", "3 m²", "3 m².", "5 %.", "5 °.",
		"15 cm / s", "15 cm per s", "15 cm PER second.", "15 centimetres per sec", "15 per s", "15 cm per", "5 per cent",
		"5 per cent.", "5 per  centre", "5per cent", "5 per cents", "3 m / s / s", "3 / 4 m", "4 m / 2", "37-3/8",
		"37-3/8 in",
		"37 - 3/8", "37 -3/8", "1/2-3/4", "3-4", "-37-3/8",
		"204 MM", "20.4 Cm", "5 ROTS", "5 Rotations", "4 sec", "4 SECS", "12 Centimeters", "12 cms", "3 revolutions",
		"3 RPM",
		"3 ml", "3 ML", "3 LBS", "3 n", "3 İn", "3 K", "5 TO", "5 In rot", "5 IN", "1E3", "1 E3", "3 Constructor",
		"3 ft 1 3/8 in", "3′ 1 3/8″", "3'1\"", "3ft 1in", "3 ft1 in", "3 ft 12 in", "3 ft 11.99 in", "3 ft 11 in x",
		"6cm 5mm",
		"5 m 2 cm", "1 min 20 s", "1 min 20 sec.", "2 cm 1 m", "3 cm 3 cm", "3.5 ft 1 in", "1/2 ft 1 in", "3 1/2 ft 1 in",
		"-3 ft 1 in", "3 ft -1 in", "3 ft 1", "3 ft 1 kg", "3 ft 1 1/0 in", "3 ft 1 in 2 mm", "3 m^2 1 cm", "3 m/s 1 cm/s",
		"1 rot 90°", "1 rotation 90 degrees", "1 rotation 1 rad", "5% 3 ppm", "5 % 3 %", "3 yd 2 ft", "3 ft 1-3/8 in",
		"3 ft 1,5 in", "1,030 ft 2 in", strings.Repeat("9", 30) + " ft 1 in", strings.Repeat("9", 31) + " ft 1 in",
		"1,000,000", "1.000.000,5", "1.000.000.5", "1\u202f000", "1\u2009000.500", "12 345 mm", "1234 567", "1 2345", "0 123",
		"1 000/3", "1 000 120/125", "1 000:3", "3 120/125", "1 000 ½", "1,000.5.", "1,000.5,", "1,000.5 ft 2 in",
		"1 000 ft 2 in", "€1,000.50", "−1.000,5", "(1 000)", "x1 000", "1 000,", "1 000,5,5", "1 000.000,5",
		"3 ft " + strings.Repeat("0", 30) + "1 in", "3 ft 0." + strings.Repeat("0", 30) + " in",
	}
	calls := make([]call, len(texts))
	for i, text := range texts {
		calls[i] = call{"read", text}
	}
	for i, got := range inNode[readResult](t, calls) {
		checkRead(t, texts[i], got)
	}
}

// TestThePageReadsNumbersOfALanguageWithCommasAsGoDoes is about packs in one; then classes that write points are the
// exception.
func TestThePageReadsNumbersOfALanguageWithCommasAsGoDoes(t *testing.T) {
	t.Parallel()
	german, _ := parse.PackFile(source.NewFile("pack.yaml", []byte("language: de\n"+ownUnits)))
	texts := []string{"1.030", "-1.030", "1.030 cm.", "1.030.", "12.345", "1.030,5", "1,030.5", "1.03", "0.998", "1,030",
		"1.030 ft", "x1.030", "1 1.030", "1.0304", "+ 999.999", "1.030 ft 2 in", "20,1", "20.1", "1.000,5", "１．０３０",
		"1.000.000", "1,000.5 cm", "1.000 000", "1\u202f000,500", "1 000"}
	r := typist{rand.New(rand.NewPCG(1, 31))}
	for range 4_000 {
		texts = append(texts, r.answer())
	}
	calls := []call{{"comma", true}}
	for i, text := range texts {
		calls = append(calls, call{"read", text, i%2 == 1}, call{"read", text, i%2 == 0})
	}
	for i, got := range inNode[readResult](t, calls)[1:] {
		text, other := calls[i+1][1].(string), calls[i+1][2].(bool)
		a, err := german.Vocabulary.ReadAnswer(text, other)
		compareRead(t, text, got, a, err)
	}
}

// TestThePageReadsDecimalCommasAsGoDoes is about classes that write them.
func TestThePageReadsDecimalCommasAsGoDoes(t *testing.T) {
	texts := []string{"1,030", "-1,030", "1,030 cm", "12,345", "1,030,5", "1.030,5", "1,030.5", "1,03", "0,998", "1.030",
		"1,030 ft", "x1,030", "1 1,030", "1,0304", "+ 999,999", "1 000,5", "1,000,000"}
	r := typist{rand.New(rand.NewPCG(1, 30))}
	for range 5_000 {
		texts = append(texts, r.answer())
	}
	calls := make([]call, len(texts))
	for i, text := range texts {
		calls[i] = call{"read", text, true}
	}
	for i, got := range inNode[readResult](t, calls) {
		a, err := ownWords(t).ReadAnswer(texts[i], true)
		compareRead(t, texts[i], got, a, err)
	}
}

func TestHalfACharacterIsRefusedAsGoRefusesABrokenOne(t *testing.T) {
	for i, got := range inNode[readResult](t, []call{
		{"read", json.RawMessage(`"\ud83d"`)}, {"read", json.RawMessage(`"3\ud83d"`)},
		{"read", json.RawMessage(`"1.2.\udc00 "`)},
	}) {
		checkRead(t, []string{"\xff", "3\xff", "1.2.\xff "}[i], got)
	}
}

func TestAHugeTextIsRefusedAtOnce(t *testing.T) {
	const length, times = 10_000_000, 1000
	type result struct {
		Fault        string
		Milliseconds float64
	}
	got := inNode[result](t, []call{{"often", "3", length, times}})[0]
	checkRead(t, strings.Repeat("3", length), readResult{Fault: got.Fault})
	// One walk over the text takes several milliseconds, a thousand take many seconds.
	if took := time.Duration(got.Milliseconds * float64(time.Millisecond)); took > time.Second {
		t.Errorf("a text of %d characters was refused %d times in %v", length, times, took)
	}
}

func TestDigitsBlanksAndInvisibleMarksOfAnyScriptAreReadAsGoDoes(t *testing.T) {
	var texts []string
	each := func(table *unicode.RangeTable, form string) {
		for _, r := range table.R16 {
			for c := rune(r.Lo); c <= rune(r.Hi); c += rune(r.Stride) {
				texts = append(texts, fmt.Sprintf(form, c))
			}
		}
		for _, r := range table.R32 {
			for c := rune(r.Lo); c <= rune(r.Hi); c += rune(r.Stride) {
				texts = append(texts, fmt.Sprintf(form, c))
			}
		}
	}
	each(unicode.Nd, "1%c5 m")
	each(unicode.No, "3 %c")
	each(unicode.White_Space, "3%c1/2")
	each(unicode.Cf, "3%c1/2")
	each(unicode.Pd, "%c3")
	each(unicode.Po, "3%c4")
	each(unicode.Sm, "3%c4")
	calls := make([]call, len(texts))
	for i, text := range texts {
		calls[i] = call{"read", text}
	}
	for i, got := range inNode[readResult](t, calls) {
		checkRead(t, texts[i], got)
	}
}

// typist types answers that are nearly right.
type typist struct{ *rand.Rand }

func (r typist) one(of ...string) string { return of[r.IntN(len(of))] }

func (r typist) number() string {
	digits := func(most int) string {
		s := ""
		for range 1 + r.IntN(most) {
			s += r.one("0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
		}
		return s
	}
	switch r.IntN(10) {
	case 9:
		groups, mark := digits(3), r.one(",", ".", " ", "\u00a0", "\u202f", "٬")
		for range 1 + r.IntN(2) {
			groups += mark + r.one("000", "125", digits(3))
		}
		return groups + r.one("", "", ".", ",") + r.one("", digits(3))
	case 0, 1:
		return digits(4)
	case 2, 3:
		return digits(3) + r.one(".", ",", "٫", "．") + digits(5)
	case 4:
		return digits(2) + r.one("/", "⁄", "／", "÷") + digits(2)
	case 5:
		return digits(2) + r.one(" ", "  ", "\u00a0") + digits(1) + "/" + digits(2)
	case 6:
		return r.one("", digits(2), digits(2)+" ") + r.one("½", "⅔", "⅞", "⅐")
	case 8:
		return digits(2) + ":" + r.one(digits(2), digits(2)+":"+digits(2), "30", "05", "30.5", "0", "")
	case 7:
		return digits(2) + r.one("٣", "３", "𝟗", "१") + r.one("", ".5", ",25", ",250", "/7")
	}
	return r.one(digits(40), ".", ".5", ",5", "5.", "", "1/0", "0", "00", "1e3")
}

var unitNames = slices.Sorted(maps.Keys(quantity.AnswerFactors()))

func (r typist) unit() string {
	s := r.one("", "", "", "", "1/", "1÷", "1")
	for {
		s += r.one("m", "cm", "s", "in", "rot", r.one(unitNames...), r.one(unitNames...), r.one("π", "to", "e", "e3", "E5",
			"wheels", "toString", "kit.wheel", "m2", "é"))
		s += r.one("", "", "", "", "²", "³", "^2", "^9", "^"+r.number(), "^")
		if r.IntN(2) == 0 {
			return s
		}
		s += r.one("/", "/", "/", "·", "·", "*", "×", "÷", "", " ", "/ ", " /", "//", "1/")
	}
}

func (r typist) anything() string {
	return r.one(r.unit(), r.number(), "", "", "", " ", " ", "-", "−", "+", "–", "(", ")", "=", "±", "^", "²", "/", "·",
		"%", "°", "\"", "'", "″", "’", "º", ".", ",", "٬",
		"€", "🙂", "\u200f", "\u00ad", "\u2028", "_", "x", "[", "<b>", strings.Repeat("7", 31))
}

func (r typist) answer() string {
	slots := []string{
		r.one("", "", "", " ", "\u200f"), r.one("", "", "", "-", "−", "+", "–", "- ", "--"), r.number(),
		r.one("", "", " ", " ", " ", "\u00a0", "\u202f\u2009"), r.one("", r.unit(), r.unit(), r.unit()), r.one("", "", "",
			" "),
	}
	for r.IntN(3) == 0 {
		slots[r.IntN(len(slots))] = r.anything()
	}
	return strings.Join(slots, "")
}

func TestThePageReadsWhatIsNearlyAnAnswerAsGoDoes(t *testing.T) {
	r := typist{rand.New(rand.NewPCG(20, 4))}
	texts := make([]string, 40_000)
	calls := make([]call, len(texts))
	for i := range texts {
		texts[i] = r.answer()
		calls[i] = call{"read", texts[i]}
	}
	seen := map[string]int{}
	for i, got := range inNode[readResult](t, calls) {
		seen[checkRead(t, texts[i], got)]++
	}
	for _, slug := range []string{
		"", "answer-empty", "answer-no-number", "answer-too-long", "answer-unclear", "answer-exponent", "answer-left-over",
		"unknown-unit", "unit-power", "division-by-zero", "number-too-long",
	} {
		if seen[slug] < 20 {
			t.Errorf("only %d of the texts end with %q: %v", seen[slug], slug, seen)
		}
	}
}

func TestThePageReadsUnitsAsGoDoes(t *testing.T) {
	r := typist{rand.New(rand.NewPCG(50, 8))}
	texts := slices.Clone(unitNames)
	for range 20_000 {
		texts = append(texts, strings.ReplaceAll(r.unit(), "\u00a0", " ")) // as read gives it on
	}
	calls := make([]call, len(texts))
	for i, text := range texts {
		calls[i] = call{"unit", text}
	}
	for i, got := range inNode[*unitSize](t, calls) {
		u, err := (*quantity.Vocabulary)(nil).ReadUnit(texts[i])
		if (err == nil) != (got != nil) {
			t.Errorf("%q: the page takes it for %+v, Go says %v", texts[i], got, err)
		} else if got != nil {
			checkUnit(t, texts[i], *got, u)
		}
	}
	if got := inNode[*unitSize](t, []call{{"unit", ""}})[0]; got == nil || *got != (unitSize{Num: 1, Den: 1, Rot: true}) {
		t.Errorf("a plain number has the unit %+v", got)
	}
}

func TestThePageConvertsAsGoDoesToTheLastBitWhereNoRadianIsInIt(t *testing.T) {
	r := typist{rand.New(rand.NewPCG(21, 81))}
	units := append([]string{"", "cm/s", "m/min", "1/s", "rot/s", "deg/s", "rot·m", "deg·m", "deg/deg", "m^2", "in^2",
		"ft²", "mL", "cm^3", "g·m/s", "kg·m/s/s", "g/mol", "rot^2", "1/rot"}, unitNames...)
	var calls []call
	for _, from := range units {
		for _, to := range units {
			for _, x := range []float64{20, 1, 0, -r.ExpFloat64() * 100, math.Round(r.Float64()*1000) / 10} {
				calls = append(calls, call{"convert", x, from, to})
			}
		}
	}
	for i, got := range inNode[*float64](t, calls) {
		x, from, to := calls[i][1].(float64), unitOf(t, calls[i][2].(string)), unitOf(t, calls[i][3].(string))
		want, ok := quantity.New(x, from).In(to)
		radian := strings.Contains(from.String()+to.String(), "rad")
		if ok != (got != nil) || ok && *got != want.Number && !(radian && near(*got, want.Number)) {
			t.Errorf("%v %s is %v %s by Go (%v), the page says %s", x, from, want.Number, to, ok, show(got))
		}
	}
}
