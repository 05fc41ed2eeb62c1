package worksheets_test

// Questions on paper: what a team reads, where it writes, and that mentors read the rest at the same places.

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/site/words"
	"trundle/worksheets"
)

// blocksOf are the work blocks that students see.
func blocksOf(l *work.Lesson) []*lesson.WorkBlock {
	var all []*lesson.WorkBlock
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if b, ok := n.(*lesson.WorkBlock); ok && entering && !lesson.ForMentors(b) {
			all = append(all, b)
		}
		return ast.WalkContinue, nil
	})
	return all
}

func TestRowsAreAsHighForMentorsAsForStudents(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	english, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	about := worksheets.About{Words: english.Say}
	for _, l := range proved.Lessons {
		for _, room := range []float64{15, 20, 25, 30} {
			students := worksheets.RowHeights(about, l, blocksOf(l), false, room)
			mentors := worksheets.RowHeights(about, l, blocksOf(l), true, room)
			if len(students) == 0 || !slices.Equal(students, mentors) {
				t.Errorf("%s with %g mm: the rows are %v for students, %v for mentors", l.Slug, room, students, mentors)
			}
		}
	}
}

// TestLessRoomForSquaresTakesLessPaper: else it would be of no use to whoever fits a sheet into its pages.
func TestLessRoomForSquaresTakesLessPaper(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	english, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range proved.Lessons {
		last := 0.0
		for _, room := range []float64{15, 20, 25, 30} {
			sum := 0.0
			for _, h := range worksheets.RowHeights(worksheets.About{Words: english.Say}, l, blocksOf(l), false, room) {
				sum += h
			}
			if sum <= last {
				t.Errorf("%s: rows with %g mm take %g mm in all, those with less took %g", l.Slug, room, sum, last)
			}
			last = sum
		}
	}
}

// TestAFindHasTheFormulaOfItsKindAndNotItsOwn looks at every find of the demo pack.
func TestAFindHasTheFormulaOfItsKindAndNotItsOwn(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	kinds, own := 0, 0
	for _, l := range proved.Lessons {
		printed := letters(text(t, files[sheetsOf("students", l)[0]]))
		for _, b := range blocksOf(l) {
			for _, s := range b.Statements {
				if s.Kind != lesson.Find {
					continue
				}
				prompt := letters(typography.Marks{}.Text(s.Prompt))
				said, ok := quantity.RelationOf(s.Expr)
				if ok {
					kinds++
					if !strings.Contains(printed, prompt+letters(said.Text())) {
						t.Errorf("%s: “%s” does not come with %s", l.Slug, s.Prompt, said.Text())
					}
				}
				for _, step := range l.Of(s).Steps {
					own++
					line := letters(step.Text())
					if ok && line == letters(said.Text()) || len([]rune(line)) <= 8 { // a find may be called spread
						continue
					}
					if strings.Contains(printed, line) {
						t.Errorf("%s: students read a step of %s: %s", l.Slug, s.Name, step.Text())
					}
				}
			}
		}
	}
	if kinds < 40 || own < 200 {
		t.Errorf("only %d formulas and %d steps were looked for", kinds, own)
	}
}

// TestMentorsReadEachKeyInItsBox looks for the number with the unit that the box has.
func TestMentorsReadEachKeyInItsBox(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		printed := letters(text(t, files[sheetsOf("mentors", l)[0]]))
		for _, find := range l.Finds {
			r := l.Of(find)
			if r.Key == nil {
				continue
			}
			prompt := letters(typography.Marks{}.Text(find.Prompt))
			if said, ok := quantity.RelationOf(find.Expr); ok {
				prompt += letters(said.Text())
			}
			key := letters(r.Key.Amount())
			if !strings.Contains(printed, prompt+key) && onSheet(l, find) {
				t.Errorf("%s: %s does not follow “%s”", l.Slug, r.Key.Amount(), find.Prompt)
			}
			last := letters(r.Steps[len(r.Steps)-1].Text())
			if _, after, _ := strings.Cut(printed, prompt+key); onSheet(l, find) && !strings.Contains(after, last) {
				t.Errorf("%s: the last step of %s, %s, is missing", l.Slug, find.Name, last)
			}
		}
	}
}

