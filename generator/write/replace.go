package write

// This file puts a folder in the place of another.

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"sync"
)

// A Replacement is a fresh folder that will take the place of another as a whole, or not at all. It is written beside
// that one, which keeps what it has until Commit; from Begin to the end no other run writes there.
type Replacement struct {
	place
	ctx    context.Context // until the swap everything may be stopped
	on     system
	dir    string // that is replaced, links followed
	tell   func(string)
	listed sums // what dir holds of ours; nil if that is not known

	opening sync.Mutex
	claim   *claim
	fresh   *fresh // nil until the first file comes, and after the end
	ended   bool
}

// Begin prepares for a pack's folder dir to be replaced. It refuses what Check refuses, and a folder with something in
// it that trundle did not write; it waits for another run that is at work there, and puts right what runs that were
// killed have left. Nothing else is written before the first Put. tell, which may be nil, gets lines for whoever waits.
// A Replacement that was begun must be ended, by Commit or Abandon.
func Begin(ctx context.Context, dir, pack string, tell func(string)) (*Replacement, error) {
	return begin(ctx, ofSystem, place{dir, pack, Marker}, tell)
}

// BeginReport is Begin for a report's folder, which lies beside the files that it is made of.
func BeginReport(ctx context.Context, dir, beside string, tell func(string)) (*Replacement, error) {
	return begin(ctx, ofSystem, place{dir, beside, ReportMarker}, tell)
}

func begin(ctx context.Context, on system, at place, tell func(string)) (*Replacement, error) {
	if err := at.check(); err != nil {
		return nil, err
	}
	dir, err := resolve(at.asked) // replace what a link points at, and keep the link
	if err != nil {
		return nil, err
	}
	if tell == nil {
		tell = func(string) {}
	}
	r := &Replacement{place: at, ctx: ctx, on: on, dir: dir, tell: tell}
	if exists(filepath.Dir(dir)) { // else nobody can be at work there
		err = r.lockOut()
	}
	if err == nil {
		err = r.checkHolds(true)
	}
	if err != nil {
		return nil, errors.Join(err, r.Abandon())
	}
	return r, nil
}

// lockOut keeps other runs out, and puts right what earlier ones left.
func (r *Replacement) lockOut() error {
	var err error
	r.claim, err = claimName(r.ctx, r.beside("lock"), func() {
		r.tell("another trundle is writing " + r.asked + "; waiting until it has finished")
	})
	if err != nil {
		return unwritten(r.asked, "", err)
	}
	back, err := r.on.bringBack(r.dir, r.beside("old-"))
	if err != nil {
		return unwritten(r.asked, "", err)
	}
	if back {
		r.tell(r.asked + " was missing after a run that was cut off; what it held is back")
	}
	for _, left := range r.on.clear(filepath.Dir(r.dir), r.beside("new-"), r.beside("old-")) {
		r.tell("left over and cannot be deleted: " + left)
	}
	return r.check() // whoever was waited for may have put something there
}

// beside gives a name of ours, or its beginning, beside dir.
func (r *Replacement) beside(what string) string {
	return filepath.Join(filepath.Dir(r.dir), "."+filepath.Base(r.dir)+"-trundle-"+what)
}

// checkHolds says what dir holds that would be lost with it; with contents it looks into the files, too.
func (r *Replacement) checkHolds(contents bool) error {
	if r.marker == "" || !exists(r.dir) {
		return nil
	}
	listed := r.listed
	if contents {
		var err error
		listed, err = readMarker(filepath.Join(r.dir, r.marker))
		if errors.Is(err, fs.ErrNotExist) { // an empty folder
			listed, err = sums{}, nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", r.asked, Reason(err))
		}
		r.listed = listed
	}
	if listed == nil { // then what is not written anew is somebody else's
		if contents {
			return nil
		}
		listed = r.fresh.sums
	}
	found, err := listed.strangers(r.dir, r.marker, contents)
	if err != nil {
		return fmt.Errorf("%s: %w", r.asked, Reason(err))
	}
	if found != nil {
		found.dir = r.asked
		return found
	}
	return nil
}

