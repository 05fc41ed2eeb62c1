package write

// Tests of the order in which things are asked of the disk: what a kill or a power cut in between leaves follows from
// it.

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// A diary is a system that notes what it is asked for. After its last step it does nothing any more, as if the program
// had been killed: what then runs in the program changes nothing on the disk.
type diary struct {
	lock  sync.Mutex
	top   string // names are noted as they are below it
	steps []string
	last  int // 0 if it goes on for ever
}

var errKilled = errors.New("killed")

// note tells whether a step may be taken.
func (d *diary) note(what string, names ...string) error {
	d.lock.Lock()
	defer d.lock.Unlock()
	if d.last > 0 && len(d.steps) >= d.last {
		return errKilled
	}
	for _, name := range names {
		rel, err := filepath.Rel(d.top, name)
		if err != nil {
			return err
		}
		what += " " + strings.Map(func(r rune) rune {
			if r >= '0' && r <= '9' {
				return -1
			}
			return r
		}, filepath.ToSlash(rel))
	}
	d.steps = append(d.steps, what)
	return nil
}

// on gives the system that notes what another is asked for.
func (d *diary) on(of system) system {
	do := func(err error, then func() error) error {
		if err != nil {
			return err
		}
		return then()
	}
	noted := of
	noted.write = func(f *os.File, data []byte) error {
		return do(d.note("write", f.Name()), func() error { return of.write(f, data) })
	}
	noted.sync = func(f *os.File) error {
		return do(d.note("sync", f.Name()), func() error { return of.sync(f) })
	}
	noted.rename = func(from, to string) error {
		return do(d.note("rename", from, to), func() error { return of.rename(from, to) })
	}
	noted.link = func(old, name string) error {
		return do(d.note("link", old, name), func() error { return of.link(old, name) })
	}
	noted.exchange = func(a, b string) error {
		if err := of.exchange("", ""); errors.Is(err, errNoExchange) {
			return err
		}
		return do(d.note("exchange", a, b), func() error { return of.exchange(a, b) })
	}
	noted.remove = func(name string) error {
		return do(d.note("remove", name), func() error { return of.remove(name) })
	}
	return noted
}

// at tells when something was done, and fails if it was not.
func (d *diary) at(t *testing.T, what string) int {
	t.Helper()
	i := slices.Index(d.steps, what)
	if i < 0 {
		t.Fatalf("there is no %q in\n%s", what, strings.Join(d.steps, "\n"))
	}
	return i
}

// inOrder fails unless things were done one after the other.
func (d *diary) inOrder(t *testing.T, whats ...string) {
	t.Helper()
	for i := range len(whats) - 1 {
		if d.at(t, whats[i]) >= d.at(t, whats[i+1]) {
			t.Errorf("%q does not come before %q in\n%s", whats[i], whats[i+1], strings.Join(d.steps, "\n"))
		}
	}
}

// replace puts a site of three files in the place of another.
func replace(t *testing.T, on system, dir string) error {
	t.Helper()
	r, err := begin(t.Context(), on, place{dir, "", Marker}, nil)
	if err != nil {
		return err
	}
	return whole(r, nil, map[string][]byte{"index.html": []byte("new"), "steps/a.js": []byte("a"), "b": nil})
}

func TestASiteIsOnTheDiskBeforeTheOldOneGivesWay(t *testing.T) {
	fresh := ".site-trundle-new-"
	inFresh := func(step, name string) string { return step + " " + fresh + "/" + name }
	for _, c := range []struct {
		name string
		of   system
		swap []string
		old  string
	}{
		{"exchanged", ofSystem, []string{"exchange " + fresh + " site"}, fresh},
		{"renamed", twoRenames(), []string{"rename site .site-trundle-old-/site", "rename " + fresh + " site"},
			".site-trundle-old-"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := &diary{top: t.TempDir()}
			dir := filepath.Join(d.top, "site")
			if err := errors.Join(Folder(dir, "", map[string][]byte{"index.html": []byte("old")}),
				replace(t, d.on(c.of), dir)); err != nil {
				t.Fatal(err)
			}
			for _, name := range []string{"index.html", "steps/a.js", "b", Marker} {
				d.inOrder(t, inFresh("write", name), inFresh("sync", name), c.swap[0])
			}
			for _, name := range []string{"/steps", ""} {
				d.inOrder(t, inFresh("write", Marker), "sync "+fresh+name, c.swap[0])
			}
			d.inOrder(t, append(c.swap, "sync .", "remove "+c.old)...)
			wants(t, dir, "new")
		})
	}
}

