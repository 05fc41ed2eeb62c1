package parse_test

import (
	"testing"

	"trundle/generator/parse"
	"trundle/generator/source"
)

// FuzzBlock looks for a panic, and for a problem that is nowhere in the file, in blocks that anybody may have typed.
func FuzzBlock(f *testing.F) {
	for _, seed := range []string{
		"work\ngiven hook: 48 in \"Hook\"", "work\ngiven a = 5'3\" \"x\"", "work\ngiven a = 48\" \"x\"", "work\n- find n",
		"work\ngiven a = 2 cm -- x", "work\nlet x = „a“\n  given b = 2", "work\nrecord s(5) in cm = 1,5 2,5\n``",
		"works\nfind n in rot to 2 decimals = 2(d", "runs data/a.csv\ncolumn stop in in = \"Stop (in)\"\nalong stop",
		"chart\nscatter a over b", "compare data/a.csv\njudged a = 4 of 5", "gauge\nrular 5", "show\ntape s",
		"work\nslip C = d # trundle: accept slip-like-answer, so\n# trundle: accept",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, block string) {
		text := "---\ntitle: T\nweek: 1\nminutes: 5\ncare: [cloth]\n---\n\n## A (5 min)\n\n```" + block + "\n```\n"
		_, problems := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-a.md", []byte(text)))
		for _, p := range problems.Sorted() {
			if p.Span.Start < 0 || p.Span.End < p.Span.Start || p.Span.End > len(text) {
				t.Errorf("%s at %v of %d", p.Slug, p.Span, len(text))
			}
		}
	})
}
