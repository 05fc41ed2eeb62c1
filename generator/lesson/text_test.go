package lesson_test

import (
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

func TestTextIsWhatAReaderSees(t *testing.T) {
	for _, c := range []struct{ name, markdown, want string }{
		{"plain", "Warm-up", "Warm-up"},
		{"an escape", `3 \* 4`, "3 * 4"},
		{"an entity by name", "Tom &amp; Jerry", "Tom & Jerry"},
		{"an entity by number", "&#189; turn, &#xBD; turn", "½ turn, ½ turn"},
		{"an escaped entity", `\&amp;`, "&amp;"},
		{"a backslash by number escapes nothing", "&#92;*", `\*`},
		{"what only looks like an entity", "R&D; A&B", "R&D; A&B"},
		{"code as it is written", "`\\* &amp;` and \\*", `\* &amp; and *`},
		{"code over two lines", "`a\nb`", "a b"},
		{"a soft break", "one\ntwo", "one two"},
		{"a hard break", "one\\\ntwo", "one two"},
		{"emphasis and a link", "*so* **much** [more](x.md)", "so much more"},
		{"a picture's description", "![Tom &amp; Jerry](pictures/x.png)", "Tom & Jerry"},
		{"HTML, which pages show as text", "a <b>c", "a <b>c"},
		{"a bare address", "see <https://a.example/?a&amp;b>.", "see https://a.example/?a&amp;b."},
		{"a picture in a sentence", "a ![b](pictures/x.png) c", "a b c"},
		{"a value", "The gate is {L} away", "The gate is 120 cm away"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("x.md", []byte(c.markdown+"\n"))
			root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
			got := lesson.TextOf(root.FirstChild(), f.Text(), func(*lesson.Value) string { return "120 cm" })
			if got != c.want {
				t.Errorf("the text of %q is %q, want %q", c.markdown, got, c.want)
			}
		})
	}
}

func TestTextLeavesValuesOutIfNobodyWritesThem(t *testing.T) {
	f := source.NewFile("x.md", []byte("a {L}b\n"))
	root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	if got := lesson.TextOf(root.FirstChild(), f.Text(), nil); got != "a b" {
		t.Errorf("the text is %q", got)
	}
}

func TestTextKeepsMentorsNotesToThemselves(t *testing.T) {
	f := source.NewFile("x.md", []byte("- a\n\n  > Mentor: b\n- c\n"))
	root, _, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	for p := range lesson.Pieces(root.FirstChild(), f.Text()) {
		if p.Kind == lesson.Words && string(f.Slice(p.At)) == "b" {
			t.Error("a note for mentors is part of a list's text")
		}
	}
}

// TestAHeadingIsOneTextEverywhere holds a section's title, its id and its time against what is written.
func TestAHeadingIsOneTextEverywhere(t *testing.T) {
	for _, c := range []struct {
		markdown, title, id string
		minutes             int
		page                string // the text of the heading itself, its time cut off
	}{
		{`## Part &amp; 3 \* 4 (10 min)`, "Part & 3 * 4", "part-3-4", 10, "Part & 3 * 4"},
		{"## Part (10&nbsp;min)", "Part", "part", 10, "Part"},
		{"## Part *(10 min)*", "Part", "part", 10, "Part"},
		{"## Part **two (10 min)**", "Part two", "part-two", 10, "Part two"},
		{`## Part \(10 min)`, "Part (10 min)", "part-10-min", 0, "Part (10 min)"},
		{"## Part `(10 min)`", "Part (10 min)", "part-10-min", 0, "Part (10 min)"},
		{"## (10 min)", "", "part", 10, ""},
		{"## Part (10 min) two", "Part (10 min) two", "part-10-min-two", 0, "Part (10 min) two"},
	} {
		t.Run(c.markdown, func(t *testing.T) {
			f := source.NewFile("x.md", []byte(c.markdown+"\n"))
			root, sections, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
			h := root.FirstChild().(*ast.Heading)
			s := sections[0]
			if s.Title != c.title || s.ID != c.id || s.Minutes != c.minutes {
				t.Errorf("the section is %q, #%s, %d min", s.Title, s.ID, s.Minutes)
			}
			if got := lesson.TextOf(h, f.Text(), nil); got != c.page {
				t.Errorf("the heading reads %q, want %q", got, c.page)
			}
		})
	}
}

func TestTheThousandthPartHasAPlainID(t *testing.T) {
	text := ""
	for range 1000 {
		text += "## Part\n\n"
	}
	f := source.NewFile("x.md", []byte(text))
	_, sections, _ := parse.Markdown(parse.NewMarkdown(), f, f.Text())
	if got := sections[999].ID; got != "part-1000" {
		t.Errorf("the thousandth part is #%s", got)
	}
}
