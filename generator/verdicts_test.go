package generator_test

// Lessons that are known to be in order are not proved again. That this hides no mistake is part of
// TestAMistakeIsOneProblemAtItsPlaceWithARemedyThatWorks.

import (
	"maps"
	"slices"
	"testing"

	"trundle/generator"
)

// TestALessonInOrderIsProvedOnce counts what is kept of a pack that is proved again, as it is and with changes.
func TestALessonInOrderIsProvedOnce(t *testing.T) {
	t.Parallel()
	pack, kept := mistakesPack(t), &store{}
	proveAnew := func() int {
		before := kept.size()
		proved, err := generator.ProveLettingGo(t.Context(), folderOf(pack), kept)
		if err != nil || proved.HasErrors() {
			t.Fatal(err)
		}
		return kept.size() - before
	}
	lessons := slices.DeleteFunc(slices.Sorted(maps.Keys(pack)), func(name string) bool { return name[0] != '0' })
	if n := proveAnew(); n != len(lessons) {
		t.Errorf("of %d lessons %d are in order", len(lessons), n)
	}
	if n := proveAnew(); n != 0 {
		t.Errorf("%d are proved again, and none is another", n)
	}
	pack[lessons[0]] += "\nMore words.\n"
	if n := proveAnew(); n != 1 {
		t.Errorf("one lesson is another, and %d are proved again", n)
	}
	pack["pack.yaml"] += "\n"
	if n := proveAnew(); n != len(lessons) {
		t.Errorf("pack.yaml is another, and %d of %d are proved again", n, len(lessons))
	}
}

// TestAnotherFileThatChangesMakesAProblemAllTheSame changes what a lesson in order looks at outside itself.
func TestAnotherFileThatChangesMakesAProblemAllTheSame(t *testing.T) {
	t.Parallel()
	sound, kept := mistakesPack(t), &store{}
	changeFiles(t, sound, []change{{"02-stop-and-look.md", "(01-the-hook.md)", "(01-the-hook.md#exit-ticket)"}})
	if found := provedAfter(t, kept, sound); len(found) > 0 {
		t.Fatal(printedOf(t, found))
	}
	for _, c := range []change{
		{"01-the-hook.md", "## Exit ticket", "## At the door"},
		{"data/turns.csv", "far (cm)", "away (cm)"},
		{"pictures/quay.png", "", "no picture"},
	} {
		files := maps.Clone(sound)
		changeFiles(t, files, []change{c})
		got, want := printedOf(t, provedAfter(t, kept, files)), printedOf(t, provedFiles(t, files))
		if got != want || want == "" {
			t.Errorf("%s: with what was kept\n%s\nand without\n%s", c.file, got, want)
		}
	}
}

// size is how much is kept.
func (s *store) size() (n int) {
	s.all.Range(func(_, _ any) bool { n++; return true })
	return n
}