// onSheet tells whether a find is one of the students'.
func onSheet(l *work.Lesson, find *lesson.Statement) bool {
	for _, b := range blocksOf(l) {
		if slices.Contains(b.Statements, find) {
			return true
		}
	}
	return false
}

func TestAFractionOfATapeIsReadAsItIsWritten(t *testing.T) {
	_, files := built(t, packOf("```work\ngiven W = 36 1/2 in \"To the gate\"\n"+
		"record h[2] in in to 1/16 = 37 1/4, 36 7/8 \"Stops\"\nfind e in in to 1/16 = mean(h) - W \"Error\"\n"+
		"key e = 9/16 in\n```\n"))
	for name, want := range map[string][]string{
		"students/sheets/01-t-a4.pdf": {"W = 36 1/2 in"},
		"mentors/sheets/01-t-a4.pdf":  {"W = 36 1/2 in", "37 1/4", "36 7/8", "9/16"},
	} {
		printed := oneBlank.ReplaceAllString(text(t, files[name]), " ")
		for _, w := range want {
			if !strings.Contains(printed, w) {
				t.Errorf("%s lacks %q: %s", name, w, printed)
			}
		}
	}
}

func TestGivensFlowOnOneLine(t *testing.T) {
	_, files := built(t, packOf("```work\ngiven L = 120 cm \"To the lock\"\ngiven big = 65 mm \"Large wheels\"\n"+
		"given tiny = 48 mm \"Small wheels\"\n```\n"))
	const want = "L = 120 cm To the lock · big = 65 mm Large wheels · tiny = 48 mm"
	layout := tool(t, files["students/sheets/01-t-a4.pdf"], "pdftotext", "-layout", "FILE", "-")
	if !strings.Contains(oneBlank.ReplaceAllString(layout, " "), want) {
		t.Errorf("the givens are set as %s", layout)
	}
}

// A word as it stands on a page, in points from the top.
type placed struct {
	text                   string
	left, top, right, foot float64
}

var inBox = regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<`)

// placedWords are the words of a sheet with their places.
func placedWords(t *testing.T, pdf []byte) []placed {
	t.Helper()
	var all []placed
	for _, m := range inBox.FindAllStringSubmatch(tool(t, pdf, "pdftotext", "-bbox", "FILE", "-"), -1) {
		var at [4]float64
		for i := range at {
			at[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		all = append(all, placed{m[5], at[0], at[1], at[2], at[3]})
	}
	return all
}

func placeOf(t *testing.T, all []placed, word string) placed {
	t.Helper()
	i := slices.IndexFunc(all, func(p placed) bool { return p.text == word })
	if i < 0 {
		t.Fatalf("%q is not on the sheet", word)
	}
	return all[i]
}

// TestALongSymbolStandsBesideItsPrompt: it used to push the prompt a line down.
func TestALongSymbolStandsBesideItsPrompt(t *testing.T) {
	_, files := built(t, packOf("```work\npredict old_guess in mm \"Whereto?\"\n```\n"))
	all := placedWords(t, files["students/sheets/01-t-a4.pdf"])
	symbol, prompt := placeOf(t, all, "old_guess"), placeOf(t, all, "Whereto?")
	if symbol.right > prompt.left || symbol.top < prompt.top || symbol.foot > prompt.foot {
		t.Errorf("the symbol is at %v, its prompt at %v", symbol, prompt)
	}
}

// TestPromptsAreInTheSizeOfTheBody compares the heights of words with that of labels.
func TestPromptsAreInTheSizeOfTheBody(t *testing.T) {
	_, files := built(t, packOf("```work\nmeasure d = 65 mm \"Across\"\n```\n"))
	all := placedWords(t, files["students/sheets/01-t-a4.pdf"])
	prompt, label := placeOf(t, all, "Across"), placeOf(t, all, "Measure")
	if ratio := (prompt.foot - prompt.top) / (label.foot - label.top); ratio < 12/8.5-0.05 {
		t.Errorf("a prompt is %.2f times as large as what is said beside it", ratio)
	}
}

