package check_test

import (
	"strings"
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// cardProblems checks a card with a header and a text below Before.
func cardProblems(header, before string) []problem.Problem {
	text := "---\nwear: []\n" + header + "---\n\n" + strings.Replace(cardBody, "Look.", before, 1)
	c, found := parse.Card(parse.NewMarkdown(), source.NewFile("care/c.md", []byte(text)))
	found.Join(check.Card(&lesson.Pack{Cards: []*lesson.Card{c}}, c))
	return found.Sorted()
}

const forStudents, forBoth = "title: C\nwho: students\n", "title: C\nwho: both\nstudents: Wipe it.\nadults: Open it.\n"

func TestACardOfStudentsLeavesNothingToAdults(t *testing.T) {
	for _, text := range []string{
		"Opening it is the adult's.", "That is the adult’s job.", "This is an adult's task.", "The rest is for the adult.",
		"The rest is for an\nadult.", "Sharp ones are for adults.",
		"Only an adult opens it.", "ONLY ADULTS open it.", "An adult alone opens it.", "For adults only.",
		"It is left to the adult.", "Leave the lid to an adult.", "It is a job for your mentor.",
		"The teacher's job.", "Opening it: a job for your mentor.", "Only the coach may look.",
		"- Wipe.\n- The lid is for a grown-up.", "1. The lid is the adult's.", "Wipe.\n\n> Mentor: The lid is the adult's.",
		"**The lid is the adult's.**",
		"| a |\n|---|\n| only an adult |", "### The adult's part\n\nWipe.",
	} {
		if got := cardProblems(forStudents, text); slugs(got) != "card-leaves-to-adults" || got[0].Span.Start == 0 ||
			!strings.Contains(got[0].Hint, "who: both") {
			t.Errorf("%q: problems are %+v", text, got)
		}
		if got := slugs(cardProblems(forBoth, text)); got != "" {
			t.Errorf("%q on a card for both: problems are %q", text, got)
		}
	}
	for _, text := range []string{
		"Call the adult.", "An adult is in the room and has shown the task once.", "Ask an adult, and wait for the adult.",
		"Show it to your mentor.", "An adult may hand you a cloth.",
		"The adult calls a doctor.", "Only a dry cloth will do.",
	} {
		if got := slugs(cardProblems(forStudents, text)); got != "" {
			t.Errorf("%q: problems are %q", text, got)
		}
	}
}

func TestStudentsMayDoThisStandsAboveNoDanger(t *testing.T) {
	const slug = "card-danger-for-students"
	for header, text := range map[string]string{
		"title: Batteries and charging\nwho: students\n":                   "Look.",
		"title: C\nwho: students\nmentions: [cloth, craft knife]\n":        "Look.",
		"title: C\nwho: students\nmentions: [hot glue]\n":                  "Look.",
		"title: C\nwho: students\nmentions: [turpentine]\n":                "Look.",
		"title: C\nwho: students\nmentions: [e]\n":                         "Spray it with oven cleaner.",
		"title: C\nwho: students\nmentions: [petrol]\n":                    "Look.",
		"title: C\nwho: students\nmentions: [a]\n":                         "Wipe it with a drop of Acetone.",
		"title: C\nwho: students\nmentions: [b]\n":                         "Two knives lie ready.",
		"title: C\nwho: students\nmentions: [c]\n":                         "Wipe.\n\n> Mentor: The soldering-iron is hot.",
		"title: Solvents and button cells\nwho: students\nmentions: [d]\n": "Look.", // said once
	} {
		if got := slugs(cardProblems(header, text)); got != slug {
			t.Errorf("%q, %q: problems are %q", header, text, got)
		}
	}
	for _, body := range []string{"Sit down.", "Hold the blades of the scissors shut.",
		"An alcoholic is no word of ours."} {
		if got := slugs(cardProblems(forStudents, body)); got != "" {
			t.Errorf("%q: problems are %q", body, got)
		}
	}
	// What to do if a battery leaks is no task.
	text := "---\ntitle: C\nwho: students\nwear: []\n---\n\n" + strings.Replace(cardBody, "Stop.",
		"A leaking battery: step back.", 1)
	c, found := parse.Card(parse.NewMarkdown(), source.NewFile("care/c.md", []byte(text)))
	found.Join(check.Card(&lesson.Pack{Cards: []*lesson.Card{c}}, c))
	if got := slugs(found.Sorted()); got != "" {
		t.Errorf("for when something goes wrong: problems are %q", got)
	}
}

func TestACardForBothSaysWhatEachMayDo(t *testing.T) {
	for header, want := range map[string]string{
		forBoth:                                  "",
		"title: C\nwho: both\n":                  "field-missing field-missing",
		"title: C\nwho: both\nstudents: Wipe.\n": "field-missing",
		"title: C\nwho: both\nadults: ''\nstudents: Wipe.\n": "field-missing",
		"title: C\nwho: students\nadults: Open.\n":           "card-who",
		"title: C\nwho: adults\nstudents: Wipe.\n":           "card-who",
		"title: C\nwho: everybody\n":                         "card-who",
	} {
		if got := slugs(cardProblems(header, "Look.")); got != want {
			t.Errorf("%q: problems are %q, want %q", header, got, want)
		}
	}
}

func TestWhoIsNotSaidRightlyIsTakenForAdults(t *testing.T) {
	for header, adults := range map[string]bool{forBoth: false, forStudents: false, "title: C\nwho: everybody\n": true,
		"title: C\n": true, "title: C\nwho: adults\n": true} {
		c, _ := parse.Card(parse.NewMarkdown(),
			source.NewFile("care/c.md", []byte("---\nwear: []\n"+header+"---\n\n"+cardBody)))
		if c.Adults != adults || c.Both != (header == forBoth) {
			t.Errorf("%q: for adults %v, for both %v", header, c.Adults, c.Both)
		}
	}
}

func TestWhatToTakeCareOfIsTheFirstSentenceOfBefore(t *testing.T) {
	for _, c := range []struct{ header, before, want string }{
		{"", "- Robot off. Battery out.\n- Dry hands.", "Robot off."},
		{"", "Tie back *hair* and\nsleeves! Then begin.", "Tie back hair and sleeves!"},
		{"", "Keep below 50 °C, e.g. in the shade.", "Keep below 50 °C, e.g. in the shade."},
		{"", "> Mentor: Charge them. First.\n\nDry hands. Always.", "Dry hands."},
		{"", "**Call an adult.**\nMore.", "Call an adult."},
		{"", "1. One.\n2. Two.", "One."},
		{"first: Read the label.\n", "Robot off. Battery out.", "Read the label."},
	} {
		text := "---\nwear: []\n" + forBoth + c.header + "---\n\n" + strings.Replace(cardBody, "Look.", c.before, 1)
		card, found := parse.Card(parse.NewMarkdown(), source.NewFile("care/c.md", []byte(text)))
		if got := card.TakeCare(); got != c.want || len(found.Sorted()) > 0 {
			t.Errorf("%q: take care of %q, want %q; problems %v", c.before, got, c.want, found.Sorted())
		}
	}
}

// ruled checks a lesson's care in a pack whose rule asks for the card motor.
func ruled(t *testing.T, rule, care, body string) (string, *lesson.Pack) {
	t.Helper()
	p, found := parse.PackFile(source.NewFile("pack.yaml", []byte("title: P\nversion: 1\n"+rule)))
	for _, name := range []string{"cloth", "motor"} {
		c, more := parse.Card(parse.NewMarkdown(), source.NewFile("care/"+name+".md",
			[]byte("---\nwear: []\n"+forBoth+"---\n\n"+cardBody)))
		found.Join(more)
		p.Cards = append(p.Cards, c)
	}
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [" + care + "]\n---\n\n## Part (10 min)\n\n" + body + "\n"
	l, more := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
	found.Join(more)
	p.Lessons = []*lesson.Lesson{l}
	found.Join(check.Pack(p))
	found.Join(check.Care(p, l))
	return slugs(found.Sorted()), p
}

func TestALessonThatDrivesCarriesTheCardsOfThePacksRule(t *testing.T) {
	const record, filled, typed = "```work\nrecord a[2] in cm to 1 = 1, 2 \"A\"\n```", "```python filled\nx = 1\n```",
		"```work\nmeasure a = 1 cm \"A\"\n```"
	for _, c := range []struct{ rule, care, body, want string }{
		{"cards: [motor]\n", "cloth", record, "card-rule"},
		{"cards: [motor]\n", "cloth", filled, "card-rule"},
		{"cards: [motor]\n", "cloth", "> Mentor: note\n>\n> " + strings.ReplaceAll(filled, "\n", "\n> "), "card-rule"},
		{"cards: [motor, cloth]\n", "motor", record, "card-rule"},
		{"cards: [motor]\n", "cloth, motor", record, ""},
		{"cards: [motor]\n", "cloth", typed, ""},
		{"cards: [motor]\n", "cloth, moter", record, "unknown-card"}, // a slip of the pen is one error
		{"cards: []\n", "cloth", record, ""},
		{"", "cloth", record, ""},
		{"cards: [motr]\n", "cloth", typed, "unknown-card"},
	} {
		if got, _ := ruled(t, c.rule, c.care, c.body); got != c.want {
			t.Errorf("%q, care %q, %q: problems are %q, want %q", c.rule, c.care, c.body, got, c.want)
		}
	}
}

// TestAnotherRuleIsAnotherKey keeps the preview from going on with what an older rule found.
func TestAnotherRuleIsAnotherKey(t *testing.T) {
	_, with := ruled(t, "cards: [motor]\n", "cloth", "Text.")
	_, without := ruled(t, "", "cloth", "Text.")
	_, other := ruled(t, "cards: [cloth]\n", "cloth", "Text.")
	if check.CareKey(with) == check.CareKey(without) || check.CareKey(with) == check.CareKey(other) {
		t.Error("the key does not see the rule")
	}
}
