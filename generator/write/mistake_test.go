package write

// A test of a mistake while a file is on its way to the disk.

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestAMistakeOnTheWayToTheDiskIsAnError(t *testing.T) {
	dir, on := t.TempDir(), ofSystem
	on.sync = func(*os.File) error { panic("a mistake") }
	a, err := beginInto(context.Background(), on, dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	w, err := a.Create("a.zip")
	if err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	err = a.Commit()
	if err == nil || !strings.Contains(err.Error(), "a mistake") {
		t.Errorf("it came to %v", err)
	}
	if _, err := os.Lstat(filepath.Join(dir, "a.zip")); err == nil {
		t.Error("the file is there")
	}
}
