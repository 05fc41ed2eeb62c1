package write_test

// Tests of names that a folder cannot have.

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"trundle/generator/write"
)

func TestWhatIsWrongWithANameIsTold(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := errors.Join(os.MkdirAll(at("pack"), 0o755), os.WriteFile(at("file"), nil, 0o600),
		os.Symlink("nowhere", at("lost")), os.Symlink("file", at("link"))); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]error{
		"file": write.ErrFile, "link": write.ErrFile, "file/sub": write.ErrFile, "file/sub/deep": write.ErrFile,
		"link/sub": write.ErrFile, "lost": write.ErrNowhere, "new": nil, "new/deep": nil,
	} {
		if err := write.Check(at(name), at("pack")); !errors.Is(err, want) {
			t.Errorf("%s: the error is %v, want %v", name, err, want)
		}
	}
	if err := write.Check("", at("pack")); !errors.Is(err, write.ErrNoName) {
		t.Errorf("no name: the error is %v", err)
	}
}
