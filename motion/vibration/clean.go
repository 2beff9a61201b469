package vibration

import (
	"cmp"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/vibration/spring"
)

// Clean is a duration of a move, in whole frames, at which it leaves less than
// a frame sooner or later.
type Clean struct {
	Frames  int64
	Seconds exact.Rat
	Left    float64 // of the travel
}

// CleanDurations returns the durations of lo to hi whole frames, each frame seconds
// long, at which a move by law l leaves least, shortest first. Between whole
// frames it may leave less, but a loop has none there.
//
// It panics if lo is below 1, hi below lo, or a frame lasts no time.
func CleanDurations(s spring.Spring, l law.Law, frame exact.Rat, lo, hi int64) []Clean {
	if lo < 1 || hi < lo || frame.Sign() <= 0 {
		panic("vibration: no frames to look among")
	}
	left := func(n int64) float64 { return Residual(s, l, exact.Int(n).Mul(frame).Float()) }
	var out []Clean
	before, here := left(max(1, lo-1)), left(lo)
	for n := lo; n <= hi; n++ {
		after := left(n + 1)
		if here < before && here <= after {
			out = append(out, Clean{n, exact.Int(n).Mul(frame), here})
		}
		before, here = here, after
	}
	return out
}

// Best returns the cleanest, at most so many, the cleanest first; of equals
// the shortest.
func Best(all []Clean, most int) []Clean {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b Clean) int { return cmp.Compare(a.Left, b.Left) })
	return out[:min(most, len(out))]
}
