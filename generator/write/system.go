package write

// This file asks the system for what tests want to see in order, or to fail.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A system writes, and gives files and folders their places. Tests have one of their own, since no file system of
// theirs fails when it is asked to.
type system struct {
	write    func(f *os.File, data []byte) error
	sync     func(f *os.File) error      // what was written to a file, or a folder's names, is on the disk
	rename   func(from, to string) error // a file gives way
	link     func(old, name string) error
	exchange func(a, b string) error // of names, in one step; errNoExchange where that cannot be
	remove   func(name string) error // a folder with all that is in it; nothing, if it is not there
	inUse    func(error) bool        // tells whether waiting may help
	rest     func(time.Duration)
}

// ofSystem is what programs use; most of it is a matter of each system.
var ofSystem = system{
	write: func(f *os.File, data []byte) error {
		_, err := f.Write(data)
		return err
	},
	sync:     syncFile,
	rename:   os.Rename,
	link:     os.Link,
	exchange: exchange,
	remove:   remove,
	inUse:    inUse,
	rest:     time.Sleep,
}

// errNoExchange says that two names cannot be exchanged in one step here.
var errNoExchange = errors.New("names cannot be exchanged here")

// ErrInUse says that something could not be replaced because a program has it open, or because the system does not let
// us; Windows does not always tell the two apart.
var ErrInUse = errors.New("a program has it open, or something in it, or it may not be changed")

// How long to wait for a program to let go: on Windows nothing can be moved while a program has it open. Scanners and
// indexers, which open whatever is new, let go within a second, people do not.
const (
	tries = 9
	pause = 250 * time.Millisecond
)

// patiently does something again until it is done, or fails for good.
func (on system) patiently(do func() error) error {
	var err error
	for try := range tries {
		if try > 0 {
			on.rest(pause)
		}
		if err = do(); err == nil || !on.inUse(err) {
			return err
		}
	}
	return fmt.Errorf("%w (%w)", ErrInUse, innermost(err))
}

// syncFolder sees to it that the names in a folder are on the disk. Not every file system can be asked to.
func (on system) syncFolder(name string) error {
	if !foldersSync {
		return nil
	}
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	return errors.Join(on.sync(f), f.Close())
}

// makeFolder makes a folder, and those around it, whose names are on the disk then.
func (on system) makeFolder(dir string) error {
	var fresh []string
	for at := filepath.Clean(dir); !exists(at); at = filepath.Dir(at) {
		fresh = append(fresh, at)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, at := range fresh {
		if err := on.syncFolder(filepath.Dir(at)); err != nil {
			return err
		}
	}
	return nil
}

// swap gives a fresh folder the place of dir, and tells where what was there is now, "" if nothing was. If it fails,
// dir is as it was. prefix is of the name that the old folder has meanwhile, if the two cannot be exchanged: then dir
// is missing for a moment, and bringBack puts it right if that is when we are killed.
func (on system) swap(fresh, dir, prefix string) (old string, err error) {
	if !exists(dir) {
		return "", on.patiently(func() error { return on.rename(fresh, dir) })
	}
	err = on.patiently(func() error { return on.exchange(fresh, dir) })
	if !errors.Is(err, errNoExchange) {
		return fresh, err
	}
	old, err = os.MkdirTemp(filepath.Dir(dir), filepath.Base(prefix)+"*")
	if err != nil {
		return "", err
	}
	kept := filepath.Join(old, keptName)
	if err := on.patiently(func() error { return on.rename(dir, kept) }); err != nil {
		return "", errors.Join(err, on.remove(old))
	}
	if err := on.patiently(func() error { return on.rename(fresh, dir) }); err != nil {
		if back := on.patiently(func() error { return on.rename(kept, dir) }); back != nil {
			return "", fmt.Errorf("%w; what was in %s is now in %s, and comes back with the next run: %w", err, dir, kept, back)
		}
		return "", errors.Join(err, on.remove(old))
	}
	return old, nil
}

// keptName is what a folder is called within the one in which it waits for being deleted, or for its way back.
const keptName = "site"

// bringBack gives a folder that a killed run left without a name its name back.
func (on system) bringBack(dir, prefix string) (back bool, err error) {
	if exists(dir) {
		return false, nil
	}
	for _, old := range leftBy(filepath.Dir(dir), prefix) {
		if kept := filepath.Join(old, keptName); exists(kept) {
			if err := on.patiently(func() error { return on.rename(kept, dir) }); err != nil {
				return false, err
			}
			return true, on.syncFolder(filepath.Dir(dir))
		}
	}
	return false, nil
}

// clear takes away what killed runs left, and tells what it could not.
func (on system) clear(folder string, prefixes ...string) (left []string) {
	for _, prefix := range prefixes {
		for _, name := range leftBy(folder, prefix) {
			if on.patiently(func() error { return on.remove(name) }) != nil {
				left = append(left, name)
			}
		}
	}
	return left
}

// leftBy gives what has a name of ours: the prefix and a number. A folder that cannot be listed has nothing to find.
func leftBy(folder, prefix string) []string {
	entries, _ := os.ReadDir(folder)
	var all []string
	for _, e := range entries {
		number, ok := strings.CutPrefix(e.Name(), filepath.Base(prefix))
		if ok && number != "" && strings.Trim(number, "0123456789") == "" {
			all = append(all, filepath.Join(folder, e.Name()))
		}
	}
	return all
}

// remove takes a file or folder of ours away with all that is in it. What is in a folder that may not be changed is
// ours, too; and where the quick way of Windows to delete is not known, as it is not to wine, each file is deleted in
// the old way.
func remove(dir string) error {
	err := os.RemoveAll(dir)
	if err == nil {
		return nil
	}
	var all []string
	if filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if all = append(all, name); e.IsDir() {
			return os.Chmod(name, 0o755)
		}
		return nil
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
