//go:build unix

// Package used says how much a program has taken, for benchmarks and limits in tests. Only they import it.
package used

import (
	"os"
	"runtime"
	"syscall"
	"time"
)

// Processor is how long this program has kept processors busy: other programs do not count.
func Processor() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic("used: " + err.Error()) // there is no other way to ask
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// Peak is the most memory that a program which has ended took at a time, in bytes; 0 if the system does not say.
func Peak(ended *os.ProcessState) int64 {
	used, ok := ended.SysUsage().(*syscall.Rusage)
	switch {
	case !ok:
		return 0
	case runtime.GOOS == "darwin": // which counts bytes
		return int64(used.Maxrss)
	}
	return int64(used.Maxrss) << 10
}
