package language_test

// Tests that the list of the language is whole, and says of every word what it means.

import (
	"slices"
	"strings"
	"testing"

	"trundle/generator/language"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// section gives the words of a section, by name.
func section(t *testing.T, name string) map[string]language.Word {
	t.Helper()
	words := map[string]language.Word{}
	for _, s := range language.Sections() {
		if s.Name == name {
			for _, w := range s.Words {
				words[w.Name] = w
			}
			return words
		}
	}
	t.Fatalf("there is no section %s", name)
	return nil
}

func TestEveryWordSaysWhatItMeans(t *testing.T) {
	count := 0
	for _, s := range language.Sections() {
		if len(s.Words) == 0 {
			t.Errorf("the section %s is empty", s.Name)
		}
		for _, w := range s.Words {
			count++
			if w.Meaning == "" {
				t.Errorf("generator/language/words.csv has no row that begins with %s,%s,", s.Name, w.Name)
			}
			if !strings.Contains(w.Form, strings.TrimSuffix(w.Name, ":")) && s.Name != "text" && s.Name != "expressions" {
				t.Errorf("%s %s: the form %q does not have the word in it", s.Name, w.Name, w.Form)
			}
		}
	}
	if count < 120 {
		t.Errorf("there are only %d words", count)
	}
}

func TestEveryRowIsOfAWordThatThereIs(t *testing.T) {
	for _, row := range language.Rows() {
		words := section(t, row[0])
		if _, ok := words[row[1]]; !ok {
			t.Errorf("generator/language/words.csv has a row for %s,%s, which the language does not have", row[0], row[1])
		}
	}
}

// TestTheListKnowsWhatTheParserKnows compares the list with the closed sets of the language.
func TestTheListKnowsWhatTheParserKnows(t *testing.T) {
	want := map[string][]string{"blocks": {"work", "gauge"}}
	for _, k := range lesson.StatementKinds {
		want["work"] = append(want["work"], string(k))
	}
	for _, k := range lesson.GaugeKinds {
		want["gauge"] = append(want["gauge"], string(k))
	}
	for _, k := range lesson.ChartKinds {
		want["chart"] = append(want["chart"], string(k))
	}
	for _, k := range lesson.FigureKinds {
		want["show"] = append(want["show"], string(k))
	}
	for _, k := range lesson.BlockKinds {
		want["blocks"] = append(want["blocks"], string(k))
	}
	for _, f := range lesson.KitFields {
		want["kits.yaml"] = append(want["kits.yaml"], f.Name)
	}
	want["units"] = quantity.UnitSymbols()
	for _, name := range quantity.FormulaNames() {
		if _, ok := section(t, "formulas")[name]; !ok {
			want["functions"] = append(want["functions"], name)
		}
	}
	want["pack.yaml"] = []string{"title", "version", "language", "kit"}
	want["lesson"] = []string{"title", "week", "minutes", "care"}
	want["card"] = []string{"title", "who", "wear"}
	for name, all := range want {
		words := section(t, name)
		for _, w := range all {
			if _, ok := words[w]; !ok {
				t.Errorf("the section %s lacks %s", name, w)
			}
		}
	}
}

// blocksOf are blocks that have all forms of the list in them: what one block cannot have beside another is in two.
var blocksOf = [][2]string{
	{"work", "given measure record predict find key slip choose say listen"},
	{"gauge", "ruler wrap target fan rose squares"},
	{"runs", "group along matters across length column"},
	{"runs", "group cycle swap across length track"},
	{"chart", "title vary line axis mark"},
	{"chart", "title group dots column"},
	{"chart", "title group bars"},
	{"chart", "title group cycle swap steps"},
	{"chart", "title fitted"},
	{"chart", "title length track path"},
	{"compare", "group near steady judged by column"},
	{"readers", "thing reader reading column"},
	{"show", "unroll laps tape path read part shuffle"},
}

// TestEveryFormOfABlockCanBeRead puts the forms of the list into a lesson, so that none teaches what is an error.
func TestEveryFormOfABlockCanBeRead(t *testing.T) {
	var text strings.Builder
	text.WriteString("---\ntitle: T\nweek: 1\nminutes: 5\ncare: [cloth]\n---\n\n## A (5 min)\n")
	tried := map[string]bool{}
	for _, b := range blocksOf {
		words := section(t, b[0])
		fence := section(t, "blocks")[b[0]].Form
		if strings.HasSuffix(b[1], "mark") || strings.HasSuffix(b[1], "path") { // these charts read no file
			fence = "```" + b[0]
		}
		text.WriteString("\n" + fence + "\n")
		for _, name := range strings.Fields(b[1]) {
			text.WriteString(words[name].Form + "\n")
			tried[b[0]+" "+name] = true
		}
		text.WriteString("```\n")
	}
	for _, block := range []string{"work", "gauge", "runs", "chart", "compare", "readers", "show"} {
		for name := range section(t, block) {
			if !tried[block+" "+name] {
				t.Errorf("the form of %s in a %s block is not tried; add it to blocksOf", name, block)
			}
		}
	}
	_, found := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-a.md", []byte(text.String())))
	for _, p := range found.Sorted() {
		t.Errorf("%s: %s in\n%s", p.Slug, p.What, p.File.Line(p.File.Position(p.Span.Start).Line))
	}
}

func TestSectionsHaveNamesThatCanBeAskedFor(t *testing.T) {
	var names []string
	for _, s := range language.Sections() {
		if s.Name != strings.ToLower(s.Name) || strings.Contains(s.Name, " ") || slices.Contains(names, s.Name) {
			t.Errorf("%q is not a name that can be asked for, or is one of two", s.Name)
		}
		names = append(names, s.Name)
	}
}
