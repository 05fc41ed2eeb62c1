package check_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"trundle/generator/check"
	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/worksheets"
)

// checked checks a lesson of ten minutes with the given body and gives the problems
// of the stages from parse on.
func checked(t *testing.T, body string) []problem.Problem {
	t.Helper()
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" + body
	md := parse.NewMarkdown()
	l, found := parse.Lesson(md, source.NewFile("01-t.md", []byte(text)))
	c, more := parse.Card(md, source.NewFile("care/cloth.md",
		[]byte("---\ntitle: Cloth\nwho: students\nwear: []\nmentions: [damp cloth]\n---\n")))
	found.Join(more)
	p := &lesson.Pack{Lessons: []*lesson.Lesson{l}, Cards: []*lesson.Card{c}}
	w, more := work.ForKit(l, nil, nil)
	found.Join(more)
	found.Join(allFound(p, w))
	return found.Sorted()
}

// cardBody is the least that a care card says.
const cardBody = "## Before\n\nLook.\n\n## During\n\nWork.\n\n## After\n\nTidy up.\n\n## If something goes " +
	"wrong\n\nStop.\n\n"

func slugs(problems []problem.Problem) string {
	var all []string
	for _, p := range problems {
		all = append(all, p.Slug)
	}
	return strings.Join(all, " ")
}

const keyed = "```work\nmeasure d = 65 mm \"Wheel\"\nfind C in cm to 0.1 = circumference(d) \"One " +
	"rotation\"\nkey C = 20.4 cm\n" +
	"find w in in to 1/16 = 40 mm + d * 0 \"Width\"\nkey w = 1 9/16 in\n```\n\n"

// allFound is all that is found in a worked lesson.
func allFound(p *lesson.Pack, l *work.Lesson) problem.List {
	problems := check.Worked(l)
	problems.Join(check.Text(l.Lesson))
	problems.Join(check.Care(p, l.Lesson))
	problems.Join(check.Links(p, l.Lesson))
	return problems
}

// TestAnswersGivenAway reads testdata/prose/given-away.csv: what students see, and
// whether it gives one of the answers 20.4 cm and 1 9/16 in away.
func TestAnswersGivenAway(t *testing.T) {
	f, err := os.Open("../../testdata/prose/given-away.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		t.Run(row[0], func(t *testing.T) {
			want := map[string]string{"yes": "given-away", "no": ""}[row[1]]
			got := slugs(checked(t, keyed+strings.ReplaceAll(row[0], `\n`, "\n")+"\n"))
			if strings.TrimPrefix(got, "html-shown ") != want {
				t.Errorf("problems are %q, want %q (%s)", got, want, row[2])
			}
		})
	}
}

func TestAPromptMayNotGiveAnAnswerAway(t *testing.T) {
	got := slugs(checked(t,
		"```work\nfind C in cm to 0.1 = circumference(65 mm) \"Is it 20.4 cm?\"\nkey C = 20.4 cm\n```\n"))
	if got != "given-away" {
		t.Errorf("problems are %q", got)
	}
}

// TestAPromptIsWhatStandsInItsQuotes: a comment of the coach's is not what students read.
func TestAPromptIsWhatStandsInItsQuotes(t *testing.T) {
	for _, c := range []struct{ name, lines, want string }{
		{"a solvent in a comment's quotes", "given x = 3 cm   # acetone \"solvent\"\n   \"Note\"", ""},
		{"a solvent in the prompt after a comment", "given x = 3 cm   # \"a\"\n   \"Acetone\"", "card-missing"},
		{"a solvent of two words over two lines", "given x = 3 cm \"The white\n  spirit\"", "card-missing"},
		{"the answer in a comment's quotes",
			"given x = 3 cm  # the \"20.4 cm\"\nfind C in cm to 0.1 = circumference(65 mm) \"How far?\"\nkey C " +
				"= 20.4 cm", ""},
		{"the answer over two lines of a prompt",
			"find C in cm to 0.1 = circumference(65 mm) \"Is it 20.4\n  cm?\"\nkey C = 20.4 cm", "given-away"},
		{"the answer in another prompt",
			"given x = 3 cm  # \"a\"\n  \"It is 20.4 cm.\"\nfind C in cm to 0.1 = circumference(65 mm) \"How " +
				"far?\"\nkey C = 20.4 cm", "given-away"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := slugs(checked(t, "```work\n"+c.lines+"\n```\n")); got != c.want {
				t.Errorf("problems are %q, want %q", got, c.want)
			}
		})
	}
}

