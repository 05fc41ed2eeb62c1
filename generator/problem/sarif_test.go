package problem_test

// Tests of reports, against the schema of the standard.

import (
	"bytes"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// A report, as a program reads it that knows nothing of ours.
type report struct {
	Runs []struct {
		Tool struct {
			Driver struct {
				Rules []struct {
					ID               string
					ShortDescription text
					Help             text
				}
			}
		}
		OriginalUriBaseIds map[string]any
		ColumnKind         string
		Results            []struct {
			RuleID    string
			RuleIndex int
			Level     string
			Message   text
			Locations []location
			Related   []location `json:"relatedLocations"`
		}
	}
}

type text struct{ Text string }

type location struct {
	Message          text
	PhysicalLocation struct {
		ArtifactLocation struct{ URI, URIBaseID string }
		Region           struct{ StartLine, StartColumn, EndLine, EndColumn int }
	}
}

// schema is that of the standard; formats such as uri-reference are checked as well.
func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	compiled, err := c.Compile("testdata/sarif-schema-2.1.0.json")
	if err != nil {
		t.Fatal(err)
	}
	return compiled
}

// reported makes a report, holds it against the schema, and reads it.
func reported(t *testing.T, prefix string, problems ...problem.Problem) (report, string) {
	t.Helper()
	data, err := problem.SARIF(prefix, problems)
	if err != nil {
		t.Fatal(err)
	}
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if err := schema(t).Validate(tree); err != nil {
		t.Errorf("not SARIF 2.1.0: %v\n%s", err, data)
	}
	if !strings.HasPrefix(string(data), problem.SARIFHead) {
		t.Errorf("the report does not start as reports do:\n%s", data)
	}
	var r report
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Runs) != 1 {
		t.Fatalf("%d runs", len(r.Runs))
	}
	return r, string(data)
}

