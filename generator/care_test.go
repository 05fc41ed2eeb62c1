package generator_test

import (
	"bytes"
	"html"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
)

// careFact finds temperatures, times, limits and properties of substances, strengths, and telephone
// numbers. Of a lesson only properties count; its times are its plan.
var (
	careFact = regexp.MustCompile(`(?:\d[\d.]*|\b(?:one|two|three|five|ten|twenty)) ` +
		`(?:°C|°F|ppm|minutes?|hours?|g/mL|g/mol|%|mg/m³|kPa)|\b1-\d{3}-\d{3}-\d{4}`)
	propertyFact = regexp.MustCompile(`\d[\d.]* (?:g/mL|g/mol|kPa|mg/m³|°C|°F)`)
)

// TestEveryFactOfCareHasItsSource holds what care cards, parts and lessons say of substances and of first aid against
// testdata/outside/care-facts.csv, which names a source for each.
func TestEveryFactOfCareHasItsSource(t *testing.T) {
	facts := map[string][]string{} // by file
	for _, row := range outsideTable(t, "care-facts.csv") {
		if len(row) != 5 || slices.Contains(row, "") {
			t.Errorf("a fact without what, source or status: %q", row)
			continue
		}
		facts[row[0]] = append(facts[row[0]], row[1])
	}
	files := []string{"../cmd/trundle/starter/en/pack/care/damp-cloth.md",
		"../cmd/trundle/starter/en/pack/care/driving.md"}
	for _, folder := range []string{"care", "parts", "."} {
		found, err := filepath.Glob("../lessons/" + folder + "/*.md")
		if err != nil || len(found) == 0 {
			t.Fatalf("no file in %s: %v", folder, err)
		}
		files = append(files, found...)
	}
	for _, file := range files {
		name := strings.TrimPrefix(filepath.ToSlash(filepath.Join("generator", file)), "generator/../")
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		pattern := careFact
		if filepath.Base(filepath.Dir(file)) == "lessons" {
			pattern = propertyFact
		}
		said := pattern.FindAllString(oneLine(string(text)), -1)
		for _, fact := range said {
			if !slices.Contains(facts[name], fact) {
				t.Errorf("%s says %q, and no source is named for it", name, fact)
			}
		}
		for _, fact := range facts[name] {
			if !slices.Contains(said, fact) {
				t.Errorf("%s does not say %q", name, fact)
			}
		}
		delete(facts, name)
	}
	for name := range facts {
		t.Errorf("there are facts for %s, which was not looked at", name)
	}
}

// sentenceEnd cuts plain text into sentences.
var sentenceEnd = regexp.MustCompile(`[.!?:;]["”’)]*\s`)

// sentencesOf gives the longer sentences below nodes, their marks and blanks left out.
func sentencesOf(c *lesson.Card, nodes []ast.Node) map[string]bool {
	all := map[string]bool{}
	for _, top := range nodes {
		_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if k := n.Kind(); !entering || k != ast.KindParagraph && k != ast.KindTextBlock {
				return ast.WalkContinue, nil
			}
			for _, s := range sentenceEnd.Split(plainText(n, c.Markdown)+" ", -1) {
				if s = letters(s); len(s) > 20 {
					all[s] = true
				}
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}

func plainText(top ast.Node, src []byte) string {
	var s strings.Builder
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if text, ok := n.(*ast.Text); ok && entering {
			s.Write(text.Segment.Value(src))
			s.WriteByte(' ')
		}
		return ast.WalkContinue, nil
	})
	return s.String()
}

// blockEnd keeps the last word of a block and the first of the next apart.
const blockEnd = "¦"

