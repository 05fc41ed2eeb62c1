package worksheets_test

// Run sheets: one page each, with every key large, and what a mentor says and does; of packs of other kinds too.

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/site/words"
	"trundle/worksheets"
)

func BenchmarkRunSheets(b *testing.B) { makes(b, isRunSheet) }

func BenchmarkOfSeason(b *testing.B) {
	makes(b, func(name string) bool { return strings.Contains(name, "/season-") })
}

// isRunSheet tells whether a file is the run sheet of a lesson.
func isRunSheet(name string) bool {
	is, _ := filepath.Match("mentors/sheets/[0-9]*-mentor-*.pdf", name)
	return is
}

// runSheetsOf are the names of a lesson's run sheets.
func runSheetsOf(l *work.Lesson) []string {
	var names []string
	for _, p := range worksheets.Papers {
		names = append(names, "mentors/sheets/"+l.Slug+"-mentor-"+p.Name+".pdf")
	}
	return names
}

// oneLine is a sheet's text with single blanks.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

func pages(t *testing.T, file []byte) int {
	t.Helper()
	found := regexp.MustCompile(`Pages: +(\d+)`).FindStringSubmatch(tool(t, file, "pdfinfo", "FILE"))
	if found == nil {
		t.Fatal("pdfinfo counts no pages")
	}
	n, _ := strconv.Atoi(found[1])
	return n
}

func TestEveryRunSheetOfTheDemoPackIsOnePage(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		for _, name := range runSheetsOf(l) {
			if n := pages(t, files[name]); n != 1 {
				t.Errorf("%s has %d pages", name, n)
			}
			inkInMargin(t, name, files[name])
		}
	}
	for name := range files {
		if strings.HasPrefix(name, "students/") && strings.Contains(name, "-mentor") {
			t.Errorf("students get %s", name)
		}
	}
}

// bbox matches a word of pdftotext -bbox with its height.
var bbox = regexp.MustCompile(`yMin="([0-9.]+)" xMax="[0-9.]+" yMax="([0-9.]+)">([^<]*)<`)

// large is the text of a sheet in type that is at least so many times as large as its smallest.
func large(t *testing.T, file []byte, times float64) string {
	t.Helper()
	type sized struct {
		text string
		high float64
	}
	var all []sized
	least := 1000.0
	for _, m := range bbox.FindAllStringSubmatch(tool(t, file, "pdftotext", "-bbox", "FILE", "-"), -1) {
		top, _ := strconv.ParseFloat(m[1], 64)
		foot, _ := strconv.ParseFloat(m[2], 64)
		all = append(all, sized{m[3], foot - top})
		least = min(least, foot-top)
	}
	var out []string
	for _, w := range all {
		if w.high >= times*least {
			out = append(out, w.text)
		}
	}
	return " " + strings.Join(out, " ") + " "
}

// keyed are the finds of a lesson that a mentor can hold an answer against.
func keyed(l *work.Lesson) []*lesson.Statement {
	return slices.DeleteFunc(slices.Clone(l.Finds), func(s *lesson.Statement) bool {
		return s.IsVapour() || l.Of(s).Key == nil
	})
}

func TestARunSheetHasEveryKeyLargeAndTwoWrongAnswers(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	keys := 0
	for _, l := range proved.Lessons {
		for _, name := range runSheetsOf(l) {
			// The footer is in 8 points, and nothing is smaller.
			numbers, all := large(t, files[name], 12.0/8), oneLine(text(t, files[name]))
			for _, s := range keyed(l) {
				key := l.Of(s).Key
				unit := key.Statement.Literal.Unit.Symbol()
				number := strings.TrimSuffix(oneLine(key.Amount()), " "+unit)
				if keys++; !strings.Contains(numbers, " "+number+" ") {
					t.Errorf("%s: the key %s = %s is not there, or not large", name, s.Name, number)
				}
				for _, slip := range s.Slips[:min(2, len(s.Slips))] {
					said := strings.TrimSuffix(oneLine(l.Of(slip).Text()), " "+unit) + " → "
					if !strings.Contains(all, said) {
						t.Errorf("%s: %s lacks the wrong answer %q", name, s.Name, said)
					}
				}
			}
		}
	}
	if keys < 200 {
		t.Errorf("only %d keys were looked for", keys)
	}
}

