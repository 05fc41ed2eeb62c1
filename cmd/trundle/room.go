package main

// This file lets the program take more memory than Go's collector would: collecting was a quarter of its work.

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
)

// leastRoom is what may be in use before garbage is collected. Together with the program itself it stays below 150 MiB.
const leastRoom = 116 << 20

// perLesson is how much more may be in use for each lesson of a pack, of the 12 KiB that a lesson may take.
const perLesson = 11 << 10

// A room is how much memory may be in use. It is nil where nobody sees to that: the user does, or a test shares its
// process with others.
type room struct{ lessons atomic.Int64 }

// takeRoom has garbage collected when the room is full, and not whenever the heap has doubled: a pack of a hundred
// lessons holds some 10 MiB, which were gone through twice for each lesson. If somebody has set a limit of their own,
// it is kept.
func takeRoom() *room {
	for _, own := range []string{"GOGC", "GOMEMLIMIT"} {
		if os.Getenv(own) != "" {
			return nil
		}
	}
	r := &room{}
	debug.SetGCPercent(-1)
	r.afterEachCollection()
	return r
}

// afterEachCollection makes the room fit what is held now. The cleanup of something that nobody uses runs when it has
// been collected, which is after the next collection.
func (r *room) afterEachCollection() {
	r.fit()
	runtime.AddCleanup(new([64]byte), func(struct{}) { r.afterEachCollection() }, struct{}{})
}

func (r *room) fit() {
	held := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(held)
	debug.SetMemoryLimit(roomFor(r.lessons.Load(), int64(held[0].Value.Uint64())))
}

// forLessons makes room for a pack with so many lessons.
func (r *room) forLessons(n int) {
	if r != nil {
		r.lessons.Store(int64(n))
		r.fit()
	}
}

// usual is what is held of a small pack, with the lessons that are open at a time.
const usual = 30 << 20

// roomFor is the room of a program that holds so many bytes, of a pack with so many lessons. It grows with the lessons
// faster than what is held of them does, since all of that is gone through at each collection: else the work of a
// lesson would grow with their number. What holds more than any build does, as the preview of a thousand lessons, has
// nearly as much again, which is Go's own measure.
func roomFor(lessons, held int64) int64 {
	return max(leastRoom+lessons*perLesson, leastRoom+held-usual, 2*held-leastRoom)
}
