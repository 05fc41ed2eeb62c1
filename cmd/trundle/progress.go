package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// When a terminal is told how far a job is: not before patience is over, and then not more
// often than an eye can read.
const (
	patience = time.Second
	pause    = 100 * time.Millisecond
)

// A progress tells on a terminal how far a job is, and nothing anywhere else. It is ready for
// use by several goroutines.
type progress struct {
	w    io.Writer // nil if nobody looks
	now  func() time.Time
	next time.Time // before it nothing is told

	lock sync.Mutex
	most int // done so far; those that come late with less are not told
}

func newProgress(w io.Writer) *progress {
	g := &progress{now: time.Now}
	if f, ok := w.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			g.w = f
		}
	}
	g.next = g.now().Add(patience)
	return g
}

// tell says how many files are drawn.
func (g *progress) tell(done, all int) {
	if g.w == nil {
		return
	}
	g.lock.Lock()
	defer g.lock.Unlock()
	now := g.now()
	if done <= g.most || now.Before(g.next) {
		return
	}
	g.most, g.next = done, now.Add(pause)
	fmt.Fprintf(g.w, "\r%d of %d files drawn", done, all)
}

// end wipes what was told.
func (g *progress) end() {
	g.lock.Lock()
	defer g.lock.Unlock()
	if g.w != nil && g.most > 0 {
		fmt.Fprint(g.w, "\r\x1b[K")
	}
}
