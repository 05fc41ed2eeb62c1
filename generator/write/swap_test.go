package write

// Tests of what becomes of the old site if the file system fails in the middle.

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
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

// never is for errors that no waiting helps with.
func never(error) bool { return false }

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
		err := mover{renames(failing), never, nil}.swap(fresh, dir)
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
	err := mover{renames(2, 3), never, nil}.swap(fresh, dir)
	if err == nil {
		t.Fatal("no error")
	}
	_, after, _ := strings.Cut(err.Error(), " is now in ")
	kept, _, _ := strings.Cut(after, ": ")
	if text, readErr := os.ReadFile(filepath.Join(kept, "index.html")); readErr != nil || string(text) != "old" {
		t.Errorf("the old site is not where the message says: %v (%v)", err, readErr)
	}
}

// errOpen is what a system says of a folder that a program has open.
var errOpen = errors.New("a program has it open")

// busy is a system whose renames fail as long as a program has something open; it counts how long was waited.
func busy(renames int, waited *time.Duration) mover {
	return mover{
		rename: func(from, to string) error {
			if renames--; renames >= 0 {
				return &os.LinkError{Op: "rename", Old: from, New: to, Err: errOpen}
			}
			return os.Rename(from, to)
		},
		inUse: func(err error) bool { return errors.Is(err, errOpen) },
		rest:  func(d time.Duration) { *waited += d },
	}
}

func TestASwapWaitsUntilAProgramLetsGo(t *testing.T) {
	fresh, dir := site(t)
	var waited time.Duration
	if err := busy(3, &waited).swap(fresh, dir); err != nil || waited != 3*pause {
		t.Errorf("after %v: %v", waited, err)
	}
	if text, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil || string(text) != "new" {
		t.Errorf("the site holds %q, %v", text, err)
	}
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil || len(entries) != 1 {
		t.Errorf("something is left over: %v, %v", entries, err)
	}
}

func TestASwapThatWaitsInVainSaysWhatCannotBeReplaced(t *testing.T) {
	fresh, dir := site(t)
	var waited time.Duration
	err := busy(1000, &waited).swap(fresh, dir)
	if !errors.Is(err, ErrInUse) || !errors.Is(err, errOpen) ||
		!strings.HasPrefix(err.Error(), dir+" cannot be replaced: ") {
		t.Errorf("the error is %v", err)
	}
	if waited < 2*time.Second || waited > 3*time.Second {
		t.Errorf("it waited for %v", waited)
	}
	if text, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil || string(text) != "old" {
		t.Errorf("the site holds %q, %v", text, err)
	}
}

func TestNothingIsWaitedForThatDoesNotPass(t *testing.T) {
	fresh, dir := site(t)
	m := mover{renames(1, 2, 3), never, func(time.Duration) { t.Error("it waits") }}
	if err := m.swap(fresh, dir); err == nil || errors.Is(err, ErrInUse) {
		t.Errorf("the error is %v", err)
	}
}
