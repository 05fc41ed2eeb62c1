// Package used says how much a program has taken, for benchmarks and limits in tests. Only they import it.
package used

import (
	"os"
	"syscall"
	"time"
)

// Processor is how long this program has kept processors busy: other programs do not count.
func Processor() time.Duration {
	self, err := syscall.GetCurrentProcess()
	var begun, ended, inSystem, inProgram syscall.Filetime
	if err == nil {
		err = syscall.GetProcessTimes(self, &begun, &ended, &inSystem, &inProgram)
	}
	if err != nil {
		panic("used: " + err.Error()) // there is no other way to ask
	}
	long := func(t syscall.Filetime) time.Duration { // in units of 100 ns
		return 100 * time.Duration(int64(t.HighDateTime)<<32|int64(t.LowDateTime))
	}
	return long(inSystem) + long(inProgram)
}

// Peak is the most memory that a program which has ended took at a time, in bytes; 0 since this system does not say.
func Peak(*os.ProcessState) int64 { return 0 }
