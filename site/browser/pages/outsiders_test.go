package pages_test

// What checks pages and is not ours: it comes from npm, is kept in the user's cache between runs, and is held against
// its sum.

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// An outsider is a version of a package on npm that a test runs and the project does not
// hold; sum is the SHA-512 of its archive.
type outsider struct{ name, version, sum string }

// file gives a file of the package.
func (o outsider) file(t *testing.T, name string) []byte {
	t.Helper()
	packed, err := gzip.NewReader(bytes.NewReader(o.archive(t)))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(packed); ; {
		header, err := files.Next()
		if err != nil {
			t.Fatalf("%s %s, %s: %v", o.name, o.version, name, err)
		}
		if header.Name != name {
			continue
		}
		data, err := io.ReadAll(files)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
}

// archive gives the package as it was published: from the cache if it lies there whole,
// else from npm.
func (o outsider) archive(t *testing.T) []byte {
	t.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(cache, "trundle-tests")
	file := o.name + "-" + o.version + ".tgz"
	kept, err := os.ReadFile(filepath.Join(dir, file))
	switch {
	case err == nil && o.whole(kept):
		return kept
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		t.Fatal(err)
	}
	npm, err := exec.LookPath("npm")
	if err != nil {
		t.Fatal("this test needs npm in the PATH: install nodejs and npm")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	fresh, err := os.MkdirTemp(dir, "") // beside its place, since other tests may read there
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(fresh)
	cmd := exec.Command(npm, "pack", "--silent", "--pack-destination", fresh, o.name+"@"+o.version)
	cmd.Dir = fresh
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("npm cannot fetch %s %s: %v\n%s", o.name, o.version, err, said)
	}
	data, err := os.ReadFile(filepath.Join(fresh, file))
	if err != nil {
		t.Fatal(err)
	}
	if !o.whole(data) {
		t.Fatalf("npm brought another %s %s than the one these tests are made for", o.name, o.version)
	}
	if err := os.Rename(filepath.Join(fresh, file), filepath.Join(dir, file)); err != nil {
		t.Fatal(err)
	}
	return data
}

func (o outsider) whole(archive []byte) bool {
	sum := sha512.Sum512(archive)
	return base64.StdEncoding.EncodeToString(sum[:]) == o.sum
}
