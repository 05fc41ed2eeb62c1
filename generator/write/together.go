package write

// This file gives several files their names together: if that fails halfway it is undone, and if a run is killed
// halfway the next one goes on with it.

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// ready is how the names of folders begin that hold files of which all are on the disk, and which only need their
// names. In before is what they replace, as long as that may have to come back.
const (
	ready  = ".trundle-ready-"
	before = "before"
)

// together gives the files of a folder their names in another, where files of these names give way.
func (on system) together(fresh *fresh, dir string, names []string) error {
	if len(names) > 1 {
		number := strings.TrimPrefix(filepath.Base(fresh.path), freshName)
		path := filepath.Join(dir, ready+number)
		if err := on.patiently(func() error { return on.rename(fresh.path, path) }); err != nil {
			return unwritten(dir, "", err)
		}
		fresh.path = path
		if err := on.syncFolder(dir); err != nil {
			return unwritten(dir, "", err)
		}
	}
	var back []func() error
	for _, name := range names {
		from, to := filepath.Join(fresh.path, name), filepath.Join(dir, name)
		if len(names) > 1 {
			back = append(back, on.wayBack(to, filepath.Join(fresh.path, before, name)))
		}
		if err := on.patiently(func() error { return on.rename(from, to) }); err != nil {
			err = unwritten(to, "", err)
			for i := len(back) - 2; i >= 0; i-- { // the last is of the one that failed
				err = errors.Join(err, back[i]())
			}
			return errors.Join(err, on.syncFolder(dir))
		}
	}
	return unwritten(dir, "", on.syncFolder(dir))
}

// wayBack gives what is in a file's place a second name, and says how it comes back. Not every disk knows second names.
func (on system) wayBack(name, kept string) func() error {
	if !exists(name) {
		return func() error { return on.remove(name) }
	}
	if err := errors.Join(os.MkdirAll(filepath.Dir(kept), 0o755), on.link(name, kept)); err != nil {
		return func() error { return fmt.Errorf("%s is the new one already", name) }
	}
	return func() error { return on.patiently(func() error { return on.rename(kept, name) }) }
}

// finish gives files their names that a killed run left ready for it.
func (on system) finish(dir string) (finished bool, err error) {
	for _, left := range leftBy(dir, ready) {
		entries, err := os.ReadDir(left)
		if err != nil {
			return finished, err
		}
		for _, e := range entries {
			if !e.Type().IsRegular() {
				continue
			}
			from, to := filepath.Join(left, e.Name()), filepath.Join(dir, e.Name())
			if err := on.patiently(func() error { return on.rename(from, to) }); err != nil {
				return finished, err
			}
			finished = true
		}
		if err := errors.Join(on.syncFolder(dir), on.patiently(func() error { return on.remove(left) })); err != nil {
			return finished, err
		}
	}
	return finished, nil
}

// Unfinished tells whether some of a folder's files may be of a run that was killed before it had replaced all that it
// was to replace. The next run that adds files there finishes that.
func Unfinished(dir string) bool {
	return slices.ContainsFunc(leftBy(dir, ready), func(left string) bool {
		entries, err := os.ReadDir(left)
		return err == nil && slices.ContainsFunc(entries, func(e os.DirEntry) bool { return e.Type().IsRegular() })
	})
}
