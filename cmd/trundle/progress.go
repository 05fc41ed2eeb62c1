package main

// This file shows people at a terminal how far a long job is.

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// When progress is shown: only of jobs that take long, and not more often than an eye can read.
const (
	longJob  = time.Second
	eyeblink = 100 * time.Millisecond
)

// A progress shows on a terminal how far a job is, and nothing anywhere else. Several goroutines may use it.
type progress struct {
	w    io.Writer // nil if nobody looks
	now  func() time.Time
	next time.Time // nothing is shown before

	lock sync.Mutex
	most int // done so far; a goroutine that is late with less is not shown
}

// newProgress shows progress only on a terminal: in a file or a pipe it would be in the way.
func newProgress(w io.Writer) *progress {
	g := &progress{now: time.Now}
	if f, ok := w.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			g.w = f
		}
	}
	g.next = g.now().Add(longJob)
	return g
}

// update takes how many files are drawn.
func (g *progress) update(done, all int) {
	if g.w == nil {
		return
	}
	g.lock.Lock()
	defer g.lock.Unlock()
	now := g.now()
	if done <= g.most || now.Before(g.next) {
		return
	}
	g.most, g.next = done, now.Add(eyeblink)
	fmt.Fprintf(g.w, "\r%d of %d files drawn", done, all)
}

// end wipes what was shown.
func (g *progress) end() {
	g.lock.Lock()
	defer g.lock.Unlock()
	if g.w != nil && g.most > 0 {
		fmt.Fprint(g.w, "\r\x1b[K")
	}
}
