package main

// This file lets the program take more memory than Go's collector would: collecting was a quarter of its work.

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// leastRoom is what may be in use before garbage is collected. Together with the program itself it stays below 150 MiB.
const leastRoom = 116 << 20

// takeRoom has garbage collected when that room is full, and not whenever the heap has doubled: a pack of a hundred
// lessons holds some 10 MiB, which were gone through twice for each lesson. If somebody has set a limit of their own,
// it is kept.
func takeRoom() {
	for _, own := range []string{"GOGC", "GOMEMLIMIT"} {
		if os.Getenv(own) != "" {
			return
		}
	}
	debug.SetGCPercent(-1)
	afterEachCollection()
}

// afterEachCollection makes the room fit what is held now. The cleanup of something that nobody uses runs when it has
// been collected, which is after the next collection.
func afterEachCollection() {
	held := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(held)
	debug.SetMemoryLimit(roomFor(int64(held[0].Value.Uint64())))
	runtime.AddCleanup(new([64]byte), func(struct{}) { afterEachCollection() }, struct{}{})
}

// usual is what is held of a small pack, with the lessons that are open at a time.
const usual = 30 << 20

// roomFor is the room of a program that holds so many bytes. It grows faster than they do, since all that is held is
// gone through at each collection: else the work of a lesson would grow with their number. What holds more than any
// build does, as the preview of a thousand lessons, has nearly as much again, which is Go's own measure.
func roomFor(held int64) int64 { return max(leastRoom, leastRoom+(held-usual)*9/8, 2*held-leastRoom) }