func TestTheSchemaRefusesWhatIsWrong(t *testing.T) {
	data, err := problem.SARIF("", []problem.Problem{{Slug: "s", File: source.NewFile("a.md", []byte("x")), What: "w"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, change := range [][2]string{
		{`"level": "error"`, `"level": "caution"`},
		{`"startLine": 1`, `"startLine": 0`},
		{`"unicodeCodePoints"`, `"bytes"`},
		{`"ruleId"`, `"slug"`},
		{`"uri": "a.md"`, `"uri": "%zz.md"`},
	} {
		wrong := strings.Replace(string(data), change[0], change[1], 1)
		if wrong == string(data) {
			t.Fatalf("the report has no %s", change[0])
		}
		tree, err := jsonschema.UnmarshalJSON(strings.NewReader(wrong))
		if err != nil {
			t.Fatal(err)
		}
		if schema(t).Validate(tree) == nil {
			t.Errorf("the schema takes %s", change[1])
		}
	}
}

func TestAReportWithoutProblemsHasResultsAndNone(t *testing.T) {
	r, data := reported(t, "lessons/")
	if run := r.Runs[0]; run.Results == nil || len(run.Results) > 0 || run.Tool.Driver.Rules == nil {
		t.Errorf("results must be there and empty:\n%s", data)
	}
}

func TestAReportTellsPlaceLevelAndRule(t *testing.T) {
	a := source.NewFile("care/ä b.md", []byte("one\n± 😀 bad\nthree"))
	r, _ := reported(t, "my lessons/",
		problem.Problem{Slug: "z-last", Severity: problem.Caution, File: a, Span: source.Span{Start: 12, End: 15},
			What: "no {x in cm}", Hint: "write  \\{ \x1b[2J"},
		problem.Problem{Slug: "a-first", File: a, Span: source.Span{Start: 0, End: 17}, What: "w",
			Related: []problem.Related{{File: a, Span: source.Span{Start: 99, End: 99}, What: "first here"}}},
		problem.Problem{Slug: "z-last", File: source.NewFile("pack.yaml", nil), What: "not there"},
		problem.Problem{Slug: "a-first", What: "w", Span: source.Span{Start: 3, End: 6},
			File: source.NewFile("a.md", []byte("é éx"), source.Apart{End: 2, More: 1}, source.Apart{End: 5, More: 1})},
	)
	run := r.Runs[0]
	var rules []string
	for _, rule := range run.Tool.Driver.Rules {
		rules = append(rules, rule.ID+": "+rule.ShortDescription.Text)
	}
	if want := []string{"a-first: a-first", "z-last: z-last"}; !slices.Equal(rules, want) {
		t.Errorf("rules are %q, want %q", rules, want)
	}
	if run.ColumnKind != "unicodeCodePoints" || run.OriginalUriBaseIds != nil {
		t.Errorf("column kind %q, bases %v", run.ColumnKind, run.OriginalUriBaseIds)
	}
	for i, want := range []struct {
		rule, level, uri, text string
		region                 [4]int
	}{
		{"z-last", "warning", "my%20lessons/care/%C3%A4%20b.md", "no {{x in cm}}\nwrite  \\{{ \ufffd[2J",
			[4]int{2, 5, 2, 8}},
		{"a-first", "error", "my%20lessons/care/%C3%A4%20b.md", "w", [4]int{1, 1, 3, 2}},
		{"z-last", "error", "my%20lessons/pack.yaml", "not there", [4]int{1, 1, 1, 1}},
		{"a-first", "error", "my%20lessons/a.md", "w", [4]int{1, 4, 1, 7}},
	} {
		got := run.Results[i]
		at := got.Locations[0].PhysicalLocation
		g := at.Region
		if got.RuleID != want.rule || run.Tool.Driver.Rules[got.RuleIndex].ID != want.rule ||
			got.Level != want.level || got.Message.Text != want.text ||
			at.ArtifactLocation.URI != want.uri ||
			[4]int{g.StartLine, g.StartColumn, g.EndLine, g.EndColumn} != want.region {
			t.Errorf("result %d is %+v, want %+v", i, got, want)
		}
	}
	if rel := run.Results[1].Related; len(rel) != 1 || rel[0].Message.Text != "first here" ||
		rel[0].PhysicalLocation.Region.StartLine != 3 {
		t.Errorf("related places are %+v", rel)
	}
}

// TestAReportDoesNotTellWhereThePackLies: its readers need not know the folders of a computer.
func TestAReportDoesNotTellWhereThePackLies(t *testing.T) {
	f := source.NewFile("a:b.md", []byte("x"))
	for _, prefix := range []string{"/home/somebody/lessons/", "C:/Somebody/lessons/"} {
		r, data := reported(t, prefix, problem.Problem{Slug: "s", File: f, What: "w"})
		at := r.Runs[0].Results[0].Locations[0].PhysicalLocation.ArtifactLocation
		if strings.Contains(strings.ToLower(data), "somebody") || at.URI != "./a:b.md" ||
			r.Runs[0].OriginalUriBaseIds[at.URIBaseID] == nil {
			t.Errorf("%s: the place is %+v in\n%s", prefix, at, data)
		}
	}
}

func TestAReportKeepsTheLastPartOfAFileNamedWithAllItsFolders(t *testing.T) {
	for _, name := range []string{"/home/somebody/otters.csv", "C:/Somebody/otters.csv", `C:\Somebody\otters.csv`} {
		r, data := reported(t, "", problem.Problem{Slug: "s", File: source.NewFile(name, []byte("x")), What: "w"})
		at := r.Runs[0].Results[0].Locations[0].PhysicalLocation.ArtifactLocation
		if strings.Contains(strings.ToLower(data), "somebody") || at.URI != "otters.csv" {
			t.Errorf("%s: the place is %+v in\n%s", name, at, data)
		}
	}
}

func TestARuleMeansWhatTheListSays(t *testing.T) {
	f := source.NewFile("a.md", []byte("x"))
	kinds := problem.Kinds()
	one := make([]problem.Problem, len(kinds))
	for i, k := range kinds {
		one[i] = problem.Problem{Slug: k.Slug, File: f, What: "w"}
	}
	r, _ := reported(t, "", one...)
	shown := strings.NewReplacer("{{", "{", "}}", "}") // as a reader of reports takes doubled braces
	for i, rule := range r.Runs[0].Tool.Driver.Rules {
		if rule.ID != kinds[i].Slug || shown.Replace(rule.ShortDescription.Text) != kinds[i].Meaning ||
			shown.Replace(rule.Help.Text) != kinds[i].Do {
			t.Errorf("the rule of %s is %+v", kinds[i].Slug, rule)
		}
	}
}

func TestTheSchemaIsTheStandards(t *testing.T) {
	data, err := os.ReadFile("testdata/sarif-schema-2.1.0.json")
	if err != nil {
		t.Fatal(err)
	}
	var s struct{ ID string }
	if err := json.Unmarshal(data, &s); err != nil || s.ID != problem.Schema {
		t.Errorf("the schema is %s (%v), and reports name %s", s.ID, err, problem.Schema)
	}
}
