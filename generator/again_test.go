package generator_test

// Tests of packs whose lessons are read again, since not all of them are kept.

import (
	"runtime"
	"strings"
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