func TestAnAnswerIsGivenAwayWhereverStudentsReadIt(t *testing.T) {
	for _, c := range []struct{ name, body string }{
		{"at a gauge", "```gauge\nruler 20 cm \"20.4 cm is one rotation\"\n```\n"},
		{"in a chart's title", "```chart\ntitle \"20.4 cm a rotation\"\nvary x from 0 to 2 \"n\"\nline x \"n\"\n```\n"},
		{"in a link's title, written with an entity", "[go](#part \"20&#46;4 cm\")\n"},
		{"in a heading below", "### It is 20.4 cm\n"},
		{"in code", "`x = 20.4 cm`\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := slugs(checked(t, keyed+c.body)); got != "given-away" {
				t.Errorf("problems are %q", got)
			}
		})
	}
}

func TestWhatTheLessonGivesIsNoSecret(t *testing.T) {
	given := "```work\ngiven L = 20.4 cm \"Length\"\n```\n\n"
	for _, text := range []string{"It is 20.4 cm long.", "It is 20,4 cm long.", "It is 20.4cm long."} {
		if got := slugs(checked(t, given+keyed+text+"\n")); got != "" {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
}

func TestSlipsThatLookAlikeAreACaution(t *testing.T) {
	for _, c := range []struct{ name, slip, want string }{
		{"another value", "circumference(d / 2)", ""},
		{"the right value", "pi * d", "slip-like-answer"},
		{"within half a step of it", "circumference(d) + 0.04 cm", "slip-like-answer"},
		{"just beyond the tolerance", "circumference(d) + 0.08 cm", ""},
		{"two of the same value", "circumference(d / 2) \"Look.\"\nslip pi * d / 2", "slip-like-slip"},
		{"two within half a step of one another", "circumference(d / 2) \"Look.\"\nslip pi * d / 2 + 0.04 cm",
			"slip-like-slip"},
		{"two that can be told apart", "circumference(d / 2) \"Look.\"\nslip pi * d / 2 + 0.2 cm", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := checked(t, "```work\nmeasure d = 65 mm \"Wheel\"\nfind C in cm to 0.1 = circumference(d)\nslip "+
				c.slip+" \"Look again.\"\n```\n")
			if slugs(got) != c.want {
				t.Errorf("problems are %q, want %q", slugs(got), c.want)
			}
			for _, p := range got {
				if p.Severity != problem.Caution {
					t.Errorf("%s is an %s", p.Slug, p.Severity)
				}
			}
		})
	}
}

func TestCareIsCovered(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"its own card's words", "Use a damp cloth.", ""},
		{"a cleaner without a card", "Use a cleaner on it.", "card-missing"},
		{"a spray in a mentor's note", "> Mentor: no spray here", "card-missing"},
		{"part of a longer word", "A solventless day, a bleacher.", ""},
		{"what was done with a spray", "A sprayed wall.", "card-unsure"},
		{"in a prompt", "```work\nmeasure m = 3 g \"Mass of the solvent\"\n```", "card-missing"},
		{"several", "Solvents.", "card-missing"},
		{"in code marks", "Use `solvent`.", "card-missing"},
		{"in HTML", "<p>solvent</p>", "html-shown card-missing"},
		{"in a list of HTML", "<ol><li>Use acetone</li></ol>", "html-shown card-missing"},
		{"in a comment", "a <!-- solvent --> b", "comment-shown card-missing"},
		{"with hyphens that nobody sees", "A sol\u00advent, a sol&shy;vent.", "card-missing"},
		{"what cleans floors", "Bring a vacuum cleaner and two vacuum-cleaners.", ""},
		{"one of both", "Bring a vacuum cleaner and a cleaner.", "card-missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := slugs(checked(t, c.text+"\n")); got != c.want {
				t.Errorf("problems are %q, want %q", got, c.want)
			}
		})
	}
}

