package site_test

// The page judges answers with a script of its own. These tests run it in node beside the rule in Go.

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/words"
)

// judging answers calls: a field, an answer, the other entries; each verdict as the page has it.
const judging = `
const vm = require("vm"), fs = require("fs");
for (const name of ["say", "read", "show", "run", "judge", "rows", "values"])
  vm.runInThisContext(fs.readFileSync("scripts/" + name + ".js", "utf8"), name);
const input = JSON.parse(fs.readFileSync(0, "utf8"));
Object.assign(trundle, input.given);
process.stdout.write(JSON.stringify(input.calls.map(({ fields, entries, name, comma }) => {
  trundle.comma = comma;
  trundle.other = trundle.writesOther(entries);
  return trundle.values(fields, entries, {}).verdicts[name];
})));
`

type verdict struct {
	Right, Odd bool
	Text       string
}

// A judged is an answer to be judged: the fields of a lesson, the entries, and the find that is asked about.
type judged struct {
	Fields  []map[string]any  `json:"fields"`
	Entries map[string]string `json:"entries"`
	Name    string            `json:"name"`
	Comma   bool              `json:"comma"` // the pack's language has one before decimals
}

func verdicts(t *testing.T, calls []judged) []verdict {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Fatal("these tests need node: ", err)
	}
	all, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	said := all.StartingWith("check-")
	said["quote"] = "“{}”" // of forms.yaml
	given := map[string]any{"units": unitSizes(t), "words": said}
	input, err := json.Marshal(map[string]any{"given": given, "calls": calls})
	if err != nil {
		t.Fatal(err)
	}
	var out, complaint bytes.Buffer
	cmd := exec.Command(node, "-e", judging)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(input), &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v\n%s", err, complaint.String())
	}
	var results []verdict
	if err := json.Unmarshal(out.Bytes(), &results); err != nil {
		t.Fatal(err)
	}
	return results
}

// find is a field of the page, with a program in place of a formula.
func find(name, unit, program, step string, tolerance work.Tolerance, slips ...[2]string) map[string]any {
	return map[string]any{"n": name, "k": "find", "u": unit, "p": program, "to": step,
		"t": []float64{tolerance.Within, tolerance.Part}, "s": slips}
}

func TestThePageTakesForRightWhatGoDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(121, 68))
	var calls []judged
	var want []bool
	for range 5_000 {
		tolerance := work.Tolerance{Within: []float64{0, 0.005, 0.05, 1.0 / 32, 0.5}[r.IntN(5)],
			Part: []float64{0, 0.001, 0.01}[r.IntN(3)]}
		x := math.Round(r.NormFloat64()*20000) / 100
		off := (tolerance.Within + tolerance.Part*math.Abs(x)) * []float64{0, 0.5, 0.99, 1, 1.01, 2}[r.IntN(6)]
		answer := x + off*float64(1-2*r.IntN(2))
		calls = append(calls, judged{
			Fields:  []map[string]any{find("y", "cm", show(&x), "", tolerance)},
			Entries: map[string]string{"y": plainly(answer)}, Name: "y",
		})
		read, err := (*quantity.Vocabulary)(nil).ReadAnswer(plainly(answer), false)
		if err != nil {
			t.Fatal(err)
		}
		typed := read.Number.Float()
		if read.Negative {
			typed = -typed
		}
		want = append(want, tolerance.Near(typed, x))
	}
	right := 0
	for i, got := range verdicts(t, calls) {
		if got.Right != want[i] {
			t.Errorf("%v: the page says %q, Go %v", calls[i], got.Text, want[i])
		}
		if got.Right {
			right++
		}
	}
	if right < 1000 || right > 4000 {
		t.Errorf("%d of %d are right; this tells little", right, len(calls))
	}
}

func plainly(x float64) string {
	return strings.TrimRight(strings.TrimRight(quantity.FormatStep(x, tenths), "0"), ".")
}

var tenths = func() quantity.Rounding {
	n, _, _, _ := quantity.NewParser("0.0000000001", func(i int) int { return i }).Number("a step")
	return n.Step()
}()

