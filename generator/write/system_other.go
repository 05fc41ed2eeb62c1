//go:build !windows && !linux && !darwin

package write

// What the other systems do.

import "os"

// exchange is not known here.
func exchange(_, _ string) error { return errNoExchange }

// syncFile waits until what was written is on the disk.
func syncFile(f *os.File) error {
	if err := f.Sync(); !cannotSync(err) {
		return err
	}
	return nil
}

// isMount tells whether a folder is a mount point.
func isMount(dir string) bool { return otherDevice(dir) }
