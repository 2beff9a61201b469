package virtual

import (
	"math"
	"time"
)

// instant is a moment on the virtual clock in picoseconds since the board was
// powered. A timer of 16 MHz ticks every 62 500 of them, so that its ticks add
// up exactly; an int64 holds 106 days.
type instant int64

const (
	picosecond instant = 1
	nanosecond         = 1000 * picosecond
	second             = 1_000_000_000_000 * picosecond

	// never is later than any instant that is reached.
	never instant = math.MaxInt64
)

// seconds returns i in s.
func (i instant) seconds() float64 { return float64(i) / float64(second) }

// duration returns i rounded down to whole nanoseconds.
func (i instant) duration() time.Duration { return time.Duration(i / nanosecond) }

// lasting returns s seconds, rounded to a picosecond.
func lasting(s float64) instant { return instant(math.Round(s * float64(second))) }

// fromDuration returns the instant d after the board was powered.
func fromDuration(d time.Duration) instant { return instant(d) * nanosecond }
