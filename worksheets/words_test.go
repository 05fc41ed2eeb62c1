package worksheets_test

// Room for guesses and words on paper.

import (
	"regexp"
	"strings"
	"testing"
)

const guessAndWords = "```work\npredict guess in rot \"How many?\"\nfind off in % to 1 = percent_error(guess, 4 rot) " +
	"\"How far off?\"\nslip percent_error(4 rot, guess) \"Upside down.\"\nsay why \"Why so many?\"\n" +
	"listen \"They name the zebra.\"\n```\n\n## Exit ticket\n\n1. You guessed {guess}.\n2. And then?\n\n" +
	"```work\nsay then \"Tell it.\"\n```\n"

// drawing is a sheet's PDF as text, its pages' contents readable.
func drawing(t *testing.T, pdf []byte) string {
	t.Helper()
	return tool(t, pdf, "qpdf", "--qdf", "--object-streams=disable", "FILE", "-")
}

func TestPaperHasADashedBoxForAGuessAndLinesForWords(t *testing.T) {
	_, files := built(t, packOf(guessAndWords))
	students, mentors := files["students/sheets/01-t-a4.pdf"], files["mentors/sheets/01-t-a4.pdf"]
	dashes := regexp.MustCompile(`\[[0-9. ]+[1-9][0-9. ]*\] 0(\.0+)? d`)
	for edition, pdf := range map[string][]byte{"students": students, "mentors": mentors} {
		if n := len(dashes.FindAllString(drawing(t, pdf), -1)); n != 1 {
			t.Errorf("there are %d dashed boxes for %s", n, edition)
		}
	}
	// Lines to write on are the only grey ones: 3 for each say, 3 below the first question, none below the second,
	// whose say comes next; those for the names; and 2 at the end of the log.
	const grey = "0.353 G"
	if n := strings.Count(drawing(t, students), grey); n != 3+3+3+3+2 {
		t.Errorf("there are %d lines to write on", n)
	}
	said := strings.ReplaceAll(text(t, mentors), "’", "'")
	for _, part := range []string{"Predict guess How many?", "a guess, no key",
		"no key, as it depends on the team's guess", "percent_error(4 rot, guess): Upside down.",
		"In your own words Why so many?", "Listen for: They name the zebra."} {
		if !strings.Contains(strings.Join(strings.Fields(said), " "), part) {
			t.Errorf("the mentors' sheet lacks %q in %s", part, said)
		}
	}
	if strings.Contains(text(t, students), "zebra") {
		t.Error("students read what mentors listen for")
	}
}
