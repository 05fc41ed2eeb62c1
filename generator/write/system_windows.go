package write

// What is different on Windows.

import (
	"errors"
	"os"
	"syscall"

	"golang.org/x/sys/windows"
)

// foldersSync says that folders cannot be asked to be on the disk: the file system keeps its names in a log.
const foldersSync = false

// exchange is not known here.
func exchange(_, _ string) error { return errNoExchange }

// syncFile waits until what was written is on the disk.
func syncFile(f *os.File) error {
	err := f.Sync()
	if errors.Is(err, windows.ERROR_INVALID_FUNCTION) || errors.Is(err, windows.ERROR_NOT_SUPPORTED) {
		return nil
	}
	return err
}

// isMount leaves mount points to the error that comes of them: few have seen one here.
func isMount(string) bool { return false }

// isFull is true if there was no room.
func isFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}

// inUse tells whether an error may pass when a program lets go: of a folder with an open file in it Windows says
// "access denied", and of one whose files were deleted while they were open that it is not empty.
func inUse(err error) bool {
	var code syscall.Errno
	if !errors.As(err, &code) {
		return false
	}
	switch code {
	case windows.ERROR_ACCESS_DENIED, windows.ERROR_SHARING_VIOLATION, windows.ERROR_LOCK_VIOLATION,
		windows.ERROR_DIR_NOT_EMPTY, windows.ERROR_USER_MAPPED_FILE:
		return true
	}
	return false
}

// tryClaim has a file that nobody else can open, and that goes when it is closed, by the system if we are killed.
func tryClaim(name string) (release func(), err error) {
	wide, err := windows.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	h, err := windows.CreateFile(wide, windows.GENERIC_READ|windows.GENERIC_WRITE, 0, nil, windows.OPEN_ALWAYS,
		windows.FILE_FLAG_DELETE_ON_CLOSE|windows.FILE_ATTRIBUTE_HIDDEN, 0)
	switch {
	case errors.Is(err, windows.ERROR_SHARING_VIOLATION), errors.Is(err, windows.ERROR_DELETE_PENDING):
		return nil, errClaimed
	case err != nil:
		return nil, &os.PathError{Op: "open", Path: name, Err: err}
	}
	return func() { _ = windows.CloseHandle(h) }, nil
}
