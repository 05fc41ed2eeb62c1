package generator_test

// Tests of packs whose lessons are read again, since not all of them are kept.

import (
	"bytes"
	"maps"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// TestALessonSavedWhileItsPackIsDrawnEndsTheBuild has a lesson whose text is another when it is read again.
func TestALessonSavedWhileItsPackIsDrawnEndsTheBuild(t *testing.T) {
	lesson := func(words string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("---\ntitle: A\nweek: 1\nminutes: 8\ncare: [damp-cloth]\n---\n\n" +
			"## Warm-up (8 min)\n\n" + words + "\r\n")}
	}
	pack := season(t, 0)
	pack["01-a.md"] = lesson("As it was.")
	proved, err := generator.ProveKeeping(t.Context(), 0, pack)
	if err != nil || proved.HasErrors() {
		t.Fatalf("%v %+v", err, proved.Problems)
	}
	if _, err := generator.Draw(t.Context(), proved); err != nil {
		t.Fatal("nobody saved anything:", err)
	}
	pack["01-a.md"] = lesson("As it is.")
	runtime.GC() // so that the text has to be read again
	if _, err := generator.Draw(t.Context(), proved); err == nil || !strings.Contains(err.Error(), "01-a.md was saved") {
		t.Errorf("drawing it gives %v", err)
	}
}

// store keeps everything.
type store struct{ all sync.Map }

func (s *store) Get(key generator.Key) ([]byte, bool) {
	data, ok := s.all.Load(key)
	if !ok {
		return nil, false
	}
	return data.([]byte), true
}

func (s *store) Put(key generator.Key, data []byte) { s.all.Store(key, slices.Clone(data)) }

// TestALessonThatWasLetGoIsWorkedOutAgainOnlyIfItsFilesAreNotKept builds a pack twice with a store, the second time
// with one lesson changed, and compares what comes out with a build of lessons that were never let go.
func TestALessonThatWasLetGoIsWorkedOutAgainOnlyIfItsFilesAreNotKept(t *testing.T) {
	pack, kept := season(t, 2), &store{}
	build := func() (opened int32) {
		proved, err := generator.ProveKeeping(t.Context(), 0, pack)
		if err != nil {
			t.Fatal(err)
		}
		var count atomic.Int32
		proved.Store = kept
		proved.OnOpen(func() { count.Add(1) })
		got, err := generator.Draw(t.Context(), proved)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := generator.Prove(t.Context(), pack)
		if err != nil {
			t.Fatal(err)
		}
		want, err := generator.Draw(t.Context(), whole)
		if err != nil {
			t.Fatal(err)
		}
		if !maps.EqualFunc(got, want, bytes.Equal) {
			t.Error("it is another site than that of lessons that were kept")
		}
		return count.Load()
	}
	if opened := build(); opened != 2 {
		t.Errorf("at first %d lessons are worked out again", opened)
	}
	changed := pack["00002-one-rotation.md"]
	changed.Data = append(changed.Data, "\nMore words.\n"...)
	if opened := build(); opened != 1 {
		t.Errorf("after one lesson changed, %d are worked out again", opened)
	}
}
