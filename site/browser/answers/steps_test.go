package answers_test

// The steps that the page builds from a team's numbers, against those that Go works out for mentors.

import (
	"slices"
	"strings"
	"testing"

	"trundle/testdata/browser"
)

// TestThePageWorksTheStepsAsGoDoes fills in the coach's own numbers as they are written: then both editions show
// the same lines.
func TestThePageWorksTheStepsAsGoDoes(t *testing.T) {
	t.Parallel()
	pack := browser.PackOf("```work\n" + `measure far = 4.990 m "A"
measure turned = 720 deg "B"
measure low = -3.50 cm "C"
record tape[4] in cm to 0.1 = 44.0, 45.5, 44.4, 43.0 "D"
record side[3] in mm = -22, -39, -66 "E"
measure half = 1/2 "V"
record pair[2] in cm = 5, 7 "S"
measure pair16 = 2 1/2 in "T"
find twice in cm to 1 = 2 * far "F"
find gone in mm to 0.1 = distance(turned, 65 mm) "G"
find wide in in to 0.01 = far / (2/3) "H"
find square in cm^2 to 0.01 = low ^ 2 "I"
find all in cm to 0.1 = range(tape) "J"
find spread in cm to 0.01 = stdev(tape) "K"
find sure in mm to 0.1 = stderr(side) "L"
find aside in mm to 0.1 = mean(side) "M"
find apart in mm to 1 = range(side) "N"
find round in mm to 0.1 = circumference(kit.track) "W"
find ratio = (half ^ 2) * 3 "U"
find even in cm to 0.1 = mean(pair) "P"
find tape16 in in to 1/16 = pair16 * 2 "Q"
find odd in cm to 0.1 = mean(pair) / 7 "R"
find large to 0.001 = far / (1 mm) * 123456.789 "O"
` + "```\n")
	pack["kits.yaml"].Data = []byte(strings.Replace(string(pack["kits.yaml"].Data), "track: 112 mm", "track: 112.0 mm", 1))
	built := browser.Build(t, pack)
	tab := browser.Open(t)
	tab.Open(t, built.Root(), "mentors/01-t.html")
	lines := func(within string) []string {
		return browser.Ask[[]string](t, tab,
			`[...document.querySelectorAll("`+within+` li:not([hidden])")].map((e) => e.textContent)`)
	}
	want := browser.Ask[[][]string](t, tab, `[...document.querySelectorAll(".keys [data-kit=heron] > ol.steps")]
		.map((list) => [...list.children].map((e) => e.textContent))`)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	typed := [][2]string{{"far", "4.990"}, {"turned", "720"}, {"low", "-3.50"}, {"pair16", "2 1/2"}, {"half", "1/2"}}
	for _, sample := range browser.Samples(built.Lessons[0]) {
		if strings.Contains(sample[0], "-") { // a reading of a record, which is typed as it is written
			typed = append(typed, sample)
		}
	}
	browser.Fill(t, tab, typed)
	finds := built.Lessons[0].Finds
	if len(want) != len(finds) {
		t.Fatalf("mentors see the steps of %d finds: %v", len(want), want)
	}
	for i, find := range finds {
		browser.Fill(t, tab, [][2]string{{find.Name, browser.Exact(built.Lessons[0], find)}})
		if got := lines("#own_" + find.Name); !slices.Equal(flat(got), flat(want[i])) {
			t.Errorf("the steps of %s are\n%q, for mentors\n%q", find.Name, got, want[i])
		}
	}
	tab.Report(t)
}

// flat writes a fraction of a tape, which pages stack where its number is known, as digits in a row.
func flat(lines []string) []string {
	var all []string
	for _, line := range lines {
		all = append(all, strings.NewReplacer(" ", "", "/", "").Replace(line))
	}
	return all
}
