package generator_test

// Parts, while they are written.

import (
	"context"
	"fmt"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// placesOf writes where the problems of a pack are.
func placesOf(p *generator.Proved) string {
	var all []string
	for _, found := range p.Problems {
		at := found.File.Position(found.Span.Start)
		all = append(all, fmt.Sprintf("%s:%d:%d %s", found.File.Name, at.Line, at.Column, found.Slug))
	}
	return strings.Join(all, "; ")
}

func TestAProblemStaysWithItsTextWhenThatMovesIntoAPart(t *testing.T) {
	pack := seasonAt("")
	pack["parts/a.md"] = &fstest.MapFile{Data: []byte("one\n\n{x}\n")}
	lesson := string(pack["01-one.md"].Data)
	from := strings.Count(lesson, "\n") + 1
	var m generator.Memory
	// The lesson as a whole is byte for byte the same in all of these, but for the last.
	for _, step := range []struct{ below, part, want string }{
		{"\n\none\n\n{x}\n\n\n", "Nobody's.", fmt.Sprintf("01-one.md:%d:2 unknown-name; parts/a.md:1:1 unused-part", from+4)},
		{"\n{{part a}}", "one\n\n{x}\n", "parts/a.md:3:2 unknown-name"},
		{"\n\none\n{{part a}}", "{x}\n", "parts/a.md:1:2 unknown-name"},
		{"\n{{part a}}", "one\n\n{1}\n", ""},
	} {
		now := maps.Clone(pack)
		now["01-one.md"] = &fstest.MapFile{Data: []byte(lesson + step.below)}
		now["parts/a.md"] = &fstest.MapFile{Data: []byte(step.part)}
		p, err := m.Prove(context.Background(), now)
		if err != nil {
			t.Fatal(err)
		}
		if got := withoutIDs(placesOf(p)); got != step.want {
			t.Errorf("with %q and the part %q the problems are %q, want %q", step.below, step.part, got, step.want)
		}
	}
}

// withoutIDs takes off what is said of lessons without ids.
func withoutIDs(places string) string {
	kept := strings.Split(places, "; ")
	for i := len(kept) - 1; i >= 0; i-- {
		if strings.HasSuffix(kept[i], " no-id") {
			kept = append(kept[:i], kept[i+1:]...)
		}
	}
	return strings.Join(kept, "; ")
}