// letters leaves only letters and digits, so that neither a line's end nor a mark hides a sentence.
func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || string(r) == blockEnd {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// TestStudentsReadNoInstructionsForAdults takes every sentence that only adults' cards, or mentors' notes in others,
// have, and looks for it in every file of the students' edition, pages and worksheets.
func TestStudentsReadNoInstructionsForAdults(t *testing.T) {
	proved, files := demo(t)
	secret, shown := map[string]string{}, map[string]bool{}
	for _, c := range proved.Pack.Cards {
		var theirs, ours []ast.Node
		for n := c.Body.FirstChild(); n != nil; n = n.NextSibling() {
			if c.Adults || lesson.ForMentors(n) {
				ours = append(ours, n)
			} else {
				theirs = append(theirs, n)
			}
		}
		maps.Copy(shown, sentencesOf(c, theirs))
		for s := range sentencesOf(c, ours) {
			secret[s] = c.Name
		}
	}
	searched, mentors := 0, 0
	for name, data := range files {
		text := ""
		switch path.Ext(name) {
		case ".html", ".js":
			text = letters(html.UnescapeString(tag.ReplaceAllString(inLine.ReplaceAllString(string(data), ""), blockEnd)))
		case ".pdf":
			if !strings.HasSuffix(name, "-a4.pdf") {
				continue // the same text on other paper
			}
			command := exec.Command("pdftotext", "-raw", "-", "-")
			command.Stdin = bytes.NewReader(data)
			out, err := command.Output()
			if err != nil {
				t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
			}
			text = letters(string(out))
		default:
			continue
		}
		for s, card := range secret {
			switch {
			case !strings.Contains(text, s) || within(s, shown):
			case strings.HasPrefix(name, "mentors/"):
				mentors++
			default:
				t.Errorf("%s has of the adults' part of %s: %s", name, card, s)
			}
		}
		searched++
	}
	if len(secret) < 100 || searched < 50 || mentors < 100 {
		t.Errorf("%d sentences were looked for in %d files, and found %d times where they belong", len(secret),
			searched, mentors)
	}
}

// within tells whether a sentence is one of some, or a part of one.
func within(s string, all map[string]bool) bool {
	for other := range all {
		if strings.Contains(other, s) {
			return true
		}
	}
	return false
}

const careOfBoth = "---\ntitle: Pump\nwho: both\nstudents: Fill it.\nadults: Oil it.\nwear: [apron]\n" +
	"mentions: [pump]\n---\n\n## Before\n\n" +
	"Pump off first. Then look.\n\n> Mentor: Oil the pump behind a closed door.\n\n## During\n\nFill it slowly.\n\n" +
	"## After\n\nDry it.\n\n" +
	"## If something goes wrong\n\nStep back from it.\n"

const careOfAdults = "---\ntitle: Oil\nwho: adults\nhazards: [H225]\nwear: [gloves]\nmentions: [oil]\n---\n\n" +
	"## Before\n\nOpen the window wide.\n\n" +
	"## During\n\nPour it into the cup.\n\n## After\n\nLock it up.\n\n## If something goes wrong\n\nRing the plumber.\n"

// carePages builds a pack with two such cards and gives its files.
func carePages(t *testing.T, body string) map[string]string {
	t.Helper()
	return drawn(t, fstest.MapFS{
		"pack.yaml":    {Data: []byte("title: P\nversion: 1\n")},
		"care/pump.md": {Data: []byte(careOfBoth)},
		"care/oil.md":  {Data: []byte(careOfAdults)},
		"01-t.md": {Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ngoals: [G]\ncare: [pump, oil]\n---\n\n" +
			"## Part (10 min)\n\n" + body)},
	})
}

func TestCareStandsBeforeTheWorkOnceAndSaysWhoDoesWhat(t *testing.T) {
	files := carePages(t, "The work begins. Look at the pump.\n\nThe pump again. Never touch the oil.\n")
	const authority = "safety data sheet come first"
	for name, want := range map[string]struct{ has, lacks []string }{
		"students/01-t.html": {
			[]string{`<a href="care.html#pump">Pump</a>: Pump off first. <b>Wear:</b> apron. <small><b>Students:</b> ` +
				`Fill it. <b>An adult:</b> Oil it.</small>`,
				`<a href="care.html#oil">Oil</a>: This is not a job for students. Call an adult.`},
			[]string{"Students may do this", "gloves", "Open the window", "Danger", "behind a closed door"},
		},
		"mentors/01-t.html": {
			[]string{`<a href="care.html#pump">Pump</a>: Pump off first.`,
				`<a href="care.html#oil">Oil</a>: <b>Danger.</b> Open the window wide. <b>Wear:</b> gloves. <b>Only an adult may ` +
					`do this.</b>`},
			[]string{"This is not a job for students"},
		},
	} {
		page := files[name]
		for _, text := range want.has {
			if !strings.Contains(page, text) {
				t.Errorf("%s lacks %q", name, text)
			}
		}
		for _, text := range want.lacks {
			if strings.Contains(page, text) {
				t.Errorf("%s has %q", name, text)
			}
		}
		care, work := strings.Index(page, `class="care"`), strings.Index(page, "The work begins")
		if care < 0 || care > work || strings.Count(page, `class="care"`) != 1 || strings.Count(page, authority) != 1 {
			t.Errorf("%s: care stands at %d, the work at %d, and who decides is said %d times", name, care, work,
				strings.Count(page, authority))
		}
	}
}

func TestStudentsDoNotReadOfACardForAdultsThatOnlyMentorsNeed(t *testing.T) {
	const line = `<a href="care.html#oil">Oil</a>: `
	for body, want := range map[string]bool{
		"Text.\n\n> Mentor: The oil is locked up.\n":              false,
		"Text.\n\n## Mentor notes\n\n[Oil](care/oil.md) today.\n": false,
		"Never touch the *oil*.\n":                                true,
		"| a |\n|---|\n| oil |\n":                                 true,
		"See [it](care/oil.md).\n":                                true,
		"```work\nmeasure a = 1 cm \"Depth of the oil\"\n```\n":   true,
		"```python\n# oil\n```\n":                                 true,
	} {
		files := carePages(t, body)
		if has := strings.Contains(files["students/01-t.html"], line); has != want {
			t.Errorf("%q: the students' page has the card: %v", body, has)
		}
		if !strings.Contains(files["mentors/01-t.html"], line) {
			t.Errorf("%q: the mentors' page lacks the card", body)
		}
	}
}

