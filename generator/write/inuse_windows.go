package write

// What Windows says of files that a program has open.

import (
	"errors"
	"syscall"
)

// The codes of winerror.h that mean so: a folder with an open file in it is "access denied".
const (
	errorAccessDenied     = syscall.Errno(5)
	errorSharingViolation = syscall.Errno(32)
	errorLockViolation    = syscall.Errno(33)
	errorDirNotEmpty      = syscall.Errno(145) // of a folder of ours: what was deleted in it is still open
	errorUserMappedFile   = syscall.Errno(1224)
)

// inUse tells whether an error may pass when a program lets go.
func inUse(err error) bool {
	var code syscall.Errno
	if !errors.As(err, &code) {
		return false
	}
	switch code {
	case errorAccessDenied, errorSharingViolation, errorLockViolation, errorDirNotEmpty, errorUserMappedFile:
		return true
	}
	return false
}
