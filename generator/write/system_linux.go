package write

// What Linux does better than others.

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange gives two folders each other's name in one step, on file systems that can.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP) {
		return errNoExchange
	}
	if err != nil {
		return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
	}
	return nil
}

// syncFile waits until what was written is on the disk.
func syncFile(f *os.File) error {
	if err := f.Sync(); !cannotSync(err) {
		return err
	}
	return nil
}

// isMount tells whether a folder is a mount point; a part of the same disk may be mounted there, too.
func isMount(dir string) bool {
	var about unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, dir, unix.AT_SYMLINK_NOFOLLOW, 0, &about)
	if err == nil && about.Attributes_mask&unix.STATX_ATTR_MOUNT_ROOT != 0 {
		return about.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
	}
	return otherDevice(dir)
}
