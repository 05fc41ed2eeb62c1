package site_test

// Tables that the page writes, in the form that spreadsheets of a language expect, and which tally reads.

import (
	"os/exec"
	"testing"

	"trundle/generator/source"
	"trundle/generator/table"
)

const writing = `
const vm = require("vm"), fs = require("fs");
for (const name of ["show", "files"]) vm.runInThisContext(fs.readFileSync("scripts/" + name + ".js", "utf8"), name);
trundle.comma = process.argv[1] === "comma";
const rows = [["A; B, \"C\"", "=1", 122.174], ["A", "2,5", -0.5], ["A", "x", 7]];
trundle.files.csv(["team", "base", "stop (cm)"], rows).text().then((text) => process.stdout.write(text));
`

func TestATableHasTheMarksOfThePacksLanguage(t *testing.T) {
	t.Parallel()
	for form, want := range map[string]string{
		"point": "team,base,stop (cm)\r\n\"A; B, \"\"C\"\"\",'=1,122.174\r\nA,\"2,5\",-0.5\r\nA,x,7\r\n",
		"comma": "team;base;stop (cm)\r\n\"A; B, \"\"C\"\"\";'=1;122,174\r\nA;\"2,5\";-0,5\r\nA;x;7\r\n",
	} {
		out, err := exec.Command("node", "-e", writing, form).Output()
		if err != nil {
			t.Fatal("this test needs node: ", err)
		}
		if string(out) != want {
			t.Errorf("with a %s the table is\n%s\nand not\n%s", form, out, want)
		}
		read, problems := table.Read(source.NewFile("data/runs.csv", out), nil)
		if problems.HasErrors() || len(read.Columns) != 3 {
			t.Errorf("with a %s the table is read as %+v, %v", form, read, problems)
		}
	}
}
