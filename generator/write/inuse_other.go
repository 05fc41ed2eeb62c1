//go:build !windows

package write

// Elsewhere than on Windows open files can be replaced; only what a system is mounted on cannot.

import (
	"errors"
	"syscall"
)

// inUse tells whether an error may pass when a program lets go.
func inUse(err error) bool { return errors.Is(err, syscall.EBUSY) }
