package starter_test

// Tests that the pack to begin with is a good example.

import (
	"os"
	"slices"
	"testing"

	"trundle/cmd/trundle/starter"
	"trundle/generator"
	"trundle/generator/locale"
	"trundle/generator/work"
)

// TestThePackIsSound proves the pack and sees to it that it shows every kind of statement.
func TestThePackIsSound(t *testing.T) {
	for _, tag := range starter.Languages() {
		t.Run(tag, func(t *testing.T) { isSound(t, tag) })
	}
	if !slices.Equal(starter.Languages(), locale.Tags()) {
		t.Errorf("there are packs in %v, and words in %v", starter.Languages(), locale.Tags())
	}
}

func isSound(t *testing.T, tag string) {
	proved, err := generator.Prove(t.Context(), os.DirFS(tag+"/pack"))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range proved.Problems {
		t.Errorf("%s:%d: %s", p.File.Name, p.File.Position(p.Span.Start).Line, p.What)
	}
	if len(proved.Lessons) != 2 || len(proved.Pack.Cards) == 0 || len(proved.Pack.Data) == 0 {
		t.Errorf("the pack has %d lessons, %d cards, %d files of runs", len(proved.Lessons), len(proved.Pack.Cards),
			len(proved.Pack.Data))
	}
	if proved.Pack.Language != tag {
		t.Errorf("its language is %s", proved.Pack.Language)
	}
	kinds := map[string]bool{}
	for _, l := range proved.Lessons {
		for _, f := range l.Fields {
			kinds[string(f.Statement.Kind)] = true
		}
		if len(l.Finds) == 0 || !slices.ContainsFunc(l.Fields, func(f *work.Field) bool { return len(f.Slips) > 0 }) {
			t.Errorf("%s shows no slip", l.Slug)
		}
	}
	for _, kind := range []string{"measure", "record", "find"} {
		if !kinds[kind] {
			t.Errorf("no lesson shows a %s", kind)
		}
	}
}
