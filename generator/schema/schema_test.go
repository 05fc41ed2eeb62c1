package schema_test

// The schemas agree with what parse takes: the same fields, and no value underlined that trundle takes.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/yuin/goldmark"

	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/schema"
	"trundle/generator/source"
)

// A kind of file: a set of fields that is in order, and what trundle makes of fields.
type kind struct {
	sound string
	parse func(md goldmark.Markdown, header string) problem.List
	inner string // goes before each field that is tried, and into braces; for a kit
}

func kinds() map[string]kind {
	lesson := func(md goldmark.Markdown, header string) problem.List {
		_, problems := parse.Lesson(md, source.NewFile("01-t.md", []byte("---\n"+header+"---\n")))
		return problems
	}
	card := func(md goldmark.Markdown, header string) problem.List {
		_, problems := parse.Card(md, source.NewFile("care/t.md", []byte("---\n"+header+"---\n")))
		return problems
	}
	words := func(md goldmark.Markdown, header string) problem.List {
		_, problems := parse.Glossary(md, source.NewFile("words.md", []byte("---\n"+header+"---\n\n## a\n\nb\n")))
		return problems
	}
	pack := func(_ goldmark.Markdown, text string) problem.List {
		_, problems := parse.PackFile(source.NewFile("pack.yaml", []byte(text)))
		return problems
	}
	kits := func(_ goldmark.Markdown, text string) problem.List {
		_, problems := parse.Kits(source.NewFile("kits.yaml", []byte("heron:\n  "+strings.ReplaceAll(text, "\n", "\n  "))))
		return problems
	}
	formulas := func(_ goldmark.Markdown, text string) problem.List {
		return parse.Formulas(source.NewFile("formulas.yaml", []byte("pace:\n  "+strings.ReplaceAll(text, "\n", "\n  "))),
			&quantity.Vocabulary{})
	}
	return map[string]kind{
		"pack":     {"title: P\nversion: 1\n", pack, ""},
		"kits":     {"title: Heron\nwheel: 65 mm\n", kits, "heron"},
		"formulas": {"values: {a: length}\nis: 2 * a\nsays: S\nsource: S\n", formulas, "pace"},
		"lesson":   {"title: T\nweek: 1\nminutes: 5\n", lesson, ""},
		"card":     {"title: T\nwho: students\nwear: []\n", card, ""},
		"words":    {"", words, ""},
	}
}

