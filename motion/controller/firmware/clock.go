package firmware

import "math"

// Instant is a moment or a duration in picoseconds. A tick of 16 MHz has 62 500
// of them, so that ticks add up exactly; it holds 106 days.
type Instant int64

// Some instants.
const (
	Picosecond Instant = 1
	Second             = 1_000_000_000_000 * Picosecond
	// Never is later than any instant that is reached.
	Never Instant = math.MaxInt64
)

// Seconds returns i in s.
func (i Instant) Seconds() float64 { return float64(i) / float64(Second) }

// Lasting returns s seconds, rounded to a picosecond.
func Lasting(s float64) Instant { return Instant(math.Round(s * float64(Second))) }
