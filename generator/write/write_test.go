package write_test

// Tests of folders that are replaced as a whole.

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"trundle/generator/write"
)

func files(name, text string) map[string][]byte { return map[string][]byte{name: []byte(text)} }

// place makes a pack's folder beside a folder to write.
func place(t *testing.T) (out, pack string) {
	t.Helper()
	dir := t.TempDir()
	pack = filepath.Join(dir, "pack")
	if err := os.Mkdir(pack, 0o755); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "out"), pack
}

func listing(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestAFolderIsReplacedAsAWhole(t *testing.T) {
	out, pack := place(t)
	if err := write.Folder(out, pack, files("old.html", "1")); err != nil {
		t.Fatal(err)
	}
	if err := write.Folder(out, pack, files("sub/new.html", "2")); err != nil {
		t.Fatal(err)
	}
	if got := listing(t, out); len(got) != 2 || got[0] != write.Marker || got[1] != "sub" {
		t.Errorf("the folder holds %v", got)
	}
	if got := listing(t, filepath.Dir(out)); len(got) != 2 {
		t.Errorf("something is left beside the folder: %v", got)
	}
}

func TestAFolderOfSomebodyElseIsLeftAlone(t *testing.T) {
	for name, make := range map[string]func(dir string) error{
		"with a file": func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "mine"),
				nil, 0o644)
		},
		"with a marker that is a folder": func(dir string) error {
			return os.Mkdir(filepath.Join(dir, write.Marker),
				0o755)
		},
	} {
		t.Run(name, func(t *testing.T) {
			out, pack := place(t)
			if err := errors.Join(os.Mkdir(out, 0o755), make(out)); err != nil {
				t.Fatal(err)
			}
			before := listing(t, out)
			if err := write.Folder(out, pack, files("a", "")); !errors.Is(err, write.ErrNotOurs) {
				t.Errorf("error is %v", err)
			}
			if after := listing(t, out); len(after) != len(before) {
				t.Errorf("the folder holds %v", after)
			}
		})
	}
}

func TestAnEmptyFolderMayBeWritten(t *testing.T) {
	out, pack := place(t)
	if err := errors.Join(os.Mkdir(out, 0o755), write.Folder(out, pack, files("a", ""))); err != nil {
		t.Fatal(err)
	}
}

func TestOutputAndPackMayNotLieWithinEachOther(t *testing.T) {
	out, pack := place(t)
	link := filepath.Join(filepath.Dir(out), "link")
	if err := os.Symlink(pack, link); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{pack, filepath.Join(pack, "out"), filepath.Dir(pack), filepath.Join(link, "out")} {
		if err := write.Check(dir, pack); !errors.Is(err, write.ErrInside) {
			t.Errorf("%s: error is %v", filepath.Base(dir), err)
		}
	}
	if err := write.Check(pack+"-out", pack); err != nil {
		t.Errorf("a folder whose name starts like the pack's: %v", err)
	}
}

func TestAFailureKeepsWhatWasThere(t *testing.T) {
	out, pack := place(t)
	if err := write.Folder(out, pack, files("old.html", "1")); err != nil {
		t.Fatal(err)
	}
	bad := map[string][]byte{"a": nil, "a/b": nil} // a file and a folder of one name
	if err := write.Folder(out, pack, bad); err == nil {
		t.Fatal("no error")
	}
	if err := write.Folder(out, pack, files("../escaped", "")); err == nil {
		t.Fatal("a name led out of the folder")
	}
	if data, err := os.ReadFile(filepath.Join(out, "old.html")); err != nil || string(data) != "1" {
		t.Errorf("the old file is %q, %v", data, err)
	}
	if got := listing(t, filepath.Dir(out)); len(got) != 2 {
		t.Errorf("something is left beside the folder: %v", got)
	}
}

// TestAReportAndAPackNeverReplaceEachOther writes each where the other is.
func TestAReportAndAPackNeverReplaceEachOther(t *testing.T) {
	built, report, pack := filepath.Join(t.TempDir(), "built"), filepath.Join(t.TempDir(), "report"), t.TempDir()
	if err := errors.Join(write.Folder(built, pack, files("a", "1")),
		write.Report(report, pack, files("a", "1"))); err != nil {
		t.Fatal(err)
	}
	if err := write.Report(built, pack, files("b", "2")); !errors.Is(err, write.ErrNotOurs) {
		t.Errorf("a report over a built pack: %v", err)
	}
	if err := write.Folder(report, pack, files("b", "2")); !errors.Is(err, write.ErrNotOurs) {
		t.Errorf("a pack over a report: %v", err)
	}
	if err := write.Report(report, pack, files("b", "2")); err != nil {
		t.Errorf("a report over a report: %v", err)
	}
}
