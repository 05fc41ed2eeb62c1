package keeping_test

// What a team says in words, and what it guesses: kept like any entry, and never judged.

import (
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

const inWords = "```work\npredict guess in rot \"How many?\"\nmeasure d = 65 mm \"Wheel\"\n" +
	"find off in % to 1 = percent_error(guess, 4 rot) \"How far off?\"\n" +
	"slip percent_error(4 rot, guess) \"Upside down.\"\n" +
	"say why \"Why?\"\nlisten \"A cause.\"\n```\n\nYou said {guess}.\n"

// valueOf asks for what is in a box.
func valueOf(t *testing.T, tab *browser.Tab, id string) string {
	t.Helper()
	return browser.Ask[string](t, tab, `document.getElementById("`+id+`").value`)
}

// TestWordsAreFoundAgainWhenThePageIsLeftFromThem writes several lines, leaves at once, and comes back.
func TestWordsAreFoundAgainWhenThePageIsLeftFromThem(t *testing.T) {
	t.Parallel()
	root := browser.BuildOf(t, inWords).Root()
	for _, how := range []string{"reload", "close", "another address"} {
		t.Run(how, func(t *testing.T) {
			first := browser.Open(t)
			tab := browser.Another(t, first)
			browser.StartOver(t, tab, root, "students/01-t.html")
			text := how + `: 3,5 cm "more" <b>` + strings.Repeat(" and so on", 150)
			browser.Ask[chromedp.Void](t, tab, `(() => {
				in_why.focus();
				document.execCommand("insertText", false, `+quoted(text+"\nA second line.")+`);
			})()`)
			tab = waysOut[how](t, first, tab, root)
			tab.Open(t, root, "students/01-t.html")
			browser.Ready(t, tab)
			if got := valueOf(t, tab, "in_why"); got != text+"\nA second line." {
				t.Errorf("the next visit finds %q", got)
			}
			tab.Report(t)
		})
	}
}

// TestWordsAndGuessesAreNeverJudged types what a find would call wrong, and what cannot be read.
func TestWordsAndGuessesAreNeverJudged(t *testing.T) {
	t.Parallel()
	tab := browser.Open(t)
	root := browser.BuildOf(t, inWords).Root()
	browser.StartOver(t, tab, root, "students/01-t.html")
	for _, c := range []struct{ box, text, said string }{
		{"off", "25", "Predict guess first."},
		{"guess", "0.001", ""}, {"guess", "5000000", ""}, {"guess", "about seven", "Start with a number"},
		{"guess", "7 kg", "kg does not fit here"}, {"guess", "5", ""},
		{"off", "20", "Upside down."}, {"off", "25", "Right."},
		{"why", "7", ""}, {"why", "", ""}, {"why", "Because", ""},
	} {
		said := browser.Fill(t, tab, [][2]string{{c.box, c.text}})[0]
		if !strings.Contains(said.Text, c.said) || c.said == "" && (said.Text != "" || said.State != "") {
			t.Errorf("%s: %q is told %q (%s); %q was expected", c.box, c.text, said.Text, said.State, c.said)
		}
	}
	browser.Wait(t, tab, `document.querySelector("p .blank, p .full").textContent === "5"`)
	tab.Open(t, root, "students/01-t.html")
	browser.Ready(t, tab)
	if got := valueOf(t, tab, "in_guess") + valueOf(t, tab, "in_why"); got != "5Because" {
		t.Errorf("after a reload the boxes hold %q", got)
	}
	tab.Report(t)
}

// TestWordsBelongToTheirTeamAndGoIntoItsFile has two teams, and carries the words of one to another device.
func TestWordsBelongToTheirTeamAndGoIntoItsFile(t *testing.T) {
	t.Parallel()
	tab := browser.Open(t)
	root := browser.BuildOf(t, inWords).Root()
	browser.StartOver(t, tab, root, "students/01-t.html")
	enter := func(team string) { browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("`+team+`")`) }
	words := strings.Repeat("otters say so. ", 133) + "End." // 1,999 characters
	enter("Otters")
	browser.Fill(t, tab, [][2]string{{"why", words}, {"guess", "7"}})
	browser.Wait(t, tab, `in_guess.dataset.kept === "7" && in_why.dataset.kept.length === 1999`)
	enter("Eels")
	browser.Fill(t, tab, [][2]string{{"why", "Eels say no."}})
	enter("Otters")
	browser.Wait(t, tab, `in_why.value.length === 1999 && in_guess.value === "7"`)
	browser.Ask[chromedp.Void](t, tab, `void (_files.open = true)`)
	browser.Wait(t, tab, `trundle.files`)
	file := browser.Ask[string](t, tab,
		`trundle.sheet.store.whole().then((whole) => trundle.files.work(whole, trundle.sheet.page).text())`)
	if !strings.Contains(file, words) || strings.Contains(file, "Eels") || !strings.Contains(file, `"guess": "7"`) {
		t.Errorf("the file holds %s", file)
	}
	browser.StartOver(t, tab, root, "students/01-t.html")
	browser.Wait(t, tab, `in_why.value === ""`)
	browser.Ask[chromedp.Void](t, tab, `(async () => {
		_files.open = true;
		while (!document.querySelector("#_files input[type=file]")) await new Promise((soon) => setTimeout(soon, 10));
		const picker = document.querySelector("#_files input[type=file]");
		const carried = new DataTransfer();
		carried.items.add(new File([`+quoted(file)+`], "work.json"));
		picker.files = carried.files;
		picker.dispatchEvent(new Event("change"));
	})()`)
	browser.Wait(t, tab, `trundle.sheet.store.team === "Otters" && in_guess.value === "7"`)
	if got := valueOf(t, tab, "in_why"); got != words {
		t.Errorf("from the file the box has %q", got)
	}
	tab.Report(t)
}
