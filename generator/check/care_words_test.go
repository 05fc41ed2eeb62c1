package check_test

// The corpus of sentences that call for a care card, or do not.

import (
	"encoding/csv"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// cardsOfCorpus are those of the corpus's pack, as the head of testdata/care/words.csv lists them.
var cardsOfCorpus = []struct{ name, who, mentions string }{
	{"cloth", "students", "damp cloth"},
	{"contact", "adults", "contact cleaner"},
	{"alcohol", "adults", "isopropyl alcohol, rubbing alcohol"},
	{"window", "adults", "window cleaner"},
	{"spray", "adults", "cleaning spray"},
	{"tools", "adults", "craft knife, soldering iron, glue gun"},
	{"battery", "both\nstudents: Put it in.\nadults: Charging with the charger", "battery, charger"},
	{"cut", "students", "scissors"},
}

// corpusPack makes the corpus's pack.
func corpusPack(t *testing.T) *lesson.Pack {
	t.Helper()
	p, found := parse.PackFile(source.NewFile("pack.yaml",
		[]byte("title: P\nversion: 1\nmeant-otherwise:\n  cleaner data: data with fewer odd runs\n")))
	for _, c := range cardsOfCorpus {
		card, more := parse.Card(parse.NewMarkdown(), source.NewFile("care/"+c.name+".md", []byte("---\ntitle: "+c.name+
			"\nwho: "+c.who+"\nwear: []\nmentions: ["+c.mentions+"]\n---\n\n"+cardBody)))
		found.Join(more)
		p.Cards = append(p.Cards, card)
	}
	if len(found.Sorted()) > 0 {
		t.Fatal(found.Sorted())
	}
	return p
}

// careOf gives the slugs of what the check finds in a text, each once and in order.
func careOf(p *lesson.Pack, carries, text string) string {
	header := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [" + strings.Join(append(strings.Fields(carries),
		"cloth"), ", ") +
		"]\n---\n\n## Part (10 min)\n\n"
	l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md",
		[]byte(header+strings.ReplaceAll(text, `\n`, "\n")+"\n")))
	found := check.Care(p, l)
	set := map[string]bool{}
	for _, problem := range found.Sorted() {
		set[problem.Slug] = true
	}
	return strings.Join(slices.Sorted(maps.Keys(set)), " ")
}

func TestWordsThatCallForACard(t *testing.T) {
	f, err := os.Open("../../testdata/care/words.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table := csv.NewReader(f)
	table.Comment = '#'
	rows, err := table.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	p := corpusPack(t)
	misses, alarms := map[string]int{}, map[string]int{}
	for _, row := range rows[1:] {
		text, carries, want, written := row[0], row[1], row[2], row[3]
		got := careOf(p, carries, text)
		if got == want {
			continue
		}
		t.Errorf("%q with %q: problems are %q, want %q", text, carries, got, want)
		if missing(want, got) {
			misses[written]++
		}
		if missing(got, want) {
			alarms[written]++
		}
	}
	t.Logf("%d rows; misses %v, false alarms %v", len(rows)-1, misses, alarms)
}

// missing tells whether one of some slugs is not among others.
func missing(some, others string) bool {
	return slices.ContainsFunc(strings.Fields(some),
		func(slug string) bool { return !slices.Contains(strings.Fields(others), slug) })
}

// TestASurePlaceIsAnErrorAndADoubtfulOneACaution: only the first stops a build.
func TestASurePlaceIsAnErrorAndADoubtfulOneACaution(t *testing.T) {
	p := corpusPack(t)
	for text, want := range map[string]problem.Severity{
		"Petrol.": problem.Error, "A craft knife.": problem.Error, "A knife.": problem.Caution, "A cleaner " +
			"line.": problem.Caution,
	} {
		l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md",
			[]byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n"+text+"\n")))
		found := check.Care(p, l)
		if all := found.Sorted(); len(all) != 1 || all[0].Severity != want {
			t.Errorf("%q: problems are %+v", text, all)
		}
	}
}

// TestWhatAPackMeansOtherwise is checked with the pack.
func TestWhatAPackMeansOtherwise(t *testing.T) {
	for _, c := range []struct{ phrase, lesson, want string }{
		{"cleaner data", "The cleaner data.", ""},
		{"cleaner data", "The Cleaner-data.", ""},
		{"cleaner data", "The cleaner table.", "otherwise-idle card-unsure"},
		{"clean data", "The clean data.", "otherwise-idle"},
		{"team spirit", "Team spirit.", "otherwise-idle"},
		{"acetone", "Acetone.", "otherwise-wide card-missing"},
		{"Window cleaners", "Window cleaner.", "otherwise-wide card-missing"},
		{"damp cloth", "A damp cloth.", "otherwise-wide"},
		{"knife", "The knife is a river.", ""},
		{"petrol blue", "A window cleaner, petrol blue.", "card-missing"},
		{"cleaner box", "A window cleaner box.", "otherwise-idle card-missing"},
	} {
		p := corpusPack(t)
		p.MeantOtherwise[0].Phrase.Value = c.phrase
		l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(
			"---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n"+c.lesson+"\n")))
		p.Lessons = []*lesson.Lesson{l}
		found := check.Pack(p)
		of := found.Sorted()
		more := check.Care(p, l)
		if got := slugs(append(of, more.Sorted()...)); got != c.want {
			t.Errorf("%q in %q: problems are %q, want %q", c.phrase, c.lesson, got, c.want)
		}
	}
}
