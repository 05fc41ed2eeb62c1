package parse_test

import (
	"os"
	"path/filepath"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/source"
)

// FuzzValue: values in braces may stand anywhere in a page's Markdown; reading it ends
// without a panic, and what is told of it points into the file.
func FuzzValue(f *testing.F) {
	for _, s := range []string{
		"A towpath of {48 in in cm} is long.", "The gate is {L} away and one rotation is {C in cm to 0.1}.", "{", "}",
		"{}", "{ }",
		`\{ text \}`, "{d to 1/16}", "{d to 0}", "{d in}", "a `{code}` b", "```python filled\nx = {L in mm}\n```",
		"```work\ngiven L = {\n```",
		"> Mentor: {x}", "| a | b |\n|---|---|\n| {d} | {x/0} |", "## Heading {x} (8 min)\n", "\t{x", "- {x\n  y}",
		"{\xff}", "{(((((}",
		"{é}", "``` filled\n\\{ {a\n```", "{½}", "*{x}*{y}", "[{x}](y)", "{[x}](y)", "&lbrace;x}", "{a\r\nb}",
		"  > - {x} \n> {", "{3 cm within 1 mm in in}", "{3 in in in}", "{3 within}",
		"```work\npredict g in rot to 0.1 \"g\"\nfind f = 2 * g\nkey f = 1\nslip g \"s\"\n```\n{g}{f}",
		"```work\npredict g = 3 \"g\"\npredict\nsay w \"w\"\nlisten \"l\"\nslip w \"s\"\nsay \"u\"\nlisten\n```\n{w}",
		"```work\nchoose a = \"x*\" | “y” \"q\"\nslip \"y\" \"h\"\nchoose = \"\" \"\nslip \"\n" +
			"choose b = \"x\"*|\n \"y\n z\" q\n" +
			"slip y\nchoose \"c\" = \"x\"\n\"choose\" | \"\"\nslip \"y\" | \"z\"\n```\n{a}",
		"```show d.csv\nunroll d until C \"a\"\nlaps L by C \"b\"\ntape s = L \"c\"\npath s over L times 0 \"d\"\n" +
			"read L in in to 1/16 \"e\"\npart a of b \"f\"\nshuffle s in cm by base of A é, B until n \"g\"\n```",
		"```show\nshuffle of of ,, by \"\"\nshuffle s by b of \xff, \"\nread until\ntape = = \"\npart of \"x\"\nunroll\n```",
		"```work\nrecord b[2] in cm to 0.1 with a = 1, 2 \"b\"\nkey b = 3 ± 1\nkey b = -3 within 1/2\n```\n",
		"## A (9 min) (on paper)\n\n# B *(not on paper)*(\n\nC (on\npaper)\n---\n", "## (on paper)(not on paper) [on Paper]",
		`## \(on paper) (no \) paper) ((on paper))`,
		"## A (if there is time)(9 min) (on paper)\n# B (if time) (if there is time)",
	} {
		f.Add(s)
	}
	lessons, err := filepath.Glob("../../lessons/*.md")
	if err != nil || len(lessons) == 0 {
		f.Fatal("no lessons to start from", err)
	}
	for _, name := range lessons {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	md := parse.NewMarkdown()
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("lesson.md", []byte(text))
		_, _, problems := parse.Markdown(md, file, file.Text())
		for _, p := range problems.Sorted() {
			if p.Span.Start < 0 || p.Span.Start > p.Span.End || p.Span.End > len(text) {
				t.Fatalf("the problem %q at %v lies outside the %d bytes of %q", p.What, p.Span, len(text), text)
			}
			if p.Slug == "" || p.What == "" {
				t.Fatalf("a problem of %q says nothing: %+v", text, p)
			}
		}
	})
}
