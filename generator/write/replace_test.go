package write

// Tests of folders that are written file by file.

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
)

func TestFilesMayBePutFromSeveralGoroutinesAndAmended(t *testing.T) {
	r, dir := site(t, ofSystem)
	var all sync.WaitGroup
	for i := range 50 {
		all.Go(func() {
			name := fmt.Sprintf("%d/%d.html", i%7, i)
			if err := errors.Join(r.Put(name, []byte("1")), r.Amend(name, func(to io.Writer, from io.Reader) error {
				_, err := io.Copy(to, io.MultiReader(from, strings.NewReader("2")))
				return err
			})); err != nil {
				t.Error(err)
			}
		})
	}
	w, err := r.Create("big.zip")
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"a", "b"} {
		if _, err := w.Write([]byte(part)); err != nil {
			t.Error(err)
		}
	}
	all.Wait()
	if err := errors.Join(w.Close(), r.Commit()); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"3/3.html": "12", "big.zip": "ab"} {
		if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != want {
			t.Errorf("%s holds %q, %v", name, got, err)
		}
	}
	wants(t, dir, "new")
	if err := Folder(dir, "", nil); err != nil {
		t.Errorf("the list of files does not fit what was amended: %v", err)
	}
}

func TestWhatComesTooLateOrTwiceIsAnError(t *testing.T) {
	r, dir := site(t, ofSystem)
	if r.Put("index.html", nil) == nil {
		t.Error("a file was put twice")
	}
	if r.Put("a\nb", nil) == nil {
		t.Error("a name of two lines was written")
	}
	wrong := errors.New("wrong")
	if err := r.Amend("index.html", func(io.Writer, io.Reader) error { return wrong }); err != wrong {
		t.Errorf("the error is %v", err)
	}
	if r.Amend("nothing.html", func(io.Writer, io.Reader) error { return nil }) == nil {
		t.Error("a file that is not there was amended")
	}
	if err := r.Abandon(); err != nil {
		t.Error(err)
	}
	if r.Put("late", nil) == nil || r.Commit() == nil {
		t.Error("something was written after the end")
	}
	wants(t, dir, "old")
}

func TestAFailureIsToldInPlainWordsAndLeavesTheOldSite(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{syscall.ENOSPC, "the disk is full"},
		{syscall.EROFS, "the disk can only be read"},
		{syscall.EIO, "the disk does not answer as it should"},
		{syscall.EACCES, "you have no permission"},
	} {
		for where, on := range map[string]system{
			"write": {write: func(f *os.File, _ []byte) error { return &os.PathError{Op: "write", Path: f.Name(), Err: c.err} },
				sync: syncFile},
			"sync": {write: ofSystem.write,
				sync: func(f *os.File) error { return &os.PathError{Op: "sync", Path: f.Name(), Err: c.err} }},
		} {
			on.remove, on.inUse, on.exchange, on.rename = remove, inUse, exchange, os.Rename
			dir := filepath.Join(t.TempDir(), "site")
			if err := Folder(dir, "", map[string][]byte{"index.html": []byte("old")}); err != nil {
				t.Fatal(err)
			}
			err := replace(t, on, dir)
			if want := dir + " cannot be written: " + c.want + "; it is as it was"; err == nil || err.Error() != want {
				t.Errorf("%s: the error is %v, want %s", where, err, want)
			}
			wants(t, dir, "old")
		}
	}
}

func TestAFileWithAnImpossibleNameIsNamed(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	name := "students/" + strings.Repeat("x", 300)
	err := Folder(dir, "", map[string][]byte{name: nil})
	if err == nil || !strings.HasPrefix(err.Error(), dir+" cannot be written: "+name+": ") {
		t.Errorf("the error is %v", err)
	}
	if got := beside(t, dir); len(got) != 0 {
		t.Errorf("something is left over: %v", got)
	}
}
