package main

// How much memory may be in use before garbage is collected.

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// TestAPackIsProvedWithFewCollections counts what the runtime says of each.
func TestAPackIsProvedWithFewCollections(t *testing.T) {
	t.Parallel()
	collections := func(own ...string) int {
		c := exec.CommandContext(t.Context(), "trundle", "prove", "-q", "testdata/pack")
		c.Env = append(append(os.Environ(), "GODEBUG=gctrace=1", "GOGC=", "GOMEMLIMIT="), own...)
		said, err := c.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, said)
		}
		return strings.Count(string(said), "\ngc ")
	}
	const few, many = 3, 6
	if n := collections(); n > few {
		t.Errorf("%d collections, more than %d", n, few)
	}
	if n := collections("GOGC=1"); n < many {
		t.Errorf("%d collections, fewer than %d, though the user asked for many", n, many)
	}
}

// TestTheRoomStaysBelowTheLimit has the limit of the memory of a build: 150 MiB, and 12 KiB for each lesson.
func TestTheRoomStaysBelowTheLimit(t *testing.T) {
	t.Parallel()
	const program = 30 << 20 // with what is on its way while garbage is collected
	for lessons := int64(13); lessons <= 13_000; lessons *= 10 {
		held := 26<<20 + lessons*10<<10 // with those that are open; as measured while they are drawn
		if room, limit := roomFor(lessons, held)+program, 150<<20+lessons*12<<10; room > limit {
			t.Errorf("%d lessons hold %d bytes and may use %d, more than %d", lessons, held, room, limit)
		}
	}
}

// TestWhatIsHeldLeavesRoom keeps the collector from running all the time, and from running more often the more there
// is to go through.
func TestWhatIsHeldLeavesRoom(t *testing.T) {
	t.Parallel()
	least := roomFor(0, usual) - usual
	for held := int64(1 << 20); held < 8<<30; held *= 2 {
		if left := roomFor(0, held) - held; left < least || left < held/2 {
			t.Errorf("%d bytes are held, and only %d more may be used", held, left)
		}
	}
	const lessons, held = 13_000, 26<<20 + 13_000*5<<10 // as measured
	if left := roomFor(lessons, held) - held; left < least+least/8 {
		t.Errorf("%d lessons leave %d bytes, not more than few do", lessons, left)
	}
}
