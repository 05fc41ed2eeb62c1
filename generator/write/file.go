package write

// This file writes a single file.

import (
	"bytes"
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
func File(name string, data []byte) (err error) {
	asked := name
	if real, linkErr := filepath.EvalSymlinks(name); linkErr == nil {
		name = real // write what the link points at, and keep the link
	}
	defer func() {
		if path := (*fs.PathError)(nil); errors.As(err, &path) {
			err = fmt.Errorf("%s: %w", asked, path.Err) // the file beside it is nobody's business
		}
	}()
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+"-new-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Chmod(0o644), f.Close()); err == nil {
		err = ofSystem.move(f.Name(), name, asked)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}
