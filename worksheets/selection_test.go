package worksheets_test

// What goes on paper, decided by what it is; and that teams without a device find on it what they need.

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/typography"
	"trundle/worksheets"
)

// printedOf is the text of a pack's only lesson on paper, for students, its blanks plain.
func printedOf(t *testing.T, body string) string {
	t.Helper()
	_, files := built(t, packOf(body))
	return oneBlank.ReplaceAllString(text(t, files["students/sheets/01-t-a4.pdf"]), " ")
}

func TestWhatABlockIsDecidesWhetherItIsPrinted(t *testing.T) {
	printed := printedOf(t, "A long story, which nobody needs on paper.\n\n### Steps\n\nDo this:\n\n"+
		"1. Walk to the lock.\n2. Walk **back**.\n\n### Talk\n\nNothing but talk.\n\n### Roles\n\n"+
		"| Role | Job |\n|---|---|\n| Skipper | steers |\n\n"+
		"> Students: way = speed × time\n\n> Mentor: the zebra\n\n```python filled\ngo({1 m + 1 m})\n```\n")
	for _, want := range []string{"Steps", "Do this:", "1. Walk to the lock.", "2. Walk back.", "Roles", "Skipper steers",
		"way = speed × time", "go(2)"} {
		if !strings.Contains(printed, want) {
			t.Errorf("%q is not on paper:\n%s", want, printed)
		}
	}
	for _, not := range []string{"A long story", "Talk", "Nothing but talk", "zebra"} {
		if strings.Contains(printed, not) {
			t.Errorf("%q is on paper:\n%s", not, printed)
		}
	}
}

func TestAMarkDecidesAboutAPart(t *testing.T) {
	printed := printedOf(t, "### Kept (on paper)\n\nA story that is wanted.\n\n### Gone (not on paper)\n\n1. A step.\n\n"+
		"#### Back (on paper)\n\nOne more story.\n")
	for _, want := range []string{"Kept", "A story that is wanted.", "Back", "One more story."} {
		if !strings.Contains(printed, want) {
			t.Errorf("%q is not on paper:\n%s", want, printed)
		}
	}
	if strings.Contains(printed, "A step.") {
		t.Errorf("a part that is not for paper is on it:\n%s", printed)
	}
}

// The part that is answered in writing is known by its questions, whatever it is called, and what comes after the last
// of them is no question.
func TestAPartOfNumberedQuestionsHasRoomToWrite(t *testing.T) {
	_, files := built(t, packOf("```work\nmeasure d = 1 cm \"How wide?\"\n```\n\n"+
		"## Before we go\n\nThink of the lock.\n\n1. What was new?\n2. Finish the sentence: paper is …\n\n"+
		"Next week we sail.\n\n"+
		"## Pack away\n\n1. Wipe the wheels.\n"))
	sheet := files["students/sheets/01-t-a4.pdf"]
	printed := oneBlank.ReplaceAllString(text(t, sheet), " ")
	for _, want := range []string{"Before we go", "Think of the lock.", "1. What was new?", "1. Wipe the wheels."} {
		if !strings.Contains(printed, want) {
			t.Errorf("%q is not on paper:\n%s", want, printed)
		}
	}
	if strings.Contains(printed, "Next week") {
		t.Error("what next week brings is on paper")
	}
	const names, perQuestion, log = 3, 3, 2
	if n := strings.Count(drawing(t, sheet), "0.353 G"); n != names+2*perQuestion+log {
		t.Errorf("there are %d lines to write on", n)
	}
}

func TestATableGoesOnOverAPageUnderItsHead(t *testing.T) {
	rows := strings.Repeat("| a stop | far away |\n", 60)
	_, files := built(t, packOf("| Where | How |\n|---|---|\n"+rows))
	pages := strings.Split(text(t, files["students/sheets/01-t-a4.pdf"]), "\f")
	with := 0
	for _, p := range pages {
		if strings.Contains(p, "Where How") {
			with++
		}
	}
	if with < 2 {
		t.Errorf("the head is on %d pages", with)
	}
}

func TestAProgramKeepsItsIndentsAndItsBlanks(t *testing.T) {
	printed := printedOf(t, "```work\nmeasure d = 7 cm \"How wide?\"\n```\n\n"+
		"```python filled\nwhile True:\n    go({d in cm})\n```\n")
	if !strings.Contains(printed, "while True: go(__________)") {
		t.Errorf("the program reads %s", printed)
	}
}

