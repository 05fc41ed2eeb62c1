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
	header := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [" + strings.Join(append(strings.Fields(carries), "cloth"), ", ") +
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

// severities gives the severity of each slug found.
func severities(found []problem.Problem) map[string]problem.Severity {
	all := map[string]problem.Severity{}
	for _, p := range found {
		all[p.Slug] = p.Severity
	}
	return all
}
