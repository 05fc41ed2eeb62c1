package mirror

// Tests of a folder that changes in all the ways in which editors change files.

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// concerns: texts everywhere, and all folders but hidden ones.
func concerns(name string, isDir bool) bool {
	base := filepath.Base(name)
	return !strings.HasPrefix(base, ".") && !strings.HasSuffix(base, "~") &&
		(isDir || strings.HasSuffix(base, ".md") || !strings.Contains(base, "."))
}

// A seen is what a watch has told.
type seen struct {
	lock    sync.Mutex
	changes []Change
	news    chan struct{}
}

func (s *seen) tell(c Change) {
	s.lock.Lock()
	s.changes = append(s.changes, c)
	s.lock.Unlock()
	select {
	case s.news <- struct{}{}:
	default:
	}
}

func (s *seen) last() (Change, int) {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.changes[len(s.changes)-1], len(s.changes)
}

// until waits for a change after which the folder is as told.
func (s *seen) until(t *testing.T, what string, good func(Change) bool) {
	t.Helper()
	limit := time.After(10 * time.Second)
	for {
		if c, _ := s.last(); good(c) {
			return
		}
		select {
		case <-s.news:
		case <-limit:
			c, n := s.last()
			t.Fatalf("%s: never told; the last of %d changes is %v %v", what, n, c.Names, c.Err)
		}
	}
}

func text(c Change, name string) string {
	if c.Files == nil {
		return ""
	}
	data, err := fs.ReadFile(c.Files, name)
	if err != nil {
		return ""
	}
	return string(data)
}

// watched watches a folder of its own.
func watched(t *testing.T) (string, *seen) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "pack")
	put(t, dir, "a.md", "first")
	return dir, watching(t, dir)
}

func watching(t *testing.T, dir string) *seen {
	t.Helper()
	s := &seen{news: make(chan struct{}, 1)}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		Watch(ctx, dir, concerns, s.tell)
	}()
	t.Cleanup(func() {
		stop()
		<-ended
	})
	<-s.news
	return s
}

