package generator

// What tests outside of this package set that nobody else may.

import (
	"context"
	"io/fs"
)

// ProveKeeping is Prove with so many lessons, at most, that are kept whole.
func ProveKeeping(ctx context.Context, whole int, folder fs.FS) (*Proved, error) {
	return (&Memory{once: true, whole: whole}).Prove(ctx, folder)
}
