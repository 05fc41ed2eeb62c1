package write

// This file adds files to a folder that belongs to somebody else.

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// CheckInto tells whether files may be put into dir, which is its owner's: it is a folder or
// is not there, and does not lie in the pack's folder.
func CheckInto(dir, pack string) error {
	inner, err := resolve(dir)
	if err != nil {
		return err
	}
	outer, err := resolve(pack)
	if err != nil {
		return err
	}
	if within(inner, outer) {
		return fmt.Errorf("%s lies in the pack's folder: %w", dir, ErrInside)
	}
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(dir); err == nil { // a link to nowhere
			return fmt.Errorf("%s: %w", dir, ErrOther)
		}
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return fmt.Errorf("%s: %w", dir, ErrOther)
	}
	return nil
}

// Into puts files beside whatever dir holds. All of them are on the disk before the first
// takes its name; a file of the same name gives way.
func Into(dir string, files map[string][]byte) (err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(dir, ".new-*")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(fresh)) }()
	if err := fill(fresh, "", files); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) { // in one order, so that a failure can be repeated
		to := filepath.Join(dir, name)
		if err := ofSystem.move(filepath.Join(fresh, name), to, to); err != nil {
			return err
		}
	}
	return nil
}
