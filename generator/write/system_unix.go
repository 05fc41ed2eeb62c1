//go:build !windows

package write

// What is the same of all systems but Windows.

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"

	"golang.org/x/sys/unix"
)

// foldersSync says that folders are files, whose contents are names.
const foldersSync = true

// inUse tells whether an error may pass when a program lets go. Open files can be replaced; only what a system is
// mounted on cannot.
func inUse(err error) bool { return errors.Is(err, syscall.EBUSY) }

// isFull is true if there was no room.
func isFull(err error) bool { return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) }

// cannotSync is true of file systems that know no better.
func cannotSync(err error) bool {
	return errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) || errors.Is(err, syscall.ENOSYS)
}

// otherDevice is true of a folder on another disk than the one around it.
func otherDevice(dir string) bool {
	var here, around unix.Stat_t
	return unix.Lstat(dir, &here) == nil && unix.Lstat(filepath.Dir(dir), &around) == nil && here.Dev != around.Dev
}

// tryClaim has a lock on a file, which is taken away at the end. A file that nobody has a lock on is of a run that was
// killed.
func tryClaim(name string) (release func(), err error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|unix.O_NOFOLLOW, 0o644)
	if errors.Is(err, os.ErrPermission) { // another user's: reading is enough for a lock
		if theirs, err := os.OpenFile(name, os.O_RDONLY|unix.O_NOFOLLOW, 0); err == nil {
			f = theirs
		}
	}
	if f == nil {
		return nil, err
	}
	switch err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB); {
	case errors.Is(err, unix.EWOULDBLOCK):
		f.Close()
		return nil, errClaimed
	case err != nil: // no locks here
	case !isStillAt(f, name):
		f.Close()
		return tryClaim(name) // its run took it away between our opening and locking it
	}
	return func() {
		os.Remove(name) // before others can have the lock; if it cannot be removed, the lock goes all the same
		f.Close()
	}, nil
}

// isStillAt tells whether an open file has that name.
func isStillAt(f *os.File, name string) bool {
	open, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Lstat(name)
	return err == nil && os.SameFile(open, named)
}
