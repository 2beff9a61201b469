// Package spent is how much of the processor something takes, for tests that hold it to a
// bound: whatever else a machine does at that time counts for nothing. It holds helpers of
// tests alone.
package spent

import "time"

// By is the time of the processor that f takes, with all that works for it meanwhile.
func By(f func()) time.Duration {
	from := now()
	f()
	return now() - from
}
