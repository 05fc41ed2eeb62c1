package answers_test

// What stands below readings that follow each other.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"
)

// TestReadingsInOrderRiseAndFallBelowTheirRecord: the dots go up and down in the order of the readings, and neither a
// mean nor a spread is told, which scattered readings beside them have.
func TestReadingsInOrderRiseAndFallBelowTheirRecord(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\nrecord r[3] in mm to 1 in order = 10, 30, 20 \"Follow\"\n"+
		"record s[3] in mm to 1 = 10, 30, 20 \"Scatter\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	browser.Fill(t, tab, browser.Samples(built.Lessons[0]))
	// How high each dot is, from the highest on: 0, 1, 2.
	const below = `[...document.querySelectorAll("svg")].filter((e) => e.querySelector("circle")).map((e) => ` +
		`e.parentNode.textContent + "|" + [...e.querySelectorAll("circle")].map((c, i, all) => ` +
		`all.filter((o) => +o.getAttribute("cy") < +c.getAttribute("cy")).length).join(" ") + ` +
		`"|" + e.getAttribute("aria-label"))`
	got := browser.Ask[[]string](t, tab, below)
	if len(got) != 2 || !strings.Contains(got[0], "|2 0 1|") || !strings.Contains(got[0], "the last 20\u00a0mm") {
		t.Fatalf("below the records: %q", got)
	}
	if strings.Contains(got[0], "ean") || !strings.Contains(got[1], "ean") {
		t.Errorf("a mean is told of the wrong record: %q", got)
	}
}
