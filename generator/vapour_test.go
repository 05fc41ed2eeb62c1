package generator_test

import (
	"html"
	"os"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/outside"
)

const solventCard = "---\ntitle: Solvent\nwho: adults\nwear: []\n%s---\n\n## Before\n\nLook.\n\n## During\n\n" +
	"Work.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n"

// vapourPages builds a lesson with an estimate of vapour and gives what its page shows
// mentors and students. limits are the header lines of its care cards.
func vapourPages(t *testing.T, sums string, limits ...string) (mentors, students string) {
	t.Helper()
	pack := fstest.MapFS{"pack.yaml": {Data: []byte("title: P\nversion: 1\n")}}
	var cards []string
	for i, limit := range limits {
		name := "card" + strconv.Itoa(i)
		cards = append(cards, name)
		pack["care/"+name+".md"] = &fstest.MapFile{Data: []byte(strings.Replace(solventCard, "%s", limit, 1))}
	}
	pack["01-t.md"] = &fstest.MapFile{Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [" +
		strings.Join(cards, ", ") + "]\n---\n\n## Part (10 min)\n\nText.\n\n## Mentor notes\n\n```work\n" + sums + "\n```\n")}
	files := drawn(t, pack)
	read := func(name string) string { return asTyped(html.UnescapeString(files[name])) }
	return read("mentors/01-t.html"), read("students/01-t.html")
}

const (
	above    = "Warning: the bound is not below a tenth of the lowest limit"
	below    = "The bound is below a tenth of the lowest limit"
	noLimit  = "so there is nothing to compare the bound with"
	replaces = "This calculation replaces neither the product's label nor ventilation."
	bound    = "An upper bound on the room's mean: all of it evaporated in an instant, evenly mixed, no air change, at " +
		"25 °C and 101.325 kPa."
)

// everybody is the limit for all who are in the room; limitOf is that for adults at work.
func everybody(ppm string) string {
	return "limit-everybody: " + ppm + " ppm\nlimit-everybody-source: A table for all\n"
}

func limitOf(ppm string) string { return "limit: " + ppm + " ppm\nlimit-source: A table\n" }

// airOf is a find of some ppm, each of them 0.0601 g of the stuff in 24.45 m³.
func airOf(ppm string) string {
	return "find air in ppm to 0.01 = vapour_ppm(" + ppm + " * 0.0601 g, 60.1 g/mol, 24.45 m^3)"
}

func TestABoundIsHeldAgainstATenthOfTheLimit(t *testing.T) {
	for _, c := range []struct {
		name, sums string
		limits     []string
		want       string
	}{
		{"below a tenth", airOf("19.9"), []string{limitOf("200")}, below},
		{"above a tenth", airOf("20.1"), []string{limitOf("200")}, above},
		{"exactly a tenth", airOf("20"), []string{limitOf("200")}, above},
		{"shown as a tenth", airOf("19.996"), []string{limitOf("200")}, above},
		{"above the limit", airOf("2000"), []string{limitOf("200")}, above},
		{"the lowest of two limits", airOf("15"), []string{limitOf("200"), limitOf("100")}, above},
		{"the lowest of two limits, the other way round", airOf("15"), []string{limitOf("100"), limitOf("200")}, above},
		{"one card without a limit", airOf("15"), []string{"", limitOf("200")}, below},
		{"no limit at all", airOf("1"), []string{""}, noLimit},
		{"above that for everybody, below that for work", airOf("15"),
			[]string{limitOf("200") + everybody("1.3")}, above},
		{"below a tenth of that for everybody", airOf("0.12"), []string{limitOf("200") + everybody("1.3")}, below},
		{"only that for everybody", airOf("15"), []string{everybody("100")}, above},
		{"that for everybody is the higher", airOf("15"), []string{limitOf("100") + everybody("200")}, above},
		{"another card's for everybody", airOf("15"), []string{limitOf("200"), everybody("1.3")}, above},
		{"in another unit", strings.Replace(airOf("19.9"), "in ppm to 0.01", "in % to 0.0001", 1),
			[]string{limitOf("200")}, above},
		{"in another unit, below", strings.Replace(airOf("14"), "in ppm to 0.01", "in % to 0.0001", 1),
			[]string{limitOf("200")}, below},
	} {
		t.Run(c.name, func(t *testing.T) {
			mentors, students := vapourPages(t, c.sums, c.limits...)
			for _, s := range []string{above, below, noLimit} {
				if strings.Contains(mentors, s) != (s == c.want) {
					t.Errorf("the mentors' page has %q: %v", s, strings.Contains(mentors, s))
				}
			}
			for _, s := range []string{bound, replaces} {
				if !strings.Contains(mentors, s) {
					t.Errorf("the mentors' page lacks %q", s)
				}
				if strings.Contains(students, s) {
					t.Errorf("the students' page has %q", s)
				}
			}
			if given := strings.Join(c.limits, ""); given != "" && !strings.Contains(mentors, "A table") {
				t.Error("the limit's source is not told")
			}
		})
	}
}

