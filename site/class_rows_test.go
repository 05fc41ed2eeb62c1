package site_test

// Whose runs the class's page counts, and what it reads in them, against tally, on random classes.

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/tally"
)

const countRuns = `
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const { units, names, comma, fields, classes } = JSON.parse(text);
	Object.assign(trundle, { units, names, comma });
	const tell = (name, ...parts) => name;
	process.stdout.write(JSON.stringify(classes.map((files) => {
		const roster = trundle.roster("canal 2026-27", trundle.renames("canal 2026-27", "1"));
		for (const { Name, Text } of files) roster.add(Name, Text);
		const all = Object.entries(roster.teams).flatMap(([team, { lessons }]) => {
			const own = trundle.entriesOf(lessons, "go", fields);
			return own ? [{ team, base: "", ...own }] : [];
		});
		const { rows } = trundle.runsOf(fields, all, [...roster.tables.values()], tell);
		const out = {};
		for (const { team, numbers } of rows)
			for (const name in numbers) ((out[name] ??= {})[team] ??= []).push(numbers[name]);
		return out;
	})));
});`

// typedRuns are what teams write into a box for a run: both marks, fractions, other units, what may mean two things,
// and what is no run at all.
var typedRuns = []string{"120", "119.5", "119,5", "1,030", "1.030", "0,030", "0.030", ",5", ".5", "−4", "- 4",
	"47.5 in", "47,5 in", "47 1/2 in", "8½ in", "1.2 m", "1,205 m", "1.205 m", "3 ft 11 in", "118 cm.", "far", "", "  ",
	"1.203,5", "1,203.5", "1\u202f203,5",
	"1 203 mm", "1.203.5", "1.000.000", "10000000000000", "1e3", "120 kg", "half past three", "1:30", "#", "१२०",
	"12.5, I think"}

type classFile struct{ Name, Text string }

// randomFiles makes the files of a class: works of few teams, some saved more than once and some under earlier names,
// tables, and perhaps a class file of them.
func randomFiles(r *rand.Rand) []classFile {
	team := func() string { return []string{"A", "B", "C", "D 1"}[r.IntN(4)] }
	texts := typedRuns
	if n := r.IntN(3); n < 2 { // most teams keep to one mark
		texts = slices.DeleteFunc(slices.Clone(typedRuns), func(s string) bool { return strings.Contains(s, ".,"[n:n+1]) })
	}
	var works []json.RawMessage
	var all, tables []classFile
	for i := range 1 + r.IntN(4) {
		entries := map[string]string{"why": "we drove 1.5 or 2,5 m and then back"}
		for _, name := range []string{"stop", "drift"} {
			if r.IntN(6) == 0 {
				name = "far"
			}
			for k := range r.IntN(12) {
				entries[fmt.Sprintf("%s-%d", name, k+1)] = texts[r.IntN(len(texts))]
			}
		}
		lesson := []string{"go", "go", "go", "01-go", "drive", "turn"}[r.IntN(6)]
		work := map[string]any{"trundle": "work", "form": 1, "pack": "canal 2026-27", "team": team(),
			"lessons": map[string]any{"": map[string]string{"@kit": "1.5"}, lesson: entries}}
		if r.IntN(3) > 0 {
			work["saves"] = r.IntN(3)
		}
		text, _ := json.Marshal(work)
		works, all = append(works, text), append(all, classFile{fmt.Sprintf("%d.json", i), string(text)})
	}
	for i := range r.IntN(3) {
		mark, unit, stop := ",", "cm", func() string { return fmt.Sprintf("%.1f", 110+20*r.Float64()) }
		if r.IntN(2) == 0 {
			mark, unit = ";", "in"
			large := r.IntN(3) == 0
			stop = func() string {
				thousands := ""
				if large {
					thousands = []string{"1.0", "1 0", "1\u202f0", ""}[r.IntN(4)]
				}
				return fmt.Sprintf("%s%d,%d", thousands, 40+r.IntN(10), r.IntN(10))
			}
		}
		lines := []string{strings.Join([]string{"team", "run", "stop (" + unit + ")"}, mark)}
		for k := range 1 + r.IntN(4) {
			lines = append(lines, strings.Join([]string{team(), fmt.Sprint(k + 1), stop()}, mark))
		}
		tables = append(tables, classFile{fmt.Sprintf("%d.csv", i), strings.Join(lines, "\r\n")})
	}
	if r.IntN(3) > 0 {
		return append(all, tables...)
	}
	inClass := []any{}
	for range r.IntN(3) {
		inClass = append(inClass, map[string]string{"name": "hand.csv", "text": handMade(r)})
	}
	if len(tables) > 0 {
		inClass = append(inClass, map[string]string{"name": tables[0].Name, "text": tables[0].Text})
	}
	text, _ := json.Marshal(map[string]any{"trundle": "class", "form": 1, "works": works, "tables": inClass})
	at := r.IntN(len(all) + 1)
	return append(slices.Insert(all[:at:at], 0, classFile{"class.json", string(text)}), tables...)
}

