package problem_test

// Tests of how problems look on a terminal.

import (
	"strings"
	"testing"

	"trundle/generator/problem"
	"trundle/generator/source"
)

func printed(t *testing.T, problems ...problem.Problem) string {
	t.Helper()
	var b strings.Builder
	if err := problem.Print(&b, "lessons/", problems); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestAProblemShowsItsLineAndMark(t *testing.T) {
	long := strings.Repeat("x", 150) + "bad" + strings.Repeat("y", 150)
	for _, c := range []struct {
		name, text string
		span       source.Span
		want       string
	}{
		{"a range", "key C = 10.2 cm", source.Span{Start: 8, End: 15},
			"    1 | key C = 10.2 cm\n      |         ├─────┤\n"},
		{"a point", "key C = ", source.Span{Start: 8, End: 8}, "    1 | key C = \n      |         ┴\n"},
		{"a tab widened", "\tbad", source.Span{Start: 1, End: 4}, "    1 |     bad\n      |     ├─┤\n"},
		{"longer characters counted once", "± ± bad", source.Span{Start: 6, End: 9},
			"    1 | ± ± bad\n      |     ├─┤\n"},
		{"a span over lines marked on its first", "one\ntwo", source.Span{Start: 1, End: 6},
			"    1 | one\n      |  ├┤\n"},
		{"a wide character counted as two columns", "尺 bad", source.Span{Start: 4, End: 7},
			"    1 | 尺 bad\n      |    ├─┤\n"},
		{"a wide character measured as two columns", "a尺b", source.Span{Start: 1, End: 4},
			"    1 | a尺b\n      |  ├┤\n"},
		{"an accent of its own counted with its letter", "e\u0301 bad", source.Span{Start: 4, End: 7},
			"    1 | e\u0301 bad\n      |   ├─┤\n"},
		{"a control character shown, not sent", "a\x1b[2Jb", source.Span{Start: 0, End: 1},
			"    1 | a�[2Jb\n      | ┴\n"},
		{"a long line cut round the mark", long, source.Span{Start: 150, End: 153},
			"    1 | … " + strings.Repeat("x", 33) + "bad" + strings.Repeat("y", 64) + " …\n      | " +
				strings.Repeat(" ", 35) + "├─┤\n"},
		{"an empty line left out", "\n\n", source.Span{}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := problem.Problem{Slug: "s", File: source.NewFile("a.md", []byte(c.text)), Span: c.span, What: "w"}
			_, got, _ := strings.Cut(printed(t, p), "\n")
			if got != c.want {
				t.Errorf("got\n%q\nwant\n%q", got, c.want)
			}
		})
	}
}

func TestWhatWouldBeRightStandsBelowTheMark(t *testing.T) {
	f := source.NewFile("a.md", []byte("\tkey C = 10.2 cm"))
	got := printed(t, problem.Problem{Slug: "s", File: f, Span: source.Span{Start: 9, End: 16}, What: "w", Hint: "h",
		Instead: "20.4 cm\x1b"})
	want := "lessons/a.md:1:10: error: w (s)\n    1 |     key C = 10.2 cm\n      |             ├─────┤\n      |             20.4 cm�\n   h\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestProblemsComeInSourceOrderEachOnce(t *testing.T) {
	a, b := source.NewFile("a.md", []byte("0123456789")), source.NewFile("b.md", []byte("0123456789"))
	var l problem.List
	l.Error(b, source.Span{Start: 1, End: 2}, "s", "fourth", "")
	l.Error(a, source.Span{Start: 5, End: 6}, "s", "second", "")
	l.Caution(a, source.Span{Start: 7, End: 8}, "s", "third", "")
	l.Error(a, source.Span{Start: 1, End: 2}, "s", "first", "")
	l.Error(a, source.Span{Start: 5, End: 6}, "s", "second", "")
	var got []string
	for _, p := range l.Sorted() {
		got = append(got, p.What)
	}
	if strings.Join(got, " ") != "first second third fourth" {
		t.Errorf("order is %v", got)
	}
	if s := problem.Summary(l.Sorted()); s != "3 errors, 1 caution" {
		t.Errorf("summary is %q", s)
	}
}

func TestASecondPlaceIsShownToo(t *testing.T) {
	f := source.NewFile("a.md", []byte("given a = 1\ngiven a = 2"))
	got := printed(t, problem.Problem{Slug: "name-twice", File: f, Span: source.Span{Start: 18, End: 19},
		What: "twice", Hint: "choose",
		Related: []problem.Related{{File: f, Span: source.Span{Start: 6, End: 7}, What: "first here"}}})
	want := "lessons/a.md:2:7: error: twice (name-twice)\n    2 | given a = 2\n      |       ┴\n   choose\n" +
		"lessons/a.md:1:7: first here\n    1 | given a = 1\n      |       ┴\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