func TestACardIsMarkedWhereItsWordIsFirstUsed(t *testing.T) {
	const mark, oil = `<a class="care-here" href="care.html#pump">→`, `<a class="care-here" href="care.html#oil">→`
	for _, c := range []struct {
		body           string
		students, oils int // marks of the pump on the students' page, of oil on the mentors'
		behind         string
	}{
		{"Look at the pumps.\n\nThe pump again.\n\n> Mentor: Keep the oil away.\n", 1, 1, "Look at the pumps. "},
		{"1. Look.\n2. Turn the pump.\n3. A pump.\n", 1, 0, "Turn the pump. "},
		{"> Mentor: The pump is heavy.\n\nA pump.\n", 1, 0, "A pump. "},
		{"See [its card](care/pump.md) for the pump.\n\nThe pump again.\n", 0, 0, ""},
		{"| a | b |\n|---|---|\n| x | the pump |\n", 1, 0, "the pump "},
		{"Nothing of the kind.\n", 0, 0, ""},
	} {
		files := carePages(t, c.body)
		page := strings.ReplaceAll(files["students/01-t.html"], "\n", " ")
		if n := strings.Count(page, mark); n != c.students || c.behind != "" && !strings.Contains(page, c.behind+mark) {
			t.Errorf("%q: %d marks on the students' page, or not behind %q", c.body, n, c.behind)
		}
		if n := strings.Count(files["mentors/01-t.html"], oil); n != c.oils || strings.Contains(page, oil) {
			t.Errorf("%q: %d marks of oil on the mentors' page", c.body, n)
		}
	}
}

func TestWhatToDoIfSomethingGoesWrongComesFirstInAFrame(t *testing.T) {
	files := carePages(t, "Text.\n")
	for name, want := range map[string][]string{
		"students/care.html": {`<a href="#oil">Oil</a>`, `<a href="#pump">Pump</a>`, `id="oil"`, `class="wrong"`,
			"get away from it into fresh air", "This is not a job for students.", "Leave it where it is.", "Call an adult.",
			`id="pump"`, "<b>Students:</b> Fill it. <b>An adult:</b> Oil it.", `<a href="01-t.html" aria-label="1, T"`,
			`class="wrong"`, "Step back from it.",
			"Pump off first."},
		"mentors/care.html": {`<a href="#oil">Oil</a>`, `<a href="#pump">Pump</a>`, `id="oil"`, "Only an adult may do this",
			`class="wrong"`, "Ring the plumber.", "H225", "gloves", "Open the window wide.",
			`id="pump"`, `class="wrong"`, "Step back from it.", "Pump off first.", "Oil the pump behind a closed door."},
	} {
		rest := files[name]
		for _, text := range want { // in this order
			_, after, found := strings.Cut(rest, text)
			if !found {
				t.Errorf("%s: %q is missing, or not in its place", name, text)
				continue
			}
			rest = after
		}
	}
	for _, text := range []string{"Pour it", "Open the window", "Ring the plumber", "H225", "gloves", "closed door"} {
		if strings.Contains(files["students/care.html"], text) {
			t.Errorf("the students' care page has %q", text)
		}
	}
}

// TestEveryLessonWithPowerSaysWhatComesBeforeIt looks in each lesson of the demo in which motors run for dry wheels,
// shoes, hair, the battery, and for switching off before hands go to the robot. In lesson 2 the battery stays out.
// It reads the lessons as students do, their parts put in: most of these lines are written once, in parts/ready.md.
func TestEveryLessonWithPowerSaysWhatComesBeforeIt(t *testing.T) {
	proved, _ := demo(t)
	if len(proved.Pack.Lessons) != 13 {
		t.Fatal(len(proved.Pack.Lessons))
	}
	for _, l := range proved.Pack.Lessons {
		if l.Week == 2 {
			continue
		}
		said := strings.ToLower(oneLine(string(l.File.Text())))
		for _, want := range []string{`shoes closed[,;] hair(,| and) cords`, `battery (goes )?in\b`,
			`(wheels (are )?dry|dust the wheels|wheels dusted)`, `switch(ed)? off(, lift| before)`} {
			if !regexp.MustCompile(want).MatchString(said) && !(l.Week == 5 &&
				strings.Contains(said, "switch off, half turn")) {
				t.Errorf("%s does not say %s", l.File.Name, want)
			}
		}
	}
}
