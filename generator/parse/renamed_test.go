package parse_test

import (
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

// FuzzRenamed: whatever stands in renamed.yaml, reading and checking it ends, what is told of it points into the file,
// and every old page leads to a lesson.
func FuzzRenamed(f *testing.F) {
	for _, s := range []string{
		"", "pack: Canal Dya", "pack: [Canal Dya, canal-dya, canal]", "lessons: {01-old: one, 00-old.md: 01-old}",
		"lessons: {a: b, b: a}", "lessons: {a: a}", "lessons:\n  01-ONE: 01-one\n  01-Old: one\n  01-old: one",
		"boxes: {one: {d: n}, 01-one: {d: m}, two: {}}", "boxes: [one]", "boxes: {one: d}", "lessons: {one: }",
		"lessons: {\"\": one}", "lessons: {1: 2}", "lessons: {n: y, ? [a]: b}", "pack: {a: b}", "---\n---\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("renamed.yaml", []byte(text))
		renamed, problems := parse.Renamed(file)
		one := &lesson.Lesson{Slug: "01-one", ID: lesson.Text{Value: "one"}, File: source.NewFile("01-one.md", nil)}
		two := &lesson.Lesson{Slug: "02-two", File: source.NewFile("02-two.md", nil)}
		p := &lesson.Pack{Title: "Canal Day", Language: "en", File: source.NewFile("pack.yaml", nil), Renamed: renamed,
			Lessons: []*lesson.Lesson{one, two}}
		problems.Join(check.Pack(p))
		for _, found := range problems.Sorted() {
			if found.Span.Start < 0 || found.Span.Start > found.Span.End || found.Span.End > len(text) {
				t.Fatalf("the problem %q at %v lies outside the %d bytes of %q", found.What, found.Span, len(text), text)
			}
		}
		for _, m := range p.Moves() {
			if m.To == nil || !parse.IsLessonName(m.Old+".md") || m.Old == one.Slug || m.Old == two.Slug {
				t.Fatalf("%q makes the page %q", text, m.Old)
			}
		}
	})
}
