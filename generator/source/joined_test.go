package source_test

// Tests of texts that were put together from several files.

import (
	"testing"

	"trundle/generator/source"
)

// joined is a lesson of two lines with a part of two between them.
func joined() *source.File {
	lesson := source.NewFile("01-a.md", []byte("one\n{{part p}}\ntwo\n"))
	part := source.NewFile("parts/p.md", []byte("ö part\nend"))
	end := source.Span{Start: 11, End: 11}
	return source.Join("01-a.md", []source.Cut{
		{File: lesson, At: source.Span{Start: 0, End: 4}},
		{File: lesson, At: source.Span{Start: 4, End: 14}, Instead: []byte("\n")},
		{File: part, At: source.Span{Start: 0, End: 11}},
		{File: part, At: end, Instead: []byte("\n\n")},
		{File: lesson, At: source.Span{Start: 14, End: 19}},
	})
}

func TestEachPlaceOfAJoinedTextLeadsToWhereItWasWritten(t *testing.T) {
	f := joined()
	if want := "one\n\nö part\nend\n\n\ntwo\n"; string(f.Text()) != want {
		t.Fatalf("the text is %q, want %q", f.Text(), want)
	}
	for _, c := range []struct {
		at   source.Span
		file string
		want source.Span
		line int
	}{
		{source.Span{Start: 0, End: 3}, "01-a.md", source.Span{Start: 0, End: 3}, 1},
		{source.Span{Start: 4, End: 5}, "01-a.md", source.Span{Start: 4, End: 14}, 2},      // the empty line
		{source.Span{Start: 5, End: 7}, "parts/p.md", source.Span{Start: 0, End: 2}, 1},    // ö
		{source.Span{Start: 13, End: 16}, "parts/p.md", source.Span{Start: 8, End: 11}, 2}, // end
		{source.Span{Start: 16, End: 16}, "parts/p.md", source.Span{Start: 11, End: 11}, 2},
		{source.Span{Start: 13, End: 22}, "parts/p.md", source.Span{Start: 8, End: 11}, 2}, // and on in the lesson
		{source.Span{Start: 19, End: 22}, "01-a.md", source.Span{Start: 15, End: 18}, 3},
		{source.Span{Start: 23, End: 23}, "01-a.md", source.Span{Start: 19, End: 19}, 4},
		{source.Span{Start: 99, End: 99}, "01-a.md", source.Span{Start: 19, End: 19}, 4},
		{source.Span{Start: -2, End: 1}, "01-a.md", source.Span{Start: 0, End: 1}, 1},
	} {
		file, at := f.Origin(c.at)
		if file.Name != c.file || at != c.want {
			t.Errorf("%v is from %s %v, want %s %v", c.at, file.Name, at, c.file, c.want)
		}
		if line := f.Position(c.at.Start).Line; line != c.line {
			t.Errorf("%v is on line %d, want %d", c.at, line, c.line)
		}
	}
}

func TestAJoinedTextKnowsWhereAPartWasPutIn(t *testing.T) {
	f := joined()
	for _, offset := range []int{5, 13, 16} {
		if file, at := f.PutIn(offset); file.Name != "01-a.md" || file.Slice(at) != "{{part p}}" {
			t.Errorf("offset %d was put in at %s %q", offset, file.Name, file.Slice(at))
		}
	}
	if got := f.LineSeenFrom(13, 19); got != "2 of parts/p.md" {
		t.Errorf("from the lesson the part's line is %q", got)
	}
	if got := f.LineSeenFrom(19, 0); got != "3" {
		t.Errorf("from the lesson its own line is %q", got)
	}
}

func TestTheSameTextFromOtherPlacesIsAnotherFile(t *testing.T) {
	f, whole := joined(), source.NewFile("01-a.md", joined().Text())
	if f.Equal(whole) || whole.Equal(f) {
		t.Error("a joined text equals the same text in one file")
	}
	if !f.Equal(joined()) || !whole.Equal(source.NewFile("01-a.md", f.Text())) {
		t.Error("a text differs from itself")
	}
}
