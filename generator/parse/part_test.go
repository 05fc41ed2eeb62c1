package parse_test

// Tests of parts, above all of what nobody should write.

import (
	"strings"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

func TestALessonGrowsOnlySoLongByItsParts(t *testing.T) {
	parts, problems := parse.NewParts([]*source.File{source.NewFile("parts/a.md",
		[]byte(strings.Repeat("long\n", 1<<18)))}, nil)
	if problems.Count() > 0 {
		t.Fatal(problems.Sorted())
	}
	f := source.NewFile("01-a.md", []byte(strings.Repeat("{{part a}}\n", 1000)+"end"))
	joined, problems := parts.PutIn(f)
	if len(joined.Text()) > 8<<20 || strings.Contains(string(joined.Text()), "{{") {
		t.Errorf("the lesson has %d bytes, and still a line that names a part", len(joined.Text()))
	}
	found := problems.Sorted()
	if len(found) != 1 || found[0].Slug != "parts-too-large" || f.Position(found[0].Span.Start).Line != 7 {
		t.Errorf("found %+v", found)
	}
}

func TestALessonWithoutPartsIsItsOwnFile(t *testing.T) {
	for _, text := range []string{"", "{{x}}", "`{{part a}}`", "```\n{{part a}}\n```\n", "    {{part a}}\n",
		"<!--\n{{part a}}\n-->",
		"---\ntitle: |\n  {{part a}}\n---\n"} {
		f := source.NewFile("01-a.md", []byte(text))
		parts, _ := parse.NewParts([]*source.File{source.NewFile("parts/a.md", []byte("A"))}, nil)
		if joined, problems := parts.PutIn(f); joined.File != f || problems.Count() > 0 ||
			parts.All([]parse.Joined{joined})[0].Used {
			t.Errorf("%q became %q, with %v", text, joined.Text(), problems.Sorted())
		}
	}
}

func TestAPartThatCannotBeReadIsNotMissed(t *testing.T) {
	parts, _ := parse.NewParts(nil, []string{"parts/a.md"})
	joined, problems := parts.PutIn(source.NewFile("01-a.md", []byte("{{part a}}\n")))
	if problems.Count() > 0 || !parts.All([]parse.Joined{joined})[0].Used {
		t.Errorf("found %v", problems.Sorted())
	}
}

// FuzzPart: whatever a lesson and its part are, each problem is at a place of one of the two files, and what stands
// below a part's line in the lesson is no block of the part's.
func FuzzPart(f *testing.F) {
	for _, seed := range [][2]string{
		{"{{part a}}", "x"}, {"a\n{{part a}}\nb\n{{part a}}", "```\ncode"},
		{"- {{part a}}\n{{part a}}", "- x\n  ```work\n"},
		{"{{part a}}\nEND", "~~~~ x\n~~~"}, {"{{part a}}\nEND", "<!-- x\n\n"}, {"{{part a}}\nEND", "<pre>\n{x"},
		{"> {{part a}}\n\n{{part b}} \n{{part\ta\t}}\n{{part }}\n{{part a/../b}}", "{{part a}}\n{{part}}"},
		{"---\ntitle: x\n---\n{{part a}}", "---\ntitle: {x\n---\n{y"}, {"{{part a}}\n===\n", "x\n---\n{"},
		{"{{part a}}", "\n\n   ```work\ngiven L = {\n"}, {"{{part a}}\r\n", "a\r\n{{part a}}\r\n"},
		{"{{PART a}}{{parts", "\xff"}, {"", "~~~\n````\n~~~~ ~"}, {"", "   ````` x\n```\n    `````"}, {"",
			"> ```\n> x"}, {"", "~~~`x\n"},
		{"```work\n{{part a}}\n```", "given L = 3 cm"}, {"{{part a}}\n[x]", "[x]: y\n"}, {"{{part a}}\n| - |", "| a |"},
	} {
		f.Add(seed[0], seed[1])
	}
	md := parse.NewMarkdown()
	f.Fuzz(func(t *testing.T, lesson, part string) {
		files := []*source.File{source.NewFile("parts/a.md", []byte(part))}
		parts, problems := parse.NewParts(files, nil)
		joined, found := parts.PutIn(source.NewFile("01-a.md", []byte(lesson)))
		problems.Join(found)
		_, found = parse.Lesson(md, joined.File)
		problems.Join(found)
		for _, p := range problems.Sorted() {
			text := map[string]string{"01-a.md": lesson, "parts/a.md": part}[p.File.Name]
			if p.Span.Start < 0 || p.Span.Start > p.Span.End || p.Span.End > len(text) {
				t.Fatalf("the problem %q at %s %v lies outside the %d bytes", p.What, p.File.Name, p.Span, len(text))
			}
		}
		below, _ := parts.PutIn(source.NewFile("02-b.md", []byte("{{part a}}\n## End\n")))
		inLesson, _ := parse.Lesson(md, below.File)
		end := len(inLesson.Sections) - 1
		if !htmlOpen(problems, part) && (end < 0 || inLesson.Sections[end].Title != "End") {
			t.Fatalf("the heading below the part is not one in %q", below.Text())
		}
		for i := range joined.Text() {
			if file, at := joined.Origin(source.Span{Start: i, End: i + 1}); at.Start < 0 || at.End > len(file.Text()) {
				t.Fatalf("byte %d is from %s %v", i, file.Name, at)
			}
		}
	})
}

// htmlOpen tells whether a part ends in HTML that nothing ends, which is reported and left as it is.
func htmlOpen(problems problem.List, part string) bool {
	for _, p := range problems.Sorted() {
		if p.Slug == "part-open" && strings.HasPrefix(part[p.Span.Start:], "<") {
			return true
		}
	}
	return false
}
