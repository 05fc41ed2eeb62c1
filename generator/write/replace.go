package write

// This file writes the folder that takes another one's place, file by file, while it is being made.

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// A Replacement is a fresh folder that will take the place of another as a whole, or not at all.
type Replacement struct {
	dir    string // that is replaced, links followed
	marker string
	tell   func(string)

	lock  sync.Mutex
	fresh string // beside dir; "" until the first file comes
	root  *os.Root
	names map[string]bool // of the files that were put, slash-separated
	made  map[string]bool // folders that are there already
}

// Begin prepares for a pack's folder dir to be replaced; it refuses what Check refuses. Nothing is written before the
// first Put. tell, which may be nil, gets sentences for whoever waits. A Replacement that was begun must be ended, by
// Commit or by Abandon.
func Begin(ctx context.Context, dir, pack string, tell func(string)) (*Replacement, error) {
	return begin(ctx, dir, pack, Marker, tell)
}

// BeginReport is Begin for a report's folder, which lies beside the files that it is made of.
func BeginReport(ctx context.Context, dir, beside string, tell func(string)) (*Replacement, error) {
	return begin(ctx, dir, beside, ReportMarker, tell)
}

func begin(_ context.Context, dir, pack, marker string, tell func(string)) (*Replacement, error) {
	if err := check(dir, pack, marker); err != nil {
		return nil, err
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real // replace what the link points at, and keep the link
	}
	if tell == nil {
		tell = func(string) {}
	}
	return &Replacement{dir: dir, marker: marker, tell: tell, names: map[string]bool{},
		made: map[string]bool{".": true}}, nil
}

// Put writes a file, by its slash-separated name. Several goroutines may put files; each name may be put once.
func (r *Replacement) Put(name string, data []byte) error {
	if err := r.admit(name); err != nil {
		return err
	}
	return r.root.WriteFile(filepath.FromSlash(name), data, 0o644)
}

// admit takes a name down and makes the folders that it needs.
func (r *Replacement) admit(name string) error {
	r.lock.Lock()
	defer r.lock.Unlock()
	if r.names[name] {
		return fmt.Errorf("%s was written twice", name)
	}
	if err := r.open(); err != nil {
		return err
	}
	r.names[name] = true
	parent := filepath.Dir(filepath.FromSlash(name))
	if r.made[parent] {
		return nil
	}
	if err := r.root.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	r.made[parent] = true
	return nil
}

// open makes the fresh folder, if there is none yet.
func (r *Replacement) open() (err error) {
	if r.root != nil {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(r.dir), 0o755); err != nil {
		return err
	}
	r.fresh, err = os.MkdirTemp(filepath.Dir(r.dir), "."+filepath.Base(r.dir)+"-new-*")
	if err != nil {
		return err
	}
	if err := os.Chmod(r.fresh, 0o755); err != nil {
		return err
	}
	r.root, err = os.OpenRoot(r.fresh)
	return err
}

// Amend reads a file that was put and writes what do makes of it. No two goroutines may amend the same file at once.
func (r *Replacement) Amend(name string, do func([]byte) ([]byte, error)) error {
	r.lock.Lock()
	known := r.names[name]
	r.lock.Unlock()
	if !known {
		return fmt.Errorf("%s was not written", name)
	}
	data, err := r.root.ReadFile(filepath.FromSlash(name))
	if err != nil {
		return err
	}
	if data, err = do(data); err != nil {
		return err
	}
	return r.root.WriteFile(filepath.FromSlash(name), data, 0o644)
}

// Commit puts the fresh folder into its place. Until then, and if anything fails, that holds what it held.
func (r *Replacement) Commit() error {
	defer r.Abandon() //nolint:errcheck // what failed before is what counts
	if err := r.open(); err != nil {
		return err
	}
	if err := r.root.WriteFile(r.marker, []byte(markerText), 0o644); err != nil {
		return err
	}
	if err := r.root.Close(); err != nil {
		return err
	}
	return ofSystem.swap(r.fresh, r.dir)
}

// Abandon takes away what was written. After Commit it does nothing, so it can be deferred.
func (r *Replacement) Abandon() error {
	r.lock.Lock()
	defer r.lock.Unlock()
	if r.root == nil {
		return nil
	}
	err := errors.Join(r.root.Close(), os.RemoveAll(r.fresh))
	r.root = nil
	return err
}