// TestWhatATeacherWouldSayOfAnAnswer types what children have typed.
// fieldsOfATeacher are the boxes of a lesson with every kind of mistake in reach.
func fieldsOfATeacher() []map[string]any {
	const pi = "3.141592653589793"
	d := map[string]any{"n": "d", "k": "measure", "u": "mm", "b": []float64{10, 400, 1}}
	stops := map[string]any{"n": "s", "k": "record", "u": "cm", "c": 5, "b": []float64{20, 700, 0}}
	half := func(step float64) work.Tolerance { return work.Tolerance{Within: step / 2} }
	round := find("C", "cm", "d "+pi+" * 10 /", "0.1", work.Tolerance{Within: 0.05, Part: 0.001})
	turns := find("n", "rotations", "121.92 d "+pi+" * 10 / /", "0.01", work.Tolerance{Within: 0.005, Part: 0.001},
		[2]string{"d " + pi + " * 10 / 121.92 /", "The distance goes on top."},
		[2]string{"0.004", "Is your calculator set to radians?"})
	mean := find("avg", "cm", "s mean:1", "0.1", half(0.1), [2]string{"s median:1", "That is the middle one."})
	gap := find("gap", "in", "0.32", "0.01", half(0.01))
	back := find("back", "cm", "-2.2", "0.1", half(0.1), [2]string{"121.1 121.1 -", "That would be so without a lean."})
	time := find("wait", "s", "4", "0.1", half(0.1))
	part := find("f", "", "1.03", "0.001", half(0.001))
	return []map[string]any{d, stops, round, turns, mean, gap, back, time, part}
}

func TestWhatATeacherWouldSayOfAnAnswer(t *testing.T) {
	fields := fieldsOfATeacher()
	entries := func(name, text string, more ...string) judged {
		all := map[string]string{"d": "65", "s-1": "121.1", "s-2": "122.6", "s-3": "121.4", "s-4": "121.9", "s-5": "121.4"}
		for i := 0; i < len(more); i += 2 {
			all[more[i]] = more[i+1]
		}
		all[name] = text
		return judged{Fields: fields, Entries: all, Name: name}
	}
	commas := []string{"s-1", "121,1", "s-2", "122,6", "s-3", "121,4", "s-4", "121,9", "s-5", "121,4"}
	cases := []struct {
		judged
		want string
	}{
		{entries("C", "20.4"), "Right"}, {entries("C", "19.5"), "Look at your π"}, {entries("C", "20.15"), "Look at your π"},
		{entries("C", "10.2"), "Half of"}, {entries("C", "40.8"), "Twice"}, {entries("C", "8.04"), "Inches"},
		{entries("C", "204 mm."), "Right"}, {entries("C", "20.4 Centimetres"), "Right"},
		{entries("C", "20.4 mm"), "not in mm. This box asks for cm"}, {entries("C", "5 sec"), "sec does not fit"},
		{entries("C", "5 wheels"), "Try mm, cm, m, in, ft."}, {entries("C", "0 ft 8 1/32 in"), "Right"},
		{entries("n", "5.97 rots"), "Right"}, {entries("n", "6.25"), "Look at your π"}, {entries("n", "0.17"), "goes on top"},
		{entries("n", "2.985"), "Half of"}, {entries("n", "11.94"), "Twice"}, {entries("n", "37.5"), "Not yet"},
		{entries("n", "0"), "Not yet"}, {entries("n", "2150"), "right in °"}, {entries("n", "5.97 °"), "not in °"},
		{entries("n", "5 wheels"), "Try °, rotations."},
		{entries("avg", "121.68"), "Right"}, {entries("avg", "121.7"), "Right"}, {entries("avg", "121.6"), "Not yet"},
		{entries("avg", "121.85"), "Not yet"}, {entries("avg", "121.4"), "the middle one"},
		{entries("C", "204.2", "d", "650"), "Right for these numbers, but look at d first: 650\u00a0mm?"},
		{entries("n", "0.6", "d", "650"), "Right for these numbers, but look at d first"},
		{entries("n", "6", "d", "650"), "Look at d first: 650\u00a0mm? The digits are right."},
		{entries("avg", "339.2", "s-3", "1209"), "Right for these numbers, but look at run 3 of s first: 1209\u00a0cm?"},
		{entries("avg", "121.7", "s-3", "1209"), "Look at run 3 of s first: 1209\u00a0cm?"},
		{entries("gap", "0.1"), "Not yet"}, {entries("gap", "3 kg"), "This box asks for inches (in)."},
		{entries("back", "0"), "without a lean"},
		{entries("wait", "4 min"), "not in min. This box asks for s"}, {entries("wait", "4 sec"), "Right"},
		{entries("wait", "4 secs please"), "This cannot be read"}, {entries("wait", "4 x"), "Try s, min."},
		{entries("f", "1.03 x"), "“x” does not fit here. This box asks for a number without a unit."},
		{entries("f", "1,030"), "Do you mean 1.030 or 1030?"}, {entries("f", "1,030", commas...), "Right"},
		{entries("f", "1,031", commas...), "Not yet"}, {entries("f", "1,030", append(commas, "d", "65.0")...), "Do you mean"},
	}
	calls := make([]judged, len(cases))
	for i, c := range cases {
		calls[i] = c.judged
	}
	for i, got := range verdicts(t, calls) {
		c := cases[i]
		if strings.HasPrefix(c.want, "Right for") != (got.Right && got.Odd) {
			t.Errorf("%s: %q is right: %v, odd: %v", c.Name, c.Entries[c.Name], got.Right, got.Odd)
		}
		if !strings.Contains(got.Text, c.want) || got.Right != strings.HasPrefix(c.want, "Right") {
			t.Errorf("%s: %q is told %q; something about %q was expected", c.Name, c.Entries[c.Name], got.Text, c.want)
		}
	}
}

