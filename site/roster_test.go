package site_test

// Whose work the mentors' page of the class takes for whose.

import (
	"os"
	"testing"
)

func TestTeamsThatDifferInNothingThatIsSeenAreOne(t *testing.T) {
	t.Parallel()
	scripts := ""
	for _, name := range []string{"files", "class/table", "class/roster"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts += string(text)
	}
	got := nodeReads[[]string](t, scripts+`
const names = { season: () => "", isOfNow: () => true, now: (x) => x };
const roster = trundle.roster("p", names);
for (const team of ["Otters", "Ot\u200bters", "Otters\u202e", "O\u200dtters"])
	roster.add("f.json", JSON.stringify({ trundle: "work", form: 1, pack: "p", team, lessons: { a: { b: "1" } } }));
process.stdout.write(JSON.stringify(Object.keys(roster.teams)));`, nil)
	if len(got) != 2 || got[0] != "Otters" || got[1] != "O\u200dtters" {
		t.Errorf("the teams are %q", got)
	}
}
