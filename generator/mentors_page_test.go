package generator_test

// The mentors' page of a lesson, made from packs with notes of different kinds.

import (
	"html"
	"strings"
	"testing"
)

// TestNotesGoToTheTopByTheirHeadings has authors name the two sections in ways of their own; one is not named at all.
func TestNotesGoToTheTopByTheirHeadings(t *testing.T) {
	for heading, want := range map[string]string{
		"Before they come": "Before they come", "Before the lesson:": "Before they come", "To prepare": "Before they come",
		"What to say first": "Say first", "SAY FIRST": "Say first", "Afterwards": "",
	} {
		notes := "## Mentor notes\n\n### " + heading + "\n\n- Charge **it**.\n\nThen rest.\n"
		page := editionsOf(t, notes)["mentors/01-t.html"]
		top, below, _ := strings.Cut(page, `<section class="notes">`)
		if is := strings.Contains(top, "Charge <strong>it</strong>."); is != (want != "") {
			t.Errorf("%s: on top is %v", heading, is)
		}
		if is := strings.Contains(below, "Charge <strong>it</strong>."); is != (want == "") {
			t.Errorf("%s: in the notes is %v", heading, is)
		}
		if want != "" && !strings.Contains(top, ">"+want+"</h2>") {
			t.Errorf("%s is not headed %q", heading, want)
		}
		if want == "" && (strings.Contains(page, "Before they come</h2>") || strings.Contains(page, "Say first</h2>")) {
			t.Errorf("%s: a column stands empty", heading)
		}
	}
}

// TestTheFirstOfTwoSectionsOfOneKindGoesToTheTop: the second stays where it is, so that nothing is lost.
func TestTheFirstOfTwoSectionsOfOneKindGoesToTheTop(t *testing.T) {
	page := editionsOf(t, "## Mentor notes\n\n### Say first\n\nOne zebra.\n\n### First words\n\nTwo gnus.\n\n"+
		"### To prepare\n\nThree emus.\n\n### Before they come\n\nFour ants.\n")["mentors/01-t.html"]
	top, below, _ := strings.Cut(page, `<section class="notes">`)
	for _, text := range []string{"One zebra.", "Three emus."} {
		if !strings.Contains(top, text) || strings.Contains(below, text) {
			t.Errorf("%q is not on top alone", text)
		}
	}
	for _, text := range []string{"Two gnus.", "Four ants."} {
		if strings.Contains(top, text) || !strings.Contains(below, text) {
			t.Errorf("%q is not in the notes alone", text)
		}
	}
}

// TestProseIsFoldedAndNotesStandOpen: headings alone are no fold, a key in the notes is not in one.
func TestProseIsFoldedAndNotesStandOpen(t *testing.T) {
	page := asTyped(html.UnescapeString(editionsOf(t, "One two three four five six seven eight nine ten.\n\n"+
		"> Mentor: Listen well.\n\n### Alone\n\n```work\n"+
		"given a = 2 cm \"A\"\nfind b in cm to 0.1 = 2 * a \"B\"\nslip a \"Twice!\"\n"+
		"slip 3 * a \"Less!\"\nslip 4 * a \"Less again!\"\nslip 5 * a \"Much less!\"\n```\n\n## Mentor notes\n\n"+
		"### A sum\n\n```work\nfind c in cm to 0.1 = 3 * a \"C\"\n```\n\n### Prose\n\nText.\n")["mentors/01-t.html"]))
	for _, want := range []string{
		"<summary>Students read: One two three four five six seven eight … (10 words)</summary>",
		"<p>Listen well.</p>", "</details>\n<div class=\"mentor\"", `<h3 id="alone">Alone</h3>`, "accept 3.95 to 4.05",
		"<summary>1 more</summary>\n<p><b", "10.0 cm</b> Much less!</p>", `<h3 id="a-sum">A sum</h3>`,
		`<details><summary><h3 id="prose">`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(page, `<summary><h3 id="a-sum">`) {
		t.Error("a key is folded away")
	}
}

// asTyped undoes what pages do for typography: blanks that no line breaks at, and apostrophes.
func asTyped(page string) string { return strings.NewReplacer("\u00a0", " ", "’", "'").Replace(page) }
