// Package write puts files into a folder, all or none, so that neither a kill nor a power cut leaves half of them. It
// never empties or replaces a folder that trundle did not make, nor one that holds what trundle did not write.
package write

// This file writes folders from files that are all there already.

import (
	"context"
	"errors"
	"maps"
	"os"
	"slices"
)

// New writes files, by slash-separated name, into a folder that is not there yet, or is empty; unlike that of a
// Replacement, it is its owner's from then on.
func New(dir string, files map[string][]byte) error {
	r, err := begin(context.Background(), ofSystem, place{asked: dir}, nil)
	return whole(r, err, files)
}

// whole puts all files and takes the folder's place.
func whole(r *Replacement, err error, files map[string][]byte) error {
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) { // in one order, so that a failure can be repeated
		if err := r.Put(name, files[name]); err != nil {
			return errors.Join(err, r.Abandon())
		}
	}
	return r.Commit()
}

// exists is true of whatever has that name, a link to nowhere too.
func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}
