package problem_test

// The pattern of a problem's first line finds all that is printed of places, and nothing else.

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trundle/generator/problem"
	"trundle/generator/source"
)

func TestThePatternTakesAProblemsLineApart(t *testing.T) {
	f := source.NewFile("01-a: b (c).md", []byte("one\ntwo: error: (three)\n"))
	at := source.Span{Start: 9, End: 14}
	var out bytes.Buffer
	err := problem.Print(&out, "C:/p:9:9/", []problem.Problem{{Severity: problem.Caution, Slug: "key-x", File: f, Span: at,
		What: "this: error: (is) odd (very)", Hint: "do: that (x)",
		Related: []problem.Related{{File: f, Span: at, What: "see: here"}}}})
	if err != nil {
		t.Fatal(err)
	}
	var found [][]string
	for line := range strings.Lines(out.String()) {
		if m := regexp.MustCompile(problem.LinePattern).FindStringSubmatch(strings.TrimSuffix(line, "\n")); m != nil {
			found = append(found, m[1:])
		}
	}
	// A path that looks like a place itself is the one thing that it cannot know.
	want := []string{"C:/p:9:9/01-a: b (c).md", "2", "6", "caution", "this: error: (is) odd (very)", "key-x"}
	if len(found) != 1 || !slices.Equal(found[0], want) {
		t.Errorf("found %q in\n%s", found, out.String())
	}
}

var looksLikeOne = regexp.MustCompile(`^\S.*: (error|caution): `)

// TestThePatternFindsAllThatScriptsExpect goes through what the command is expected to print.
func TestThePatternFindsAllThatScriptsExpect(t *testing.T) {
	scripts, err := filepath.Glob("../../cmd/trundle/testdata/script/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	pattern, lines := regexp.MustCompile(problem.LinePattern), 0
	for _, script := range scripts {
		text, err := os.ReadFile(script)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			line = strings.TrimSuffix(line, "\n")
			if looksLikeOne.MatchString(line) && !strings.HasPrefix(line, "std") {
				lines++
				if !pattern.MatchString(line) {
					t.Errorf("%s: %q does not match", filepath.Base(script), line)
				}
			}
		}
	}
	if lines < 200 {
		t.Errorf("only %d lines were looked at", lines)
	}
}

func TestThePatternIsGivenAsJSONWithItsGroups(t *testing.T) {
	var made struct {
		Pattern    string
		File, Code int
		Severities map[string]string
	}
	if err := json.Unmarshal(problem.LineJSON(), &made); err != nil || made.Pattern != problem.LinePattern ||
		made.File != 1 || made.Code != regexp.MustCompile(problem.LinePattern).NumSubexp() ||
		made.Severities["caution"] != "warning" {
		t.Errorf("%v: %+v", err, made)
	}
}
