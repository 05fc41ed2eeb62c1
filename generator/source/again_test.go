package source_test

// Tests of texts that are read again when they are asked for.

import (
	"runtime"
	"testing"

	"trundle/generator/source"
)

func TestATextThatIsNotKeptIsReadAgain(t *testing.T) {
	const text = "one\ntwo\nthree\n"
	times := 0
	f := source.NewReadAgain("01-a.md", []byte(text), func() []byte {
		times++
		return []byte(text)
	})
	part := source.NewFile("parts/p.md", []byte("part\n"))
	whole := source.Join("01-a.md", []source.Cut{
		{File: f, At: source.Span{Start: 0, End: 4}},
		{File: part, At: source.Span{Start: 0, End: 5}},
		{File: f, At: source.Span{Start: 4, End: 14}},
	})
	for range 2 {
		runtime.GC() // nothing holds either text
		if got := string(whole.Text()); got != "one\npart\ntwo\nthree\n" {
			t.Fatalf("the text is %q", got)
		}
		if at := whole.Position(13); at != (source.Position{Line: 3, Column: 1}) {
			t.Errorf("the third line is at %v", at)
		}
	}
	if times == 0 {
		t.Error("the text was kept")
	}
}
