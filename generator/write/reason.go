package write

// This file says in plain words why the machine did not write.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// An explained error says in plain words what the system says in its own.
type explained struct {
	text string
	err  error
}

func (e *explained) Error() string { return e.text }
func (e *explained) Unwrap() error { return e.err }

// Reason explains an error. Names in it are left out, since those of files beside a folder are nobody's business.
func Reason(err error) error {
	say := func(text string) error { return &explained{text, err} }
	switch {
	case isFull(err):
		return say("the disk is full")
	case errors.Is(err, syscall.EROFS):
		return say("the disk can only be read")
	case errors.Is(err, syscall.EIO):
		return say("the disk does not answer as it should")
	case errors.Is(err, fs.ErrPermission):
		return say("you have no permission")
	}
	return innermost(err)
}

// innermost is what the system said, without the names that it said it of.
func innermost(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// unwritten explains why a file in a folder, or the folder if no name is given, could not be written.
func unwritten(folder, name string, err error) error {
	var why *explained
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ErrInUse):
		return fmt.Errorf("%s cannot be replaced: %w", folder, err)
	case errors.As(Reason(err), &why):
		return fmt.Errorf("%s cannot be written: %w", folder, why)
	case name != "":
		return fmt.Errorf("%s cannot be written: %s: %w", folder, name, innermost(err))
	}
	return fmt.Errorf("%s cannot be written: %w", folder, innermost(err))
}

// isMissing is true of what is not there: a file may stand where its folder should be.
func isMissing(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR)
}
