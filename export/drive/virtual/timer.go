package virtual

import (
	"math"
	"time"
)

// Timer is what the board counts its steps with. The zero Timer is exact.
type Timer struct {
	Hz float64 // ticks a second; 0 = exact
	// Slowest is the longest time between two step events, s; 0 = no bound.
	// It is for an exact timer; others have Longest.
	Slowest float64
	// Longest is the most ticks between two interrupts; 0 = no bound.
	Longest int64
	// Finer is how often the interrupt may come twice as often as the steps
	// do: at slow step rates the axes share finer moments that way.
	Finer int
	// FinerBelow is the step rate, steps/s, below which it first does; each
	// further level begins at half the rate of the one before.
	FinerBelow float64
	// Lag is how many ticks too long each interval is, because the counter
	// starts again a tick after it has matched.
	Lag int64
}

// SixteenMHz is the timer of a common 8-bit board: 16 bits wide, three finer
// levels below 8000 steps a second, and a counter that is cleared a tick after
// the match. Its slowest step rate is 16e6/65535/8 = 30.5 a second.
var SixteenMHz = Timer{Hz: 16e6, Longest: 65535, Finer: 3, FinerBelow: 8000, Lag: 1}

// sixteenBits is SixteenMHz at another clock.
func sixteenBits(hz float64) Timer {
	t := SixteenMHz
	t.FinerBelow *= hz / t.Hz
	t.Hz = hz
	return t
}

// finest is the most finer levels of any Timer: an interrupt then makes an
// eighth of a step event.
const finest = 3

// beat is the interrupt rate during one slice.
type beat struct {
	every instant // between two interrupts
	level int     // 2^level interrupts make a step event
}

// beat returns the beat of step events every interval seconds.
func (t Timer) beat(interval float64) beat {
	if t.Slowest > 0 {
		interval = math.Min(interval, t.Slowest)
	}
	if t.Hz == 0 {
		return beat{every: lasting(interval)}
	}
	ticks := int64(math.Ceil(t.Hz * interval))
	level := 0
	for level < t.Finer && float64(ticks)*t.FinerBelow >= t.Hz*float64(int(1)<<level) {
		level++
	}
	ticks >>= level
	if t.Longest > 0 {
		ticks = min(ticks, t.Longest)
	}
	return beat{every: lasting(float64(ticks+t.Lag) / t.Hz), level: level}
}

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

// reached returns i rounded up to whole nanoseconds, if it is ever reached.
func (i instant) reached() (time.Duration, bool) {
	if i == never {
		return 0, false
	}
	return (i + nanosecond - picosecond).duration(), true
}

// lasting returns s seconds, rounded to a picosecond.
func lasting(s float64) instant { return instant(math.Round(s * float64(second))) }

// fromDuration returns the instant d after the board was powered.
func fromDuration(d time.Duration) instant { return instant(d) * nanosecond }