// open makes the fresh folder, if there is none yet.
func (r *Replacement) open() (*fresh, error) {
	r.opening.Lock()
	defer r.opening.Unlock()
	switch {
	case r.ended: // somebody was late, and would leave a folder behind
		return nil, errors.New("the folder is finished")
	case r.fresh != nil:
		return r.fresh, nil
	}
	if r.claim == nil {
		if err := r.on.makeFolder(filepath.Dir(r.dir)); err != nil {
			return nil, err
		}
		if err := r.lockOut(); err != nil {
			return nil, err
		}
	}
	var err error
	r.fresh, err = newFresh(r.on, filepath.Dir(r.dir), filepath.Base(r.beside("new-")))
	return r.fresh, err
}

// Put writes a file, by its slash-separated name. Several goroutines may put files; each name may be put once.
func (r *Replacement) Put(name string, data []byte) error {
	if err := context.Cause(r.ctx); err != nil {
		return err
	}
	f, err := r.open()
	if err == nil {
		err = f.put(name, data)
	}
	return r.unwritten(name, err)
}

// Create begins a file that is written bit by bit and then closed, which must be before Commit.
func (r *Replacement) Create(name string) (io.WriteCloser, error) {
	f, err := r.open()
	if err != nil {
		return nil, r.unwritten(name, err)
	}
	w, err := f.create(name)
	if err != nil {
		return nil, r.unwritten(name, err)
	}
	return w, nil
}

// Amend reads a file that was put and writes what do makes of it. No two goroutines may amend the same file at once.
func (r *Replacement) Amend(name string, do func(to io.Writer, from io.Reader) error) error {
	f, err := r.open()
	if err != nil {
		return r.unwritten(name, err)
	}
	var wrong error // of do: nothing that the disk has to do with
	err = f.amend(name, func(to io.Writer, from io.Reader) error {
		wrong = do(to, from)
		return wrong
	})
	if wrong != nil {
		return wrong
	}
	return r.unwritten(name, err)
}

// Commit puts the fresh folder into its place. All that was put is on the disk by then; until then, and if anything
// fails, the place holds what it held.
func (r *Replacement) Commit() (err error) {
	defer func() { err = errors.Join(err, r.Abandon()) }()
	f, err := r.open()
	if err != nil {
		return r.unwritten("", err)
	}
	if r.marker != "" {
		if err := f.put(r.marker, f.marker()); err != nil {
			return r.unwritten("", err)
		}
	}
	if err := f.settle(); err != nil {
		return r.unwritten("", err)
	}
	if err := context.Cause(r.ctx); err != nil {
		return err
	}
	if err := errors.Join(r.check(), r.checkHolds(false)); err != nil { // who knows what was put there meanwhile
		return err
	}
	old, err := r.on.swap(f.path, r.dir, r.beside("old-"))
	if err != nil {
		return r.unwritten("", err)
	}
	r.fresh = nil // it has its place, or is the old one
	if err := r.on.syncFolder(filepath.Dir(r.dir)); err != nil {
		return fmt.Errorf("%s is the new one, but it is not sure to be on the disk: %w", r.asked, Reason(err))
	}
	if old != "" && r.on.patiently(func() error { return r.on.remove(old) }) != nil {
		r.tell(r.asked + " is the new one; the one before cannot be deleted and is left over in " + old)
	}
	return nil
}

// Abandon takes away what was written. After Commit it does nothing, so it can be deferred.
func (r *Replacement) Abandon() error {
	r.opening.Lock()
	defer r.opening.Unlock()
	r.ended = true
	var err error
	if r.fresh != nil {
		err = r.fresh.discard()
		r.fresh = nil
	}
	if r.claim != nil {
		r.claim.release()
		r.claim = nil
	}
	return err
}

// unwritten explains why a file could not be written, or the folder, in words of whoever asked for it: the names beside
// it are nobody's business.
func (r *Replacement) unwritten(name string, err error) error {
	if err != nil && exists(r.dir) {
		return fmt.Errorf("%w; it is as it was", unwritten(r.asked, name, err))
	}
	return unwritten(r.asked, name, err)
}