func TestThePageSaysWhoseLimitCounts(t *testing.T) {
	for header, want := range map[string]string{
		limitOf("200"):                    "No limit for children or sensitive people is given here",
		limitOf("200") + everybody("1.3"): "compared with the lowest of these limits, the one for everybody: 1.3 ppm",
		limitOf("100") + everybody("200"): "compared with the lowest of these limits, the one for adults at work: 100 ppm",
		everybody("1.3"): "Limit for everybody in the room, children and sensitive people included: 1.3 " +
			"ppm (Solvent; A table for all)",
		limitOf("10") + everybody("200.5"): "It is not even below the limit itself (10 ppm)",
	} {
		if mentors, students := vapourPages(t, airOf("15"), header); !strings.Contains(mentors, want) ||
			strings.Contains(students, want) {
			t.Errorf("%q: the mentors' page lacks %q, or the students' has it", header, want)
		}
	}
}

func TestADoubtfulBoundCountsWithTwiceItsDoubt(t *testing.T) {
	sums := "given m = %s ± 0.0601 g\nfind air in ppm to 0.01 = vapour_ppm(m, 60.1 g/mol, 24.45 m^3)" // ± 1 ppm
	// 17.64 and 17.80 ppm; 17.75 ÷ (1 − 2 ÷ 17.75) is 20
	for mass, want := range map[string]string{"1.06 g": below, "1.07 g": above} {
		mentors, _ := vapourPages(t, strings.Replace(sums, "%s", mass, 1), limitOf("200"))
		if !strings.Contains(mentors, want) || !strings.Contains(mentors, "Allowing for twice its ±, the bound is ") {
			t.Errorf("%s ± 0.0601 g lacks %q or how it is counted", mass, want)
		}
	}
}

// TestADoubtfulRoomIsTakenAtItsSmallest has a ± that first order makes too little of: 10 ppm in
// 24.45 m³ ± 10 m³ may be 55 ppm.
func TestADoubtfulRoomIsTakenAtItsSmallest(t *testing.T) {
	sums := "given m = 0.6 g\ngiven room = 24.45 m^3 ± %s\nfind air in ppm to 0.01 = vapour_ppm(m, 60.1 g/mol, room)"
	for room, want := range map[string]string{
		"10 m^3": "the bound is 54.8", "13 m^3": "Its ± is so large that it could be any amount.",
	} {
		mentors, _ := vapourPages(t, strings.Replace(sums, "%s", room, 1), limitOf("200"))
		if !strings.Contains(mentors, want) || !strings.Contains(mentors, above) {
			t.Errorf("a room ± %s lacks %q or the warning", room, want)
		}
	}
}

func TestACardOfHazardsWithoutALimitIsTold(t *testing.T) {
	const told = "The card “Solvent” gives no exposure limit. If the calculation is for that, there is nothing to " +
		"compare it with"
	for _, c := range []struct {
		limits []string
		want   bool
	}{
		{[]string{limitOf("200"), "hazards: [H225]\n"}, true},
		{[]string{limitOf("200"), "hazards: []\n"}, false},
		{[]string{limitOf("200") + "hazards: [H225]\n"}, false},
	} {
		if mentors, _ := vapourPages(t, airOf("15"), c.limits...); strings.Contains(mentors, told) != c.want {
			t.Errorf("%q: told is %v, want %v", c.limits, !c.want, c.want)
		}
	}
}