func put(t *testing.T, dir, name, content string) {
	t.Helper()
	file := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestSavesOfEveryKindAreSeen(t *testing.T) {
	dir, s := watched(t)
	put(t, dir, "a.md", "second")
	s.until(t, "a save", func(c Change) bool { return text(c, "a.md") == "second" })

	put(t, dir, ".a.md.swap", "third") // as editors do that save by a rename, with a backup
	must(t, os.Rename(filepath.Join(dir, "a.md"), filepath.Join(dir, "a.md~")))
	must(t, os.Rename(filepath.Join(dir, ".a.md.swap"), filepath.Join(dir, "a.md")))
	s.until(t, "a save by a rename", func(c Change) bool { return text(c, "a.md") == "third" })
	if c, _ := s.last(); text(c, "a.md~") != "" {
		t.Error("a backup is taken for a file")
	}

	f, err := os.OpenFile(filepath.Join(dir, "a.md"), os.O_WRONLY|os.O_TRUNC, 0)
	must(t, err)
	for _, piece := range []string{"in ", "several ", "pieces"} {
		_, err := f.WriteString(piece)
		must(t, err)
		time.Sleep(2 * time.Millisecond)
	}
	must(t, f.Close())
	s.until(t, "a save in pieces", func(c Change) bool { return text(c, "a.md") == "in several pieces" })

	must(t, os.Remove(filepath.Join(dir, "a.md")))
	s.until(t, "a removal", func(c Change) bool { _, err := fs.Stat(c.Files, "a.md"); return err != nil })
}

func TestAFileIsNotSeenEmptyWhileItIsWritten(t *testing.T) {
	dir, s := watched(t)
	quick := 0 // saves that a busy machine did not stretch beyond what is waited for
	for i := 0; quick < 20 && i < 400; i++ {
		s.lock.Lock()
		before := len(s.changes)
		s.lock.Unlock()
		start := time.Now()
		f, err := os.OpenFile(filepath.Join(dir, "a.md"), os.O_WRONLY|os.O_TRUNC, 0)
		must(t, err)
		time.Sleep(8 * time.Millisecond) // longer than a burst is waited for to end
		_, err = fmt.Fprintf(f, "text %d", i)
		must(t, err)
		must(t, f.Close())
		took := time.Since(start)
		s.until(t, "a save", func(c Change) bool { return text(c, "a.md") == fmt.Sprintf("text %d", i) })
		if took > refill/2 {
			continue
		}
		quick++
		s.lock.Lock()
		for _, c := range s.changes[before:] {
			if text(c, "a.md") == "" {
				t.Errorf("save %d took %v, and the file was reported while it was empty", i, took)
			}
		}
		s.lock.Unlock()
	}
	if quick == 0 {
		t.Error("no save was quick enough to look at")
	}
}

func TestNewFoldersAreFollowed(t *testing.T) {
	dir, s := watched(t)
	put(t, dir, "care/cloth.md", "damp")
	s.until(t, "a new folder", func(c Change) bool { return text(c, "care/cloth.md") == "damp" })
	put(t, dir, "care/cloth.md", "dry")
	s.until(t, "a save in it", func(c Change) bool { return text(c, "care/cloth.md") == "dry" })
	put(t, dir, "a/b/c/deep.md", "deep")
	s.until(t, "folders in folders", func(c Change) bool { return text(c, "a/b/c/deep.md") == "deep" })
	must(t, os.Rename(filepath.Join(dir, "a"), filepath.Join(dir, "z")))
	s.until(t, "a renamed folder", func(c Change) bool {
		return text(c, "z/b/c/deep.md") == "deep" &&
			text(c, "a/b/c/deep.md") == ""
	})
	put(t, dir, "z/b/c/deep.md", "deeper")
	s.until(t, "a save below it", func(c Change) bool { return text(c, "z/b/c/deep.md") == "deeper" })
}

func TestAFolderInAFilesPlaceAndTheOtherWay(t *testing.T) {
	dir, s := watched(t)
	must(t, os.Remove(filepath.Join(dir, "a.md")))
	put(t, dir, "a.md/inside.md", "x")
	s.until(t, "a folder for a file", func(c Change) bool { return text(c, "a.md/inside.md") == "x" })
	must(t, os.RemoveAll(filepath.Join(dir, "a.md")))
	put(t, dir, "a.md", "a file again")
	s.until(t, "a file for a folder", func(c Change) bool { return text(c, "a.md") == "a file again" })
}

func TestTheFolderGoesAndComesBack(t *testing.T) {
	dir, s := watched(t)
	must(t, os.Rename(dir, dir+"-away"))
	s.until(t, "the folder is moved", func(c Change) bool { return c.Files == nil && c.Err != nil })
	put(t, dir, "a.md", "another folder")
	s.until(t, "another in its place", func(c Change) bool { return text(c, "a.md") == "another folder" })
	put(t, dir, "a.md", "a save there")
	s.until(t, "a save there", func(c Change) bool { return text(c, "a.md") == "a save there" })
	must(t, os.RemoveAll(dir))
	s.until(t, "the folder is deleted", func(c Change) bool { return c.Files == nil })
}

func TestLinksInCirclesEndSomewhere(t *testing.T) {
	dir, s := watched(t)
	must(t, os.Symlink("loop", filepath.Join(dir, "loop")))
	must(t, os.Symlink(".", filepath.Join(dir, "self")))
	must(t, os.Mkdir(filepath.Join(dir, "deep"), 0o755))
	must(t, os.Symlink("..", filepath.Join(dir, "deep", "up")))
	must(t, os.Symlink("/etc/hostname", filepath.Join(dir, "out.md")))
	put(t, dir, "b.md", "all the same")
	s.until(t, "a save beside them", func(c Change) bool { return text(c, "b.md") == "all the same" })
	c, _ := s.last()
	if _, err := fs.ReadFile(c.Files, "out.md"); err == nil || !strings.Contains(err.Error(), "escapes") {
		t.Errorf("a link out of the folder gives %v", err)
	}
}

// TestABurstEndsWithTheLastState saves a thousand times in ten seconds.
func TestABurstEndsWithTheLastState(t *testing.T) {
	dir, s := watched(t)
	start := time.Now()
	const saves = 1000
	for i := range saves {
		put(t, dir, "a.md", fmt.Sprintf("save %d", i))
		time.Sleep(time.Until(start.Add(time.Duration(i) * 4 * time.Second / saves)))
	}
	s.until(t, "the last save", func(c Change) bool { return text(c, "a.md") == fmt.Sprintf("save %d", saves-1) })
	_, n := s.last()
	t.Logf("%d saves were told of in %d changes", saves, n)
}

// TestWhereTheSystemTellsNothingItIsLookedThrough takes the watcher away, as a limit that is
// reached does.
func TestWhereTheSystemTellsNothingItIsLookedThrough(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "pack")
	put(t, dir, "a.md", "first")
	s := &seen{news: make(chan struct{}, 1)}
	w := &watch{dir: dir, concerns: concerns, tell: s.tell, names: map[string]bool{}, news: make(chan struct{}, 1)}
	w.first()
	defer w.close()
	w.looks = true
	w.close()
	if w.pause() != interval {
		t.Fatalf("it is looked through every %v", w.pause())
	}
	put(t, dir, "a.md", "second")
	put(t, dir, "new/b.md", "new")
	w.look()
	c, _ := s.last()
	if text(c, "a.md") != "second" || text(c, "new/b.md") != "new" || !c.Looks ||
		!slices.Equal(c.Names, []string{"a.md", "new", "new/b.md"}) {
		t.Errorf("told was %v: %q %q", c.Names, text(c, "a.md"), text(c, "new/b.md"))
	}
	_, before := s.last()
	w.look()
	if _, after := s.last(); after != before {
		t.Error("it told of nothing new")
	}
}

func TestASnapshotIsAFileSystem(t *testing.T) {
	dir, s := watched(t)
	put(t, dir, "care/cloth.md", "damp")
	s.until(t, "a new folder", func(c Change) bool { return text(c, "care/cloth.md") == "damp" })
	c, _ := s.last()
	files := c.Files
	sub, err := fs.Sub(struct{ fs.FS }{files}, "care")
	must(t, err)
	if data, err := fs.ReadFile(sub, "cloth.md"); err != nil || string(data) != "damp" {
		t.Errorf("read was %q, %v", data, err)
	}
	if _, err := files.Open("../a.md"); err == nil {
		t.Error("a name that is none was opened")
	}
	if _, err := files.Open("nothing.md"); !os.IsNotExist(err) {
		t.Errorf("a file that is not there gives %v", err)
	}
	var _ fs.ReadDirFS = files
	var _ fs.StatFS = files
}

func TestAFileWithoutPermissionIsSaidToBeSo(t *testing.T) {
	dir, s := watched(t)
	info, err := os.Stat(filepath.Join(dir, "a.md"))
	must(t, err)
	c, _ := s.last()
	refused := newSnapshot(map[string]*node{"a.md": {entry: info, info: info, err: fs.ErrPermission},
		"b.md": c.Files.node("a.md")})
	if _, err := fs.ReadFile(refused, "a.md"); !os.IsPermission(err) {
		t.Errorf("it gives %v", err)
	}
	if text(Change{Files: refused}, "b.md") != "first" {
		t.Error("another file is gone with it")
	}
}