func TestFoldersOnTheWayAreOnTheDisk(t *testing.T) {
	d := &diary{top: t.TempDir()}
	if err := replace(t, d.on(ofSystem), filepath.Join(d.top, "my", "club", "site")); err != nil {
		t.Fatal(err)
	}
	d.inOrder(t, "sync .", "rename my/club/.site-trundle-new- my/club/site", "sync my/club")
	d.at(t, "sync my")
}

func TestAFileIsOnTheDiskBeforeTheOldOneGivesWay(t *testing.T) {
	d := &diary{top: t.TempDir()}
	if err := d.on(ofSystem).file(filepath.Join(d.top, "r"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	fresh := ".r-trundle-new-"
	d.inOrder(t, "write "+fresh, "sync "+fresh, "rename "+fresh+" r", "sync .")
}

func TestFilesBesideOthersAreOnTheDiskBeforeTheirNamesAre(t *testing.T) {
	d := &diary{top: t.TempDir()}
	a, err := beginInto(t.Context(), d.on(ofSystem), d.top, nil)
	if err == nil {
		err = errors.Join(a.Put("a.zip", []byte("a")), a.Put("b.zip", []byte("b")), a.Commit())
	}
	if err != nil {
		t.Fatal(err)
	}
	fresh, ready := ".trundle-new-", ".trundle-ready-"
	for _, name := range []string{"a.zip", "b.zip"} {
		d.inOrder(t, "write "+fresh+"/"+name, "sync "+fresh+"/"+name, "sync "+fresh, "rename "+fresh+" "+ready,
			"sync .", "rename "+ready+"/"+name+" "+name)
	}
	if last := d.steps[len(d.steps)-2:]; last[0] != "sync ." || last[1] != "remove "+ready {
		t.Errorf("the last steps are %q", last)
	}
}

// TestKilledAnywhereASiteIsWholeAndTheNextRunLeavesNothing ends a run after each of its steps.
func TestKilledAnywhereASiteIsWholeAndTheNextRunLeavesNothing(t *testing.T) {
	for name, of := range map[string]system{"exchanged": ofSystem, "renamed": twoRenames()} {
		t.Run(name, func(t *testing.T) {
			kills, missing := 0, 0
			for last := 1; ; last++ {
				d := &diary{top: t.TempDir(), last: last}
				dir := filepath.Join(d.top, "site")
				if err := Folder(dir, "", map[string][]byte{"index.html": []byte("old")}); err != nil {
					t.Fatal(err)
				}
				if replace(t, d.on(of), dir) == nil && len(d.steps) < last {
					break
				}
				kills++
				text, err := os.ReadFile(filepath.Join(dir, "index.html"))
				switch {
				case err != nil:
					missing++
				case string(text) != "old" && string(text) != "new":
					t.Errorf("after step %d the site holds %q", last, text)
				}
				again, err := begin(t.Context(), of, place{dir, "", Marker}, nil)
				if err != nil {
					t.Fatalf("after step %d: %v", last, err)
				}
				if text, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil ||
					string(text) != "old" && string(text) != "new" {
					t.Errorf("after step %d the next run begins with %q, %v", last, text, err)
				}
				if err := again.Put("index.html", []byte("newer")); err != nil {
					t.Fatal(err)
				}
				if err := again.Commit(); err != nil {
					t.Fatal(err)
				}
				wants(t, dir, "newer")
			}
			if kills < 13 || missing > 1 || of.exchange("", "") != errNoExchange && missing > 0 {
				t.Errorf("after %d of %d kills there was no site", missing, kills)
			}
		})
	}
}
