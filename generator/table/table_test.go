package table

// Tests of files of runs, good, odd and broken.

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

func read(text string) (*Table, problem.List) {
	return Read(source.NewFile("data/bases.csv", []byte(text)), nil)
}

func unit(t *testing.T, symbol string) quantity.Unit {
	t.Helper()
	u, ok := quantity.LookupUnit(symbol)
	if !ok {
		t.Fatalf("no unit %s", symbol)
	}
	return u
}

// told writes problems as line:column slug.
func told(l problem.List) []string {
	var all []string
	for _, p := range l.Sorted() {
		at := p.File.Position(p.Span.Start)
		all = append(all, fmt.Sprintf("%d:%d %s", at.Line, at.Column, p.Slug))
	}
	return all
}

func TestRunsAreReadByGroupAndInTheUnitAskedFor(t *testing.T) {
	table, problems := read("base,run,stop (cm),drift (mm)\nHeron,1,119.5,-3\nCoot,1,121,\"4\"\nHeron,2,,2.5\n")
	if len(told(problems)) > 0 {
		t.Fatal(told(problems))
	}
	stop, _ := table.Column("stop")
	got, problems := table.Numbers(stop, unit(t, "in"))
	if len(told(problems)) > 0 || len(got) != 3 || math.Abs(got[0]-119.5/2.54) > 1e-12 || !math.IsNaN(got[2]) {
		t.Errorf("stops in inches are %v, %v", got, told(problems))
	}
	by, _ := table.Column("base")
	groups, problems := table.Groups(by)
	if len(told(problems)) > 0 || fmt.Sprint(groups) != "[{Heron [0 2]} {Coot [1]}]" {
		t.Errorf("the groups are %v, %v", groups, told(problems))
	}
}

func TestFilesOfEuropeanSpreadsheetsAreReadWithANote(t *testing.T) {
	table, problems := read("base;stop (cm)\r\nHeron;119,5\r\nCoot;−1,25\r\n")
	if got := fmt.Sprint(told(problems)); got != "[1:1 semicolons]" {
		t.Errorf("the notes are %s", got)
	}
	stop, _ := table.Column("stop")
	if got, _ := table.Numbers(stop, unit(t, "cm")); fmt.Sprint(got) != "[119.5 -1.25]" {
		t.Errorf("the stops are %v", got)
	}
}

func TestWhatIsWrongWithATableIsToldWithItsPlace(t *testing.T) {
	for _, try := range []struct{ what, text, want string }{
		{"nothing", "", "1:1 empty-table"},
		{"a unit that is none", "base,stop (wobble)\nHeron,1\n", "1:6 unknown-unit"},
		{"two columns of one name", "base,stop (cm),stop (mm)\n", "1:16 column-twice"},
		{"a column without a name", "base,,stop\n", "1:6 no-column-name"},
		{"a row too short", "base,stop\nHeron\n", "2:1 ragged-row"},
		{"a row too long", "base,stop\nHeron,1,2\n", "2:1 ragged-row"},
		{"an open quote", "base,stop\nHeron,\"1\n", "2:1 broken-table"},
	} {
		_, problems := read(try.text)
		if got := strings.Join(told(problems), ", "); got != try.want {
			t.Errorf("%s: told %q, want %q", try.what, got, try.want)
		}
	}
	table, _ := read("base,stop (cm),time (s)\nHeron,far,1\n,2,\"1,5\"\nHeron,0x10,1e999\n")
	stop, _ := table.Column("stop")
	if _, problems := table.Numbers(stop, unit(t, "mm")); strings.Join(told(problems),
		", ") != "2:7 not-a-number, 4:7 not-a-number" {
		t.Errorf("text among numbers: %v", told(problems))
	}
	if _, problems := table.Numbers(stop, unit(t, "s")); strings.Join(told(problems), ", ") != "1:6 mixed-dimensions" {
		t.Errorf("another kind: %v", told(problems))
	}
	seconds, _ := table.Column("time")
	if _, problems := table.Numbers(seconds, unit(t, "s")); strings.Join(told(problems),
		", ") != "4:12 not-a-number" { // a comma between quotes is a decimal one
		t.Errorf("commas and sizes: %v", told(problems))
	}
	by, _ := table.Column("base")
	if _, problems := table.Groups(by); strings.Join(told(problems), ", ") != "3:1 empty-group" {
		t.Errorf("an empty group: %v", told(problems))
	}
}

