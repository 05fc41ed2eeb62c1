package tally_test

// Tests of saved work and class files: by which mark their numbers are read, whose work counts, and what is refused.

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/tally"
)

// packWith is a pack of two lessons, in a language with decimal commas or without.
func packWith(t *testing.T, commas bool) *tally.Pack {
	t.Helper()
	words := &quantity.Vocabulary{}
	if commas {
		words.UseCommas()
	}
	cm, _ := quantity.LookupUnit("cm")
	records := []tally.Record{{Name: "stop", Unit: cm, Runs: 3}}
	return &tally.Pack{Language: "en", Keys: []string{"canal"}, Season: "2026-27", Words: words,
		Kits: map[string]string{"heron": "Heron"}, Lessons: []tally.Lesson{
			{Slug: "01-go", Key: "go", Records: records},
			{Slug: "02-turn", Key: "turn", Records: []tally.Record{{Name: "angle", Unit: cm, Runs: 3}}},
		},
		LessonsNow: map[string]string{"01-go": "go", "02-turn": "turn", "drive": "go"},
		BoxesNow:   map[string]map[string]string{"go": {"far": "stop"}}}
}

// work is a team's saved work with runs of a record.
func work(team string, saves int, lesson, record string, runs ...string) map[string]any {
	entries := map[string]string{}
	for i, text := range runs {
		entries[fmt.Sprintf("%s-%d", record, i+1)] = text
	}
	return map[string]any{"trundle": "work", "form": 1, "pack": "canal 2026-27", "team": team, "saves": saves,
		"lessons": map[string]any{"": map[string]string{"@kit": "heron"}, lesson: entries}}
}

