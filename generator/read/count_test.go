package read_test

// How many lessons a folder seems to have before it is read.

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"trundle/generator/parse"
	"trundle/generator/read"
)

func TestLessonsAreCountedByTheirNames(t *testing.T) {
	pack := fstest.MapFS{"01-a.md": {}, "12-b.md": {}, "README.md": {}, "pack.yaml": {}, "care/03-c.md": {}}
	if n := read.CountLessons(pack, parse.IsLessonName); n != 2 {
		t.Errorf("%d lessons, want 2", n)
	}
	if n := read.CountLessons(os.DirFS(filepath.Join(t.TempDir(), "none")), parse.IsLessonName); n != 0 {
		t.Errorf("a folder that is not there has %d lessons", n)
	}
}