// TestNothingSaidOfVapourReassures looks through all sentences that may stand with an estimate.
func TestNothingSaidOfVapourReassures(t *testing.T) {
	text, err := os.ReadFile("../generator/locale/en/words.yaml")
	if err != nil {
		t.Fatal(err)
	}
	held := 0
	for line := range strings.SplitSeq(string(text), "\n") {
		if !strings.HasPrefix(line, "vapour-") {
			continue
		}
		held++
		for _, word := range []string{"safe", "harmless", "fine", "okay", "no danger", "no risk", "enough", "acceptable",
			"allowed", "may be used"} {
			if strings.Contains(strings.ToLower(line), word) {
				t.Errorf("%q reassures with %q", line, word)
			}
		}
	}
	if held < 7 {
		t.Errorf("only %d sentences", held)
	}
}

func outsideTable(t *testing.T, name string) [][]string {
	t.Helper()
	_, rows := outside.Table(t, name)
	return rows
}

// lowestLimit is the lowest worker limit of a substance in testdata/outside/limits.csv.
func lowestLimit(t *testing.T, substance string) float64 {
	t.Helper()
	lowest := 0.0
	for _, row := range outsideTable(t, "limits.csv") {
		if row[0] != substance || row[4] != "ppm" || row[2] == "idlh" {
			continue
		}
		if row[6] == "" {
			t.Errorf("%s of %s has no source", row[2], row[0])
		}
		if v, err := strconv.ParseFloat(row[3], 64); err == nil && (lowest == 0 || v < lowest) {
			lowest = v
		}
	}
	if lowest == 0 {
		t.Fatalf("no limit of %s", substance)
	}
	return lowest
}

func TestTheDemoCardGivesTheLowestPublishedLimit(t *testing.T) {
	proved, files := demo(t)
	card, _ := proved.Pack.Card("isopropyl-alcohol")
	if want := lowestLimit(t, "isopropyl alcohol"); card.Limit == nil || card.Limit.PPM != want {
		t.Fatalf("the card's limit is %+v, published is %g ppm", card.Limit, want)
	}
	page := asTyped(html.UnescapeString(string(files["mentors/11-speed-and-stopping.html"])))
	if card.Everybody == nil || card.Everybody.PPM >= card.Limit.PPM {
		t.Fatalf("for everybody the card's limit is %+v", card.Everybody)
	}
	// Both rooms are below a tenth of the limit at work or near it, and above the limit for everybody.
	if strings.Count(page, below) != 0 || strings.Count(page, above) != 2 ||
		strings.Count(page, "the one for everybody: 1.3 ppm") != 2 || strings.Count(page, replaces) != 2 {
		t.Error("the lesson does not warn of both rooms by the limit for everybody")
	}
}

// TestPublishedCasesStandOnTheirSideOfTheTenth takes solvents, rooms and limits from testdata/outside.
func TestPublishedCasesStandOnTheirSideOfTheTenth(t *testing.T) {
	limits := map[string]string{
		"5 mL isopropyl alcohol: ppm in the room":          "isopropyl alcohol",
		"5 mL isopropyl alcohol: ppm in one cubic metre":   "isopropyl alcohol",
		"30 mL of 70 % isopropyl alcohol: ppm in the room": "isopropyl alcohol",
		"10 g n-heptane: ppm in the room":                  "n-heptane",
		"20 mL acetone: ppm in the room":                   "acetone",
	}
	seen := map[string]int{}
	for _, row := range outsideTable(t, "vapour.csv") {
		substance, ok := limits[row[0]]
		if !ok {
			continue
		}
		limit := lowestLimit(t, substance)
		ppm, err := strconv.ParseFloat(row[4], 64)
		if err != nil {
			t.Fatal(err)
		}
		want := above
		if ppm < limit/10 {
			want = below
		}
		var sums strings.Builder
		for given := range strings.SplitSeq(row[1], "; ") {
			sums.WriteString("given " + given + "\n")
		}
		mentors, _ := vapourPages(t, sums.String()+"find air in ppm to 0.01 = "+row[2],
			limitOf(strconv.FormatFloat(limit, 'f', -1, 64)))
		if !strings.Contains(mentors, want) {
			t.Errorf("%s, %g ppm against %g ppm, lacks %q", row[0], ppm, limit, want)
		}
		seen[want]++
	}
	if seen[above] != 4 || seen[below] != 1 {
		t.Errorf("%d cases above and %d below a tenth", seen[above], seen[below])
	}
}