func TestAFractionInProseIsReadAsItIsWritten(t *testing.T) {
	if printed := printedOf(t, "### Set up (on paper)\n\nThe gate is {36 1/2 in to 1/16} away.\n"); !strings.Contains(
		strings.ReplaceAll(printed, "\u00a0", " "), "The gate is 36 1/2 in away.") {
		t.Errorf("it reads %s", printed)
	}
}

// needed is what a team without a device cannot do without, lesson by lesson: data that questions refer to, roles,
// steps, formulas, programs, questions to answer.
var needed = map[string][]string{
	"01": {"10 mm 0.57°", "The named wheel rolls forward.", "Skipper", "Logkeeper", "Measurer: lay the ruler square"},
	"02": {"Push the blocks together", "Dot watcher", "circumference = π × diameter"},
	"03": {"barge.forward_rotations(__________)", "The back of the barge", "Skipper", "Measurer", "Logkeeper"},
	"04": {"1/16 in 0.0625 in", "error = measured − expected", "Skipper"},
	"05": {"Turner", "mismatch = 2 × track width", "Lift the barge with two hands"},
	"06": {"Ruler B is a cloth tape", "correction = commanded ÷ measured"},
	"07": {"30, 19, 24, 24, 11", "63, 78, 55, 65, 55", "Deal two heaps of five", "make 424 mm",
		"sticks ten dots", "Look here only after", "Then go to"},
	"08": {"40, 35, 22, 38, 31, 29, 42", "stays = (before + after) ÷ 2", "Turn the load round."},
	"09": {"In a pivot turn one wheel holds still", "5° 70 mm", "rotations = angle ÷ 360°",
		"Rotations × commanded ÷ measured"},
	"10": {"Write your prediction beside the wharf", "together = √(first", "sideways = second leg × tan(angle)", "tally"},
	"11": {"Lookout", "speed = distance ÷ time", "times as fast × times as fast = times as far",
		"Where the pointer stopped"},
	"12": {"sail locks 1, 2, 3, 5, 8 and 9", "Lock 1: which side?", "Lock 7: choosing a base",
		"Straightness counts three times, room for tools twice",
		"Lock 8: finding the cause", "Its crew only swaps the wheels", "Lock 11", "Exit ticket: the team’s log",
		"the one sentence that you would have needed", "tell the next crew"},
	"13": {"To the lock", "The canal"},
}

func TestATeamWithPaperAloneHasWhatItNeeds(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		all := needed[l.Slug[:2]]
		if len(all) == 0 {
			t.Errorf("nothing is looked for in %s", l.Slug)
		}
		for _, name := range sheetsOf("students", l) {
			printed := letters(text(t, files[name]))
			for _, want := range all {
				if !strings.Contains(printed, letters(typography.Marks{}.Text(want))) {
					t.Errorf("%s lacks %q", name, want)
				}
			}
		}
	}
}

var pagesSaid = regexp.MustCompile(`(?m)^Pages: +(\d+)`)

func pageCount(t *testing.T, pdf []byte) int {
	t.Helper()
	n, err := strconv.Atoi(pagesSaid.FindStringSubmatch(tool(t, pdf, "pdfinfo", "FILE"))[1])
	if err != nil {
		t.Fatal(err)
	}
	return n
}

const mostPages = 4

func TestSheetsHaveFewPagesAndBothEditionsTheSame(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		keyed := sheetsOf("mentors", l)
		for i, name := range sheetsOf("students", l) {
			n := pageCount(t, files[name])
			if n > mostPages {
				t.Errorf("%s has %d pages, more than %d", name, n, mostPages)
			}
			if k := pageCount(t, files[keyed[i]]); k != n {
				t.Errorf("%s has %d pages, the students' %d", keyed[i], k, n)
			}
			const written = 0.03 // the least that lines to write on take below the last words
			if fill := fillOfLastPage(t, files[name]) + written; fill < 1.0/3 {
				t.Errorf("%s: the last page is %.0f %% full", name, fill*100)
			}
		}
	}
}

