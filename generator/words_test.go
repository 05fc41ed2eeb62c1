package generator_test

// Predictions and words in both editions: who reads what.

import (
	"maps"
	"slices"
	"strings"
	"testing"
)

const guessAndWords = "```work\npredict guess in rot \"How many?\"\nfind off in % to 1 = percent_error(guess, 4 rot) " +
	"\"How far off?\"\nslip percent_error(4 rot, guess) \"Upside down.\"\nsay why \"Why so many?\"\n" +
	"listen \"They name the zebra.\"\nlisten \"They name the gnu.\"\n```\n\nYou said {guess}.\n\n" +
	"```python filled\ngo({guess})\n```\n"

// TestWhatMentorsListenForIsInNoFileOfTheStudents looks into every file that is text.
func TestWhatMentorsListenForIsInNoFileOfTheStudents(t *testing.T) {
	files := editionsOf(t, guessAndWords)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		for _, secret := range []string{"zebra", "gnu."} {
			if strings.HasPrefix(name, "students/") && strings.Contains(files[name], secret) {
				t.Errorf("%s has %q", name, secret)
			}
		}
	}
	page := asTyped(files["mentors/01-t.html"])
	for _, text := range []string{"Why so many?", "Listen for", "zebra", "gnu.", "a guess, no key",
		"no key, as it depends on the team", "percent_error(4 rot, guess)", "go(<span", "____"} {
		if !strings.Contains(page, text) {
			t.Errorf("the mentors' page lacks %q", text)
		}
	}
	if strings.Contains(page, "<textarea") || strings.Contains(page, "<input id=") || strings.Contains(page, ">10<") {
		t.Error("mentors get boxes, or the number that stands for a guess")
	}
}

func TestStudentsGetABoxForAGuessAndRoomForWords(t *testing.T) {
	files := editionsOf(t, guessAndWords)
	page, steps := files["students/01-t.html"], files["students/steps/01-t.js"]
	for _, text := range []string{`<input id="in_guess"`, `<textarea id="in_why"`,
		`<label for="in_why">Why so many?</label>`, `data-p="guess"`, ">Predict<"} {
		if !strings.Contains(page, text) {
			t.Errorf("the students' page lacks %q", text)
		}
	}
	if !strings.Contains(steps, `{"n":"guess","k":"predict","u":"rotations"}`) || strings.Contains(steps, `"why"`) {
		t.Errorf("the page works with %s", steps)
	}
}

// TestALessonOfWordsAloneIsKept has nothing that could be checked.
func TestALessonOfWordsAloneIsKept(t *testing.T) {
	page := editionsOf(t, "```work\nsay why \"Why?\"\n```\n")["students/01-t.html"]
	for _, text := range []string{`id="_sheet"`, `id="_name"`, `assets/sheet.js`} {
		if !strings.Contains(page, text) {
			t.Errorf("the page lacks %q", text)
		}
	}
}
