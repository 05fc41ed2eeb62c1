package worksheets_test

// Lessons that a layout may break on: very long, without questions, with letters that the font lacks.

import (
	"fmt"
	iofs "io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/worksheets"
)

type fs = iofs.FS

func demo() fs { return os.DirFS("../lessons") }

// packOf is a pack of one lesson with the given body.
func packOf(body string) fstest.MapFS {
	pack := fstest.MapFS{}
	for name, text := range map[string]string{
		"pack.yaml": "title: P\nversion: 1\n",
		"care/cloth.md": "---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n## During\n\nWork.\n\n" +
			"## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n",
		"01-t.md": "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" + body,
	} {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return pack
}

// hostile is a lesson that a layout may well break on.
func hostile() fstest.MapFS {
	runs := strings.TrimSuffix(strings.Repeat("1.5, ", 40), ", ")
	long := strings.Repeat("How far is it from here to there? ", 59) // 2,000 characters
	return packOf("```work\n" +
		"given L = 1 m \"" + strings.Repeat("W", 500) + "\"\n" +
		"measure d = 65 mm \"" + strings.Repeat(long, 7) + "\"\n" +
		"record s[40] in cm = " + runs + " \"" + long + "\"\n" +
		"find averylongnameindeedthatgoesonandonandonandon in cm to 0.1 = mean(s) + circumference(d) * " +
		"(1 + L / (L + d)) ^ 2 - L \"" + long + "\"\n" +
		"find sixty in cm = d" + inches() + " \"Add\"\n" +
		"```\n\n## Exit ticket\n\n1. " + long + "\n\n   " + long + "\n2. " + strings.Repeat("x", 500) + "\n")
}

// inches is a sum whose worked steps are longer than a page.
func inches() string {
	var sum strings.Builder
	for n := 1; n <= 60; n++ {
		fmt.Fprintf(&sum, " + %d in", n)
	}
	return sum.String()
}

func TestAHostileLessonKeepsAllOfItsTextOnThePage(t *testing.T) {
	proved, files := built(t, hostile())
	l := proved.Lessons[0]
	for _, name := range sheetsOf("students", l) {
		printed := letters(text(t, files[name]))
		const sentence = "Howfarisitfromheretothere?"
		asks := 2 * 59 // in the list
		for _, s := range asked(l) {
			asks += strings.Count(letters(s.Prompt), sentence)
		}
		// A footer may stand within one on each page.
		if n, pages := strings.Count(printed, sentence), strings.Count(printed, "version1"); n < asks-pages || n > asks {
			t.Errorf("%s has %d of %d sentences on %d pages", name, n, asks, pages)
		}
		if n := strings.Count(printed, "Run40"); n != 1 {
			t.Errorf("%s has %d cells for run 40", name, n)
		}
		if !strings.Contains(printed, strings.Repeat("W", 500)) {
			t.Errorf("%s lacks a part of a word of 500 letters", name)
		}
	}
}

func TestALessonWithoutQuestionsHasASheet(t *testing.T) {
	proved, files := built(t, packOf("Talk it over.\n\n## Exit ticket\n\nWhat was new?\n"))
	for _, name := range sheetsOf("students", proved.Lessons[0]) {
		if printed := text(t, files[name]); !strings.Contains(printed, "What was new?") ||
			!strings.Contains(printed, "page 1 of 1") {
			t.Errorf("%s reads %s", name, printed)
		}
	}
}

// Readings that follow each other have no mean worth a box; others have one.
func TestOnlyReadingsThatScatterHaveABoxForTheirMean(t *testing.T) {
	for words, boxes := range map[string]int{"": 2, "in order ": 1} {
		proved, files := built(t, packOf("```work\nrecord r[3] in mm to 1 "+words+"= 1, 2, 3 \"Places\"\n"+
			"record s[3] in mm to 1 = 1, 2, 3 \"Stops\"\n```\n"))
		for _, name := range sheetsOf("students", proved.Lessons[0]) {
			if printed := text(t, files[name]); strings.Count(strings.ToLower(printed), "mean") != boxes {
				t.Errorf("%q: %s has another number of means than %d:\n%s", words, name, boxes, printed)
			}
		}
	}
}

func TestWhatTheFontLacksIsToldWithItsPlace(t *testing.T) {
	proved, err := generator.Prove(t.Context(),
		packOf("```work\nmeasure d = 1 mm \"How wide is 轮?\"\ngiven g = 1 mm \"轮\"\n```\n\n### 轮子\n\n## Part 轮\n"))
	if err != nil {
		t.Fatal(err)
	}
	var lines []int
	for _, p := range proved.Problems {
		if p.Slug == "no-glyph" && strings.Contains(p.What, "U+8F6E") {
			lines = append(lines, p.File.Position(p.Span.Start).Line)
		}
	}
	if fmt.Sprint(lines) != "[11 12 17]" { // headings of parts only are printed
		t.Errorf("told on lines %v of %v", lines, proved.Problems)
	}
}

func TestAGaugeThatIsTooLargeIsTold(t *testing.T) {
	for _, line := range []string{"ruler 40 cm", "wrap 30 cm", "squares 2 m", "wrap 1 m"} {
		proved, err := generator.Prove(t.Context(), packOf("```gauge\n"+line+"\n```\n"))
		if err != nil {
			t.Fatal(err)
		}
		told := false
		for _, p := range proved.Problems {
			told = told || p.Slug == "gauge-too-large" && p.File.Position(p.Span.Start).Line == 11
		}
		if !told {
			t.Errorf("%s: the problems are %v", line, proved.Problems)
		}
	}
}

// TestTheFontHasWhatMeasuringNeeds holds the font against the signs of the trade and letters
// of European languages.
func TestTheFontHasWhatMeasuringNeeds(t *testing.T) {
	const signs = "π±×÷−°½¼¾⅛″′√Δ≈²³₁…–“”äöüßéèçñåøæłőșțčďğıŽšœíþð"
	if r, lacks := worksheets.Lacks(signs); lacks {
		t.Errorf("the font lacks %q", r)
	}
	if _, lacks := worksheets.Lacks("轮"); !lacks {
		t.Error("the font is said to have a letter that it does not have")
	}
}
