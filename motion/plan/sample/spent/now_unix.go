//go:build unix

package spent

import (
	"syscall"
	"time"
)

// now is what this program has had of the processor so far.
func now() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err) // it has no other reason than a wrong question
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