// compiled is a schema ready to judge. That it is one is checked against the draft's own schema on the way.
func compiled(t *testing.T, s schema.Schema) *jsonschema.Schema {
	t.Helper()
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(s.Text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	id := "urn:trundle:schema:" + s.Name
	if err := c.AddResource(id, tree); err != nil {
		t.Fatal(err)
	}
	made, err := c.Compile(id)
	if err != nil {
		t.Fatal(err)
	}
	return made
}

// judge tells whether a schema takes fields.
func judge(t *testing.T, s *jsonschema.Schema, inner, text string) error {
	t.Helper()
	var value any
	if err := yaml.Unmarshal([]byte(text), &value); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	if inner != "" {
		value = map[string]any{inner: value}
	}
	data, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(tree)
}

// fieldsOf gives the fields that parse knows of a kind of file, from the hint of a field that there is not.
func fieldsOf(t *testing.T, k kind) []string {
	t.Helper()
	problems := k.parse(parse.NewMarkdown(), k.sound+"0: 1\n")
	for _, p := range problems.Sorted() {
		if list, ok := strings.CutPrefix(p.Hint, "the fields here are "); ok {
			return strings.Split(list, ", ")
		}
	}
	t.Fatal("no hint lists the fields")
	return nil
}

// properties are the fields that a schema describes, with their descriptions.
func properties(t *testing.T, name string, text []byte) map[string]string {
	t.Helper()
	type described struct {
		Properties map[string]struct{ Description string }
	}
	var s struct {
		described
		AdditionalProperties json.RawMessage
	}
	err := json.Unmarshal(text, &s)
	if (name == "kits" || name == "formulas") && err == nil {
		err = json.Unmarshal(s.AdditionalProperties, &s.described)
	}
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for field, p := range s.Properties {
		all[field] = p.Description
	}
	return all
}

func TestASchemaDescribesTheFieldsThatThereAre(t *testing.T) {
	for _, s := range schema.All() {
		described, known := properties(t, s.Name, s.Text), fieldsOf(t, kinds()[s.Name])
		for _, field := range known {
			if described[field] == "" {
				t.Errorf("%s.json does not describe the field %s", s.Name, field)
			}
		}
		for field := range described {
			if !slices.Contains(known, field) {
				t.Errorf("%s.json describes %s, which is not a field", s.Name, field)
			}
		}
	}
}

// values are tried in each field.
var values = []string{
	"", "null", "text", "''", "' '", "3", "'3'", "+3", "0", "-1", "61", "601", "1.5", "1e3", "true", "True", "'TRUE'",
	"false", "no", "[]", "[a]", "[a, 1, true]", "[a, [b]]", "[a, {b: c}]", "[null]", "{}", "{a: b}", "{a: ''}",
	"{a: [b]}", "students", "adults", "both", "65 mm", "65 mm ± 0.5 mm", "0 mm", "mm", "200 ppm", "2 1/2", "1/3",
	"https://club.example/s", "https://club.example/s?x=1", "ftp://club.example", "pictures/club.png",
	"pictures/club.PNG", "pictures/club.svg", strings.Repeat("é", 150), strings.Repeat("é", 151),
}

// closer are fields of which trundle says more than a schema can, so that a schema may take what trundle does not.
var closer = map[string]string{
	"wheel": "a length is read by the parser of quantities", "track": "the same", "gear": "the same", "limit": "the same",
	"values": "kinds are read by the parser of units", "is": "a calculation is read as one", "in": "a unit is read as one",
	"units": "units are read by the parser of quantities", "money": "not every word can be a unit",
	"limit-everybody": "the same", "limit-source": "it waits for the limit", "limit-everybody-source": "the same",
	"address": "an address is read as one", "id": "a plus before a number is lost on an editor",
}

// stricter are fields whose values are refused by a check, after parse has taken them.
var stricter = map[string]string{"logo": "check.Logo takes PNG alone"}

func TestASchemaUnderlinesWhatTrundleRefusesAndNothingElse(t *testing.T) {
	md, tries := parse.NewMarkdown(), 0
	for _, s := range schema.All() {
		k, made := kinds()[s.Name], compiled(t, s)
		for _, field := range fieldsOf(t, k) {
			for _, value := range values {
				text := with(k.sound, field, value)
				problems := k.parse(md, text)
				said, err := problems.Sorted(), judge(t, made, k.inner, text)
				tries++
				if len(said) == 0 && err != nil && stricter[field] == "" {
					t.Errorf("%s: trundle takes  %s: %s, and the schema does not: %v", s.Name, field, value, err)
				}
				if len(said) > 0 && err == nil && closer[field] == "" {
					t.Errorf("%s: the schema takes  %s: %s, and trundle says: %s", s.Name, field, value, said[0].What)
				}
			}
		}
		for line := range strings.Lines(k.sound) { // each field of these is needed
			if err := judge(t, made, k.inner, strings.Replace(k.sound, line, "", 1)); err == nil {
				t.Errorf("%s: the schema does without  %s", s.Name, line)
			}
		}
		if err := judge(t, made, k.inner, k.sound+"titel: P\n"); err == nil {
			t.Errorf("%s: the schema takes a field that there is not", s.Name)
		}
	}
	if tries < 1000 {
		t.Errorf("only %d values were tried", tries)
	}
}

// with gives fields with one of them changed or added.
func with(sound, field, value string) string {
	var b strings.Builder
	for line := range strings.Lines(sound) {
		if !strings.HasPrefix(line, field+":") {
			b.WriteString(line)
		}
	}
	return fmt.Sprintf("%s%s: %s\n", &b, field, value)
}

func TestFieldsThatBelongTogetherAreUnderlinedApart(t *testing.T) {
	card, _ := schema.Named("card")
	made := compiled(t, card)
	for text, want := range map[string]bool{
		"title: T\nwho: both\nstudents: a\nadults: b\nwear: []\n":          true,
		"title: T\nwho: both\nwear: []\n":                                  false,
		"title: T\nwho: students\nstudents: a\nwear: []\n":                 false,
		"title: T\nwho: adults\nwear: []\nlimit: 9 ppm\n":                  false,
		"title: T\nwho: adults\nwear: []\nlimit: 9 ppm\nlimit-source: X\n": true,
		"title: T\nwho: adults\nwear: []\nlimit-everybody-source: X\n":     false,
	} {
		problems := kinds()["card"].parse(parse.NewMarkdown(), text)
		if err := judge(t, made, "", text); (err == nil) != want || problems.Sorted() == nil != want {
			t.Errorf("%q: the schema says %v, trundle %v", text, err, problems.Sorted())
		}
	}
}

// TestThePacksOfTheHouseAreNotUnderlined looks at every header of the demo pack and of the pack to begin with.
func TestThePacksOfTheHouseAreNotUnderlined(t *testing.T) {
	headers := 0
	for _, pack := range []string{"../../lessons", "../../cmd/trundle/starter/en/pack"} {
		for pattern, name := range map[string]string{
			"pack.yaml": "pack", "kits.yaml": "kits", "[0-9]*.md": "lesson", "care/*.md": "card",
		} {
			s, ok := schema.Named(name)
			found, err := filepath.Glob(filepath.Join(pack, pattern))
			if err != nil || len(found) == 0 || !ok {
				t.Fatal(pack, pattern, err, ok)
			}
			made := compiled(t, s)
			for _, file := range found {
				text, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				header := string(text)
				if _, below, has := strings.Cut(header, "---\n"); has {
					header, _, _ = strings.Cut(below, "\n---\n")
				}
				headers++
				if err := judge(t, made, "", header); err != nil {
					t.Errorf("%s: %v", file, err)
				}
			}
		}
	}
	if headers < 20 {
		t.Errorf("only %d headers were looked at", headers)
	}
}
