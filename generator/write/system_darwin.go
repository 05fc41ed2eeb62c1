package write

// What macOS does better than others.

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange gives two folders each other's name in one step, on file systems that can.
func exchange(a, b string) error {
	err := unix.RenamexNp(a, b, unix.RENAME_SWAP)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP) {
		return errNoExchange
	}
	if err != nil {
		return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
	}
	return nil
}

// syncFile waits until what was written is on its way to the disk, and of a folder until all before it is there: what
// Go's Sync asks for here empties the disk's own memory, which takes long and is enough at the end.
func syncFile(f *os.File) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if info.IsDir() {
		err = f.Sync()
	} else {
		err = unix.Fsync(int(f.Fd()))
	}
	if cannotSync(err) {
		return nil
	}
	return err
}

// isMount tells whether a folder is a mount point.
func isMount(dir string) bool { return otherDevice(dir) }
