package generator_test

// Drafts, as the preview shows them, and while they are written.

import (
	"context"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// markedDraft is how a page says of a lesson that it is not ready.
const markedDraft = `<span class="draft">Draft</span>`

func TestADraftIsMarkedOnItsPageInTheSeasonAndOnPaper(t *testing.T) {
	pack := seasonAt("https://club.example/")
	p, err := generator.Prove(context.Background(), draftOf(pack, "01-one.md"))
	if err != nil || p.HasErrors() {
		t.Fatal(err, p.Problems)
	}
	files, err := generator.Draw(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	for name, marks := range map[string]int{"students/index.html": 1, "mentors/index.html": 1, "students/01-one.html": 1,
		"mentors/01-one.html": 1, "students/02-über-den-kanal_2.html": 0} {
		if got := strings.Count(string(files[name]), markedDraft); got != marks {
			t.Errorf("%s is marked as a draft %d times, want %d", name, got, marks)
		}
	}
	texts := textsOf(t, files)
	for name, want := range map[string]bool{"students/sheets/01-one-a4.pdf": true,
		"students/sheets/02-über-den-kanal_2-a4.pdf": false} {
		if got := strings.Contains(texts[name], "· Draft"); got != want {
			t.Errorf("%s says that it is a draft: %v, want %v", name, got, want)
		}
	}
}

// draftOf gives a pack in which a lesson is a draft.
func draftOf(pack fstest.MapFS, name string) fstest.MapFS {
	text := strings.Replace(string(pack[name].Data), "title: T", "title: T\ndraft: true", 1)
	pack = maps.Clone(pack)
	pack[name] = &fstest.MapFile{Data: []byte(text)}
	return pack
}

func TestALinkIsJudgedAgainWhenItsLessonBecomesADraft(t *testing.T) {
	pack := seasonAt("https://club.example/")
	pack["01-one.md"].Data = append(pack["01-one.md"].Data, "\n[next](02-über-den-kanal_2.md)\n"...)
	var m generator.Memory
	draft := draftOf(pack, "02-über-den-kanal_2.md")
	for _, step := range []struct {
		pack   fstest.MapFS
		errors bool
	}{{pack, false}, {draft, true}, {draftOf(draft, "01-one.md"), false}} {
		p, err := m.Prove(context.Background(), step.pack)
		if err != nil || p.HasErrors() != step.errors {
			t.Errorf("%v, errors: %v, want %v", err, p.HasErrors(), step.errors)
		}
	}
}
