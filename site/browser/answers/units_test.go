package answers_test

// Tests of answers in two units, in parts, and in the units of motors and batteries.

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/browser"
)

const unitsOfTheTrade = `given u = 7.4 V "Voltage"
given q = 2000 mAh "Capacity"
given hook = 6 ft 3 1/2 in "Hook"
given t = 2:30 min "Match"
given g = kit.gear "Gear"
find e in Wh to 0.1 = u * q "Energy"
find low in ft and in to 1/2 = hook - 5 in "Lower hook"
find x in cm to 0.1 and in to 1/2 = hook / 3 "A third"
find m in min and s to 1 = 2 * t "Two matches"
find r to 0.01 = 1:4 "Ratio"
find w in deg to 1 = 2.5 rot * 360° "Degrees"
find s in s to 1 = t / 2 "Half of one"
measure room = 20 °C "How warm is it?"
find warm in °F to 1 = room "The same in °F"
find rise in °C to 0.1 = 77 °F - room "How much warmer?"
find scale in °F to 0.1 = 77 °F - room "And in °F?"
`

// aPack is one with those, and a kit whose gear is a ratio.
func aPack() fstest.MapFS {
	pack := browser.PackOf("```work\n" + unitsOfTheTrade + "```\n\nLower: {low}. Third: {x}. Twice: {m}.\n")
	pack["kits.yaml"].Data = []byte("heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3:5}\n")
	return pack
}

func TestAnswersAreReadInTheUnitsThatTheyAreAskedForIn(t *testing.T) {
	t.Parallel()
	built, tab := browser.Build(t, aPack()), browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	for _, c := range []struct{ name, typed, told string }{
		{"e", "14.8", "Right"}, {"e", "14.8 kW", "kW"}, {"e", "53.28 m", "asks for Wh"},
		{"e", "14800 mA·h·V", "Right"},
		{"low", "5 ft 10 1/2 in", "Right"}, {"low", "70.5", "Right"}, {"low", "5′ 10½″", "Right"}, {"low", "5 ft 10 in", ""},
		{"low", "179 cm", "Right"}, {"x", "63.9", "Right"}, {"x", "25 in", "Right"}, {"x", "63.5", ""},
		{"x", "24 1/2 in", ""},
		{"x", "25.0 inches", "Right"}, {"m", "5 min 0 s", "Right"}, {"m", "5:00", "Right"}, {"m", "300", "Right"},
		{"m", "5 min", "Right"}, {"m", "5:10", ""}, {"r", "1:4", "Right"}, {"r", "0.25", "Right"}, {"r", "1:3", ""},
		{"r", "1/4", "Right"}, {"w", "900", "Right"}, {"w", "2.5 rotations", "Right"}, {"s", "1:15", "Right"},
		{"s", "1:15 min", "Right"}, {"s", "75 seconds", "Right"},
		{"room", "68 °F", ""}, {"warm", "68", "Right"}, {"warm", "20 °C", "Right"}, {"warm", "20°F", ""},
		{"rise", "5", "Right"},
		{"rise", "9 °F", "Right"}, {"rise", "41 °F", ""}, {"scale", "9.0", "Right"}, {"scale", "5 °C", "Right"},
	} {
		told := browser.Fill(t, tab, [][2]string{{c.name, c.typed}})[0].Text
		if c.told == "" && strings.Contains(told, "Right") || !strings.Contains(told, c.told) {
			t.Errorf("%s = %q: the page says %q, not %q", c.name, c.typed, told, c.told)
		}
	}
	browser.Fill(t, tab, [][2]string{{"low", "70.5"}, {"x", "63.9"}, {"m", "5:00"}})
	said := browser.Ask[string](t, tab, `document.querySelector("main").innerText.replaceAll("\u00a0", " ")`)
	for _, want := range []string{
		"Lower: 5 ft 10 1/2 in. Third: 63.9 cm (25 in). Twice: 5 min 0 s.", "3:5", "6 ft 3 1/2 in",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("the page does not say %q:\n%s", want, said)
		}
	}
	tab.Report(t)
}

// TestStepsInTwoUnitsAreThoseThatMentorsSee compares both editions, as TestThePageWorksTheStepsAsGoDoes does.
func TestStepsInTwoUnitsAreThoseThatMentorsSee(t *testing.T) {
	t.Parallel()
	built, tab := browser.Build(t, aPack()), browser.Open(t)
	tab.Open(t, built.Root(), "mentors/01-t.html")
	want := browser.Ask[[][]string](t, tab, `[...document.querySelectorAll(".keys details")].map((fold) =>
		[...fold.querySelectorAll("ol.steps:first-of-type > li")].map((e) => e.textContent))`)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	for i, find := range built.Lessons[0].Finds {
		browser.Fill(t, tab, [][2]string{{"room", "20"}, {find.Name, browser.Exact(built.Lessons[0], find)}})
		got := browser.Ask[[]string](t, tab, `[...document.querySelectorAll("#own_`+find.Name+
			` li:not([hidden])")].map((e) => e.textContent)`)
		if !slices.Equal(flat(narrow(got)), flat(narrow(want[i]))) {
			t.Errorf("the steps of %s are\n%q, for mentors\n%q", find.Name, got, want[i])
		}
	}
	tab.Report(t)
}

// narrow takes the narrow blanks out, which stand between the parts of a number that is known when the pack is built.
func narrow(lines []string) []string {
	var all []string
	for _, line := range lines {
		all = append(all, strings.ReplaceAll(line, "\u202f", ""))
	}
	return all
}
