//go:build !unix

package spent

import "time"

var began = time.Now()

// now is the time of the clock, where a system tells no other.
func now() time.Duration { return time.Since(began) }
