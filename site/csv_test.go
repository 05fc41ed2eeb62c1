package site_test

// Tables that the page writes, in the form that spreadsheets of a language expect, and which tally reads.

import (
	"encoding/json"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/tally"
)

const writing = `
const vm = require("vm"), fs = require("fs");
for (const name of ["show", "files"]) vm.runInThisContext(fs.readFileSync("scripts/" + name + ".js", "utf8"), name);
trundle.comma = process.argv[1] === "comma";
const rows = [["A; B, \"C\"", "=1", 122.174], ["A", "2,5", -0.5], ["A", "＝x", 7]];
trundle.files.csv(["team", "base", "stop (cm)"], rows).text().then((text) => process.stdout.write(text));
`

// kitsOf asks the page what runs say of a robot, which is known to it by a key.
const kitsOf = `
const kits = { heron: { title: "Heron" } };
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () =>
	process.stdout.write(JSON.stringify(JSON.parse(text).map((kit) =>
		trundle.files.baseOf(kits, kit, kit && "our own")))));`

func TestARobotThatCameWithAFileIsCalledByWhatIsSeen(t *testing.T) {
	t.Parallel()
	script, err := os.ReadFile("scripts/files.js")
	if err != nil {
		t.Fatal(err)
	}
	kits := []string{"heron", "", "ours", "\x1b[31mCo\u202eot\t", "constructor", "=1+1", strings.Repeat("k", 200),
		strings.Repeat("k", 201)}
	want := []string{"Heron", "", "our own", "[31mCoot", "constructor", "=1+1", strings.Repeat("k", 200), ""}
	if got := nodeReads[[]string](t, string(script)+kitsOf, kits); !slices.Equal(got, want) {
		t.Errorf("on the page robots are called %q, want %q", got, want)
	}
	pack := pondPack()
	pack.Kits = map[string]string{"heron": "Heron", lesson.OwnKit: "our own"}
	for i, kit := range kits {
		work, _ := json.Marshal(map[string]any{"trundle": "work", "form": 1, "pack": "canal 2026-27", "team": "A",
			"lessons": map[string]any{"": map[string]string{"@kit": kit}, "go": map[string]string{"stop-1": "120"}}})
		report, problems := tally.Of([]*source.File{source.NewFile("a.json", work)}, tally.Options{By: "base", Pack: pack})
		if problems.HasErrors() || report.Columns[0].Groups[0].Name != want[i] {
			t.Errorf("for tally %q is %+v, with %v", kit, report.Columns, problems.Sorted())
		}
	}
}

func TestATableHasTheMarksOfThePacksLanguage(t *testing.T) {
	t.Parallel()
	for form, want := range map[string]string{
		"point": "team,base,stop (cm)\r\n\"A; B, \"\"C\"\"\",'=1,122.174\r\nA,\"2,5\",-0.5\r\nA,'＝x,7\r\n",
		"comma": "team;base;stop (cm)\r\n\"A; B, \"\"C\"\"\";'=1;122,174\r\nA;\"2,5\";-0,5\r\nA;'＝x;7\r\n",
	} {
		out, err := exec.Command("node", "-e", writing, form).Output()
		if err != nil {
			t.Fatal("this test needs node: ", err)
		}
		if string(out) != want {
			t.Errorf("with a %s the table is\n%s\nand not\n%s", form, out, want)
		}
		read, problems := table.Read(source.NewFile("data/runs.csv", out), nil)
		if problems.HasErrors() || len(read.Columns) != 3 || read.Columns[1].Cells[2].Text != "＝x" {
			t.Errorf("with a %s the table is read as %+v, %v", form, read, problems)
		}
	}
}