func TestTwoShortMeasuresShareARow(t *testing.T) {
	_, files := built(t, packOf("```work\nmeasure dots = 14 \"Dots\"\nmeasure all = 40 \"Others\"\n"+
		"measure far = 40 cm \"This one has so many words that it must have a whole row for itself\"\n```\n"))
	words := placedWords(t, files["students/sheets/01-t-a4.pdf"])
	first, second, third := placeOf(t, words, "Dots"), placeOf(t, words, "Others"), placeOf(t, words, "This")
	if first.top != second.top || third.top <= first.foot {
		t.Errorf("they are at %v, %v and %v", first, second, third)
	}
}

// alternatives are what a sheet's figures and boxes say in words.
func alternatives(t *testing.T, pdf []byte) string {
	t.Helper()
	json := tool(t, pdf, "qpdf", "--json", "FILE")
	var all []string
	for _, m := range regexp.MustCompile(`"/Alt": "u:((?:[^"\\]|\\.)*)"`).FindAllStringSubmatch(json, -1) {
		all = append(all, m[1])
	}
	return strings.ReplaceAll(strings.Join(all, "\n"), "\u00a0", " ")
}

// TestAStripOfTapeHasZeroWhereRunsGoToBothSides, and a target only if students know it.
func TestAStripOfTapeHasZeroWhereRunsGoToBothSides(t *testing.T) {
	const (
		stops = "record s[3] in mm to 1 = 104, 112, 107 \"S\"\n"
		miss  = "find e in mm to 1 = mean(s) - L"
		strip = "A strip of tape in mm, for a dot for each run of s"
	)
	for _, c := range []struct{ block, want string }{
		{"record s[3] in mm to 1 = -4, 12, 7 \"S\"", strip + ", with a mark for 0 in the middle"},
		{"record s[3] in mm to 1 = 4, 12, 7 \"S\"", strip + ", with a mark for 0 in the middle"}, // another team's may
		{stops, strip},
		{"given L = 10 cm\n" + stops + miss, strip + ", with a mark for 10 cm in the middle"},
		{"measure L = 10 cm \"L\"\n" + stops + miss, strip},
		{"measure d = 3 cm \"D\"\nfind L in mm to 1 = 3 * d\nkey L = 90 mm\n" + stops + miss, strip},
	} {
		_, files := built(t, packOf("```work\n"+c.block+"\n```\n"))
		said := strings.Split(alternatives(t, files["students/sheets/01-t-a4.pdf"]), "\n")
		if !slices.Contains(said, c.want) {
			t.Errorf("%s\nhas no %q in %q", c.block, c.want, said)
		}
	}
}

func TestRunsThatAFigureDrawsHaveNoStripOfTheirOwn(t *testing.T) {
	_, files := built(t, packOf("```work\ngiven L = 120 cm\nrecord stop[3] in cm to 0.1 = 119, 120, 121 \"S\"\n```\n\n"+
		"```show\ntape stop = L \"Stops\"\n```\n"))
	said := alternatives(t, files["students/sheets/01-t-a4.pdf"])
	const tape = "A blank tape in cm to draw on, with a mark for 120 cm"
	if strings.Contains(said, "strip") || !strings.Contains(said, tape) {
		t.Errorf("it says %s", said)
	}
}

func TestBoxesSayWhatTheyAreFor(t *testing.T) {
	_, files := built(t, packOf("```work\nmeasure d1 = 65 mm \"Across\"\nrecord s[2] in cm = 1.5, 2.5 \"Stops\"\n"+
		"find n in rot to 0.01 = rotations(2 m, d1) \"How many?\"\nsay why \"Why so many?\"\n```\n"))
	said := alternatives(t, files["students/sheets/01-t-a4.pdf"])
	for _, want := range []string{"Box for d₁ in mm", "Box for s, Run 2 in cm", "Box for n in rotations",
		"rotations = distance ÷ circumference", "Lines to write on: Why so many?"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q in:\n%s", want, said)
		}
	}
	structure := tool(t, files["students/sheets/01-t-a4.pdf"], "pdfinfo", "-struct", "FILE")
	const names, log = 3, 2
	for tag, n := range map[string]int{"TH": 3, "TD": 3, "Form": names + 1 + 3 + 1 + 1 + log, "Formula": 1} {
		if got := len(regexp.MustCompile(`(?m)^ *`+tag+`\b`).FindAllString(structure, -1)); got != n {
			t.Errorf("there are %d of %s, not %d, in:\n%s", got, tag, n, structure)
		}
	}
}