// withCards checks a lesson that carries a card of students alone, in a pack that has one of adults too.
func withCards(t *testing.T, header, body string) string {
	t.Helper()
	card := func(name, who, mentions string) *lesson.Card {
		c, found := parse.Card(parse.NewMarkdown(),
			source.NewFile("care/"+name+".md",
				[]byte("---\ntitle: "+name+"\nwho: "+who+"\nwear: []\nmentions: ["+mentions+"]\n---\n\n"+cardBody)))
		if len(found.Sorted()) > 0 {
			t.Fatal(found.Sorted())
		}
		return c
	}
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n" + header + "---\n\n## Part (10 min)\n\n" + body +
		"\n"
	l, found := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
	found.Join(check.Care(&lesson.Pack{Cards: []*lesson.Card{card("cloth", "students", "damp cloth"),
		card("can", "adults", "rubbing alcohol, contact cleaner"),
		card("tools", "students", "swollen battery, craft knife, side cutters, spinning wheels")}}, l))
	return slugs(found.Sorted())
}

func TestWhatIsNamedIsFoundHoweverItIsSet(t *testing.T) {
	for _, text := range []string{
		"Wipe with rubbing alcohol.", "Wipe with rubbing\nalcohol.", "Rubbing **alcohol**!", "rubbing&nbsp;alcohol",
		"rubbing alcohol", "rubbing  alcohol", "rubbing-alcohol",
		"rubbing alcohols", "RUBBING ALCOHOL", "| a |\n|---|\n| rubbing alcohol |", "### Rubbing alcohol",
		"[rubbing alcohol](https://example.org)", "- a\n- rubbing\n  alcohol",
		"> Mentor: rubbing\n> alcohol", "```python\n# rubbing alcohol\n```", "    rubbing alcohol",
		"```python filled\n# rubbing alcohol\n```", "[a](https://example.org \"rubbing alcohol\")",
		"```chart\ntitle \"Drift after rubbing alcohol\"\n```", "<!-- rubbing alcohol -->",
		"![rubbing alcohol](pictures/a.png)", "line\\\nrubbing alcohol",
		"```work\nfind x = 2\nslip 3 \"Did you use rubbing alcohol?\"\n```", "Swollen batteries!", "A swollen battery.",
		"Two craft knives.", "One side cutter.", "Its spinning wheel.",
	} {
		if got := withCards(t, "", text); !strings.Contains(got, "card-missing") {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
	for _, text := range []string{
		"The wheel is cleaner than before.", "It looks cleaner now.", "Three pipe cleaners.", "A street cleaner.",
		"A window-cleaner robot.", "A vacuum\u2011cleaner.", "A spray bottle of water.",
		"Alcohol-free wipes.", "A batter, a knit, a cut.",
	} {
		if got := withCards(t, "", text); got != "" {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
	if got := withCards(t, "",
		"A cleaner stands there."); got != "card-missing" { // the pack has a card for one, the lesson does not carry it
		t.Errorf("problems are %q", got)
	}
	if got := withCards(t, "",
		"Rubbing alcohol."); got != "card-missing" { // told once, as the card's and not as an alcohol too
		t.Errorf("problems are %q", got)
	}
	for _, header := range []string{"materials: [1 bottle of rubbing alcohol]\n", "goals: [Use contact cleaners.]\n",
		"materials: [acetone]\n"} {
		if got := withCards(t, header, "Look."); !strings.Contains(got, "card-missing") {
			t.Errorf("%q: problems are %q", header, got)
		}
	}
}

func TestAStepForAdultsIsFoundHoweverItIsSet(t *testing.T) {
	for _, text := range []string{
		"1. Use contact cleaner.", "1. Use the\n   contact\n   cleaner.", "1. Use contact cleaners.",
		"1. Do not forget contact cleaner.", "1. No dirt left? Take contact cleaner.",
		"1. Take contact cleaner; not too much.", "1. Your mentor says go. You wipe with contact cleaner.",
		"1. An adult is near.\n\n   Use contact cleaner.",
		"1. If the wheel does not turn, put contact cleaner on the axle.",
		"1. When there is no power, use contact cleaner on the plug.",
		"1. Wipe the dirt away with contact cleaner.",
		"1. Put contact cleaner on the axle and wipe the residue away.",
		"1. Keep the contact cleaner away from the battery and spread it on the plug.",
		"1. Ask your coach for the contact cleaner and wipe the axle.",
		"1. Use contact cleaner as your mentor showed you.", "1. Your mentor shows you how to use contact cleaner.",
		"1. Never touch the belt, then wipe the plug with contact cleaner.",
		"1. Your mentor opens it and you wipe with contact cleaner.", "1. Never forget contact cleaner.",
		"### Step 1\n\nUse contact cleaner.", "**Step 1**\n\nUse contact cleaner.",
		"## 1. Clean the plug\n\nUse it.\n\n- Use contact cleaner.", "1 – Use contact cleaner.",
		"Step one: use contact cleaner.", "Steps 1 and 2: use contact cleaner.", "- [ ] Step 1: use contact cleaner.",
		"Do this:\nStep 2: use contact cleaner.", "First.\n2\\) Use contact cleaner.",
		"| | |\n|---|---|\n| Use contact cleaner | 1 |", "1. <div>Use contact cleaner</div>",
		"1. Look.\n2. Use\n   - contact cleaner", "1. Clean it. Then Use contact cleaner.",
		"**1.** Use contact cleaner.", "1\\. Use contact cleaner.", "### 1. Use contact cleaner",
		"Step 1: use contact cleaner.", "| | |\n|---|---|\n| 1 | Use contact cleaner |",
	} {
		if got := withCards(t, "", text); !strings.Contains(got, "adults-step") {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
	for _, text := range []string{
		"1. **Adult:** put contact cleaner on a swab.", "1. Adult: put contact cleaner on a swab.",
		"1. Roll it.\n\n   > Mentor: Use contact cleaner here.",
		"| | | |\n|---|---|---|\n| 1 | Mentor | opens contact cleaner |",
		"1. The adult uses approx. 2 mL of contact cleaner.", "1. Your instructor opens the contact cleaner.",
		"1. Avoid contact cleaner.", "1. Stop and step back if you smell contact cleaner.",
		"1. Contact cleaner is forbidden for students.", "1. The contact cleaner stays locked up.",
		"1. Leave the contact cleaner in its locked box.", "1. Wait outside while the contact cleaner dries.",
		"1. Read the contact cleaner card with your group.",
		"1. What is contact cleaner made of?", "1. Which is safer: a damp cloth or contact cleaner?",
		"### Step 1\n\nLook.\n\n### More\n\nContact cleaner smells.",
		"**Step 1**\n\nLook.\n\n## Next\n\nContact cleaner smells.", "1. Use a damp cloth.",
		"1. Look at it, and your mentor opens the contact cleaner.",
		"1. Wait. And then your mentor opens the contact cleaner.",
		"1. Is it dirty? A parent takes contact cleaner.",
		"1. Nobody touches contact cleaner.", "1. No contact cleaner today.", "1. Keep off the contact cleaner.",
		"1. Do not open the contact cleaner.", "1. An instructor, not you, opens the contact cleaner.",
		"1. One volunteer opens the contact cleaner.", "1. A grown-up opens the contact cleaner.",
		"1. The contact cleaner is for adults.",
		"1. Don’t use contact cleaner.", "1. Never use contact cleaner.", "1. Stay away from the contact cleaner.",
		"1. A teacher opens the contact cleaner.", "1. The coach has the contact cleaner.",
		"1. Your mentor takes contact cleaner to the plug.", "1. The contact cleaner is put away.",
		"- Contact cleaner smells.", "Contact cleaner smells.", "> Mentor: 1. Use contact cleaner.",
		"| | |\n|---|---|\n| a | contact cleaner |",
	} {
		if got := withCards(t, "", text); strings.Contains(got, "adults-step") {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
}

func TestNotesThatOnlyLookLikeMentorsAreRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a note", "> Mentor: look", ""},
		{"a note with its word in bold", "> **Mentor:** look", ""},
		{"a note with the colon outside the bold", "> **Mentor**: look", ""},
		{"a note in a list", "- a\n\n  > Mentor: look", ""},
		{"no quote at all", "Mentor: look", "mentor-like"},
		{"a heading of another wording", "### Notes for mentors\n\nlook", "mentor-like"},
		{"a heading with more behind", "## Mentor notes: extra\n\nlook", "mentor-like"},
		{"a heading of answers", "## Answers\n\n3", "mentor-like"},
		{"notes for coaches", "## Notes for coaches\n\n3", "mentor-like"},
		{"a comment", "<!-- Mentor: 3 -->", "comment-shown"},
		{"a comment in a line", "a <!-- 3 --> b", "comment-shown"},
		{"a comment in a note", "> Mentor: look\n>\n> <!-- 3 -->", ""},
		{"answer keys", "## Answer keys\n\n20", "mentor-like"},
		{"questions to answer", "Answer questions 1-3 in your notebook.", ""},
		{"a range of questions", "Answer 1–3 in your notebook.", ""},
		{"room for answers", "- Answers: ____", ""},
		{"answers in pairs", "Answer in pairs: why?", ""},
		{"a solution by name", "Solution A: a wider base.", ""},
		{"a coach who asks", "Coach asks: why?", ""},
		{"what a mentor leads", "Mentor-led test", ""},
		{"notes of students", "## Show the coach your notes", ""},
		{"a coach in a sentence", "Your coach says: go.", ""},
		{"answers in a sentence", "Answer in whole sentences: why?", ""},
		{"a coach without a quote", "Coach: look", "mentor-like"},
		{"an answer without a quote", "Answer: 3", "mentor-like"},
		{"a prompt", "```work\ngiven a = 3 \"Answer: 3\"\n```", "mentor-like"},
		{"a comment in a program", "```python\n# Mentor: slow\nleader: 3\n```", "mentor-like"},
		{"a field in a program", "```yaml\nleader: 3\nkey: 4\n```", ""},
		{"a quote that is nearly for students", "> Student: look", "students-label"},
		{"a quote for students in a note", "> Mentor: look\n>\n> > Students: look", "students-label"},
		{"a quote for students in the section", "## Mentor notes\n\n> Students: look", "students-label"},
		{"a tag", "a <b>b</b> c", "html-shown"},
		{"the section itself", "## Mentor notes\n\nlook", ""},
		{"a sentence about a mentor", "Your mentor says that the wheels are dry.", ""},
		{"a sentence that starts with the word", "Mentors help you. Ask: what drifts?", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := slugs(checked(t, c.text+"\n")); got != c.want {
				t.Errorf("problems are %q, want %q", got, c.want)
			}
		})
	}
}

func TestAnAnswerBesideABrokenGivenIsStillTold(t *testing.T) {
	got := slugs(checked(t, keyed+"```work\ngiven = 3\n```\n\nOne rotation is 20.4 cm.\n"))
	if got != "syntax given-away" {
		t.Errorf("problems are %q", got)
	}
}

func TestAKeyWithALimitShowsMorePlacesWhereItMust(t *testing.T) {
	got := checked(t, "```work\nfind x in cm = 20.4449 cm\nkey x = 20.4 cm within 0.01 cm\n```\n")
	if len(got) != 1 || !strings.Contains(got[0].What, "works out 20.4449 cm") {
		t.Errorf("problems are %+v", got)
	}
}

func TestACardHasNothingToWork(t *testing.T) {
	text := "---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n" + cardBody +
		"Wait {15 min} \\{now}.\n\n```work\ngiven a = 1\n```\n\n```python filled\nx = {2}\n```\n"
	c, found := parse.Card(parse.NewMarkdown(), source.NewFile("care/cloth.md", []byte(text)))
	found.Join(check.Card(&lesson.Pack{Cards: []*lesson.Card{c}}, c))
	if got := slugs(found.Sorted()); got != "value-in-card value-in-card value-in-card" {
		t.Errorf("problems are %q", got)
	}
}

func TestPaperPrintsEveryOfficialStatement(t *testing.T) {
	for _, s := range hazard.Precautions() {
		if r, ok := worksheets.Lacks(s.Text); ok {
			t.Errorf("the worksheets' font has no %q, which stands in %s", r, s.Code)
		}
	}
}

func TestACardSaysBeforeDuringAfterAndWhatIfNot(t *testing.T) {
	full := strings.TrimSpace(cardBody)
	for _, c := range []struct{ name, body, want, what string }{
		{"all four", full, "", ""},
		{"in capitals, with a stop", strings.Replace(full, "If something goes wrong", "IF SOMETHING GOES WRONG?", 1),
			"", ""},
		{"with a list below a smaller heading", strings.Replace(full, "Work.", "### A\n\n1. Work.", 1), "", ""},
		{"no after", strings.Replace(full, "## After", "", 1), "card-section", "“After”"},
		{"a smaller heading", strings.Replace(full, "## After", "### After", 1), "card-section", "“After”"},
		{"misspelt", strings.Replace(full, "## Before", "## Befor", 1), "card-section", "“Before”"},
		{"nothing below a heading", strings.Replace(full, "Work.", "", 1), "card-section",
			"there is nothing below “During”"},
		{"nothing below the last", strings.Replace(full, "Stop.", "", 1), "card-section", "“If something goes wrong”"},
		{"for mentors only", strings.Replace(full, "## If something goes wrong", "## Mentor notes", 1), "card-section",
			"“If something goes wrong”"},
		{"only a comment", strings.Replace(full, "Work.", "<!-- todo -->", 1), "card-section comment-shown",
			"there is nothing below “During”"},
		{"only a line", strings.Replace(full, "Work.", "---", 1), "card-section", "there is nothing below “During”"},
		{"only blanks", strings.Replace(full, "Work.", "&nbsp;\u200b", 1), "card-section",
			"there is nothing below “During”"},
		{"only bullets", strings.Replace(full, "Work.", "-\n-", 1), "card-section", "there is nothing below “During”"},
		{"only dots", strings.Replace(full, "Work.", "…", 1), "card-section", "there is nothing below “During”"},
		{"only a note to oneself", strings.Replace(full, "Work.", "To do.", 1), "card-section",
			"there is nothing below “During”"},
		{"only a note for mentors", strings.Replace(full, "Work.", "> Mentor: look", 1), "card-section", "“During”"},
		{"none", "Text.", "card-section", "“Before”, “During”, “After”, “If something goes wrong”"},
	} {
		t.Run(c.name, func(t *testing.T) {
			card, found := parse.Card(parse.NewMarkdown(),
				source.NewFile("care/cloth.md",
					[]byte("---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n"+c.body+"\n")))
			found.Join(check.Card(&lesson.Pack{Cards: []*lesson.Card{card}}, card))
			got := found.Sorted()
			if slugs(got) != c.want {
				t.Fatalf("problems are %q, want %q", slugs(got), c.want)
			}
			if len(got) > 0 && (!strings.Contains(got[0].What, c.what) || got[0].Hint == "" || got[0].Span.End == 0) {
				t.Errorf("the problem is %+v", got[0])
			}
		})
	}
}

func TestALimitIsOfWhatAdultsUseAndLessThanAllOfTheAir(t *testing.T) {
	const everybody = "limit-everybody: 1 ppm\nlimit-everybody-source: B\n"
	for header, want := range map[string]string{
		"who: adults\nlimit: 200 ppm\nlimit-source: A\n":                         "",
		"who: students\nlimit: 200 ppm\nlimit-source: A\n":                       "hazard-for-students",
		"who: adults\nlimit: 2000000 ppm\nlimit-source: A\n":                     "limit-too-large",
		"who: students\nhazards: [H225]\n":                                       "hazard-for-students",
		"who: adults\nhazards: [H225]\n":                                         "",
		"who: adults\nlimit: 9 ppm\nlimit-source: A\n" + everybody:               "",
		"who: adults\nlimit-everybody: 2000000 ppm\nlimit-everybody-source: A\n": "limit-too-large",
		"who: adults\nlimit-everybody: 1 ppm\n":                                  "field-missing",
		"who: both\nstudents: Wipe.\nadults: Pour.\n" + everybody:                "hazard-for-students",
		"who: both\nstudents: Wipe.\nadults: Pour.\nhazards: [H225]\n":           "hazard-for-students",
	} {
		card, found := parse.Card(parse.NewMarkdown(),
			source.NewFile("care/c.md", []byte("---\ntitle: C\nwear: []\n"+header+"---\n\n"+cardBody)))
		found.Join(check.Card(&lesson.Pack{Cards: []*lesson.Card{card}}, card))
		if got := slugs(found.Sorted()); got != want {
			t.Errorf("%q: problems are %q, want %q", header, got, want)
		}
	}
}
