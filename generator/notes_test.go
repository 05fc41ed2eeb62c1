package generator_test

// Short lessons by coaches who mean something for mentors, or for students, or lose something without
// noticing: testdata/notes/notes.csv says who may see it, and which problem is reported.

import (
	"encoding/csv"
	"maps"
	"os"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/site"
)

// told is the word that stands for what is told in confidence in the rows of notes.csv.
const told = "wobblestone"

// A noteRow is a row of notes.csv. In its texts ⏎ ends a line.
type noteRow struct {
	origin  string // "first" was there before the code; "attack" was tried afterwards, without a look at it
	edition string // whose pages show what is told: "students", "mentors" alone, or "none" since nothing is built
	problem string // its slug, "" for silence
	body    string // of a lesson
	beside  string // one more file of the pack, as in "data/a.csv: …"
}

func TestWhoReadsANoteAndWhatIsLostIsReported(t *testing.T) {
	misses, alarms := map[string]int{}, map[string]int{}
	rows := noteRows(t)
	for i, row := range rows {
		t.Run(strconv.Itoa(i+2), func(t *testing.T) {
			edition, found := whoSees(t, row)
			if edition == row.edition && found == row.problem {
				return
			}
			switch {
			case row.problem == "" && found != "" || row.edition == "students" && edition != "students":
				alarms[row.origin]++
			default:
				misses[row.origin]++
			}
			t.Errorf("%q: seen by %s with the problem %q, want %s and %q", row.body+row.beside, edition, found,
				row.edition, row.problem)
		})
	}
	t.Logf("%d rows; missed: %v; false alarms: %v", len(rows), misses, alarms)
}

func TestAFileOfRunsInAnotherEncodingIsReportedOnce(t *testing.T) {
	_, found := whoSees(t, noteRow{
		body:   "```runs data/a.csv\ngroup base\nalong stop in cm to 0.1 = 120 cm \"How far\"\n```",
		beside: "data/a.csv: \xff\xfeb\x00a\x00",
	})
	if found != "not-utf-8" {
		t.Errorf("problems are %q", found)
	}
}

func TestAQuoteOnACareCardIsForMentorsToo(t *testing.T) {
	card := strings.Replace(clothCard, "Work.", "Work.\n\n> Leader: wobblestone\n\n> Students: pebblestone", 1)
	files := drawn(t, fstest.MapFS{
		"pack.yaml":     {Data: []byte("title: P\nversion: 1\n")},
		"care/cloth.md": {Data: []byte(card)},
		"01-t.md":       {Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n")},
	})
	for name, want := range map[string]struct{ mentors, students bool }{
		"students/care.html": {false, true}, "mentors/care.html": {true, true},
	} {
		page := files[name]
		if strings.Contains(page, told) != want.mentors || strings.Contains(page, "pebblestone") != want.students {
			t.Errorf("%s shows other quotes than it should:\n%s", name, page)
		}
	}
}

// noteRows reads the table.
func noteRows(t *testing.T) []noteRow {
	t.Helper()
	f, err := os.Open("../testdata/notes/notes.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []noteRow
	for _, cells := range table[1:] {
		lines := func(i int) string { return strings.ReplaceAll(cells[i], "⏎", "\n") }
		rows = append(rows, noteRow{cells[0], cells[1], cells[2], lines(3), lines(4)})
	}
	return rows
}

// whoSees builds a pack with a row's lesson: whose pages show what is told, and what is reported.
func whoSees(t *testing.T, row noteRow) (edition, slugs string) {
	t.Helper()
	pack := fstest.MapFS{}
	files := map[string]string{
		"pack.yaml":     "title: P\nid: p\nversion: 1\n",
		"care/cloth.md": clothCard,
		"01-t.md": "---\ntitle: T\nid: t\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" +
			row.body + "\n",
	}
	if name, text, ok := strings.Cut(row.beside, ": "); ok {
		files[name] = text
	}
	for name, text := range files {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	proved, err := generator.Prove(t.Context(), pack)
	if err != nil {
		t.Fatal(err)
	}
	slugs = slugsOf(proved.Problems)
	if proved.HasErrors() {
		return "none", slugs
	}
	pages := lessonPages(t, proved)
	switch {
	case strings.Contains(pages["students/01-t.html"], told):
		return "students", slugs
	case strings.Contains(pages["mentors/01-t.html"], told):
		return "mentors", slugs
	}
	return "nobody", slugs
}

const clothCard = "---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n## During\n\nWork.\n\n" +
	"## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n"

// slugsOf are the kinds of problems, each once.
func slugsOf(problems []problem.Problem) string {
	seen := map[string]bool{}
	var all []string
	for _, p := range problems {
		if !seen[p.Slug] {
			all = append(all, p.Slug)
		}
		seen[p.Slug] = true
	}
	return strings.Join(all, " ")
}

// lessonPages draws the pages of lessons only, since paper takes longer.
func lessonPages(t *testing.T, p *generator.Proved) map[string]string {
	t.Helper()
	s, err := site.New(p.Pack.Language)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, job := range generator.Jobs(p, s) {
		if !strings.HasSuffix(job.Name, "/01-t.html") {
			continue
		}
		page, err := job.Make()
		if err != nil {
			t.Fatal(err)
		}
		pages[job.Name] = string(page)
	}
	if len(pages) != len(site.Editions) {
		t.Fatalf("pages are %v", maps.Keys(pages))
	}
	return pages
}
