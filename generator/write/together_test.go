package write

// Tests of files that get their names together.

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// pair puts two files beside others, or begins to.
func pair(t *testing.T, on system, dir, text string) error {
	t.Helper()
	a, err := beginInto(t.Context(), on, dir, nil)
	if err != nil {
		return err
	}
	return errors.Join(a.Put("a.zip", []byte(text)), a.Put("b.zip", []byte(text)), a.Commit())
}

// texts gives what both files hold.
func texts(t *testing.T, dir string) string {
	t.Helper()
	a, errA := os.ReadFile(filepath.Join(dir, "a.zip"))
	b, errB := os.ReadFile(filepath.Join(dir, "b.zip"))
	if os.IsNotExist(errA) && os.IsNotExist(errB) {
		return "missing"
	}
	return string(a) + " " + string(b)
}

func TestKilledAnywhereAPairIsToldApartAndTheNextRunFinishesIt(t *testing.T) {
	for _, linked := range []bool{true, false} {
		on, mixed := ofSystem, 0
		if !linked { // as on a stick
			on.link = func(string, string) error { return errors.ErrUnsupported }
		}
		for last := 1; ; last++ {
			d := &diary{top: t.TempDir(), last: last}
			if err := pair(t, on, d.top, "old"); err != nil {
				t.Fatal(err)
			}
			if pair(t, d.on(on), d.top, "new") == nil && len(d.steps) < last {
				break
			}
			got := texts(t, d.top)
			switch {
			case got == "new old":
				mixed++
				if !Unfinished(d.top) {
					t.Errorf("after step %d nobody knows that they are of two runs", last)
				}
			case got != "old old" && got != "new new":
				t.Errorf("after step %d the files hold %q", last, got)
			}
			next, err := beginInto(t.Context(), on, d.top, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := texts(t, d.top); got != "old old" && got != "new new" || Unfinished(d.top) {
				t.Errorf("after step %d the next run begins with %q", last, got)
			}
			if err := next.Abandon(); err != nil {
				t.Error(err)
			}
			if left, _ := filepath.Glob(filepath.Join(d.top, ".trundle-*-*")); len(left) > 0 {
				t.Errorf("after step %d the next run leaves %v", last, left)
			}
		}
		if mixed == 0 {
			t.Error("no kill came between the two files")
		}
	}
}

func TestIfOneOfTwoFilesCannotHaveItsNameNeitherHas(t *testing.T) {
	for _, was := range []string{"old old", "missing"} {
		dir, on := t.TempDir(), ofSystem
		if was != "missing" {
			if err := pair(t, ofSystem, dir, "old"); err != nil {
				t.Fatal(err)
			}
		}
		on.rename = func(from, to string) error {
			if filepath.Base(to) == "b.zip" {
				return os.ErrPermission
			}
			return os.Rename(from, to)
		}
		err := pair(t, on, dir, "new")
		if err == nil || !strings.Contains(err.Error(), "b.zip cannot be written: you have no permission") {
			t.Errorf("it came to %v", err)
		}
		if got := texts(t, dir); got != was || Unfinished(dir) {
			t.Errorf("the files held %q and hold %q", was, got)
		}
	}
}