func TestAHundredThousandRowsAreRead(t *testing.T) {
	table, problems := read("base,stop (cm)\n" + strings.Repeat("Heron,119.5\n", 100_000))
	if len(told(problems)) > 0 || table.Rows != 100_000 {
		t.Errorf("%d rows, %v", table.Rows, told(problems))
	}
	if _, problems := read("a\n" + strings.Repeat("1\n", MaxRows+5)); strings.Join(told(problems),
		"") != fmt.Sprintf("%d:1 table-too-long", MaxRows+2) {
		t.Errorf("too many rows: %v", told(problems))
	}
}

// FuzzRead looks for a panic, a place outside of the file, and columns of unequal length.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{"base,run,stop (cm)\nHeron,1,2\n", "a;b\n1,5;2\n", "\"", "a,a\n\n,\n", "x ()\n",
		"(cm)\n1\n", "a\r\n\"1\n2\"\r\n", "a (in)\n75 1/4\n–½\n3 ft 1 in\n", "a b\tc_d (s)\n1\t2 min\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		table, problems := read(text)
		for _, p := range problems.Sorted() {
			if p.Span.Start < 0 || p.Span.Start > len(text) {
				t.Errorf("%s at %d of %d", p.Slug, p.Span.Start, len(text))
			}
		}
		for _, c := range table.Columns {
			if len(c.Cells) > table.Rows {
				t.Errorf("%d cells in %d rows", len(c.Cells), table.Rows)
			}
			table.Numbers(c, c.Unit)
			table.Groups(c)
		}
	})
}

func TestTextsGuardedFromSpreadsheetsComeBackAsTheyWere(t *testing.T) {
	table, problems := read("base,note\n'=1+1,'@x\n'-3,'quoted'\n")
	if len(told(problems)) > 0 {
		t.Fatal(told(problems))
	}
	base, _ := table.Column("base")
	note, _ := table.Column("note")
	if got := fmt.Sprint(base.Cells[0].Text, " ", note.Cells[0].Text, " ", base.Cells[1].Text, " ",
		note.Cells[1].Text); got != "=1+1 @x -3 'quoted'" {
		t.Errorf("the texts are %s", got)
	}
}

func TestAbsurdSizesAreNotMeasured(t *testing.T) {
	table, _ := read("base,stop (cm)\nA,1e13\nA,-1e308\nA,1e12\nA,1e400\n")
	stop, _ := table.Column("stop")
	numbers, problems := table.Numbers(stop, unit(t, "cm"))
	if got := fmt.Sprint(told(problems)); got != "[2:3 number-too-large 3:3 number-too-large 5:3 not-a-number]" {
		t.Errorf("the problems are %s", got)
	}
	if !math.IsNaN(numbers[0]) || numbers[2] != 1e12 {
		t.Errorf("the numbers are %v", numbers)
	}
}

// TestAPointAmongDecimalCommasIsAsked: 1.203 may be 1203 or 1,203.
func TestAPointAmongDecimalCommasIsAsked(t *testing.T) {
	for text, want := range map[string]int{
		"base;s (mm)\nA;1,5\nA;1.203\n":   1,
		"base;s (mm)\nA;1.203\nA;1.215\n": 2,
		"base;s (mm)\nA;12.5\nA;1.203\n":  0,
		"base,s (mm)\nA,1.203\n":          0,
	} {
		table, _ := read(text)
		c, _ := table.Column("s")
		_, problems := table.Numbers(c, c.Unit)
		if got := told(problems); len(got) != want {
			t.Errorf("%q: %q", text, got)
		}
	}
}

