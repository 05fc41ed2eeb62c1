package write_test

// A test of mount points, which every Linux has some of.

import (
	"errors"
	"testing"

	"trundle/generator/write"
)

func TestAPlaceWhereAnotherDiskBeginsIsRefused(t *testing.T) {
	for _, dir := range []string{"/proc", "/dev"} {
		if err := write.Check(dir, t.TempDir()); !errors.Is(err, write.ErrMount) {
			t.Errorf("%s: the error is %v", dir, err)
		}
	}
}
