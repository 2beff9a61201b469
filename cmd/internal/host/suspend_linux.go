package host

import (
	"time"

	"golang.org/x/sys/unix"
)

// asleep is how long the computer has been suspended since it was started: the
// clock that counts suspension less the one that does not (clock_gettime(2)).
// Setting the time of day changes neither.
func asleep() time.Duration {
	var all, awake unix.Timespec
	if unix.ClockGettime(unix.CLOCK_BOOTTIME, &all) != nil || unix.ClockGettime(unix.CLOCK_MONOTONIC, &awake) != nil {
		return 0
	}
	return time.Duration(all.Nano() - awake.Nano())
}
