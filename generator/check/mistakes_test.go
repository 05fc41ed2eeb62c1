package check_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// A coach whose key is wrong and a student whose answer is wrong make the same mistakes. mistakes holds the two
// lists of them together: ofTheNumber and its like in key.go, common in site/scripts/judge.js. Whoever adds one
// to either says here what the other makes of it.
var mistakes = []struct {
	name, find, wrong string
	coach             string // in the problem of a key
	page              string // the word of the page's sentence
}{
	{"the sign", "7.351 N", "-7.351 N", "has the wrong sign", "sign"},
	{"upside down", "7.351 N", "0.136 N", "is upside down", "inverse"},
	{"half", "7.351 N", "3.675 N", "is half of that", "half"},
	{"twice", "7.351 N", "14.702 N", "is twice that", "twice"},
	{"a factor of 10", "7.351 N", "73.51 N", "is off by a factor of 10.", "ten"},
	{"a tenth", "7.351 N", "0.735 N", "is off by a factor of 10.", "ten"},
	{"a factor of 100", "7.351 N", "735.1 N", "is off by a factor of 100.", "ten"},
	{"a hundredth", "7.351 N", "0.07351 N", "is off by a factor of 100.", "ten"},
	{"a factor of 1000", "7.351 N", "7351 N", "is off by a factor of 1000.", "ten"},
	{"a thousandth", "7.351 N", "0.007351 N", "is off by a factor of 1000.", "ten"},
	{"inches for centimetres", "7.351 cm", "2.894 cm", "is right in another unit", "inch"},
	{"the right number in another unit", "7.351 cm", "7.351 mm", "is right in another unit", "other-unit"},
	{"another unit", "7.351 min", "441.06 min", "is right in another unit", "unit"},
	{"none of these", "7.351 N", "5 N", "", "not-yet"},
}

// Not in the table: a key has the places that its coach wants, and is not rounded early; and no number of
// the table has π in it.
var onlyOnThePage = []string{"places", "early", "pi"}

// TestACoachWhoTakesThreeForPiReadsThat: the page's sentence for it has a test beside judge.js.
func TestACoachWhoTakesThreeForPiReadsThat(t *testing.T) {
	for body, want := range map[string]bool{
		"find C in cm to 0.1 = circumference(65 mm)\nkey C = 19.5 cm":       true,
		"find n in rot to 0.01 = rotations(48 in, 65 mm)\nkey n = 6.25 rot": true,
		"find x in cm to 0.1 = 20.42 cm\nkey x = 19.5 cm":                   false,
	} {
		found := checked(t, "```work\n"+body+"\n```\n")
		if len(found) != 1 || strings.Contains(found[0].Hint, "takes 3 for π") != want {
			t.Errorf("%s: a coach reads %+v", body, found)
		}
	}
}

func TestCoachAndStudentAreToldTheSameMistakes(t *testing.T) {
	said := judgedOnThePage(t)
	for i, m := range mistakes {
		t.Run(m.name, func(t *testing.T) {
			_, unit, _ := strings.Cut(m.find, " ")
			found := checked(t, "```work\nfind x in "+unit+" to 0.001 = "+m.find+"\nkey x = "+m.wrong+"\n```\n")
			if len(found) != 1 || found[0].Slug != "key-mismatch" {
				t.Fatalf("problems are %+v", found)
			}
			if hint := found[0].Hint; !strings.Contains(hint, m.coach) || m.coach == "" &&
				!strings.HasPrefix(hint, "write ") {
				t.Errorf("a coach reads %q, want %q", hint, m.coach)
			}
			if said[i] != m.page {
				t.Errorf("a student reads %q, want %q", said[i], m.page)
			}
		})
	}
}

func TestEveryCommonMistakeIsInTheTable(t *testing.T) {
	body := func(file, from, to string) string {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		_, rest, ok := strings.Cut(string(text), from)
		part, _, ended := strings.Cut(rest, to)
		if !ok || !ended {
			t.Fatalf("%s has no part from %q to %q", file, from, to)
		}
		return part
	}
	var coach, page []string
	for _, m := range mistakes {
		coach, page = append(coach, strings.TrimSuffix(m.coach, ".")), append(page, m.page)
	}
	rows := regexp.MustCompile(`\{[^{}"]+, "([^"]+)"\}`).FindAllStringSubmatch(body("key.go", "func ofTheNumber(",
		"\n}\n"), -1)
	if len(rows) < 10 {
		t.Fatalf("key.go has %d mistakes", len(rows))
	}
	for _, row := range rows {
		if !slices.Contains(coach, row[1]) {
			t.Errorf("the table has no mistake that %s", row[1])
		}
	}
	words := regexp.MustCompile(`say\("([a-z-]+)"`).FindAllStringSubmatch(body("../../site/scripts/judge.js",
		"const common =", "\n  };\n"), -1)
	if len(words) < 7 {
		t.Fatalf("judge.js has %d mistakes", len(words))
	}
	for _, word := range words {
		if word[1] != "number" && !slices.Contains(page, word[1]) && !slices.Contains(onlyOnThePage, word[1]) {
			t.Errorf("the table has no mistake that the page calls %s", word[1])
		}
	}
}

// judgedOnThePage gives, for each mistake, the word of what the page would say of it.
func judgedOnThePage(t *testing.T) []string {
	t.Helper()
	const harness = `
const fs = require("node:fs");
const input = JSON.parse(fs.readFileSync(0, "utf8"));
for (const name of ["read", "show", "run", "values", "judge"])
  (0, eval)(fs.readFileSync("../../site/scripts/" + name + ".js", "utf8"));
trundle.units = input.units;
trundle.words = {};
trundle.say = (name) => name;
process.stdout.write(JSON.stringify(input.asked.map(({ unit, right, answer }) =>
  trundle.judge({ n: "x", u: unit, t: [0.0005, 0.001], to: "0.001", p: "x" }, answer,
    { x: right }, { x: right }).text)));
`
	type question struct {
		Unit   string  `json:"unit"`
		Right  float64 `json:"right"`
		Answer string  `json:"answer"`
	}
	var asked []question
	for _, m := range mistakes {
		number, unit, _ := strings.Cut(m.find, " ")
		right, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatal(err)
		}
		asked = append(asked, question{unit, right, m.wrong})
	}
	units := map[string][3]any{}
	for name, f := range quantity.UnitFactors() {
		var dim []string
		for _, d := range f.Dim {
			dim = append(dim, strconv.Itoa(int(d)))
		}
		units[name] = [3]any{strings.Join(dim, ","), f.Num, f.Den}
	}
	input, err := json.Marshal(map[string]any{"units": units, "asked": asked})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", "-e", harness)
	var out, complaint bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(input), &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("this test needs node: %v\n%s", err, complaint.String())
	}
	var said []string
	if err := json.Unmarshal(out.Bytes(), &said); err != nil || len(said) != len(asked) {
		t.Fatalf("%v: %s", err, out.String())
	}
	return said
}
