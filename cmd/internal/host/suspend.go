package host

import "time"

// minSleep is below any suspension and above what two readings of the clocks
// one after the other differ by.
const minSleep = 100 * time.Millisecond

// suspension returns a function that tells how long the computer has been
// suspended since the last call, or 0.
func suspension() func() time.Duration { return growth(asleep) }

// growth tells by how much a total has grown since the last call, once that is
// worth telling.
func growth(total func() time.Duration) func() time.Duration {
	last := total()
	return func() time.Duration {
		now := total()
		d := now - last
		if d < minSleep {
			return 0
		}
		last = now
		return d
	}
}
