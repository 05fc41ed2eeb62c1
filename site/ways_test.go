package site

import (
	"slices"
	"strings"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/site/words"
)

func TestAFormulaIsSaidInWords(t *testing.T) {
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	const before = "measure d = 65 mm \"Wheel diameter\"\ngiven L = 48 in \"How far?\"\n" +
		"given b = 112 mm \"Track width.\"\ngiven k = 3\n" +
		"record s[2] in cm = 20, 21 \"Stops\"\nfind n1 in rot to 0.1 = 6\nfind x1 in cm to 0.1 = 6 cm\n"
	for formula, want := range map[string]string{
		"rotations(L, d)": "How often does one rotation fit into the distance? Divide the distance, L, by the " +
			"circumference, which is π times d. | d: Wheel diameter",
		"rotations(L, d, k)": "How often does one rotation fit into the distance? Divide the distance, L, by the " +
			"circumference, which is π times d. Then multiply by the gear ratio, k. | d: Wheel diameter",
		"mean(s)":        "Add up all readings of s. Then divide by how many you have added. | s: Stops",
		"mean(L, d, b)":  "Add up L, d and b. Then divide by how many you have added. | d: Wheel diameter | b: Track width",
		"x1 - L":         "Work out x₁ minus L.",
		"L - (x1 - b)":   "Work out L minus (x₁ minus b). | b: Track width",
		"L - x1 - b":     "Work out L minus x₁ minus b. | b: Track width",
		"(L + b) / 2":    "Work out (L plus b) divided by 2. | b: Track width",
		"L + b / 2":      "Work out L plus b divided by 2. | b: Track width",
		"abs(L - x1)":    "Work out the difference between L and x₁.",
		"abs(L)":         "Work out the size, without its sign, of L.",
		"sqrt(L^2+b^2)":  "Work out the square root of L squared plus b squared. | b: Track width",
		"L":              "Give L in the unit of the box.",
		"-L":             "Work out L with the other sign.",
		"L * tan(3 deg)": "Work out L times tan (3\u00a0°).",
		"spin_turn(90 deg, b, d) * k": "Which part of a whole turn is 90\u00a0°? Multiply that part by the track, b, and " +
			"divide by the wheel’s diameter, d. Then multiply by k. | b: Track width | d: Wheel diameter",
		"L < 2 ft":                 "Find out whether L is less than 2 ft.",
		"mean(s) within 1 cm of L": "Find out whether the mean of all readings of s is at most 1 cm away from L. | s: Stops",
		"count(s >= L)":            "Count how often a reading of s is not less than L. | s: Stops",
		"count(s < L) / k":         "Work out how often a reading of s is less than L divided by k. | s: Stops",
		"if(L > b, L, b)":          "Is it true that L is more than b? If so, take L; if not, b. | b: Track width",
		"s[2] - s[1]":              "Work out reading 2 of s minus reading 1 of s. | s: Stops",
		"ceil(L / b)":              "Work out L divided by b, rounded up to a whole number. | b: Track width",
		"round(L, 5 cm)":           "Work out L, rounded to the nearest multiple of 5 cm.",
		"mod(L, b)":                "Work out what is left of L when b is taken away as often as it goes. | b: Track width",
		"k * max(s)":               "Work out k times the largest of all readings of s. | s: Stops",
	} {
		text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n```work\n" + before +
			"find y = " + formula + "\n```\n"
		l, problems := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
		worked, more := work.ForKit(l, nil, nil)
		problems.Join(more)
		for _, p := range problems.Sorted() {
			t.Errorf("%s: %s", formula, p.What)
		}
		got := strings.Join(way(w, worked, worked.Named("y")), " | ")
		if got != want && got != strings.ReplaceAll(want, "\u00a0°", "°") {
			t.Errorf("%s is said as\n%q, want\n%q", formula, got, want)
		}
	}
}

// TestAFormulaOfAPacksOwnIsSaidInWords, not by its name alone.
func TestAFormulaOfAPacksOwnIsSaidInWords(t *testing.T) {
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	own := &quantity.Vocabulary{}
	problems := parse.Formulas(source.NewFile("formulas.yaml", []byte("lost_way:\n"+
		"  values: {ordered: length, driven: length}\n  is: (ordered - driven) / ordered\n"+
		"  says: The part of the way that was lost.\n  source: none\n")), own)
	for formula, want := range map[string]string{
		"lost_way(L, d)": "lost way: The part of the way that was lost | Work out (L minus d) divided by L. | " +
			"d: Wheel diameter",
		"3 * lost_way(L, d)": "Work out 3 times ((L minus d) divided by L). | d: Wheel diameter",
	} {
		text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n```work\nmeasure d = 65 mm \"Wheel diameter\"\n" +
			"given L = 48 in\nfind y = " + formula + "\n```\n"
		l, more := parse.LessonWith(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)), own)
		problems.Join(more)
		worked, more := work.ForKit(l, nil, nil)
		problems.Join(more)
		for _, p := range problems.Sorted() {
			t.Fatalf("%s: %s", formula, p.What)
		}
		if got := strings.Join(way(w, worked, worked.Named("y")), " | "); got != want {
			t.Errorf("%s is said as\n%q, want\n%q", formula, got, want)
		}
	}
}

// TestEveryFormulaOfTheTradeHasItsSentence, so that no team reads a bare name with brackets.
func TestEveryFormulaOfTheTradeHasItsSentence(t *testing.T) {
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	bare := []string{"abs", "sqrt", "round", "sin", "cos", "tan", "atan", "atan2", "vapour_ppm", "floor", "ceil", "mod"}
	for _, name := range quantity.FormulaNames() {
		if _, ok := w["way-"+name]; !ok && !slices.Contains(bare, name) {
			t.Errorf("there is no sentence for %s", name)
		}
	}
}
