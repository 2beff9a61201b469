package firmware

// MaxAxes is how many axis words RS-274/NGC knows, and U V W.
const MaxAxes = 9

// Vector has one number an axis, in the order of Board.Axes.
type Vector [MaxAxes]float32

// Counts has the motor steps of each axis.
type Counts [MaxAxes]int64

// Axis is one axis as the board is set for it.
type Axis struct {
	StepsPerUnit float64 // > 0
	Acceleration float64 // units/s², > 0
	Speed        float64 // units/s, > 0
	// Counts is what a unit counts as in the path length of the board; 0 = 1.
	Counts float64
	// Offset is what the board adds to the places of words, in its unit: where it
	// counts from, on an axis that has gone round and round in takes before.
	Offset float64
	// Rotary axes are left out of a per-minute feed where linear ones move,
	// unless the board counts along all.
	Rotary bool
}

// Board is what a board is and how it is set.
type Board struct {
	Axes              []Axis
	Timer             Timer
	Blocks            int     // places of the ring of moves, one of which stays free
	Slices            int     // slices cut ahead, the one that runs included; 0 = 5
	SliceRate         float64 // slices a second; 0 = 100
	JunctionDeviation float64 // mm
	AlongAll          bool    // a per-minute feed is along all axes, not the linear ones
	Wide              bool    // positions have 53 bits, not 24
	// ClockError is the true over the nominal duration, less 1, of what the
	// board times, by its resonator.
	ClockError float64

	// Turn is what a turn of its main loop takes: one for each line and each grain
	// of a dwell, two for a move.
	Turn       Instant
	Line       Instant // that it needs besides to read a line and plan it
	DwellGrain Instant // of which dwells last whole multiples; 0 = any length
	IdleDelay  Instant // that each end of motion takes longer
}

// Usual is what open firmware has unless it is built otherwise.
const (
	usualSlices    = 5
	usualSliceRate = 100
)

const secondsMinute = 60

// The board counts in minutes, as F words do.
func perMinute2(a float64) float32 { return float32(a * secondsMinute * secondsMinute) }

func (b *Board) slices() int {
	if b.Slices == 0 {
		return usualSlices
	}
	return b.Slices
}

// sliceMinutes is how long a slice is at least.
func (b *Board) sliceMinutes() float32 {
	rate := b.SliceRate
	if rate == 0 {
		rate = usualSliceRate
	}
	return float32(1 / (rate * secondsMinute))
}

func (a *Axis) counts() float32 {
	if a.Counts == 0 {
		return 1
	}
	return float32(a.Counts)
}

// drift returns how long the board takes over a nominal time.
func (b *Board) drift(i Instant) Instant {
	if b.ClockError == 0 {
		return i
	}
	return Lasting(i.Seconds() * (1 + b.ClockError))
}

// StepsAt returns the step count of a place of axis i, in its unit, by the
// numbers that the board has.
func (b *Board) StepsAt(i int, place float64) int64 {
	per, off := b.Axes[i].StepsPerUnit, b.Axes[i].Offset
	if b.Wide {
		return round((place + off) * per)
	}
	return round(float64((float32(place) + float32(off)) * float32(per)))
}

// Measured is the turn of the main loop of the board that was measured
// (testdata/reference/firmware_dwells.tsv, and the starts of takes).
const Measured = 10_000_000 * Picosecond

// Dwell is how long a dwell of so many s lasts once all motion has ended.
func (b *Board) Dwell(s float64) Instant {
	if b.DwellGrain == 0 {
		return b.Turn + b.drift(Lasting(s))
	}
	n := Instant(ceil(float32(1/b.DwellGrain.Seconds()) * float32(s)))
	return b.Turn + n*(b.drift(b.DwellGrain)+b.Turn)
}

// lineTime is how long the board takes to read a line, and plan it if it moves.
func (b *Board) lineTime(moves bool) Instant {
	if moves {
		return b.Line + 2*b.Turn
	}
	return b.Line + b.Turn
}

// looks returns when the main loop looks next at what happens at an instant.
func (b *Board) looks(at Instant) Instant {
	if b.Turn == 0 {
		return at
	}
	return (at + b.Turn - 1) / b.Turn * b.Turn
}
