package pairs

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// TestUnitPairs checks every row of testdata/prose/unit-pairs.csv: a right pair is silent
// and a wrong one reported with the right figure; what is not a pair is not even looked at.
func TestUnitPairs(t *testing.T) {
	file, err := os.Open("../../testdata/prose/unit-pairs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	ofOne, ofTwo := 0, 0
	for _, row := range rows[1:] {
		text, verdict := row[0], row[1]
		found := reports(text)
		figure, wrong := strings.CutPrefix(verdict, "wrong:")
		switch {
		case wrong && (len(found) != 1 || !strings.Contains(found[0], figure)):
			t.Errorf("%q is wrong, %s would be right; found %v", text, figure, found)
		case !wrong && len(found) > 0:
			t.Errorf("%q is %s; found %v", text, verdict, found)
		case verdict == "ok" && len(pairsIn(text, nil)) == 0:
			t.Errorf("%q is a pair and not seen as one", text)
		case verdict == "none" && len(pairsIn(text, nil)) > 0:
			t.Errorf("%q is not a pair and seen as one", text)
		}
		if verdict == "none" {
			ofTwo++
		} else {
			ofOne++
		}
	}
	t.Logf("%d pairs, %d of two things", ofOne, ofTwo)
	if ofOne < 45 || ofTwo < 45 {
		t.Errorf("%d pairs and %d others are too few: at least 45 each", ofOne, ofTwo)
	}
}

// reports gives what is said of the wrong pairs of a text.
func reports(text string) []string {
	var all []string
	for _, w := range In(text, nil) {
		all = append(all, w.What+"; "+w.Hint)
	}
	return all
}

// TestASpokenNameOfEveryUnitMakesAPair asks about each unit that has a second one of its
// kind, by each name that prose has for it.
func TestASpokenNameOfEveryUnitMakesAPair(t *testing.T) {
	asked := 0
	for _, symbol := range quantity.UnitSymbols() {
		u, _ := quantity.LookupUnit(symbol)
		kind := slices.DeleteFunc(quantity.UnitsOf(u.Dimension()), func(s string) bool { return s == symbol })
		if u.IsNumber() || u.Dimension() == (quantity.Dimension{}) || len(kind) == 0 || strings.Contains(symbol, "°") {
			continue
		}
		for _, name := range quantity.NamesOfUnit(symbol) {
			if strings.HasPrefix(name, "turn") { // as often a corner as 360°
				continue
			}
			asked++
			isMark := strings.ContainsAny(name, `"'`) // a blank before it makes it a quote mark
			if text := "This is 3 " + name + " (0.000001 " + kind[0] + ")."; !isMark && len(In(text, nil)) != 1 {
				t.Errorf("%q is not reported", text)
			}
		}
	}
	if asked < 40 {
		t.Errorf("only %d names are asked about", asked)
	}
}

// TestUnitPairWords looks at what is said.
func TestUnitPairWords(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"48 in (120 cm)", "48 in is 121.92 cm, not 120 cm; write 122 cm (exactly 121.92 cm)"},
		{"100 in (252 cm)", "100 in is 254 cm, not 252 cm; write 254 cm, or say about"},
		{"60 inches, about 150 cm", "60 inches is 152.4 cm, not 150 cm; write 152 cm (exactly 152.4 cm)"},
		{"120 cm, or 48 in", "120 cm is 47.24 in, not 48 in; write 47 in (more closely 47.24 in)"},
		{"1.00 m (40 1/4 in)", "1.00 m is 39.37 in, not 40 1/4 in; write 39 1/4 in (more closely 39.37 in)"},
		{"1/4 rot (80°)", "1/4 rot is 90°, not 80°; write 90°"},
		{"165 cm (5 ft 3 in)", "165 cm is 5 ft 4.961 in, not 5 ft 3 in; write 5 ft 5 in (more closely 5 ft 4.961 in)"},
	} {
		if got := strings.Join(reports(c.text), " | "); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestUnitPairsLongText finds each pair of a very long paragraph.
func TestUnitPairsLongText(t *testing.T) {
	const many = 2000
	if found := In(strings.Repeat("A bar of 48 in (120 cm). ", many), nil); len(found) != many {
		t.Errorf("%d of %d found", len(found), many)
	}
}

// FuzzUnitPairs makes sure that no text stops the search, and that places lie in the text.
func FuzzUnitPairs(f *testing.F) {
	for _, seed := range []string{
		"48 in (120 cm)", "5 ft 3 in (160 cm)", "½ in = 13 mm", "−1,200.5 mm / 1.2 m", "an inch is 3 cm", "1/0 in (2 cm)",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, w := range In(text, nil) {
			if w.Start < 0 || w.End > len(text) || w.Start >= w.End {
				t.Errorf("%q: place %d to %d", text, w.Start, w.End)
			}
		}
	})
}