// inJSON is a value as a file.
func inJSON(t *testing.T, name string, value any) *source.File {
	t.Helper()
	text, err := json.MarshalIndent(value, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return source.NewFile(name, text)
}

// told puts files together by team and gives each team's runs of the first column, and the kinds of what is said.
func told(files []*source.File, o tally.Options) (runs string, said []string) {
	o.By = "team"
	report, problems := tally.Of(files, o)
	for _, p := range problems.Sorted() {
		said = append(said, fmt.Sprintf("%s:%d %s", p.File.Name, p.File.Position(p.Span.Start).Line, p.Slug))
	}
	if len(report.Columns) > 0 {
		for _, g := range report.Columns[0].Groups {
			runs += fmt.Sprint(g.Name, g.Values)
		}
	}
	return runs, said
}

func TestSavedWorkIsReadByTheMarkOfThePacksLanguage(t *testing.T) {
	for _, c := range []struct {
		commas bool
		runs   []string
		want   string
	}{
		{false, []string{"119.5", "1,030"}, "Otters[119.5]"}, // perhaps a thousand
		{false, []string{"119,5", "1,030"}, "Otters[119.5 1.03]"},
		{true, []string{"119,5", "1.030"}, "Otters[119.5]"},
		{true, []string{"119.5", "1.030"}, "Otters[119.5 1.03]"},
		{false, []string{"1.119,5", "1,030"}, "Otters[1119.5 1.03]"},
		{true, []string{"1,119.5", "1.030"}, "Otters[1119.5 1.03]"},
		{false, []string{"1,119.5", "1,030", "119,5"}, "Otters[1119.5 119.5]"},
		{true, []string{"119,5", "119.5", "1,030"}, "Otters[119.5 119.5 1.03]"},
	} {
		got, _ := told([]*source.File{inJSON(t, "otters.json", work("Otters", 1, "go", "stop", c.runs...))},
			tally.Options{Pack: packWith(t, c.commas)})
		if got != c.want {
			t.Errorf("commas %t, %q: %s, want %s", c.commas, c.runs, got, c.want)
		}
	}
}

func TestWhatATeamSavedLastCounts(t *testing.T) {
	first, second := work("A", 4, "go", "stop", "1", "2"), work("A", 5, "go", "stop", "3", "4")
	equal := work("A", 5, "go", "stop", "5", "6")
	turned := work("A", 3, "turn", "angle", "7", "8")
	b := work("B", 1, "go", "stop", "9")
	class := map[string]any{"trundle": "class", "form": 1, "works": []any{first, b}, "tables": []any{}}
	for name, c := range map[string]struct {
		files []any
		want  string
		said  []string
	}{
		"newer first":   {[]any{second, first}, "A[3 4]", []string{"1.json:1 older-work"}},
		"newer last":    {[]any{first, second}, "A[3 4]", []string{"0.json:1 older-work"}},
		"as often":      {[]any{second, equal}, "A[5 6]", []string{"0.json:1 older-work"}},
		"other lesson":  {[]any{second, turned}, "A[3 4]", nil},
		"older class":   {[]any{class, second}, "A[3 4]B[9]", nil},
		"class and own": {[]any{class, first}, "A[1 2]B[9]", nil},
	} {
		var files []*source.File
		for i, value := range c.files {
			files = append(files, inJSON(t, fmt.Sprintf("%d.json", i), value))
		}
		p := packWith(t, false)
		got, said := told(files, tally.Options{Pack: p, Lesson: p.Named("1")})
		groups := strings.SplitAfter(got, "]")
		slices.Sort(groups)
		if strings.Join(groups, "") != c.want || !slices.Equal(said, c.said) {
			t.Errorf("%s: %s %q, want %s %q", name, got, said, c.want, c.said)
		}
	}
}

func TestEarlierNamesOfLessonsAndBoxesAreFollowed(t *testing.T) {
	p := packWith(t, false)
	got, said := told([]*source.File{inJSON(t, "a.json", work("A", 1, "drive", "far", "1", "2"))}, tally.Options{Pack: p})
	if got != "A[1 2]" || said != nil {
		t.Errorf("%s %q", got, said)
	}
}

func TestRunsOfATeamThatAreInItsSavedWorkDoNotCountAgainFromATable(t *testing.T) {
	p := packWith(t, false)
	saved := inJSON(t, "a.json", work("A", 1, "go", "stop", "1", "2"))
	table := source.NewFile("all.csv", []byte("team,base,run,stop (cm)\nB,Heron,1,3\nA,Heron,1,1\nA,Heron,2,2\n"))
	for _, files := range [][]*source.File{{saved, table}, {table, saved}} {
		got, said := told(files, tally.Options{Pack: p})
		if !strings.Contains(got, "A[1 2]") || !strings.Contains(got, "B[3]") ||
			!slices.Equal(said, []string{"all.csv:3 counted-twice"}) {
			t.Errorf("%s %q", got, said)
		}
	}
	own := source.NewFile("a.csv", []byte("team,base,run,stop (cm)\nA,Heron,1,1\n"))
	if got, said := told([]*source.File{own, saved}, tally.Options{Pack: p}); got != "A[1 2]" ||
		!slices.Equal(said, []string{"a.csv:2 counted-twice"}) {
		t.Errorf("%s %q", got, said)
	}
}

func TestTablesOfAClassAreThoseOfTheLessonThatCanBeRead(t *testing.T) {
	p := packWith(t, false)
	table := func(name, text string) map[string]string { return map[string]string{"name": name, "text": text} }
	const sound = "team,base,run,stop (cm)\nB,Heron,1,3\n"
	class := map[string]any{"trundle": "class", "form": 1, "works": []any{work("A", 1, "go", "stop", "1", "2")},
		"tables": []any{
			table("b.csv", sound),
			table("../../etc/c.csv", "team,base,run,stop (cm)\nC,Heron,1,3\nC,Heron,2,far\n"),
			table("d.csv", "team,base,run,angle (cm)\nD,Heron,1,3\n"),
			table("e.csv", "\"team"), 5, table("a.csv", "team,base,stop (cm)\nA,Heron,9\n"),
		}}
	want := []string{"class.json:1 other-lessons", "class.json/a.csv:2 counted-twice",
		"class.json/c.csv:1 table-left-out", "class.json/c.csv:3 not-a-number",
		"class.json/e.csv:1 broken-table", "class.json/e.csv:1 empty-table", "class.json/e.csv:1 table-left-out"}
	slices.Sort(want)
	files := []*source.File{inJSON(t, "class.json", class), source.NewFile("b.csv", []byte(sound))}
	got, said := told(files, tally.Options{Pack: p, Lesson: p.Named("1")})
	slices.Sort(said)
	if got != "A[1 2]B[3]" || !slices.Equal(said, append([]string{"b.csv:1 same-file"}, want...)) {
		t.Errorf("%s\n%q\n%q", got, said, want)
	}
	report, _ := tally.Of(files, tally.Options{Pack: p, Lesson: p.Named("1")})
	if !slices.Equal(report.Files, []string{"class.json"}) || report.Teams != 2 || report.Runs != 3 {
		t.Errorf("it counts %q, %d teams, %d runs", report.Files, report.Teams, report.Runs)
	}
}

// The page of the class does so, too.
func TestNumbersAreInTheUnitOfTheLesson(t *testing.T) {
	inches := source.NewFile("a.csv", []byte("team,base,run,stop (in)\nA,Heron,1,50\n"))
	bare := source.NewFile("b.csv", []byte("team,base,run,stop\nB,Heron,1,120\nB,Heron,2,4 ft\n"))
	for _, c := range []struct {
		pack       *tally.Pack
		unit, want string
	}{{packWith(t, false), "cm", "A[127]B[120 121.92]"}, {nil, "in", "A[50]"}} {
		files := []*source.File{inches, bare}
		if c.pack == nil {
			files = files[:1]
		}
		got, said := told(files, tally.Options{Pack: c.pack})
		report, _ := tally.Of(files, tally.Options{Pack: c.pack, By: "team"})
		if got != c.want || said != nil || report.Columns[0].Unit.String() != c.unit {
			t.Errorf("%s %q in %s, want %s in %s", got, said, report.Columns[0].Unit, c.want, c.unit)
		}
	}
}

func TestATableOfAClassWithoutTeamOrBaseHasRunsOfNobody(t *testing.T) {
	hand := map[string]string{"name": "hand.csv", "text": "stop (cm),battery\n3,full\n4,7.2 V\n"}
	class := inJSON(t, "class.json", map[string]any{"trundle": "class", "form": 1, "tables": []any{hand},
		"works": []any{work("A", 1, "go", "stop", "1", "2")}})
	if got, said := told([]*source.File{class}, tally.Options{Pack: packWith(t, false)}); got != "[3 4]A[1 2]" &&
		got != "A[1 2][3 4]" || said != nil {
		t.Errorf("%s %q", got, said)
	}
}

func TestATeamWhoseRunsAreInATableIsNotSaidToHaveNone(t *testing.T) {
	away, there := work("B", 1, "turn", "angle", "7"), work("A", 1, "turn", "angle", "7")
	table := source.NewFile("a.csv", []byte("team,base,run,stop (cm)\nA,Heron,1,3\n"))
	p := packWith(t, false)
	got, said := told([]*source.File{inJSON(t, "a.json", there), inJSON(t, "b.json", away), table},
		tally.Options{Pack: p, Lesson: p.Named("1")})
	if got != "A[3]" || !slices.Equal(said, []string{"b.json:1 no-runs"}) {
		t.Errorf("%s %q", got, said)
	}
}

func TestHostileWorkAndClassesAreRefusedWithASentence(t *testing.T) {
	for text, want := range map[string]string{
		`{"trundle": "class", "form": 1, "wor`:                                        "not-runs",
		`{"trundle":"class"}`:                                                         "not-runs",
		`{"trundle":"class","form":9,"works":[],"tables":[]}`:                         "not-runs",
		`{"trundle":"class","form":1,"works":{},"tables":[]}`:                         "not-runs",
		`{"trundle":"class","form":1,"works":[]}`:                                     "not-runs",
		`{"trundle":"class","form":1,"works":[],"tables":[]}`:                         "no-runs",
		`{"trundle":"class","form":1,"works":[1,{},null],"tables":[null]}`:            "not-runs",
		`{"trundle":"class","form":1,"works":[{"trundle":"work"}],"tables":[]}`:       "not-runs",
		`{"trundle":"class","form":1,"works":[[[[` + strings.Repeat("[", 20000):       "not-runs",
		`{"a":` + strings.Repeat(`{"a":`, 20000):                                      "not-runs",
		`[1, 2]`:                                                                      "not-runs",
		`{"trundle":"work","form":1,"pack":"canal 2026-27"}`:                          "not-runs",
		`{"trundle":"work","form":1,"pack":"canal 2026-27","lessons":{"go":{"a":1}}}`: "not-runs",
		`{"trundle":"work","form":1,"pack":"canal","lessons":{"go":{"stop-1":"1"}}}`:  "other-season",
		`{"trundle":"work","form":1,"pack":"brook","lessons":{"go":{"stop-1":"1"}}}`:  "other-pack",
		`{"trundle":"work","form":1,"pack":"canal 2026-27","saves":"9","team":7,` +
			`"lessons":{"go":{"stop-1":"1","__proto__":"2","@kit":"x","stop-2":3},"x":1}}`: "entries-lost",
	} {
		got, said := told([]*source.File{source.NewFile("f.json", []byte(text))}, tally.Options{Pack: packWith(t, false)})
		if len(said) == 0 || !strings.HasSuffix(said[0], " "+want) && !strings.HasSuffix(said[len(said)-1], " "+want) {
			t.Errorf("%.100s: %q, want %s", text, said, want)
		}
		if isCounted := strings.Contains(got, "[1]"); isCounted != (want == "entries-lost") { // the rest of that is sound
			t.Errorf("%.100s: %s", text, got)
		}
	}
}

// FuzzOf puts two files together of a class whose pack is known: tables, saved work, class files, and what is none.
func FuzzOf(f *testing.F) {
	const saved = `{"trundle":"work","form":1,"pack":"canal 2026-27","team":"A","saves":2,` +
		`"lessons":{"":{"@kit":"heron"},"go":{"stop-1":"1,5","stop-2":"4 in","__proto__":"x","#state":"y"}}}`
	f.Add(saved, "team,stop (cm)\nA,1\nB,2\n", "team")
	f.Add(saved, `{"trundle": "class", "form": 1, "works": [`+saved+`, 5, {}], "tables": [7, {"name": "..\\b.csv", `+
		`"text": "team,stop (in)\nB,1\nA,x\n"}, {"name": "", "text": "\""}]}`, "base")
	f.Fuzz(func(t *testing.T, one, other, by string) {
		files := []*source.File{source.NewFile("a", []byte(one)), source.NewFile("b", []byte(other))}
		report, problems := tally.Of(files, tally.Options{By: by, Pack: packWith(t, len(one)%2 == 0)})
		for _, p := range problems.Sorted() {
			if size := len(p.File.Text()); p.Span.Start < 0 || p.Span.End < p.Span.Start || p.Span.End > size {
				t.Errorf("%s: %s is at %v of %d bytes", p.File.Name, p.Slug, p.Span, size)
			}
		}
		if len(report.Columns) == 0 && problems.Count() == 0 {
			t.Error("nothing came of it, and nothing is said")
		}
	})
}