// An estimate of vapour says nothing without the warnings that the page has beside it.
func TestARunSheetHasNoEstimateOfVapour(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	estimates := 0
	for _, l := range proved.Lessons {
		for _, s := range l.Finds {
			if !s.IsVapour() {
				continue
			}
			estimates++
			for _, name := range runSheetsOf(l) {
				if strings.Contains(letters(text(t, files[name])), letters(typography.Marks{}.Text(s.Prompt))) {
					t.Errorf("%s has %q", name, s.Prompt)
				}
			}
		}
	}
	if estimates == 0 {
		t.Error("no lesson has one")
	}
}

func TestNothingOnARunSheetIsSmallerThanEightPoints(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	set := regexp.MustCompile(`/F\d ([0-9.]+) Tf`)
	for _, l := range proved.Lessons {
		for _, name := range runSheetsOf(l) {
			sizes := set.FindAllStringSubmatch(drawing(t, files[name]), -1)
			for _, m := range sizes {
				if size, _ := strconv.ParseFloat(m[1], 64); size < 8 {
					t.Errorf("%s has type of %g points", name, size)
					break
				}
			}
			if len(sizes) < 50 {
				t.Errorf("%s: only %d texts were looked at", name, len(sizes))
			}
		}
	}
}

func TestARunSheetSaysWhatIsReadyFirstAskedAndTold(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		for _, name := range runSheetsOf(l) {
			said := letters(text(t, files[name]))
			notes := lesson.NotesOf(l.Lesson, english(t))
			value := func(v *lesson.Value) string { return l.OfValue(v).Text() }
			var parts []string
			for _, p := range []*lesson.NotePart{notes.Before, notes.First, notes.Worked} {
				for _, n := range p.Blocks {
					for item := n.FirstChild(); item != nil && p == notes.Before; item = item.NextSibling() {
						parts = append(parts, lesson.TextOf(item, l.Markdown, value))
					}
					if p != notes.Before {
						parts = append(parts, lesson.TextOf(n, l.Markdown, value))
					}
				}
			}
			for _, q := range notes.Questions.Questions(l.Markdown, value) {
				parts = append(parts, q.Ask, q.Answer)
			}
			parts = append(append(parts, l.Materials...), "Mentors’ sheet: keys inside", "The product’s label")
			for _, part := range parts {
				if !strings.Contains(said, letters(typography.Marks{}.Text(part))) {
					t.Errorf("%s lacks %q", name, part)
				}
			}
		}
	}
}

// english says the words of the interface.
func english(t *testing.T) func(name string, args ...any) string {
	t.Helper()
	en, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	return en.Say
}

func TestARunSheetTellsTheTimeIfItIsKnown(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	half := 18*60 + 30
	l := proved.Lessons[4]
	part := lesson.TimedParts(l.Lesson)[1]
	from, to := fmt.Sprintf("%02d", part.From), fmt.Sprintf("%02d", part.To)
	if part.From == 0 || part.To >= 30 {
		t.Fatalf("the second part goes from minute %s to %s: choose another start", from, to)
	}
	for _, c := range []struct {
		start   *int
		is, not string
	}{
		{nil, "0:" + from + "–0:" + to + " " + part.Label, "18:3"},
		{&half, fmt.Sprintf("18:%d–18:%d ", 30+part.From, 30+part.To) + part.Label, "0:00"},
	} {
		about := worksheets.About{Pack: "P", Version: "1", Language: "en", Words: english(t), Start: c.start}
		said := oneLine(text(t, runSheet(t, about, l)))
		if !strings.Contains(said, c.is) || strings.Contains(said, c.not) {
			t.Errorf("the plan has no %q, or has %q: %s", c.is, c.not, said)
		}
	}
}