// handMade is a table that somebody typed, who left out a team, a unit, a cell, or wrote what is no number.
func handMade(r *rand.Rand) string {
	mark := []string{",", ";"}[r.IntN(2)]
	one := func(of ...string) string { return of[r.IntN(len(of))] }
	heads := []string{one("team", "who", "Team"), one("stop (cm)", "stop (in)", "stop (cm)", "stop (kg)", "stop (foo)"),
		one("drift", "drift (mm)", "drift (cm)", "drift", "stop (mm)", "", "notes")}
	lines := []string{strings.Join(heads, mark)}
	for range 1 + r.IntN(4) {
		row := []string{one("A", "B", "C", "D 1", ""), one("119.5", "121", "118", "1.030", "1 190 mm", "4 ft", "1.119,5"),
			one("3", "4", "-2.5", "5", "")}
		if r.IntN(12) == 0 {
			row[1+r.IntN(2)] = one("far", "119.5 kg", "1e14", `"`, `"1,5"`, `a"b`, `"a"b`, `""`, "119,5")
		}
		lines = append(lines, strings.Join(row, mark))
	}
	return strings.Join(lines, one("\n", "\r\n"))
}

func TestThePageCountsTheRunsThatTallyCounts(t *testing.T) {
	const classes = 400 // so many take a second
	pack := pondPack()
	given := map[string]any{"units": unitSizes(t), "names": map[string]any{"pack": "canal", "sum": "1",
		"lessons": pack.LessonsNow, "boxes": pack.BoxesNow}, "fields": []map[string]any{
		{"k": "record", "n": "stop", "u": "cm", "c": 3}, {"k": "record", "n": "drift", "u": "mm", "c": 2}}}
	scripts := ""
	for _, name := range []string{"say", "names", "files", "read", "show", "rows", "values", "class/table", "class/rows",
		"class/roster"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts += string(text)
	}
	r, runs := rand.New(rand.NewPCG(23, 3)), 0
	for _, hasCommas := range []bool{false, true} {
		pack.Words = &quantity.Vocabulary{}
		if hasCommas {
			pack.Words.UseCommas()
		}
		var asked [][]classFile
		for range classes / 2 {
			asked = append(asked, randomFiles(r))
		}
		given["comma"], given["classes"] = hasCommas, asked
		got := nodeReads[[]map[string]map[string][]float64](t, scripts+countRuns, given)
		for i, files := range asked {
			var all []*source.File
			for _, f := range files {
				all = append(all, source.NewFile(f.Name, []byte(f.Text)))
			}
			report, _ := tally.Of(all, tally.Options{By: "team", Pack: pack, Lesson: &pack.Lessons[0]})
			runs += report.Runs
			if want := runsByTeam(report); !sameRuns(got[i], want) {
				t.Errorf("class %d, commas %t: the page counts\n%v, tally\n%v of\n%v", i, hasCommas, got[i], want, files)
			}
		}
	}
	if runs < 5*classes {
		t.Errorf("there are only %d runs in %d classes", runs, classes)
	}
}

// pondPack is a pack with one lesson of two records, which was called otherwise before.
func pondPack() *tally.Pack {
	cm, _ := quantity.LookupUnit("cm")
	mm, _ := quantity.LookupUnit("mm")
	return &tally.Pack{Language: "en", Keys: []string{"canal"}, Season: "2026-27", Lessons: []tally.Lesson{{Slug: "01-go",
		Key: "go", Records: []tally.Record{{Name: "stop", Unit: cm, Runs: 3}, {Name: "drift", Unit: mm, Runs: 2}}}},
		LessonsNow: map[string]string{"01-go": "go", "drive": "go"},
		BoxesNow:   map[string]map[string]string{"go": {"far": "stop"}}}
}

// runsByTeam are the runs of each column and team, in the unit of the lesson.
func runsByTeam(report *tally.Report) map[string]map[string][]float64 {
	all := map[string]map[string][]float64{}
	units := map[string]string{"stop": "cm", "drift": "mm"}
	for _, c := range report.Columns {
		all[c.Name] = map[string][]float64{}
		to, _ := quantity.LookupUnit(units[c.Name])
		for _, g := range c.Groups {
			for _, x := range g.Values {
				in, _ := quantity.New(x, c.Unit).In(to)
				all[c.Name][g.Name] = append(all[c.Name][g.Name], in.Number)
			}
		}
	}
	return all
}

// sameRuns compares runs in any order.
func sameRuns(a, b map[string]map[string][]float64) bool {
	for _, name := range []string{"stop", "drift"} {
		for _, team := range []string{"A", "B", "C", "D 1", ""} {
			x, y := slices.Sorted(slices.Values(a[name][team])), slices.Sorted(slices.Values(b[name][team]))
			same := func(p, q float64) bool { return closeTo(&p, q, 1) }
			if !slices.EqualFunc(x, y, same) {
				return false
			}
		}
	}
	return true
}
