package write

// This file gives what was written its place. On Windows nothing can be moved or replaced while a program has it open,
// and virus scanners open whatever is new, for a moment.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// ErrInUse says that something could not be replaced because a program has it open, or because the system does not let
// us; Windows does not always tell the two apart.
var ErrInUse = errors.New("a program has it open, or something in it, or it may not be changed")

// How long to wait for a program to let go: scanners and indexers do within a second, people do not.
const (
	tries = 9
	pause = 250 * time.Millisecond
)

// A mover puts files and folders into their places. Tests have one of their own, since no file system of theirs fails
// when it is asked to.
type mover struct {
	rename func(from, to string) error
	inUse  func(error) bool // tells whether waiting may help
	rest   func(time.Duration)
}

// mover of the system; inUse is a matter of each.
var ofSystem = mover{os.Rename, inUse, time.Sleep}

// patiently does something again until it is done, or fails for good.
func (m mover) patiently(do func() error) error {
	var err error
	for try := range tries {
		if try > 0 {
			m.rest(pause)
		}
		if err = do(); err == nil || !m.inUse(err) {
			return err
		}
	}
	return fmt.Errorf("%w (%w)", ErrInUse, err)
}

// move renames; name is what people know the place by that is to be replaced.
func (m mover) move(from, to, name string) error {
	err := m.patiently(func() error { return m.rename(from, to) })
	if errors.Is(err, ErrInUse) {
		return fmt.Errorf("%s cannot be replaced: %w", name, err)
	}
	return err
}

// remove takes a folder of ours away with all that is in it. Where the quick way of Windows to delete is not known, as
// it is not to wine, each file is deleted in the old way.
func remove(dir string) error {
	err := os.RemoveAll(dir)
	if err == nil {
		return nil
	}
	var all []string
	if filepath.WalkDir(dir, func(name string, _ fs.DirEntry, err error) error {
		all = append(all, name)
		return err
	}) != nil {
		return err
	}
	for _, name := range slices.Backward(all) { // what is in a folder before the folder
		if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}
