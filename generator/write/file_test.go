package write_test

// Tests of single files.

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"trundle/generator/write"
)

func TestAFileIsReplacedOnlyIfWeWroteIt(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	for name, text := range map[string]string{"ours": "head and more", "empty": "", "mine": "heading", "short": "he"} {
		if err := os.WriteFile(at(name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.Mkdir(at("folder"), 0o755), os.Symlink("ours", at("link")),
		os.Symlink("nowhere", at("lost"))); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]error{
		"new": nil, "ours": nil, "empty": nil, "link": nil,
		"mine": write.ErrOther, "short": write.ErrOther, "folder": write.ErrOther, "lost": write.ErrOther,
		"no/file": write.ErrNoFolder, "mine/file": write.ErrNoFolder,
	} {
		if err := write.CheckFile(at(name), "head "); !errors.Is(err, want) {
			t.Errorf("%s: error is %v, want %v", name, err, want)
		}
	}
}

func TestAFileIsWrittenAsAWhole(t *testing.T) {
	dir := t.TempDir()
	name, link := filepath.Join(dir, "r"), filepath.Join(dir, "link")
	if err := errors.Join(write.File(name, []byte("1")), os.Symlink("r", link),
		write.File(link, []byte("2"))); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(name); err != nil || string(data) != "2" {
		t.Errorf("the file holds %q, %v", data, err)
	}
	if target, err := os.Readlink(link); err != nil || target != "r" {
		t.Errorf("the link is %q, %v", target, err)
	}
	if err := errors.Join(os.Mkdir(filepath.Join(dir, "f"), 0o755),
		os.WriteFile(filepath.Join(dir, "f", "x"), nil, 0o644)); err != nil {
		t.Fatal(err)
	}
	if write.File(filepath.Join(dir, "f"), []byte("3")) == nil {
		t.Error("a folder was written as a file")
	}
	if got := listing(t, dir); len(got) != 3 {
		t.Errorf("something is left beside the files: %v", got)
	}
}
