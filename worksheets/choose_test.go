package worksheets_test

// Answers to choose from on paper: boxes to tick, the right one ticked for mentors alone, hints on the run sheet.

import (
	"strings"
	"testing"
)

const choosingOnPaper = "```work\nchoose more = \"More of them*\" | \"Fewer of them\" | \"As many\" " +
	"\"What does a smaller wheel need?\"\nslip \"Fewer\" \"It carries the zebra less far.\"\n" +
	"choose tight = \"A tape that sags reads too little, since it is longer than the way that it spans\"\n" +
	"  | \"A tape that sags reads too much*\" | \"It does not matter\" \"Why do we pull the tape tight?\"\n" +
	"slip \"A tape that sags reads too little\" \"Try it.\"\nslip \"It\" \"Look at a slack one.\"\n```\n"

func TestAnswersToChooseFromHaveABoxToTick(t *testing.T) {
	_, files := built(t, packOf(choosingOnPaper))
	students, mentors := files["students/sheets/01-t-a4.pdf"], files["mentors/sheets/01-t-a4.pdf"]
	for edition, pdf := range map[string][]byte{"students": students, "mentors": mentors} {
		accessible(t, pdf)
		said := oneLine(text(t, pdf))
		for _, want := range []string{"Choose What does a smaller wheel need? More of them Fewer of them As many",
			"since it is longer than the way that it spans", "It does not matter"} {
			if !strings.Contains(said, want) {
				t.Errorf("the sheet of %s lacks %q in %s", edition, want, said)
			}
		}
	}
	if said := text(t, students); strings.Contains(said, "Look at a slack one") || strings.Contains(said, "*") {
		t.Error("students read a hint, or the mark of what is right")
	}
	if said := oneLine(text(t, mentors)); !strings.Contains(said, "It does not matter Look at a slack one.") {
		t.Errorf("mentors have no hint beside the answer: %s", said)
	}
	const ticked = " 1.701 w" // 0.6 mm: the pen of a tick
	for edition, want := range map[string]int{"students": 0, "mentors": 2} {
		drawn := drawing(t, files[edition+"/sheets/01-t-a4.pdf"])
		if n := strings.Count(strings.ReplaceAll(drawn, "\n", " "), ticked); n != want {
			t.Errorf("%d answers are ticked for %s, not %d", n, edition, want)
		}
	}
}

func TestARunSheetHasTheRightAnswerAndWhatToSayToTheOthers(t *testing.T) {
	_, files := built(t, packOf(choosingOnPaper))
	said := oneLine(text(t, files["mentors/sheets/01-t-mentor-a4.pdf"]))
	for _, want := range []string{"Right: More of them", "Fewer of them → It carries the zebra less far.",
		"Right: A tape that sags reads too much", "It does not matter → Look at a slack one."} {
		if !strings.Contains(said, want) {
			t.Errorf("the run sheet lacks %q in %s", want, said)
		}
	}
}