// TestBothEditionsBeginEachPageWithTheSame looks at the first words below the centimetre edge.
func TestBothEditionsBeginEachPageWithTheSame(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		keyed := sheetsOf("mentors", l)
		for i, name := range sheetsOf("students", l) {
			students, mentors := pageBeginnings(t, files[name]), pageBeginnings(t, files[keyed[i]])
			if !slices.Equal(students, mentors) {
				t.Errorf("%s begins its pages with %q, that of mentors with %q", name, students, mentors)
			}
		}
	}
}

// pageBeginnings are the first three words of each page that are no number and lie left of the edge, as tagged.
func pageBeginnings(t *testing.T, pdf []byte) []string {
	t.Helper()
	var all []string
	for _, page := range strings.Split(tool(t, pdf, "pdftotext", "-bbox", "FILE", "-"), "<page ")[1:] {
		width, err := strconv.ParseFloat(regexp.MustCompile(`width="([\d.]+)"`).FindStringSubmatch(page)[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		type found struct {
			y, x float64
			text string
		}
		var words []found
		for _, m := range placedWord.FindAllStringSubmatch(page, -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			if x < width-(worksheets.Margin+10)*72/25.4 && x < width/4 {
				words = append(words, found{y, x, m[3]})
			}
		}
		slices.SortStableFunc(words, func(a, b found) int {
			return cmp.Or(cmp.Compare(math.Round(a.y), math.Round(b.y)), cmp.Compare(a.x, b.x))
		})
		first := ""
		for _, w := range words[:min(2, len(words))] {
			first += " " + w.text
		}
		all = append(all, first)
	}
	return all
}

var placedWord = regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]+)<`)

var word = regexp.MustCompile(`yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<`)

// fillOfLastPage is how far down its words go, in parts of what is between the margins and the footer.
func fillOfLastPage(t *testing.T, pdf []byte) float64 {
	t.Helper()
	pages := strings.Split(tool(t, pdf, "pdftotext", "-bbox", "FILE", "-"), "<page ")
	last := pages[len(pages)-1]
	height, err := strconv.ParseFloat(regexp.MustCompile(`height="([\d.]+)"`).FindStringSubmatch(last)[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	const point = 25.4 / 72
	margin := worksheets.Margin / point
	foot, lowest := height-margin-8/point, 0.0
	for _, m := range word.FindAllStringSubmatch(last, -1) {
		low, _ := strconv.ParseFloat(m[3], 64)
		right, _ := strconv.ParseFloat(m[2], 64)
		if atEdge := right > 595-margin-9/point; !atEdge && low <= foot {
			lowest = math.Max(lowest, low)
		}
	}
	return (lowest - margin) / (foot - margin)
}

// Steps and questions are 12 points: a word's box is as high as its face's lines, the same part of the size for all.
func TestStepsAreInTypeOfTwelvePoints(t *testing.T) {
	_, files := built(t, packOf("1. Walk to the zebra.\n\n```work\n"+
		"find n in rot to 1 = 3 rot \"How many walruses?\"\n```\n"))
	drawn := drawing(t, files["students/sheets/01-t-a4.pdf"])
	if !strings.Contains(drawn, "/F0 12 Tf") {
		t.Fatal("nothing is in type of 12 points")
	}
	boxes := tool(t, files["students/sheets/01-t-a4.pdf"], "pdftotext", "-bbox", "FILE", "-")
	heights := map[string]string{}
	for _, m := range word.FindAllStringSubmatch(boxes, -1) {
		low, _ := strconv.ParseFloat(m[1], 64)
		high, _ := strconv.ParseFloat(m[3], 64)
		heights[m[4]] = strconv.FormatFloat(high-low, 'f', 1, 64)
	}
	if heights["zebra."] == "" || heights["zebra."] != heights["walruses?"] {
		t.Errorf("a step is %s high, a question %s", heights["zebra."], heights["walruses?"])
	}
}

func TestWhatHasNoFormOnPaperIsKnown(t *testing.T) {
	proved, _ := built(t, packOf("### Kept (on paper)\n\n<p>x</p>\n\n```chart\ntitle \"T\"\nlength 100 cm\ntrack 112 mm\n"+
		"path 0.13 % \"A\"\n```\n\n```gauge\nruler 10 cm\n```\n\n### Other\n\n<p>y</p>\n"))
	if all := worksheets.Unprintable(proved.Lessons[0]); len(all) != 2 {
		t.Errorf("there are %d: %v", len(all), all)
	}
}
