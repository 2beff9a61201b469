package firmware

import "math"

// Timer is what the board counts its steps with. The zero Timer is exact.
type Timer struct {
	Hz float64 // ticks a second; 0 = exact
	// Slowest is the longest time between two step events, s; 0 = no bound.
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
	// Skew is by what share intervals come out longer before they are counted: a
	// way to see whether anything hangs on the last digit of a number.
	Skew float64
}

// SixteenBit is a counter of 16 bits at hz ticks a second, three finer levels
// below 8000 steps a second at 16 MHz, that is cleared a tick after the match.
// Its slowest step rate is hz/65535/8: 30.5 a second at 16 MHz.
func SixteenBit(hz float64) Timer {
	return Timer{Hz: hz, Longest: 65535, Finer: finest, FinerBelow: hz / 2000, Lag: 1}
}

// SlowestRate is the step rate below which the counter does not go, steps/s; 0 =
// any.
func (t Timer) SlowestRate() float64 {
	if t.Longest == 0 {
		return 0
	}
	return t.Hz / float64(t.Longest+t.Lag) / float64(int(1)<<t.Finer)
}

// finest is the most finer levels of any Timer: an interrupt then makes an
// eighth of a step event.
const finest = 3

// eighths of a step event make a whole one.
const eighths = 1 << finest

// Beat is the interrupt rate during one slice.
type Beat struct {
	Every Instant // between two interrupts
	Level int     // 2^Level interrupts make a step event
	// Edge tells that an interval a hair shorter (1) or longer (-1) would be
	// counted as another.
	Edge int
}

// beat returns the beat of step events every so many minutes.
func (t Timer) beat(minutes float32) Beat {
	if t.Slowest > 0 {
		minutes = min(minutes, float32(t.Slowest/secondsMinute))
	}
	if t.Hz == 0 {
		return Beat{Every: Lasting(float64(minutes) * secondsMinute)}
	}
	exact := float64(float32(t.Hz*secondsMinute)*minutes) * (1 + t.Skew)
	ticks := int64(math.Ceil(exact))
	level := t.level(ticks)
	b := Beat{Every: Lasting(float64(t.counted(ticks, level)) / t.Hz), Level: level}
	below := float64(ticks>>level<<level) - 1 // from here, excluded, to a level's ticks on they are the same
	switch above := below + float64(int64(1)<<level); {
	case exact-below < edge:
		b.Edge = 1
	case above-exact < edge:
		b.Edge = -1
	}
	return b
}

// edge is how near to where another interval begins one is, in ticks, that the
// rounding of 24 bits might take for it: some parts in ten million of some
// thousands of ticks.
const edge = 0.03

// level is how often the interrupt comes twice as often for step events that are
// so many ticks apart.
func (t Timer) level(ticks int64) int {
	level := 0
	for level < t.Finer && float64(ticks)*t.FinerBelow >= t.Hz*float64(int(1)<<level) {
		level++
	}
	return level
}

// counted is how many ticks an interrupt of that level takes.
func (t Timer) counted(ticks int64, level int) int64 {
	ticks >>= level
	if t.Longest > 0 {
		ticks = min(ticks, t.Longest)
	}
	return ticks + t.Lag
}

// Stair returns by how many s the next longer interval of step events is longer
// than one of about so many s.
func (t Timer) Stair(interval float64) float64 {
	return float64(int64(1)<<t.level(int64(t.Hz*interval))) / t.Hz
}

// Nearest returns the interval of step events, in s, that comes nearest to what
// is wanted, and what a board has to be told for it: the middle of all that give
// it.
func (t Timer) Nearest(want float64) (told, got float64) {
	level := t.level(int64(t.Hz * want))
	told, got, gives := t.counting(t.near(want, level), level)
	if gives {
		return told, got
	}
	// Where the interrupt begins to come twice as often the middle may be of the slower
	// kind: what there is of both is looked at.
	off := math.Inf(1)
	for l := max(0, level-1); l <= level; l++ {
		for count := t.near(want, l) - 2; count <= t.near(want, l)+1; count++ {
			a, b, gives := t.counting(max(1, count), l)
			if gives && math.Abs(b-want) < off {
				told, got, off = a, b, math.Abs(b-want)
			}
		}
	}
	return told, got
}

// near is the count of a level that comes nearest to an interval.
func (t Timer) near(want float64, level int) int64 {
	return max(1, round(t.Hz*want/float64(int64(1)<<level))-t.Lag)
}

// counting returns what a board is told to count so far on a level, the interval of that,
// and whether it does: it may do so on another.
func (t Timer) counting(count int64, level int) (told, got float64, gives bool) {
	stair := int64(1) << level
	ticks := float64(count*stair) + float64(stair)/2 - 1 // from a tick before count levels, excluded, to one before the next
	return ticks / t.Hz, float64((count+t.Lag)*stair) / t.Hz, t.level(int64(math.Ceil(ticks))) == level
}

// Counter is the counter of a timer between two motions: it goes on counting up
// to the interval that was set last, and round again.
type Counter struct {
	zero  Instant // when the last interval was over
	every Instant // 0 before the first motion
}

// Rest notes that motion has ended with intervals of so long.
func (c *Counter) Rest(now, every Instant) { c.zero, c.every = now, every }

// Wake returns when the first interrupt comes, if motion begins now, and by how
// much the interval after it is shorter than it should be. A match that has
// gone by is made up for at once, wherever the counter is by then; it then runs
// on to the interval that is set now, by way of its highest count if it is
// beyond that.
func (t Timer) Wake(c Counter, now, every Instant) (start, lead Instant) {
	if t.Longest == 0 || c.every == 0 {
		return now, 0
	}
	since := now - c.zero
	if since < c.every {
		return c.zero + c.every, 0
	}
	lead = since % c.every
	if lead >= every {
		lead -= Lasting(float64(t.Longest+1) / t.Hz)
	}
	return now, lead
}
