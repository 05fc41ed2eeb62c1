package answers_test

// Numbers that students find themselves, in the figures of their pages.

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// quay builds a pack with a file of runs and one lesson.
func quay(t *testing.T, csv, body string) browser.Built {
	t.Helper()
	return browser.Build(t, fstest.MapFS{
		"pack.yaml": {Data: []byte("title: P\nversion: 1\nkit: heron\n")},
		"kits.yaml": {Data: []byte("heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3}\n")},
		"care/cloth.md": {Data: []byte("---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n" +
			"## During\n\nWork.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n")},
		"data/r.csv": {Data: []byte(csv)},
		"01-t.md": {Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" +
			body)},
	})
}

func pageOf(t *testing.T, d browser.Built, edition string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(d.Dir, edition, "01-t.html"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

var tag = regexp.MustCompile(`<[^>]*>`)

// rowOf is the text of the table row that starts with a name, after some words.
func rowOf(page, after, name string) string {
	_, page, _ = strings.Cut(page, after)
	_, row, _ := strings.Cut(page, `<tr><th scope="row">`+name)
	row, _, _ = strings.Cut(row, "</tr>")
	return strings.Join(strings.Fields(tag.ReplaceAllString(row, " ")), " ")
}

// parts counts the strokes of the path in a picture that a pattern finds.
func parts(page, pattern string) int {
	path := regexp.MustCompile(`<path ` + pattern).FindStringSubmatch(page)
	if path == nil {
		return 0
	}
	return strings.Count(path[1], "M")
}

// Two bases: Gull's stops 118, 120, 122 cm have the mean 120 and s = 2, its drifts 12, 13 and 14 mm the
// mean 13; Tern's 110, 111 and 112 cm have the mean 111.
const harbour = "base,stop (cm),drift (mm)\nGull,118,12\nGull,120,13\nGull,122,14\nTern,110,-3\n" +
	"Tern,111,0\nTern,112,6\n"

const harbourRuns = "```runs data/r.csv\ngroup base \"Base\"\nalong stop in cm to 0.1 = 119 cm \"Stop\"\n" +
	"across drift in mm to 1 \"Drift\"\nlength 100 cm\n```\n"

// TestANumberThatOnlyLooksLikeAnAnswerIsShown: a spread of other runs that comes to 0.5 in hides neither a
// mean drift of 13 mm nor an accuracy of 0.5 in; a percent error of 0.04 % hides no mismatch.
func TestANumberThatOnlyLooksLikeAnAnswerIsShown(t *testing.T) {
	t.Parallel()
	page := pageOf(t, quay(t, harbour, "```work\nrecord s[3] in in to 0.1 = 50.1, 50.4, 50.6 \"Stops\"\n"+
		"find sp in in to 0.1 = range(s) \"Spread\"\n```\n\nText.\n\n"+harbourRuns), "students")
	if got := rowOf(page, "Drift (mm)", "Gull"); !strings.HasPrefix(got, "3 +13 ") {
		t.Errorf("the drift reads %q", got)
	}
	if strings.Contains(page, "veiled") {
		t.Error("a number is hidden")
	}
	const cycles = "base,cycle,off (mm)\nGull,1,4\nGull,2,8\nGull,3,12\nGull,4,15\n"
	page = pageOf(t,
		quay(t, cycles, "```work\nfind e in % to 0.01 = percent_error(99.96 cm, 100 cm) \"Percent\"\n```\n\nText.\n\n"+
			"```runs data/r.csv\ngroup base\ncycle cycle\nacross off in mm\nlength 1 m\ntrack 115 mm\n```\n"), "students")
	if got := rowOf(page, "<table", "Gull"); !strings.Contains(got, "−0.04 %") {
		t.Errorf("the mismatch reads %q", got)
	}
}

// TestWhatTheFindComputesIsHiddenWithWhatGivesIt: the mean, the interval around it, its error and percent
// error; not the standard deviation, the other base or the mean of another column.
func TestWhatTheFindComputesIsHiddenWithWhatGivesIt(t *testing.T) {
	t.Parallel()
	built := quay(t, harbour, "```work\nfind m in mm to 1 = mean(118 cm, 120 cm, 122 cm) \"Mean\"\n```\n\nText.\n\n"+
		harbourRuns+
		"\n```chart data/r.csv\ntitle \"Dots\"\ngroup base\ndots stop in cm = 119 cm \"Stop\"\n```\n\n```chart data/r.csv\n"+
		"title \"Bars\"\ngroup base\nbars stop in cm = 119 cm \"Stop\"\n```\n\n"+
		"```compare data/r.csv\ngroup base\nnear stop = 119 cm within 10 cm \"Near\"\n"+
		"steady stop within 10 cm \"Steady\"\n```\n")
	page := pageOf(t, built, "students")
	for _, c := range []struct{ after, row, want string }{
		{"Stop (cm), target", "Gull", "3 ? ? … ? 2.0 ? ? %"},
		{"Stop (cm), target", "Tern", "3 111.0 108.4 … 113.6 1.0 −8.0 6.7 %"},
		{"Drift (mm)", "Gull", "3 +13 10 … 16 1 0.7° (+0.6 … +0.9)"},
		{"Points", "Near", "1 ? ( ? cm off) 2.0 (8.0 cm off)"},
		{"Points", "Steady", "1 8.0 (s = 2.0 cm) 9.0 (s = 1.0 cm)"},
	} {
		if got := rowOf(page, c.after, c.row); got != c.want {
			t.Errorf("after %q the row of %s reads %q, want %q", c.after, c.row, got, c.want)
		}
	}
	for _, text := range []string{"mean ? cm", "Gull: mean ? cm, 95 % interval ? … ?"} {
		if !strings.Contains(tag.ReplaceAllString(page, ""), text) {
			t.Errorf("no description says %q", text)
		}
	}
	// Pictures draw one mean, that of Tern, and one bar with its interval: each is a part of a path.
	mentors := pageOf(t, built, "mentors")
	for name, drawn := range map[string]string{
		"means":     `class="ink" stroke-width="3" d="([^"]*)"`,
		"bars":      `class="c1 f" d="([^"]*)"`,
		"intervals": `class="ink" stroke-width="2" d="([^"]*)"`,
	} {
		students, all := parts(page, drawn), parts(mentors, drawn)
		if students == 0 || students*2 != all {
			t.Errorf("students see %d parts of the %s, mentors %d", students, name, all)
		}
	}
	if strings.Contains(mentors, "veiled") || !strings.Contains(mentors, "Gull: mean 120.0 cm") {
		t.Error("the mentors' page hides something")
	}
}

// TestAVeilOpensWhenItsFindIsRight: not before, not for a wrong answer, with the team's own number, and it shuts
// again. No file of the students has the number.
func TestAVeilOpensWhenItsFindIsRight(t *testing.T) {
	t.Parallel()
	built := quay(t, harbour, "```work\nfind m in mm to 1 = mean(118 cm, 120 cm, 122 cm) \"Mean\"\n"+
		"find a in mm to 1 = 4 cm \"Another\"\n```\n\nText.\n\n"+harbourRuns+
		"\n```chart data/r.csv\ntitle \"Dots\"\ngroup base\ndots stop in cm = 119 cm \"Stop\"\n```\n\n"+
		"\n```compare data/r.csv\ngroup base\nnear stop = 119 cm within 10 cm \"Near\"\n"+
		"steady stop within 10 cm \"Steady\"\n```\n")
	inWords := regexp.MustCompile(`"w":\[[^\]]*\]`) // the calculation, whose own numbers the lesson gives
	for name, data := range built.Files {
		data = inWords.ReplaceAll(data, nil)
		if regexp.MustCompile(`(^|\D)1200?(\.0)?[\s\x{a0}]*(mm|cm)\b`).Match(data) && strings.HasPrefix(name, "students/") {
			if strings.HasSuffix(name, ".html") || strings.HasSuffix(name, ".js") {
				t.Errorf("%s has the answer", name)
			}
		}
	}
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	row := func(after, name string) string {
		return rowOf(browser.Ask[string](t, tab, "document.documentElement.outerHTML"), after, name)
	}
	shut := func(when string) {
		if got := row("Stop (cm), target", "Gull"); got != "3 ? ? … ? 2.0 ? ? %" {
			t.Errorf("%s the row reads %q", when, got)
		}
	}
	shut("at first")
	browser.Fill(t, tab, [][2]string{{"m", "1195"}, {"a", "40"}})
	shut("after a wrong answer")
	browser.Fill(t, tab, [][2]string{{"m", "1200"}})
	browser.Wait(t, tab, `document.querySelectorAll(".veiled:not(.full)").length === 0`)
	for _, c := range []struct{ after, row, want string }{
		{"Stop (cm), target", "Gull", "3 120.0 115.0 … 125.0 2.0 +1.0 0.8 %"},
		{"Points", "Near", "1 9.0 ( 1.0 cm off) 2.0 (8.0 cm off)"},
		{"Points", "Overall", "8.5 5.5"},
	} {
		if got := strings.ReplaceAll(row(c.after, c.row), "&nbsp;", " "); got != c.want {
			t.Errorf("once it is right the row of %s reads %q, want %q", c.row, got, c.want)
		}
	}
	description := browser.Ask[string](t, tab, `document.querySelector("desc").textContent`)
	if !strings.Contains(description, "from 118.0 cm to 122.0 cm, mean 120.0 cm.") {
		t.Errorf("the picture is described by %q", description)
	}
	got := browser.Ask[[]string](t, tab, `[...document.querySelectorAll(".ranking li")].map((e) => e.textContent)`)
	if len(got) != 2 || strings.Contains(got[0]+got[1], "?") {
		t.Errorf("the ranking reads %q", got)
	}
	browser.Fill(t, tab, [][2]string{{"m", ""}})
	browser.Wait(t, tab, `document.querySelectorAll(".veiled.full").length === 0`)
	shut("when the answer is gone")
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.clear(false)`)
	tab.Report(t)
}

// TestAChartOpensWithItsOwnNumber: a formula's value at a mark is what the chart draws, whatever the
// team's answer was rounded to.
func TestAChartOpensWithItsOwnNumber(t *testing.T) {
	t.Parallel()
	built := quay(t, harbour, "```work\ngiven L = 150 cm \"Gate\"\ngiven D = 65 mm \"Wheel\"\n"+
		"find n in rot to 0.01 = L / (pi * D) \"Rotations\"\n```\n\nText.\n\n"+
		"```chart\ntitle \"How many\"\nvary x from 0 cm to 200 cm \"Distance\"\nline rotations(x, 65 mm) in deg \"Wheel\"\n"+
		"axis \"Turned\"\nmark 1.5 m \"Gate\"\n```\n")
	page := pageOf(t, built, "students")
	if got := rowOf(page, "Turned", "Gate, 150"); got != ", 150 ?" && got != "?" {
		t.Errorf("the mark reads %q", got)
	}
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	const number = `document.querySelector(".veiled").textContent`
	browser.Fill(t, tab, [][2]string{{"n", "8"}})
	if got := browser.Ask[string](t, tab, number); got != "?" {
		t.Errorf("a wrong answer opens it: %q", got)
	}
	browser.Fill(t, tab, [][2]string{{"n", "7.35"}})
	browser.Wait(t, tab, number+` !== "?"`)
	if got, want := browser.Ask[string](t, tab, number), "2644"; !strings.HasPrefix(got, want) {
		t.Errorf("it opens with %q, want %q: 150 ÷ (6.5 π) × 360", got, want)
	}
	tab.Report(t)
}