// TestWhatSpreadsheetsLeaveAroundATableIsNoMatter: a line that names the separator, empty
// columns and rows at the end, marks of the direction of writing, other capitals.
func TestWhatSpreadsheetsLeaveAroundATableIsNoMatter(t *testing.T) {
	table, problems := read("sep=;\nBase;s (mm);;\n\u200eA;1,5;;\n;;;\n")
	if problems.HasErrors() || len(table.Columns) != 2 || table.Rows != 1 {
		t.Fatalf("%d columns, %d rows, %q", len(table.Columns), table.Rows, told(problems))
	}
	c, ok := table.Column("base")
	if !ok || c.Cells[0].Text != "A" {
		t.Errorf("the column is %+v", c)
	}
}

// TestNoCellIsLostForWantOfAName: a column without a name that holds something is told.
func TestNoCellIsLostForWantOfAName(t *testing.T) {
	for _, text := range []string{"base,s (mm),\nA,1,5\n", "base,,s (mm)\nA,5,1\n"} {
		if _, problems := read(text); !problems.HasErrors() {
			t.Errorf("%q: nothing is told", text)
		}
	}
}

func TestLettersStayJoined(t *testing.T) {
	const name = "\u0645\u06cc\u200c\u0631\u0648\u062f" // with a zero-width non-joiner, as Persian has it
	table, problems := read("base,s (mm)\n" + name + ",1\n")
	if problems.Count() != 0 || table.Columns[0].Cells[0].Text != name {
		t.Errorf("%q, %q", table.Columns[0].Cells[0].Text, told(problems))
	}
}

func TestManyBadCellsAreToldOnce(t *testing.T) {
	table, _ := read("s (mm)\n1\n" + strings.Repeat("far\n", 5000))
	_, problems := table.Numbers(table.Columns[0], table.Columns[0].Unit)
	if _, ragged := read("a,b\n" + strings.Repeat("1,2,3\n", 5000)); ragged.Count() != mostReported+1 {
		t.Errorf("%d problems of ragged rows", ragged.Count())
	}
	if n := problems.Count(); n != mostReported+1 {
		t.Errorf("%d problems", n)
	}
	words, _ := read("s (mm)\n" + strings.Repeat("far\n", 5000))
	if _, problems := words.Numbers(words.Columns[0], words.Columns[0].Unit); problems.Count() != 1 {
		t.Errorf("%d problems of a column of words", problems.Count())
	}
}

func TestTabsBetweenCellsAreRead(t *testing.T) {
	sheet, problems := Read(source.NewFile("data/t.csv", []byte("base\tstop (cm)\nHeron\t119,5\nCoot\t120,5\n")), nil)
	if got := strings.Join(told(problems), ", "); got != "1:1 tabs" {
		t.Errorf("problems are %s", got)
	}
	numbers, problems := sheet.Numbers(sheet.Columns[1], unit(t, "cm"))
	if problems.Count() > 0 || len(numbers) != 2 || numbers[0] != 119.5 {
		t.Errorf("numbers are %v, problems %v", numbers, told(problems))
	}
}

func TestAUnitWithoutBracketsIsGuessed(t *testing.T) {
	for name, want := range map[string]string{
		"stop in": "stop (in)", "far stop cm": "far_stop (cm)", "stop [mm]": "stop (mm)", "stop": "", "in": "",
		"stop (in)": "", "run number": "",
	} {
		sheet, _ := Read(source.NewFile("data/t.csv", []byte("base,"+name+"\nHeron,1\n")), nil)
		if got := sheet.Columns[1].Meant; got != want {
			t.Errorf("%q is guessed to be %q, want %q", name, got, want)
		}
	}
}

func TestGroupsThatAreNoneAreDoubted(t *testing.T) {
	const text = "base,n\nGull,1\ngull,2\nRed Gull,1\nRed  Gull,1\nMean:,1\nMax,1\n"
	sheet, _ := Read(source.NewFile("data/t.csv", []byte(text)), nil)
	groups, _ := sheet.Groups(sheet.Columns[0])
	want := "3:1 names-alike, 5:1 names-alike, 6:1 total-row"
	if got := strings.Join(told(sheet.Unlikely(sheet.Columns[0], groups)), ", "); got != want {
		t.Errorf("problems are %s, want %s", got, want)
	}
}
