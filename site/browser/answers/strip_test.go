package answers_test

// Runs on their tape: what it shows, and when.

import (
	"strconv"
	"strings"
	"testing"

	"trundle/testdata/browser"
)

const stripOf = `document.querySelector("#sum_stop svg")`

// TestTheTapeOfRunsGivesNothingAway fills in five runs, then answers what the lesson asks of them: mean and spread
// come to the tape only then, and the page stays where it is.
func TestTheTapeOfRunsGivesNothingAway(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Fill(t, tab, [][2]string{{"stop-1", "118.8"}})
	if browser.Ask[bool](t, tab, stripOf+` !== null`) {
		t.Error("one run has a tape")
	}
	browser.Fill(t, tab, [][2]string{{"stop-2", "120.3"}, {"stop-3", "119.6"}, {"stop-4", "121"}, {"stop-5", "119.1"}})
	if n := browser.Ask[int](t, tab, stripOf+`.querySelectorAll("circle").length`); n != 5 {
		t.Errorf("five runs are %d dots", n)
	}
	says := func() string {
		return browser.Ask[string](t, tab, stripOf+`.getAttribute("aria-label") + "|" + `+stripOf+`.textContent`)
	}
	height := func() float64 { return browser.Ask[float64](t, tab, stripOf+`.getBoundingClientRect().height`) }
	at, label := height(), says()
	if !strings.Contains(label, "target 121.92\u00a0cm") || !strings.Contains(label, "from 118.8\u00a0cm to 121\u00a0cm") {
		t.Errorf("the tape says %q", label)
	}
	for _, step := range []struct{ name, answer, has, hasNot string }{
		{"", "", "", "ean|pread|119.76|2.2"},
		{"avg", "119.8", "mean 119.76\u00a0cm", "pread|2.2"},
		{"spread", "2.2", "spread 2.2\u00a0cm", ""},
		{"avg", "100", "spread 2.2\u00a0cm", "ean"},
	} {
		if step.name != "" {
			browser.Fill(t, tab, [][2]string{{step.name, step.answer}})
		}
		got := says()
		for _, part := range strings.Split(step.hasNot, "|") {
			if part != "" && strings.Contains(got, part) {
				t.Errorf("after %s = %s the tape says %q", step.name, step.answer, got)
			}
		}
		if !strings.Contains(got, step.has) {
			t.Errorf("after %s = %s the tape does not say %q: %q", step.name, step.answer, step.has, got)
		}
		if height() != at {
			t.Errorf("after %s = %s the tape is %.0f px high; it was %.0f", step.name, step.answer, height(), at)
		}
	}
	tab.Report(t)
}

// TestASlipOfTheKeysDoesNotStopThePage writes runs that no tape has, as a key that stays down does: a tape with a mark
// for each part of such a length would never be done.
func TestASlipOfTheKeysDoesNotStopThePage(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	for _, runs := range [][5]string{
		{"1", "1000000000000000000", "3", "4", "5"},
		{"100000000000000000000", "100000000000000016384", "100000000000000016384", "100000000000000016384",
			"100000000000000016384"},
	} {
		browser.StartOver(t, tab, root, browser.Lesson3)
		var boxes [][2]string
		for i, run := range runs {
			boxes = append(boxes, [2]string{"stop-" + strconv.Itoa(i+1), run})
		}
		browser.Fill(t, tab, boxes)
		if n := browser.Ask[int](t, tab, stripOf+`.querySelectorAll("circle").length`); n != 5 {
			t.Errorf("five runs are %d dots", n)
		}
	}
	tab.Report(t)
}

// TestATapeInInchesHasFractions: its numerals are those of a tape, and so is what is said of its runs.
func TestATapeInInchesHasFractions(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t,
		"```work\nrecord stop[4] in in to 1/16 = 36 1/4, 36 1/2, 36 7/16, 36 3/8 \"Stops\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	browser.Fill(t, tab, browser.Samples(built.Lessons[0]))
	named := browser.Ask[[]string](t, tab, `[...`+stripOf+`.querySelectorAll(".named")].map((e) => e.textContent)`)
	if text := strings.Join(named, "|"); !strings.Contains(text, "36 3/8") || strings.Contains(text, ".") {
		t.Errorf("the numerals are %q", named)
	}
	if label := browser.Ask[string](t, tab, stripOf+`.getAttribute("aria-label")`); !strings.Contains(label, "to 36 1/2") {
		t.Errorf("the tape says %q", label)
	}
	tab.Report(t)
}

// TestThirtyRunsAreBoxesWithWholeRings: each has an edge of two pixels all round, and a ring that nothing cuts off.
func TestThirtyRunsAreBoxesWithWholeRings(t *testing.T) {
	t.Parallel()
	readings := strings.TrimSuffix(strings.Repeat("20, 21, ", 15), ", ")
	built := browser.BuildOf(t, "```work\nrecord stop[30] in mm = "+readings+" \"Runs\"\n```\n")
	tab := browser.Open(t)
	for width, across := range map[int64]int{browser.Tablet: 5, browser.Narrowest: 3} {
		browser.StartOver(t, tab, built.Root(), "students/01-t.html")
		tab.View(t, width, browser.Light)
		browser.Fill(t, tab, browser.Samples(built.Lessons[0]))
		for _, fault := range browser.Ask[[]string](t, tab, `(() => {
			const all = [...document.querySelectorAll(".cells input")];
			const faults = [];
			const tops = new Set(all.map((e) => e.getBoundingClientRect().top));
			if (all.length !== 30 || Math.ceil(30 / tops.size) !== `+string(rune('0'+across))+`)
				faults.push(all.length + " boxes in " + tops.size + " rows");
			for (const e of all) {
				const s = getComputedStyle(e);
				for (const side of ["Top", "Right", "Bottom", "Left"])
					if (s["border" + side + "Width"] !== "2px") faults.push(e.id + ": " + side);
				for (let up = e.parentNode; up; up = up.parentElement)
					if (/hidden|clip|auto|scroll/.test(getComputedStyle(up).overflow) && up !== document.documentElement)
						faults.push(e.id + " is cut off by " + up.className);
			}
			return faults;
		})()`) {
			t.Errorf("%d px: %s", width, fault)
		}
		tab.Report(t)
	}
}
