package generator_test

// What ± means: the mentors' page, what leads to it, and what students read.

import (
	"html"
	"strings"
	"testing"
	"testing/fstest"
)

func TestMentorsReadWhatPlusMinusMeans(t *testing.T) {
	files := drawn(t, fstest.MapFS{
		"pack.yaml": {Data: []byte("title: P\nversion: 1\nkit: k\n")},
		"kits.yaml": {Data: []byte("k: {title: K, wheel: 65 mm within 0.5 mm, track: 112 mm, gear: 1}\n")},
		"care/c.md": {Data: []byte(strings.Replace(solventCard, "%s", "", 1))},
		"01-t.md": {Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [c]\n---\n\n## Part (10 min)\n\n```work\n" +
			"record a[3] in cm to 1 = 20, 21, 22 \"A\"\nrecord b[3] in cm to 1 = 20, 21, 23 \"B\"\n" +
			"find m in cm to 0.1 = mean(a)\nkey m = 21.0 cm within 0.1 cm\nfind n in cm to 0.1 = mean(b) - mean(a)\n" +
			"find w in cm to 0.1 = circumference(kit.wheel)\n```\n")},
		"02-t.md": {Data: []byte("---\ntitle: U\nweek: 2\nminutes: 10\ncare: [c]\n---\n\n## Part (10 min)\n\n" +
			"{kit.track} {kit.gear}\n")},
	})
	// s²/3 + 1/12 = 0.6455²; 3.125 degrees of freedom count as 3, t95(3) = 3.182 (GUM, Table G.2).
	mentors := asTyped(html.UnescapeString(files["mentors/01-t.html"]))
	for _, want := range []string{
		"(21.00 ± 0.65) cm · 95 %: 18.95 to 23.05 cm", "Taken as read in different runs: a, b.",
		" <small>within 0.1 cm</small>",
		`<a href="sure.html">What ± means</a>`, "wheel 65 mm within 0.5 mm",
	} {
		if !strings.Contains(mentors, want) {
			t.Errorf("mentors do not read %q", want)
		}
	}
	if got := strings.Count(mentors, `href="sure.html"`); got != 2 {
		t.Errorf("the page is linked %d times, not from the notes on reading and from the block", got)
	}
	for _, want := range []string{"(120.0 ± 0.4) cm", "divided by √3", "JCGM 100:2008"} {
		if !strings.Contains(html.UnescapeString(files["mentors/sure.html"]), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	const sentence = "“Within” is the most that a number can be off"
	if !strings.Contains(html.UnescapeString(files["students/01-t.html"]), sentence) {
		t.Error("students read a limit of their kit and not what it means")
	}
	if strings.Contains(html.UnescapeString(files["students/02-t.html"]), sentence) {
		t.Error("students read what a limit means where there is none")
	}
	if _, there := files["students/sure.html"]; there {
		t.Error("students have the page for mentors")
	}
}