// withKeys is a pack of one lesson with so many questions, and notes with a question and its answer.
func withKeys(n int) fs {
	var body strings.Builder
	body.WriteString("```work\nmeasure d = 65 mm \"Diameter\"\n")
	for i := range n {
		fmt.Fprintf(&body, "find x%d in mm to 0.1 = d * %d\nslip d \"Too small.\"\nslip d * 999 \"Too large.\"\n", i, i+2)
	}
	body.WriteString("say w \"Why so?\"\nlisten \"They name the zebra.\"\n```\n\n## Mentor notes\n\n" +
		"### Questions to ask\n\n" +
		"- Who goes first? (The skipper.)\n")
	return packOf(body.String())
}

func TestAHugeRunSheetIsShortenedAndLosesNoKey(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		keys            int
		onePage, slips  bool
		answer, confess bool
	}{
		{12, true, true, true, false},
		{50, true, false, true, true},
		{120, false, true, true, false}, // over more pages, with everything
	} {
		_, files := built(t, withKeys(c.keys))
		name := "mentors/sheets/01-t-mentor-a4.pdf"
		said := oneLine(text(t, files[name]))
		for i := range c.keys {
			key := quantity.Shown{Number: fmt.Sprintf("%d.0", 65*(i+2)), Unit: "mm"}
			if !holds(said, oneLine(key.Text())) {
				t.Errorf("of %d keys %s is missing", c.keys, key.Text())
			}
		}
		for what, is := range map[string]bool{
			"one page":             c.onePage == (pages(t, files[name]) == 1),
			"wrong answers":        c.slips == strings.Contains(said, "64935.0 → Too large."),
			"an answer":            c.answer == strings.Contains(said, "→ The skipper."),
			"what it lacks":        c.confess == strings.Contains(said, "Shortened to fit one page"),
			"what is listened for": strings.Contains(said, "Listen for: They name the zebra."),
		} {
			if !is {
				t.Errorf("with %d keys it is otherwise with %s: %s", c.keys, what, said)
			}
		}
		inkInMargin(t, name, files[name])
		accessible(t, files[name])
	}
}

func TestARunSheetOfALessonWithoutNotesOrKeysIsOnePage(t *testing.T) {
	t.Parallel()
	_, files := built(t, packOf("Talk it over.\n"))
	file := files["mentors/sheets/01-t-mentor-letter.pdf"]
	said := oneLine(text(t, file))
	for _, want := range []string{"Mentors’ sheet: keys inside", "0:00–0:10 Part (10 min)",
		"Sheets for students", "Cloth."} {
		if !strings.Contains(said, want) {
			t.Errorf("it lacks %q: %s", want, said)
		}
	}
	for _, no := range []string{"Before they come", "Say first", "Keys at a glance"} {
		if strings.Contains(said, no) {
			t.Errorf("it heads nothing with %q", no)
		}
	}
	if n := pages(t, file); n != 1 {
		t.Errorf("it has %d pages", n)
	}
	_, files = built(t, hostile())
	for _, name := range []string{"mentors/sheets/01-t-mentor-a4.pdf", "mentors/sheets/01-t-mentor-letter.pdf"} {
		inkInMargin(t, name, files[name])
		said := strings.ReplaceAll(letters(text(t, files[name])), "-", "") // where a word is parted
		if !strings.Contains(said, "averylongnameindeedthatgoesonandonandonandon:") {
			t.Errorf("%s lacks a part of a long name", name)
		}
	}
}

// runSheet is the page with which a mentor runs a lesson, without cards.
func runSheet(t *testing.T, about worksheets.About, l *work.Lesson) []byte {
	t.Helper()
	pages, err := worksheets.LayOutRun(worksheets.Papers[0], about, l, nil)
	if err != nil {
		t.Fatal(err)
	}
	file, err := pages.File()
	if err != nil {
		t.Fatal(err)
	}
	return file
}
