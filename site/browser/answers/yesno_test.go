package answers_test

// Yes and no, single readings, and runs that belong together, as a team answers them.

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

const compared = "```work\ngiven L = 120 cm \"To the gate\"\n" +
	"record before[4] in cm to 0.1 = 118.8, 120.3, 119.6, 121.0 \"Where did it stop before?\"\n" +
	"record after[4] in cm to 0.1 with before = 119.9, 121.2, 120.7, 121.9 \"And after?\"\n" +
	"find gain in cm to 0.1 = mean(after - before) \"How much further?\"\nkey gain = 1.0 cm\n" +
	"find second in cm to 0.1 = after[2] - before[2] \"The second pair\"\nkey second = 0.9 cm\n" +
	"find hits = count(before within 1 cm of L) \"How many were within 1 cm?\"\nkey hits = 3\n" +
	"find ok = mean(before) < L \"Is the mean short of the gate?\"\nkey ok = yes\n" +
	"slip mean(before) > L \"Which is more?\"\n" +
	"find points = if(ok, 3, 1) \"Points\"\nkey points = 3\n" +
	"find whole in rot to 1 = ceil(L / 20 cm) \"Whole rotations\"\nkey whole = 6 rot\n" +
	"find q1 in cm to 0.1 = lower_quartile(before) \"Lower quartile\"\nkey q1 = 119.2 cm\n```\n\n" +
	"It is short of the gate: {ok}. Three is more than two: {3 > 2}.\n\n" +
	"```python filled\nshort = {ok}\nnever = {3 < 2}\n```\n"

// TestYesAndNoAreAnsweredInWords answers before there is anything to answer by, wrongly and rightly; then reads the
// steps.
func TestYesAndNoAreAnsweredInWords(t *testing.T) {
	t.Parallel()
	built, tab := browser.BuildOf(t, compared), browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	said := browser.Fill(t, tab, [][2]string{
		{"ok", "yes"},
		{"before-1", "118.8"}, {"before-2", "120.3"}, {"before-3", "119.6"}, {"before-4", "121.0"},
		{"after-1", "119.9"}, {"after-2", "121.2"}, {"after-3", "120.7"}, {"after-4", "121.9"},
		{"ok", "no"}, {"ok", "yes"}, {"gain", "1"}, {"second", "0.9"}, {"hits", "3"},
		{"points", "3"}, {"whole", "6"}, {"q1", "119.2"},
	})
	for i, want := range map[int]string{0: "first.", 9: "Which is more?", 10: "Right", 11: "Right", 12: "Right",
		13: "Right", 14: "Right", 15: "Right", 16: "Right"} {
		if !strings.Contains(said[i].Text, want) {
			t.Errorf("answer %d gets %q, not %q", i, said[i].Text, want)
		}
	}
	text := browser.Ask[string](t, tab, `document.querySelector("main").innerText`)
	const both = "It is short of the gate: yes. Three is more than two: yes."
	if text = browser.AsTyped(text); !strings.Contains(text, both) {
		t.Errorf("the sentence reads %q", text[max(0, len(text)-400):])
	}
	if program := browser.Ask[string](t, tab, `document.querySelector("pre").textContent`); program !=
		"short = True\nnever = False\n" {
		t.Errorf("the program is %q", program)
	}
	line := browser.Ask[string](t, tab, `document.querySelector("#own_ok .one").textContent`)
	if !strings.HasSuffix(line, "=yes") {
		t.Errorf("the line of steps is %q", line)
	}
	if *shots != "" {
		tab.View(t, browser.Desktop, browser.Light)
		save(t, "yesno.png", browser.Run(t, tab, chromedp.FullScreenshot(100)))
	}
	tab.Report(t)
}

// TestPairsGoByTheirRows leaves one run of each record out: run 3 of one record belongs to run 3 of the other.
func TestPairsGoByTheirRows(t *testing.T) {
	t.Parallel()
	built, tab := browser.BuildOf(t, compared), browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	browser.Fill(t, tab, [][2]string{
		{"before-1", "118.8"}, {"before-2", "120.3"}, {"before-4", "121.0"},
		{"after-1", "119.9"}, {"after-3", "120.7"}, {"after-4", "121.9"},
	})
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("#rows_before button").click()`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("#rows_after button").click()`)
	// Pairs 1 and 4 alone: 1.1 and 0.9.
	said := browser.Fill(t, tab, [][2]string{{"gain", "1.0"}, {"second", "0.9"}})
	if !strings.Contains(said[0].Text, "Right") || strings.Contains(said[1].Text, "Right") {
		t.Errorf("the pairs that are there get %q, the one that is not %q", said[0].Text, said[1].Text)
	}
}

// TestNoYesIsInTheStudentsFiles: the key of a comparison is a word that stands in many texts, so its places are
// looked at.
func TestNoYesIsInTheStudentsFiles(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, compared)
	for _, name := range []string{"01-t.html", "steps/01-t.js"} {
		data, err := os.ReadFile(filepath.Join(built.Dir, "students", name))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.NewReplacer("yes or no", "", `value="yes">yes`, "",
			"than two: <span class=\"value\">yes</span>", "").Replace(string(data))
		if i := strings.Index(text, "yes"); i >= 0 {
			t.Errorf("%s has “%s”", name, text[max(0, i-80):min(len(text), i+20)])
		}
	}
}
