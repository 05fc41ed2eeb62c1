package worksheets_test

// Sheets as they are heard: the words of a text stay apart where its lines, styles and boxes meet; and what is to be
// looked at later is pointed to.

import (
	"slices"
	"strings"
	"testing"
)

func TestWordsStayApartWhereLinesEnd(t *testing.T) {
	t.Parallel()
	long := strings.TrimSpace(strings.Repeat("heron ", 60))
	_, files := built(t, packOf(long+":\n\n1. "+long+"\n\n> "+long+"\n\n| a | b |\n|---|---|\n| "+long+" | "+long+" |\n\n"+
		"**"+long+"** {2 cm} "+long+":\n\n"+
		"```work\ngiven a = 3 cm \""+long+"\"\nmeasure b = 3 cm \""+long+"\"\n"+
		"record c[5] in cm = 1, 2, 3, 4, 5 \"heron heron\"\n"+
		"find d in cm to 1 = a * 2 \"heron heron heron heron heron heron heron heron\"\nkey d = 6 cm\n```\n"))
	for name, sheet := range files {
		if !slices.Contains(sheetsIn(files), name) {
			continue
		}
		heard := tool(t, sheet, "pdfinfo", "-struct-text", "FILE")
		if !strings.Contains(heard, "heron heron") {
			t.Errorf("%s has no text", name)
		}
		for _, joined := range []string{"heronheron", "cmheron", "Givena", "mmheron"} {
			if strings.Contains(heard, joined) {
				t.Errorf("%s: %q is read as one word", name, joined)
			}
		}
	}
}

func TestASheetPointsToWhatWaitsForAnswers(t *testing.T) {
	t.Parallel()
	_, files := builtDemo(t)
	for name, times := range map[string]int{"07-choosing-a-base": 1, "08-finding-the-cause": 1, "11-speed-and-stopping": 1,
		"01-direction-check": 0} {
		sheet := oneBlank.ReplaceAllString(text(t, files["students/sheets/"+name+"-a4.pdf"]), " ")
		if n := strings.Count(sheet, "Then go to “Look here only after”"); n != times {
			t.Errorf("%s points %d times to what waits, not %d times", name, n, times)
		}
	}
}
