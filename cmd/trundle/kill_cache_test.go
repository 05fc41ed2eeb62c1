package main

// Builds that are killed at any moment while they keep what they draw.

import (
	"context"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

func TestAfterABuildWasKilledTheNextOneWritesWhatItShould(t *testing.T) {
	t.Parallel()
	place, pack, out := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "out")
	if err := os.CopyFS(pack, os.DirFS("testdata/pack")); err != nil {
		t.Fatal(err)
	}
	build := func(ctx context.Context, cache, out string) ([]byte, error) {
		cmd := exec.CommandContext(ctx, "trundle", "build", pack, "-o", out)
		cmd.Env = append(os.Environ(), cacheVariable+"="+cache)
		return cmd.CombinedOutput()
	}
	start := time.Now()
	if text, err := build(t.Context(), "", out); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	whole, want := time.Since(start), contents(t, out)
	for n := range (*kills*3 + 9) / 10 {
		if n%4 == 0 { // from an empty cache, and from what the killed ones have left
			if err := os.RemoveAll(place); err != nil {
				t.Fatal(err)
			}
		}
		ctx, cancel := context.WithTimeout(t.Context(), rand.N(whole))
		_, _ = build(ctx, place, filepath.Join(t.TempDir(), "killed"))
		cancel()
		if text, err := build(t.Context(), place, out); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		if !maps.Equal(contents(t, out), want) {
			t.Errorf("kill %d: the next build writes other files", n)
		}
		left, err := filepath.Glob(filepath.Join(place, "*", "*"))
		if err != nil || len(left) == 0 {
			t.Errorf("kill %d: nothing is kept (%v)", n, err)
		}
	}
}

// contents are the files of a folder, by their names.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		all[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
