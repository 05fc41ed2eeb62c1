package lesson_test

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// words are those that the lessons of this test use.
const words = "---\nmeant-otherwise: [does that mean]\n---\n\n## mean, the means\n\na\n\n" +
	"## standard deviation\n\na\n\n" +
	"## deviation\n\na\n\n## key\n\na\n\n## π\n\na\n\n## error, amp\n\na\n\n## leg, legs\n\na\n"

// usesIn are the first uses of those words in a lesson, as they are written there: "Mean=mean".
func usesIn(markdown string) string {
	g, _ := parse.Glossary(parse.NewMarkdown(), source.NewFile("words.md", []byte(words)))
	f := source.NewFile("01-x.md", []byte(markdown))
	root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	var all []string
	for _, u := range g.UsedIn(&lesson.Lesson{File: f, Body: root, Markdown: f.Text()}) {
		name := "otherwise"
		if u.Term != nil {
			name = u.Term.ID
		}
		all = append(all, strings.ReplaceAll(markdown[u.At.Start:u.At.End], "\n", "↵")+"="+name)
	}
	return strings.Join(all, " ")
}

func TestTheFirstUseOfAWordIsFoundInRunningText(t *testing.T) {
	for _, c := range []struct{ name, markdown, want string }{
		{"any capitals, once", "Mean, MEAN and mean.\n\nThe mean.", "Mean=mean"},
		{"another spelling counts as the same word", "Look at the means, then at one mean.", "the means=mean"},
		{"a spelling alone is not part of it", "It means nothing. All means help.", ""},
		{"the longest", "A standard deviation and a deviation.", "standard deviation=standard-deviation deviation=deviation"},
		{"over the end of a line", "A standard\n   deviation.", "standard↵   deviation=standard-deviation"},
		{"not over a hard break", "A standard  \ndeviation.", "deviation=deviation"},
		{"not over a paragraph", "A standard\n\ndeviation.", "deviation=deviation"},
		{"emphasised", "A *standard deviation* or **mean**.", "standard deviation=standard-deviation mean=mean"},
		{"half emphasised", "A standard *deviation*.", "deviation=deviation"},
		{"a phrase that means something else", "What does that\nmean? The mean.", "does that↵mean=otherwise mean=mean"},
		{"of a word with a hyphen no part", "A key-card and a pi-key, the keyboard; a key - or -key.", "key=key"},
		{"before an apostrophe", "The key's place, the leg’s end.", "key=key leg=leg"},
		{"a sign and a letter of Greek", "C = π × d", "π=π"},
		{"in points and cells, the head's too", "- a leg\n\n| key | b |\n|---|---|\n| c | mean |",
			"leg=leg key=key mean=mean"},
		{"in what students are to read", "> Students: the mean\n\n> the key", "mean=mean"},
		{"not in headings, links, code, pictures", "## mean\n\n[key](#a) `leg` ![error](pictures/a.svg) <b>π</b>\n\n" +
			"    mean\n\n```\nkey\n```", "π=π"},
		{"not in questions", "```work\ngiven a = 1 cm \"mean\"\n```", ""},
		{"not for mentors", "> Mentor: mean\n\n## Mentor notes\n\nkey", ""},
		{"an entity is no word", "Tom &amp; Jerry, &#112;i", ""},
		{"a letter as an entity is of its word", "a &#109;ean", "&#109;ean=mean"},
		{"to a link of the coach's own", "[so](words.md#key)", "=key"},
		{"nothing", "", ""},
	} {
		if got := usesIn(c.markdown); got != c.want {
			t.Errorf("%s: found %q, want %q", c.name, got, c.want)
		}
	}
}

// FuzzWords: whatever the glossary and the lesson are, places are those of the files, in order, and apart.
func FuzzWords(f *testing.F) {
	f.Add(words, "The mean, a *standard\ndeviation*, &#112;i and π.")
	f.Add("## a, b,, \n\n# c\n\n## {x}\n\n> Mentor: d\n\n##\n\n## `e` [f](g)\n",
		"a b\\\nc `e` [f](g) &amp; {x} ![a](b)\n\n> Students: a")
	f.Add("---\ntitle: [\n---\n## é, É\n\n### é\n", "É e\u0301 \xff")
	f.Add("---\nmeant-otherwise: [a b, a, '-']\n---\n## a\n\na b c\n\n## Mentor notes\n\n## b", "a-b a b -a- a")
	md := parse.NewMarkdown()
	f.Fuzz(func(t *testing.T, words, text string) {
		g, problems := parse.Glossary(md, source.NewFile("words.md", []byte(words)))
		for _, p := range problems.Sorted() {
			if p.Span.Start < 0 || p.Span.Start > p.Span.End || p.Span.End > len(words) {
				t.Fatalf("the problem %q at %v lies outside the %d bytes of %q", p.What, p.Span, len(words), words)
			}
		}
		for _, term := range g.Terms {
			inOrder(t, g.UsedInMeaning(term), g.Markdown)
		}
		file := source.NewFile("01-x.md", []byte(text))
		root, _, _ := parse.Markdown(md, file, file.Text())
		inOrder(t, g.UsedIn(&lesson.Lesson{File: file, Body: root, Markdown: file.Text()}), file.Text())
	})
}

// inOrder fails for uses that lie outside a text, or over each other, or are of one term twice.
func inOrder(t *testing.T, uses []lesson.Use, text []byte) {
	t.Helper()
	end, seen := 0, map[*lesson.Term]bool{}
	for _, u := range uses {
		if u.At == (source.Span{}) { // a link of the coach's own
			continue
		}
		if u.At.Start < end || u.At.Start >= u.At.End || u.At.End > len(text) || u.Term != nil && seen[u.Term] {
			t.Fatalf("%v after %d in %q", u.At, end, text)
		}
		end, seen[u.Term] = u.At.End, true
	}
}
