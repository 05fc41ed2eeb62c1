package write_test

// Tests of folders of ours that hold something that is not.

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/generator/write"
)

// built makes a site beside a pack.
func built(t *testing.T) (out, pack string) {
	t.Helper()
	out, pack = place(t)
	site := map[string][]byte{"students/a.html": []byte("a\nb\n"), "b": []byte("b")}
	if err := write.Folder(out, pack, site); err != nil {
		t.Fatal(err)
	}
	return out, pack
}

// put writes a file below a folder, with the folders that it needs.
func put(t *testing.T, dir, name, text string) {
	t.Helper()
	name = filepath.Join(dir, filepath.FromSlash(name))
	if err := errors.Join(os.MkdirAll(filepath.Dir(name), 0o755), os.WriteFile(name, []byte(text), 0o600)); err != nil {
		t.Fatal(err)
	}
}

func TestWhatTrundleDidNotWriteIsNamedAndKept(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(t *testing.T, out string)
		want string // what the message ends with
	}{
		{"a file", func(t *testing.T, out string) { put(t, out, "CNAME", "a") }, "did not write: CNAME"},
		{"a file below", func(t *testing.T, out string) { put(t, out, "students/notes.txt", "a") },
			"did not write: students/notes.txt"},
		{"an empty file", func(t *testing.T, out string) { put(t, out, ".nojekyll", "") }, "did not write: .nojekyll"},
		{"a folder", func(t *testing.T, out string) { put(t, out, ".git/refs/heads/main", "a") }, "did not write: .git/"},
		{"many", func(t *testing.T, out string) {
			for _, name := range strings.Fields("a c d e f g") {
				put(t, out, name, name)
			}
		}, "did not write: a, c, d, e and 2 more"},
		{"a changed file", func(t *testing.T, out string) { put(t, out, "students/a.html", "mine") },
			"was changed since trundle wrote it: students/a.html"},
		{"both", func(t *testing.T, out string) { put(t, out, "b", "mine"); put(t, out, "c", "c") },
			"did not write: c; and what was changed since trundle wrote it: b"},
		{"a link in a file's place", func(t *testing.T, out string) {
			if err := errors.Join(os.Remove(filepath.Join(out, "b")), os.Symlink("b", filepath.Join(out, "b"))); err != nil {
				t.Fatal(err)
			}
		}, "did not write: b"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, pack := built(t)
			c.do(t, out)
			err := write.Folder(out, pack, files("new", "1"))
			if found := (*write.StrangersError)(nil); !errors.As(err, &found) || !strings.HasSuffix(err.Error(), c.want) {
				t.Errorf("the error is %v", err)
			}
			if _, err := os.Stat(filepath.Join(out, "new")); err == nil {
				t.Error("the folder was replaced")
			}
			if got := listing(t, filepath.Dir(out)); len(got) != 2 {
				t.Errorf("something is left beside the folder: %v", got)
			}
		})
	}
}

func TestWhatNobodyMissesGivesWay(t *testing.T) {
	for name, do := range map[string]func(out string) error{
		"nothing":         func(string) error { return nil },
		"a file less":     func(out string) error { return os.Remove(filepath.Join(out, "b")) },
		"a folder less":   func(out string) error { return os.RemoveAll(filepath.Join(out, "students")) },
		"an empty folder": func(out string) error { return os.MkdirAll(filepath.Join(out, "x", "y"), 0o755) },
		"a file browser's file": func(out string) error {
			return os.WriteFile(filepath.Join(out, ".DS_Store"), []byte("x"), 0o600)
		},
		"emptied by a power cut": func(out string) error {
			return os.Truncate(filepath.Join(out, "students", "a.html"), 0)
		},
		"other ends of lines": func(out string) error {
			return os.WriteFile(filepath.Join(out, "students", "a.html"), []byte("a\r\nb\r\n"), 0o600)
		},
		"folders that may not be changed": func(out string) error { return os.Chmod(filepath.Join(out, "students"), 0o555) },
	} {
		t.Run(name, func(t *testing.T) {
			out, pack := built(t)
			if err := errors.Join(do(out), write.Folder(out, pack, files("new", "1"))); err != nil {
				t.Fatal(err)
			}
			if got := listing(t, out); len(got) != 2 || got[1] != "new" {
				t.Errorf("the folder holds %v", got)
			}
			if got := listing(t, filepath.Dir(out)); len(got) != 2 {
				t.Errorf("something is left beside the folder: %v", got)
			}
		})
	}
}

// TestAMarkerWithoutAListKeepsWhatIsNotWrittenAnew is about folders of earlier versions, and markers that a power cut
// left empty.
func TestAMarkerWithoutAListKeepsWhatIsNotWrittenAnew(t *testing.T) {
	for _, marker := range []string{"", "trundle made this folder and replaces it as a whole. " +
		"Keep nothing of your own in it.\n"} {
		out, pack := place(t)
		put(t, out, write.Marker, marker)
		put(t, out, "a", "old")
		put(t, out, "thesis.txt", "mine")
		err := write.Folder(out, pack, files("a", "new"))
		if err == nil || !strings.HasSuffix(err.Error(), "did not write: thesis.txt") {
			t.Errorf("the error is %v", err)
		}
		if err := errors.Join(os.Remove(filepath.Join(out, "thesis.txt")),
			write.Folder(out, pack, files("a", "new"))); err != nil {
			t.Error(err)
		}
	}
}

func TestWhatWasPutThereWhileASiteWasDrawnIsKept(t *testing.T) {
	out, pack := built(t)
	r, err := write.Begin(t.Context(), out, pack, nil)
	if err != nil {
		t.Fatal(err)
	}
	put(t, out, "notes.txt", "mine")
	if err := errors.Join(r.Put("new", nil), r.Commit()); err == nil || !strings.HasSuffix(err.Error(), "notes.txt") {
		t.Errorf("the error is %v", err)
	}
	if text, err := os.ReadFile(filepath.Join(out, "notes.txt")); err != nil || string(text) != "mine" {
		t.Errorf("the notes are %q, %v", text, err)
	}
}

func TestTheSecondOfTwoRunsWaitsAndSaysSo(t *testing.T) {
	out, pack := built(t)
	first, err := write.Begin(t.Context(), out, pack, nil)
	if err != nil {
		t.Fatal(err)
	}
	told := make(chan string, 2)
	done := make(chan error, 1)
	go func() {
		second, err := write.Begin(context.Background(), out, pack, func(s string) { told <- s })
		if err == nil {
			err = errors.Join(second.Put("second", nil), second.Commit())
		}
		done <- err
	}()
	if got := <-told; got != "another trundle is writing "+out+"; waiting until it has finished" {
		t.Errorf("it says %q", got)
	}
	if err := errors.Join(first.Put("first", nil), first.Commit()); err != nil {
		t.Error(err)
	}
	if err := <-done; err != nil {
		t.Error(err)
	}
	if got := listing(t, out); len(got) != 2 || got[1] != "second" {
		t.Errorf("the folder holds %v", got)
	}
	if got := listing(t, filepath.Dir(out)); len(got) != 2 {
		t.Errorf("something is left beside the folder: %v", got)
	}
}

func TestARunThatWaitsCanBeStopped(t *testing.T) {
	out, pack := built(t)
	first, err := write.Begin(t.Context(), out, pack, nil)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	if _, err := write.Begin(ctx, out, pack, func(string) { stop() }); !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
	if err := first.Abandon(); err != nil {
		t.Error(err)
	}
	if got := listing(t, filepath.Dir(out)); len(got) != 2 {
		t.Errorf("something is left beside the folder: %v", got)
	}
}
