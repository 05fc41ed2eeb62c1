package source_test

import (
	"testing"

	"trundle/generator/source"
)

func TestPlacesAreCountedInCharacters(t *testing.T) {
	f := source.NewFile("a.md", []byte("d = 65 mm ± 0.5\r\nπ\n\nend"))
	for _, c := range []struct {
		name         string
		offset       int
		line, column int
	}{
		{"the start", 0, 1, 1},
		{"before a longer character", 10, 1, 11},
		{"behind a longer character", 12, 1, 12},
		{"the start of a line", 18, 2, 1},
		{"an empty line", 21, 3, 1},
		{"the last line", 22, 4, 1},
		{"the end of the text", 25, 4, 4},
		{"past the end", 99, 4, 4},
		{"before the start", -5, 1, 1},
	} {
		if got := f.Position(c.offset); got.Line != c.line || got.Column != c.column {
			t.Errorf("%s: offset %d is at %d:%d, want %d:%d", c.name, c.offset, got.Line, got.Column, c.line, c.column)
		}
	}
}

func TestALineComesWithoutItsEnd(t *testing.T) {
	f := source.NewFile("a.md", []byte("one\r\ntwo\n"))
	for line, want := range map[int]string{0: "", 1: "one", 2: "two", 3: "", 4: ""} {
		if got := f.Line(line); got != want {
			t.Errorf("line %d is %q, want %q", line, got, want)
		}
	}
	if got := f.LineStart(9); got != len(f.Text()) {
		t.Errorf("a line past the end starts at %d", got)
	}
	if got := f.Slice(source.Span{Start: 5, End: 99}); got != "two\n" {
		t.Errorf("a span past the end holds %q", got)
	}
}
