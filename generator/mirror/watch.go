package mirror

// This file follows a folder: by what the system reports, else by going through it every second.

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Change is a new state of the folder.
type Change struct {
	Files *Snapshot // nil if the folder cannot be read
	Names []string  // files that are another, new or gone; of the first state all
	Err   error     // why the folder cannot be read
	Looks bool      // the system reports no changes here: the folder is checked every second
}

const (
	quiet    = 4 * time.Millisecond   // without news, a save is over
	longest  = 40 * time.Millisecond  // wait for a burst to end, at most
	refill   = 30 * time.Millisecond  // wait for a file that is empty while it is written
	recheck  = 250 * time.Millisecond // after the last news, go through everything once more
	interval = time.Second            // between looks where the system reports nothing
)

// Watch reports the folder as it is, and again whenever something of concern has changed, until ctx ends.
// It calls tell from one goroutine.
func Watch(ctx context.Context, dir string, concerns Concerns, tell func(Change)) {
	w := &watch{dir: dir, concerns: concerns, tell: tell, names: map[string]bool{}, news: make(chan struct{}, 1),
		wrong: make(chan any, 1)}
	w.first()
	defer w.close()
	timer := time.NewTimer(w.pause())
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-w.news:
			w.settle(ctx)
			w.update(ctx)
			timer.Reset(recheck)
		case <-timer.C:
			w.look()
			timer.Reset(w.pause())
		case wrong := <-w.wrong:
			panic(wrong) // here, where a caller can catch it
		}
	}
}

// watch is one folder being followed. All but the news belongs to the goroutine that runs Watch.
type watch struct {
	dir      string
	concerns Concerns
	tell     func(Change)
	state    *Snapshot // nil if the folder cannot be read
	told     bool      // that it cannot be read
	watcher  *fsnotify.Watcher
	looks    bool
	pumping  sync.WaitGroup
	wrong    chan any // a panic of the goroutine that takes news

	lock  sync.Mutex
	names map[string]bool // that there is news of
	all   bool            // there is news of unknown names
	news  chan struct{}
}

// pause is how long to wait before looking unasked: for ever where the system reports changes.
func (w *watch) pause() time.Duration {
	if w.state == nil || w.looks {
		return interval
	}
	return 365 * 24 * time.Hour
}

// first starts to watch and reads everything, in this order, so that nothing is missed.
func (w *watch) first() {
	w.start()
	state, err := scan(w.dir, w.concerns, nil, true)
	if err != nil {
		w.gone(err)
		return
	}
	w.follow(state.folders())
	w.become(state)
}

// start asks the system to report changes of the top folder; those below are added once they are known.
func (w *watch) start() {
	w.close()
	w.looks = false
	watcher, err := fsnotify.NewWatcher()
	if err != nil {
		w.looks = true
		return
	}
	w.watcher = watcher
	w.pumping.Go(func() {
		defer w.handOver()
		w.pump(watcher)
	})
	w.follow([]string{"."})
}

func (w *watch) close() {
	if w.watcher != nil {
		_ = w.watcher.Close() // it only gives watches back
		w.pumping.Wait()
		w.watcher = nil
	}
}

// follow watches some folders; where the system refuses, every one is looked at instead.
func (w *watch) follow(folders []string) {
	for _, name := range folders {
		if w.watcher == nil {
			return
		}
		err := w.watcher.Add(filepath.Join(w.dir, filepath.FromSlash(name)))
		if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrPermission) {
			w.looks = true
			w.close()
		}
	}
}

// handOver catches a panic of the goroutine that takes news, for the one that runs Watch.
func (w *watch) handOver() {
	if wrong := recover(); wrong != nil {
		select {
		case w.wrong <- fmt.Sprintf("%v\n%s", wrong, debug.Stack()):
		default: // one before it
		}
	}
}

// pump takes the system's news at once, however long an update takes.
func (w *watch) pump(watcher *fsnotify.Watcher) {
	for {
		select {
		case e, ok := <-watcher.Events:
			if !ok {
				return
			}
			rel, err := filepath.Rel(w.dir, e.Name)
			if err != nil || e.Op == fsnotify.Chmod && rel == "." {
				continue
			}
			w.note(filepath.ToSlash(rel))
		case _, ok := <-watcher.Errors:
			if !ok {
				return
			}
			w.note(".") // news were lost
		}
	}
}

// note keeps the name of something that changed until it is read.
func (w *watch) note(name string) {
	w.lock.Lock()
	defer w.lock.Unlock()
	// Whether it is a folder is not known; one that is of no concern as either is left alone.
	switch {
	case name == "." || name == ".." || strings.HasPrefix(name, "../"):
		w.all = true
	case w.concerns(name, false) || w.concerns(name, true):
		w.names[name] = true
	default:
		return
	}
	select {
	case w.news <- struct{}{}:
	default:
	}
}

// settle waits until a burst of news is over, but not for ever.
func (w *watch) settle(ctx context.Context) {
	end := time.NewTimer(longest)
	defer end.Stop()
	for {
		calm := time.NewTimer(quiet)
		select {
		case <-w.news:
			calm.Stop()
			continue
		case <-calm.C:
		case <-end.C:
		case <-ctx.Done():
		}
		calm.Stop()
		return
	}
}

// update reads what there is news of.
func (w *watch) update(ctx context.Context) {
	if w.state == nil {
		w.look()
		return
	}
	names, all := w.take()
	if all { // the folder itself has been moved or replaced, or news were lost
		w.start()
		w.look()
		return
	}
	state, err := w.state.refresh(w.dir, w.concerns, names)
	for range 3 {
		if err != nil || !emptied(w.state, state, names) {
			break
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(refill):
		}
		more, all := w.take()
		if all {
			w.look()
			return
		}
		names = append(names, more...)
		state, err = w.state.refresh(w.dir, w.concerns, names)
	}
	if err != nil {
		w.gone(err)
		return
	}
	w.follow(state.folders())
	w.become(state)
}

// take gives the names that there is news of, and starts to collect anew.
func (w *watch) take() (names []string, all bool) {
	w.lock.Lock()
	defer w.lock.Unlock()
	for name := range w.names {
		names = append(names, name)
	}
	all = w.all
	w.names, w.all = map[string]bool{}, false
	return names, all
}

// look goes through the whole folder.
func (w *watch) look() {
	w.take()
	state, err := scan(w.dir, w.concerns, w.state, false)
	if err != nil {
		w.gone(err)
		return
	}
	if w.state == nil { // it is back, and perhaps another folder
		w.start()
		if state, err = scan(w.dir, w.concerns, nil, true); err != nil {
			w.gone(err)
			return
		}
	}
	w.follow(state.folders())
	w.become(state)
}

// gone reports once that the folder cannot be read.
func (w *watch) gone(err error) {
	w.state = nil
	if !w.told {
		w.told = true
		w.tell(Change{Err: err, Looks: w.looks})
	}
}

// become takes a new state, and reports it if anything in it is another.
func (w *watch) become(state *Snapshot) {
	names := changed(w.state, state)
	first := w.state == nil
	w.state, w.told = state, false
	if first || len(names) > 0 {
		w.tell(Change{Files: state, Names: names, Looks: w.looks})
	}
}
