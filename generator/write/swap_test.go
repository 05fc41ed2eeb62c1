package write

// Tests of what becomes of the old site if the file system fails in the middle.

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// renames is os.Rename but for the calls, counted from one, that fail.
func renames(failing ...int) func(from, to string) error {
	call := 0
	return func(from, to string) error {
		call++
		for _, f := range failing {
			if f == call {
				return errors.New("the disk said no")
			}
		}
		return os.Rename(from, to)
	}
}

// site makes a folder with an old site and a fresh one beside it.
func site(t *testing.T) (fresh, dir string) {
	t.Helper()
	top := t.TempDir()
	fresh, dir = filepath.Join(top, "fresh"), filepath.Join(top, "site")
	for name, text := range map[string]string{fresh: "new", dir: "old"} {
		if err := errors.Join(os.Mkdir(name, 0o755),
			os.WriteFile(filepath.Join(name, "index.html"), []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return fresh, dir
}

func TestTheOldSiteIsBackIfTheNewOneCannotTakeItsPlace(t *testing.T) {
	for _, failing := range []int{1, 2} {
		fresh, dir := site(t)
		err := swap(fresh, dir, renames(failing))
		if err == nil || !strings.Contains(err.Error(), "the disk said no") {
			t.Errorf("rename %d: the error is %v", failing, err)
		}
		if failing == 2 && !strings.Contains(err.Error(), dir+" is as it was") {
			t.Errorf("the message does not say what became of the site: %v", err)
		}
		if text, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil || string(text) != "old" {
			t.Errorf("rename %d: the site holds %q, %v", failing, text, err)
		}
		entries, err := os.ReadDir(filepath.Dir(dir))
		if err != nil || len(entries) != 2 {
			t.Errorf("rename %d: something is left over: %v, %v", failing, entries, err)
		}
	}
}

func TestIfThereIsNoWayBackTheMessageSaysWhereTheOldSiteIs(t *testing.T) {
	fresh, dir := site(t)
	err := swap(fresh, dir, renames(2, 3))
	if err == nil {
		t.Fatal("no error")
	}
	_, after, _ := strings.Cut(err.Error(), " is now in ")
	kept, _, _ := strings.Cut(after, ": ")
	if text, readErr := os.ReadFile(filepath.Join(kept, "index.html")); readErr != nil || string(text) != "old" {
		t.Errorf("the old site is not where the message says: %v (%v)", err, readErr)
	}
}
