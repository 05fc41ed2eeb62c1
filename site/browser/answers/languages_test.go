package answers_test

// Answers as they are typed in other languages than English: words for yes and no, units that are words, commas before
// decimals, and quotation marks in what the page says.

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/site/words"
	"trundle/testdata/browser"
)

const ofLanguages = `find ok = 3 cm > 2 cm "?"
find half in cm to 0,1 = 2 cm / 4 "?"
find turns in rotations to 0,1 = 900° "?"
find far in mm to 1 = 100,05 cm "?"
`

// barShort is by how much there is too little room between two words of the mentors' bar, or before the edge of the
// page: four pixels are the least that keeps two words apart.
const barShort = `(() => {
	const words = [...document.querySelectorAll(".bar .begin, .bar .to")].filter((e) => e.checkVisibility()).map((e) => {
		const range = document.createRange();
		range.selectNodeContents(e);
		return range.getBoundingClientRect();
	});
	if (words.length < 5) return 1000;
	return Math.max(...words.map((word, i) => word.right + 4 - (words[i + 1]?.left ?? innerWidth)));
})()`

// packIn is a small pack in a language, with the care cards of its starter pack.
func packIn(t *testing.T, tag string) fstest.MapFS {
	t.Helper()
	pack := browser.PackOf("```work\n" + ofLanguages + "```\n\n## Mentor notes\n\nA.\n")
	pack["pack.yaml"].Data = []byte("title: P\nversion: 1\nkit: heron\nlanguage: " + tag + "\n")
	card, err := os.ReadFile("../../../cmd/trundle/starter/" + tag + "/pack/care/damp-cloth.md")
	if err != nil {
		t.Fatal(err)
	}
	pack["care/cloth.md"].Data = card
	return pack
}

func TestAnswersAreReadInOtherLanguages(t *testing.T) {
	t.Parallel()
	tab := browser.Open(t)
	for tag, typed := range map[string][][2]string{
		"es": {{"ok", "sí"}, {"ok", "SI"}, {"half", "0,5"}, {"half", "0.5 cm"}, {"turns", "2,5 rotaciones"},
			{"far", "1000,5"}, {"far", "1.000,5"}},
		"fr": {{"ok", "Oui"}, {"half", "0,5"}, {"turns", "2,5 rotations"}, {"far", "1000,5 mm"}, {"far", "1\u202f000,5"}},
		"de": {{"ok", "ja"}, {"half", "0,50"}, {"turns", "2,5 Umdrehungen"}, {"turns", "2.5 rotations"},
			{"far", "1.000,5"}, {"far", "100,05 cm"}},
	} {
		w, err := words.Load(tag)
		if err != nil {
			t.Fatal(err)
		}
		built := browser.Build(t, packIn(t, tag))
		browser.StartOver(t, tab, built.Root(), "students/01-t.html")
		for i, said := range browser.Fill(t, tab, typed) {
			if !strings.HasPrefix(said.Text, w.Say("check-right")) {
				t.Errorf("%s: to %q the page says %q", tag, typed[i][1], said.Text)
			}
		}
		asks := browser.Fill(t, tab, [][2]string{{"half", "5 xyz"}, {"far", "1.00,5"}})
		marks := w.Forms().Quotes
		if quoted := browser.AsTyped(marks[0] + "xyz" + marks[1]); !strings.Contains(asks[0].Text, quoted) {
			t.Errorf("%s: a unit that there is not is told as %q", tag, asks[0].Text)
		}
		if asks[1].Text != browser.AsTyped(w.Say("check-answer-unclear")) { // two marks are never guessed at
			t.Errorf("%s: to two marks the page says %q", tag, asks[1].Text)
		}
		tab.Open(t, built.Root(), "mentors/01-t.html")
		browser.Wait(t, tab, `document.querySelector(".bar .begin:not([hidden])")`)
		for _, width := range []int64{browser.Phone, browser.Narrowest} {
			tab.View(t, width, browser.Light)
			if short := browser.Ask[float64](t, tab, barShort); short > 0 {
				t.Errorf("%s: at %d px the words of the bar have %g pixels too few", tag, width, short)
			}
		}
	}
	tab.Report(t)
}
