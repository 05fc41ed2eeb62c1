package check_test

import (
	"slices"
	"strings"
	"testing"
)

// onPaper are the cautions about paper that a lesson of some Markdown gets, each with the text at its place.
func onPaper(t *testing.T, markdown string) []string {
	t.Helper()
	var got []string
	for _, p := range checked(t, markdown) {
		if slices.Contains([]string{"not-on-paper", "too-wide-for-paper", "picture-not-printed"}, p.Slug) {
			got = append(got, p.Slug+": "+string(p.File.Slice(p.Span)))
		}
	}
	return got
}

const asked = "```work\nsay why \"Why?\"\n```\n\n"

func TestQuestionsOfAPartThatIsKeptOffPaperAreReportedOnce(t *testing.T) {
	for _, c := range []struct{ name, markdown, want string }{
		{"a question", "## A (not on paper)\n\n" + asked + asked, "not-on-paper: A (not on paper)"},
		{"in a list", "## A (not on paper)\n\n- one\n\n  ```work\n  say why \"Why?\"\n  ```\n",
			"not-on-paper: A (not on paper)"},
		{"further down", "## A (not on paper)\n\n### B\n\n" + asked, "not-on-paper: A (not on paper)"},
		{"a part below that is printed", "## A (not on paper)\n\n### B (on paper)\n\n" + asked, ""},
		{"the next part", "## A (not on paper)\n\n## B\n\n" + asked, ""},
		{"two parts", "## A (not on paper)\n\n" + asked + "# B (not on paper)\n\n" +
			strings.Replace(asked, "why", "how", 1),
			"not-on-paper: A (not on paper); not-on-paper: B (not on paper)"},
		{"only what is given", "## A (not on paper)\n\n```work\ngiven L = 3 cm \"L\"\n```\n", ""},
		{"a note for mentors", "## A (not on paper)\n\n> Mentor: x\n", ""},
		{"no mark", "## A\n\n" + asked, ""},
	} {
		if got := strings.Join(onPaper(t, c.markdown), "; "); got != c.want {
			t.Errorf("%s: the cautions are %q, want %q", c.name, got, c.want)
		}
	}
}

func TestWhatIsTooWideForPaperIsReported(t *testing.T) {
	columns := func(n int) string {
		return strings.Repeat("| a ", n) + "|\n" + strings.Repeat("|---", n) + "|\n" + strings.Repeat("| b ", n) + "|\n\n"
	}
	long, fits := strings.Repeat("x", 81), strings.Repeat("é", 80)
	for _, c := range []struct{ name, markdown, want string }{
		{"eight columns", columns(8), "too-wide-for-paper: " + strings.TrimSuffix(strings.Repeat("| a ", 8), " ")},
		{"seven columns", columns(7), ""},
		{"eight columns off paper", "## A (not on paper)\n\n" + columns(8), ""},
		{"eight columns for mentors", "## Mentor notes\n\n" + columns(8), ""},
		{"code in a cell", "| a |\n|---|\n| `" + long + "` |\n", "too-wide-for-paper: " + long},
		{"code in a cell that fits", "| a |\n|---|\n| `" + fits + "` |\n", ""},
		{"code in a sentence, which goes on below", "See `" + long + "`.\n", ""},
		{"a filled program", "```python filled\na\n" + long + "\n```\n", "too-wide-for-paper: " + long},
		{"a filled program in a list", "- a\n\n  ```python filled\n  a\n\n  " + long + "\n  ```\n",
			"too-wide-for-paper: " + long},
		{"a filled program that fits", "```python filled\n" + fits + "\n```\n", ""},
		{"long names of values are short numbers", "```work\ngiven L = 3 cm \"L\"\n```\n\n```python filled\n" +
			strings.Repeat("x", 70) + "{(L + L + L + L) in cm to 0.01}\n```\n", ""},
		{"a program that is not filled stays on the page", "```python\n" + long + "\n```\n", ""},
		{"unless all of its part is printed", "## A (on paper)\n\n```python\na\n" + long + "\n```\n",
			"too-wide-for-paper: " + long},
	} {
		if got := strings.Join(onPaper(t, c.markdown), "; "); got != c.want {
			t.Errorf("%s: the cautions are %q, want %q", c.name, got, c.want)
		}
	}
}
