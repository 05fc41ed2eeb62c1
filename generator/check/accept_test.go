package check_test

import (
	"testing"

	"trundle/generator/check"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// FuzzAccept looks for a panic, for a place outside of the file, and for an error that is gone.
func FuzzAccept(f *testing.F) {
	for _, seed := range []string{
		"---\n# trundle: accept no-id, so\n---\n<!-- trundle: accept html-shown, so -->\n\n```\na\n```\n",
		"a <!-- trundle: accept html-shown, so --> b", "> <!-- trundle: accept html-shown: so -->\n> b\n",
		"```work\n# trundle: accept html-shown - so\na\n", "<!-- trundle: -->", "<!-- trundle: accept html-shown,-->",
	} {
		f.Add(seed, 7)
	}
	f.Fuzz(func(t *testing.T, text string, at int) {
		file := source.NewFile("01-a.md", []byte(text))
		at = max(0, min(at, len(text)))
		span := source.Span{Start: at, End: at}
		found := check.Accept([]check.Remarks{check.RemarksIn(file)}, []problem.Problem{
			{Severity: problem.Caution, Slug: "html-shown", File: file, Span: span, What: "a caution"},
			{Severity: problem.Error, Slug: "html-shown", File: file, Span: span, What: "an error"},
		})
		errors := 0
		for _, p := range found {
			if p.Span.Start < 0 || p.Span.End < p.Span.Start || p.Span.End > len(text) {
				t.Errorf("%s at %v of %d", p.Slug, p.Span, len(text))
			}
			if p.What == "an error" {
				errors++
			}
		}
		if errors != 1 {
			t.Errorf("the error is there %d times", errors)
		}
	})
}