// TestFiguresToDrawOnAreBlackEnough: a copier loses light grey. Squares are meant to be pale.
func TestFiguresToDrawOnAreBlackEnough(t *testing.T) {
	_, files := built(t, packOf("```work\nrecord s[3] in mm to 1 = -4, 12, 7 \"S\"\n```\n\n"+
		"```show\npath s over 100 cm times 5 \"Seen from above\"\nread 120 cm to 0.1 \"Read\"\n"+
		"part 1 cm of 4 cm \"Part\"\n```\n"))
	pdf := drawing(t, files["students/sheets/01-t-a4.pdf"])
	_, figures, _ := strings.Cut(pdf, "/Figure <<") // the first is the tape of minutes
	_, figures, _ = strings.Cut(figures, "/Figure <<")
	figures, _, _ = strings.Cut(figures, "/Artifact")
	for _, m := range regexp.MustCompile(`(?m)^ ?([\d.]+) (?:G|g)$`).FindAllStringSubmatch(figures, -1) {
		if grey, _ := strconv.ParseFloat(m[1], 64); grey > 0.36 {
			t.Errorf("a figure has lines or letters of grey %g", grey)
		}
	}
	sizes := regexp.MustCompile(`/F\d ([\d.]+) Tf`).FindAllStringSubmatch(figures, -1)
	for _, m := range sizes {
		if size, _ := strconv.ParseFloat(m[1], 64); size < 9 {
			t.Errorf("a figure has letters of %g points", size)
		}
	}
	if len(sizes) < 10 {
		t.Errorf("only %d texts were found in the figures", len(sizes))
	}
}

func TestAMeanHasABoxOnlyWhereNobodyIsAskedForIt(t *testing.T) {
	for find, boxes := range map[string]int{
		"": 1, "find m in mm = mean(s) \"M\"": 0, "find v in mm = mean(s) * 2 \"V\"": 1,
	} {
		_, files := built(t, packOf("```work\nrecord s[3] in mm to 1 = 1, 2, 3 \"Stops\"\n"+find+"\n```\n"))
		said := alternatives(t, files["students/sheets/01-t-a4.pdf"])
		if got := strings.Count(said, "Box for s, Mean"); got != boxes {
			t.Errorf("with %q there are %d boxes for the mean: %s", find, got, said)
		}
	}
}

// TestTheSlipsOfMentorsHaveRoomOrAreLeftToTheRunSheet: a row never grows for them.
func TestTheSlipsOfMentorsHaveRoomOrAreLeftToTheRunSheet(t *testing.T) {
	long := strings.Repeat("You went the wrong way round. ", 30)
	_, files := built(t, packOf("```work\ngiven L = 1 m\nfind n in cm = 2 * L \"N\"\n"+
		"slip L \"Only one.\"\nslip 3 * L \""+long+"\"\n```\n"))
	printed := text(t, files["mentors/sheets/01-t-a4.pdf"])
	if !strings.Contains(printed, "100 cm: Only one.") || strings.Contains(printed, "wrong way") {
		t.Errorf("the sheet reads %s", printed)
	}
	if strings.Contains(text(t, files["students/sheets/01-t-a4.pdf"]), "Only one") {
		t.Error("students read a slip")
	}
}

func TestManyRunsAreInRowsThatAreTablesOfTheirOwn(t *testing.T) {
	var runs []string
	for i := range 25 {
		runs = append(runs, fmt.Sprint(i+100))
	}
	_, files := built(t, packOf("```work\nrecord s[25] in mm to 1 = "+strings.Join(runs, ", ")+" \"Stops\"\n```\n"))
	structure := tool(t, files["students/sheets/01-t-a4.pdf"], "pdfinfo", "-struct", "FILE")
	if tables := len(regexp.MustCompile(`(?m)^ *Table\b`).FindAllString(structure, -1)); tables != 3 {
		t.Errorf("26 cells are in %d tables:\n%s", tables, structure)
	}
}
