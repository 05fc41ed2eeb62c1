package write_test

// Tests of files beside those of others.

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"trundle/generator/write"
)

func TestFilesArePutBesideWhatIsThere(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "club")
	if err := write.Into(dir, map[string][]byte{"a.zip": []byte("1")}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "mine"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := write.Into(dir, map[string][]byte{"a.zip": []byte("2"), "b.zip": []byte("3")}); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"mine": "mine", "a.zip": "2", "b.zip": "3"} {
		if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != want {
			t.Errorf("%s holds %q, %v", name, got, err)
		}
	}
	if got := listing(t, dir); len(got) != 3 {
		t.Errorf("something is left beside the files: %v", got)
	}
}

func TestIfOneFileCannotBeWrittenNoneIs(t *testing.T) {
	dir := t.TempDir()
	if err := errors.Join(os.WriteFile(filepath.Join(dir, "a.zip"), []byte("old"), 0o600),
		os.Mkdir(filepath.Join(dir, "z"), 0o755)); err != nil {
		t.Fatal(err)
	}
	before := listing(t, dir)
	if write.Into(dir, map[string][]byte{"a.zip": []byte("new"), "b\x00": nil}) == nil {
		t.Fatal("a file without a possible name was written")
	}
	if got, err := os.ReadFile(filepath.Join(dir, "a.zip")); err != nil || string(got) != "old" {
		t.Errorf("a.zip holds %q, %v", got, err)
	}
	if after := listing(t, dir); !slices.Equal(before, after) {
		t.Errorf("the folder holds %v, and held %v", after, before)
	}
}

func TestAFolderForFilesIsNoFileAndNotInThePack(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := errors.Join(os.MkdirAll(at("pack/care"), 0o755), os.WriteFile(at("file"), nil, 0o600),
		os.Symlink("nowhere", at("lost")), os.Symlink("pack", at("link"))); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]error{
		".": nil, "new": nil, "new/deep": nil, "packs": nil,
		"pack": write.ErrInside, "pack/care": write.ErrInside, "pack/new": write.ErrInside,
		"link/care": write.ErrInside,
		"file":      write.ErrFile, "file/new": write.ErrFile, "lost": write.ErrNowhere,
	} {
		if err := write.CheckInto(at(name), at("pack")); !errors.Is(err, want) {
			t.Errorf("%s: error is %v, want %v", name, err, want)
		}
	}
}
