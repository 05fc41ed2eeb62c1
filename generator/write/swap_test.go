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

// twoRenames is a system that cannot exchange names.
func twoRenames() system {
	on := ofSystem
	on.exchange = func(_, _ string) error { return errNoExchange }
	return on
}

// failing is a system without exchange whose renames, counted from one, fail.
func failing(which ...int) system {
	on, call := twoRenames(), 0
	on.rename = func(from, to string) error {
		call++
		for _, f := range which {
			if f == call {
				return errors.New("the disk said no")
			}
		}
		return os.Rename(from, to)
	}
	return on
}

// site makes a folder with an old site, and gives a system a new one to put in its place.
func site(t *testing.T, on system) (r *Replacement, dir string) {
	t.Helper()
	top := t.TempDir()
	dir = filepath.Join(top, "site")
	if err := Folder(dir, "", map[string][]byte{"index.html": []byte("old")}); err != nil {
		t.Fatal(err)
	}
	r, err := begin(t.Context(), on, place{dir, "", Marker}, nil)
	if err == nil {
		err = r.Put("index.html", []byte("new"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return r, dir
}

// wants looks at what a site holds, and that nothing lies beside it.
func wants(t *testing.T, dir, text string) {
	t.Helper()
	if got, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil || string(got) != text {
		t.Errorf("the site holds %q, %v; want %q", got, err, text)
	}
	if got := beside(t, dir); len(got) != 1 {
		t.Errorf("something is left over: %v", got)
	}
}

// beside gives the names in the folder of a site, its own among them.
func beside(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestAFolderIsReplacedWithAndWithoutExchange(t *testing.T) {
	for name, on := range map[string]system{"in one step": ofSystem, "by two renames": twoRenames()} {
		t.Run(name, func(t *testing.T) {
			r, dir := site(t, on)
			if err := r.Commit(); err != nil {
				t.Error(err)
			}
			wants(t, dir, "new")
		})
	}
}

func TestTheOldSiteIsBackIfTheNewOneCannotTakeItsPlace(t *testing.T) {
	for _, which := range []int{1, 2} {
		r, dir := site(t, failing(which))
		err := r.Commit()
		if err == nil || !strings.Contains(err.Error(), "the disk said no") ||
			!strings.HasSuffix(err.Error(), "; it is as it was") {
			t.Errorf("rename %d: the error is %v", which, err)
		}
		wants(t, dir, "old")
	}
}

func TestIfThereIsNoWayBackTheMessageSaysWhereTheOldSiteIsAndTheNextRunBringsItBack(t *testing.T) {
	r, dir := site(t, failing(2, 3))
	err := r.Commit()
	if err == nil {
		t.Fatal("no error")
	}
	_, after, _ := strings.Cut(err.Error(), " is now in ")
	kept, _, _ := strings.Cut(after, ", ")
	if text, readErr := os.ReadFile(filepath.Join(kept, "index.html")); readErr != nil || string(text) != "old" {
		t.Errorf("the old site is not where the message says: %v (%v)", err, readErr)
	}
	var told []string
	again, err := Begin(t.Context(), dir, "", func(s string) { told = append(told, s) })
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Abandon(); err != nil {
		t.Error(err)
	}
	wants(t, dir, "old")
	if len(told) != 1 || !strings.HasSuffix(told[0], "what it held is back") {
		t.Errorf("it says %q", told)
	}
}

// errOpen is what a system says of a folder that a program has open.
var errOpen = errors.New("a program has it open")

// busy is a system whose renames fail as long as a program has something open; it counts how long was waited.
func busy(renames int, waited *time.Duration) system {
	on := twoRenames()
	on.rename = func(from, to string) error {
		if renames--; renames >= 0 {
			return &os.LinkError{Op: "rename", Old: from, New: to, Err: errOpen}
		}
		return os.Rename(from, to)
	}
	on.inUse = func(err error) bool { return errors.Is(err, errOpen) }
	on.rest = func(d time.Duration) { *waited += d }
	return on
}

func TestASwapWaitsUntilAProgramLetsGo(t *testing.T) {
	var waited time.Duration
	r, dir := site(t, busy(3, &waited))
	if err := r.Commit(); err != nil || waited != 3*pause {
		t.Errorf("after %v: %v", waited, err)
	}
	wants(t, dir, "new")
}

func TestASwapThatWaitsInVainSaysWhatCannotBeReplaced(t *testing.T) {
	var waited time.Duration
	r, dir := site(t, busy(1000, &waited))
	err := r.Commit()
	if !errors.Is(err, ErrInUse) || !errors.Is(err, errOpen) ||
		!strings.HasPrefix(err.Error(), dir+" cannot be replaced: ") {
		t.Errorf("the error is %v", err)
	}
	if waited < 2*time.Second || waited > 3*time.Second {
		t.Errorf("it waited for %v", waited)
	}
	wants(t, dir, "old")
}

func TestNothingIsWaitedForThatDoesNotPass(t *testing.T) {
	on := failing(1, 2, 3)
	on.rest = func(time.Duration) { t.Error("it waits") }
	r, _ := site(t, on)
	if err := r.Commit(); err == nil || errors.Is(err, ErrInUse) {
		t.Errorf("the error is %v", err)
	}
}

func TestAnOldSiteThatCannotBeDeletedIsNoFailure(t *testing.T) {
	on := ofSystem
	on.remove = func(name string) error { return &os.PathError{Op: "unlink", Path: name, Err: os.ErrPermission} }
	r, dir := site(t, on)
	var told []string
	r.tell = func(s string) { told = append(told, s) }
	if err := r.Commit(); err != nil {
		t.Fatal(err)
	}
	if len(told) != 1 || !strings.HasPrefix(told[0], dir+" is the new one; ") {
		t.Errorf("it says %q", told)
	}
	again, err := Begin(t.Context(), dir, "", nil) // which can
	if err == nil {
		err = again.Abandon()
	}
	if err != nil {
		t.Error(err)
	}
	wants(t, dir, "new")
}
