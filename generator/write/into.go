package write

// This file adds files to a folder that belongs to somebody else.

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// freshName is how the folders begin in which files wait until all of them are written.
const freshName = ".trundle-new-"

// CheckInto tells whether files may be put into dir, which is its owner's: it is a folder or
// is not there, and does not lie in the pack's folder.
func CheckInto(dir, pack string) error {
	inner, err := resolve(dir)
	if err != nil {
		return err
	}
	outer, err := resolve(pack)
	if err != nil {
		return err
	}
	if within(inner, outer) {
		return fmt.Errorf("%s lies in the pack's folder: %w", dir, ErrInside)
	}
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if exists(dir) { // a link
			return fmt.Errorf("%s %w", dir, ErrNowhere)
		}
		return nil
	case err != nil:
		return fmt.Errorf("%s: %w", dir, Reason(err))
	case !info.IsDir():
		return fmt.Errorf("%s %w", dir, ErrFile)
	}
	return nil
}

// An Addition puts files beside whatever a folder holds. All of them are on the disk before the first takes its name; a
// file of the same name gives way. From BeginInto to the end no other run adds files there.
type Addition struct {
	ctx        context.Context
	asked, dir string
	on         system
	claim      *claim
	fresh      *fresh // nil after the end
}

// BeginInto prepares for files to be added to a folder, which is made if it is not there. Like a Replacement, an
// Addition that was begun must be ended.
func BeginInto(ctx context.Context, dir string, tell func(string)) (*Addition, error) {
	return beginInto(ctx, ofSystem, dir, tell)
}

func beginInto(ctx context.Context, on system, dir string, tell func(string)) (_ *Addition, err error) {
	if tell == nil {
		tell = func(string) {}
	}
	a := &Addition{ctx: ctx, asked: dir, dir: dir, on: on}
	defer func() {
		if err != nil {
			err = errors.Join(unwritten(dir, "", err), a.Abandon())
		}
	}()
	if err := on.makeFolder(dir); err != nil {
		return nil, err
	}
	a.claim, err = claimName(ctx, filepath.Join(dir, ".trundle-lock"), func() {
		tell("another trundle is writing into " + dir + "; waiting until it has finished")
	})
	if err != nil {
		return nil, err
	}
	finished, err := on.finish(dir)
	if finished {
		tell("a run before was ended when it had replaced some of the files in " + dir + "; all of its files are there now")
	}
	if err != nil {
		return nil, err
	}
	for _, left := range on.clear(dir, freshName) {
		tell("left over and cannot be deleted: " + left)
	}
	a.fresh, err = newFresh(on, dir, freshName)
	return a, err
}

// Create begins a file that is written bit by bit and then closed, which must be before Commit.
func (a *Addition) Create(name string) (io.WriteCloser, error) {
	w, err := a.fresh.create(name)
	if err != nil {
		return nil, unwritten(a.asked, name, err)
	}
	return w, nil
}

// Commit gives the files their names, all or none of them; for a kill in the middle, see Unfinished.
func (a *Addition) Commit() (err error) {
	defer func() { err = errors.Join(err, a.Abandon()) }()
	if err := a.fresh.settle(); err != nil {
		return unwritten(a.asked, "", err)
	}
	if err := context.Cause(a.ctx); err != nil { // stopped before the first name is taken, or not at all
		return err
	}
	return a.on.together(a.fresh, a.dir, slices.Sorted(maps.Keys(a.fresh.sums)))
}

// Abandon takes away what was written. After Commit it does nothing, so it can be deferred.
func (a *Addition) Abandon() error {
	var err error
	if a.fresh != nil {
		err = a.fresh.discard()
		a.fresh = nil
	}
	if a.claim != nil {
		a.claim.release()
		a.claim = nil
	}
	return err
}