// TestAnAnswerIsJudgedWithCommasWhereTheLanguageHasThem: either mark is taken, and a point that may be one of thousands
// is asked about.
func TestAnAnswerIsJudgedWithCommasWhereTheLanguageHasThem(t *testing.T) {
	cases := []struct {
		name, text, d, want string
	}{
		{"C", "20,4", "65", "Right"}, {"C", "20.4", "65", "Right"}, {"f", "1,030", "65", "Right"},
		{"f", "1.030", "65", "Do you mean 1,030 or 1030?"}, {"f", "1.030", "65,0", "Do you mean 1,030 or 1030?"},
		{"f", "1.030", "65.0", "Right"}, {"C", "204,2", "65,0", "decimal point"},
		{"C", "2,5", "0,8", "Look at d first: 0,8\u00a0mm?"},
	}
	calls := make([]judged, len(cases))
	for i, c := range cases {
		entries := map[string]string{"d": c.d, c.name: c.text}
		calls[i] = judged{Fields: fieldsOfATeacher(), Entries: entries, Name: c.name, Comma: true}
	}
	for i, got := range verdicts(t, calls) {
		if !strings.Contains(got.Text, cases[i].want) {
			t.Errorf("%+v is told %q", cases[i], got.Text)
		}
	}
}

// TestALineTakesTheRunsThatBothRecordsHave leaves out run 2 of the distances and run 4 of the rotations, of a robot
// that goes 20 cm with each rotation.
func TestALineTakesTheRunsThatBothRecordsHave(t *testing.T) {
	record := func(name, unit string) map[string]any {
		return map[string]any{"n": name, "k": "record", "u": unit, "c": 5}
	}
	slope := find("k", "cm/rotation", "way turns fit_slope:2", "0.1", work.Tolerance{Within: 0.05})
	entries := map[string]string{"way-0": "4", "turns-0": "4", "k": "20",
		"way-1": "21", "way-3": "61", "way-4": "81", "way-5": "101",
		"turns-1": "1", "turns-2": "2", "turns-3": "3", "turns-5": "5"}
	fields := []map[string]any{record("way", "cm"), record("turns", "rotations"), slope}
	got := verdicts(t, []judged{{Fields: fields, Entries: entries, Name: "k"}})
	if !got[0].Right {
		t.Errorf("20 cm for each rotation is told %q", got[0].Text)
	}
}
