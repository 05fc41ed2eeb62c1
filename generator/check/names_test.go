package check_test

import (
	"strings"
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/source"
)

// TestProposedIDsAreShortAndUnique reads the proposals for file names of many kinds.
func TestProposedIDsAreShortAndUnique(t *testing.T) {
	p := &lesson.Pack{Title: "Die große Kanalfahrt", File: source.NewFile("pack.yaml", nil)}
	for _, slug := range []string{"01-rotations-for-a-distance", "02-Rotations_for_the_distance", "03-of-the", "04-of-the",
		"05-x", "06-" + strings.Repeat("ä", 60), "07-rotations-distance-again", "08-taken"} {
		p.Lessons = append(p.Lessons, &lesson.Lesson{Slug: slug, File: source.NewFile(slug+".md", nil)})
	}
	p.Lessons[7].ID.Value = "x"
	list := check.IDs(p)
	found := list.Sorted()
	if len(found) != 1 {
		t.Fatalf("there are %d cautions for one pack", len(found))
	}
	var got []string
	for _, r := range found[0].Related {
		got = append(got, strings.TrimPrefix(r.What, "id: "))
	}
	want := "rotations-distance rotations-distance-2 of-the of-the-2 x-2 " + strings.Repeat("ä", 30) +
		" rotations-distance-again"
	if strings.Join(got, " ") != want {
		t.Errorf("proposed are %q\nwant         %q", strings.Join(got, " "), want)
	}
	if !strings.Contains(found[0].Hint, "id: die-große ") {
		t.Errorf("for the pack stands there: %s", found[0].Hint)
	}
}

// TestAPackOfManyLessonsIsNotDrowned has more lessons than are listed in one go.
func TestAPackOfManyLessonsIsNotDrowned(t *testing.T) {
	p := &lesson.Pack{File: source.NewFile("pack.yaml", nil), Title: "Many"}
	for n := range 50 {
		slug := "1" + string(rune('a'+n%26)) + "-" + strings.Repeat("b", n+1)
		p.Lessons = append(p.Lessons, &lesson.Lesson{Slug: slug, File: source.NewFile(slug+".md", nil)})
	}
	list := check.IDs(p)
	found := list.Sorted()
	if len(found) != 1 || len(found[0].Related) != 20 || !strings.Contains(found[0].Hint, "30") {
		t.Errorf("there are %d cautions, the first with %d lines: %s", len(found), len(found[0].Related), found[0].Hint)
	}
	p.Lessons = p.Lessons[:1]
	if list := check.IDs(p); list.Count() != 0 {
		t.Error("a pack of one lesson is asked for ids")
	}
}
