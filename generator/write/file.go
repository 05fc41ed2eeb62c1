package write

// This file writes a single file.

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrOther says that there is something of this name that trundle did not write.
var ErrOther = errors.New("there is something of that name already, and trundle did not write it")

// ErrNoFolder says that the folder for a file is not there.
var ErrNoFolder = errors.New("there is no such folder to write it into")

// CheckFile tells whether a file may be written: it is not there, is empty, or starts with
// head, as those of our making do. It is asked before the work begins, so that a wrong name
// costs no waiting.
func CheckFile(name, head string) error {
	if into, err := os.Stat(filepath.Dir(name)); err != nil || !into.IsDir() {
		return fmt.Errorf("%s: %w", name, ErrNoFolder)
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(name); err == nil { // a link to nowhere
			return fmt.Errorf("%s: %w", name, ErrOther)
		}
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s: %w", name, ErrOther)
	case info.Size() == 0:
		return nil
	}
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	has, err := io.ReadAll(io.LimitReader(f, int64(len(head))))
	if err != nil {
		return err
	}
	if !bytes.Equal(has, []byte(head)) {
		return fmt.Errorf("%s: %w", name, ErrOther)
	}
	return nil
}

// File writes a file as a whole: what was there stays until all of it is on the disk.
func File(name string, data []byte) error { return ofSystem.file(name, data) }

// NewFile is File for a name that must not be there yet; else the error is fs.ErrExist.
func NewFile(name string, data []byte) error {
	if exists(name) {
		return &fs.PathError{Op: "create", Path: name, Err: fs.ErrExist}
	}
	return File(name, data)
}

func (on system) file(name string, data []byte) error {
	asked := name
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real // write what the link points at, and keep the link
	}
	folder, prefix := filepath.Dir(name), "."+filepath.Base(name)+"-trundle-"
	held, err := claimName(context.Background(), filepath.Join(folder, prefix+"lock"), func() {})
	if err != nil {
		return unwritten(asked, "", err)
	}
	defer held.release()
	on.clear(folder, prefix+"new-")
	f, err := os.CreateTemp(folder, prefix+"new-*")
	if err != nil {
		return unwritten(asked, "", err)
	}
	err = errors.Join(on.write(f, data), f.Chmod(0o644), on.sync(f), f.Close())
	if err == nil {
		err = on.patiently(func() error { return on.rename(f.Name(), name) })
	}
	if err != nil {
		return unwritten(asked, "", errors.Join(err, on.remove(f.Name())))
	}
	return unwritten(asked, "", on.syncFolder(folder))
}
