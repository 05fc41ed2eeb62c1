package check_test

import (
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// TestAChangeThatCareJudgesOtherwiseChangesItsKey: the preview judges a lesson anew only if the key of the
// pack's cards is another.
func TestAChangeThatCareJudgesOtherwiseChangesItsKey(t *testing.T) {
	card := func(name, who, mentions string) *lesson.Card {
		c, _ := parse.Card(parse.NewMarkdown(), source.NewFile("care/"+name+".md",
			[]byte("---\ntitle: T\nwho: "+who+"\nwear: []\nmentions: ["+mentions+"]\n---\n\n"+cardBody)))
		return c
	}
	l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md",
		[]byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [can]\n---\n\n## Part (10 min)\n\n1. Use the contact "+
			"cleaner.\n")))
	before := &lesson.Pack{Cards: []*lesson.Card{card("can", "adults", "contact cleaner")}}
	judged := func(p *lesson.Pack) string {
		found := check.Care(p, l)
		return slugs(found.Sorted())
	}
	for _, c := range []struct {
		name string
		card *lesson.Card
		want string
	}{
		{"who does it", card("can", "students", "contact cleaner"), ""},
		{"what it mentions", card("can", "adults", "spray"), "card-missing"},
		{"its name", card("tin", "adults", "contact cleaner"), "unknown-card adults-step card-missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			after := &lesson.Pack{Cards: []*lesson.Card{c.card}}
			if was, is := judged(before), judged(after); was != "adults-step" || is != c.want {
				t.Fatalf("problems were %q and are %q, want %q", was, is, c.want)
			}
			if check.CareKey(before) == check.CareKey(after) {
				t.Error("the key is the same")
			}
		})
	}
}

// TestASlipOfThePenInCareIsOneError: the words that the card covers are no errors of their own.
func TestASlipOfThePenInCareIsOneError(t *testing.T) {
	c, _ := parse.Card(parse.NewMarkdown(), source.NewFile("care/contact-cleaner.md",
		[]byte("---\ntitle: T\nwho: students\nwear: []\nmentions: [contact cleaner]\n---\n\n"+cardBody)))
	for name, want := range map[string]string{
		"contact-cleaner": "", "contact-claener": "unknown-card", "something": "unknown-card card-missing",
	} {
		l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte("---\ntitle: T\nweek: 1\nminutes: 10\n"+
			"care: ["+name+"]\n---\n\n## Part (10 min)\n\nUse the contact cleaner.\n")))
		found := check.Care(&lesson.Pack{Cards: []*lesson.Card{c}}, l)
		if got := slugs(found.Sorted()); got != want {
			t.Errorf("with care: [%s] the problems are %q, want %q", name, got, want)
		}
	}
}

// TestWhatIsMeantOtherwiseChangesTheKey does so for what a pack means otherwise.
func TestWhatIsMeantOtherwiseChangesTheKey(t *testing.T) {
	l, _ := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md",
		[]byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [can]\n---\n\n## Part (10 min)\n\nA cleaner run, a "+
			"petrol tin.\n")))
	pack := func(fields string) *lesson.Pack {
		p, _ := parse.PackFile(source.NewFile("pack.yaml", []byte("title: P\nversion: 1\n"+fields)))
		return p
	}
	before := pack("")
	for fields, want := range map[string]string{
		"": "unknown-card card-unsure card-missing",
		"meant-otherwise:\n  cleaner run: one with fewer slips\n": "unknown-card " +
			"card-missing",
		"meant-otherwise:\n  cleaner run: fewer slips\n  petrol tin: the name of a robot\n": "unknown-card",
		"meant-otherwise:\n  petrol: the name of a robot\n": "unknown-card " +
			"card-unsure card-missing",
		"meant-otherwise:\n  cleaner run:\n": "unknown-card " +
			"card-unsure card-missing",
		"meant-otherwise: petrol\n": "unknown-card " +
			"card-unsure card-missing",
	} {
		after := pack(fields)
		found := check.Care(after, l)
		if got := slugs(found.Sorted()); got != want {
			t.Errorf("%q: problems are %q, want %q", fields, got, want)
		}
		if same := check.CareKey(before) == check.CareKey(after); same != (len(after.MeantOtherwise) == 0) {
			t.Errorf("%q: the key is the same: %v", fields, same)
		}
	}
}
