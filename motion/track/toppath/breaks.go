package toppath

import (
	"math"
	"slices"
)

// Breaks returns the times in the first round at which the pace's jerk jumps by
// more than a share of its greatest jump, in rising order: those at which a
// curve that follows the schedule had best have a joint. Pace changes evenly in
// each cell of the path, and averaging makes two jumps of each change.
func (s *Schedule) Breaks(share float64) []float64 {
	if s.curve != nil {
		return s.curveBreaks(share)
	}
	k := s.profile.knots
	cells := len(k) - 1
	jump := make([]float64, cells)
	for i := range jump {
		before := k[(i+cells-1)%cells].a
		if i == 0 && !s.profile.closed {
			before = 0
		}
		jump[i] = math.Abs(k[i].a - before)
	}
	least, end := share*slices.Max(jump), s.Seconds()
	var out []float64
	for i, j := range jump {
		if j <= least {
			continue
		}
		for _, side := range []float64{-s.width / 2, s.width / 2} {
			at := (k[i].t + side - s.origin) * s.slower
			if s.profile.closed {
				at -= math.Floor(at/end) * end
			}
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return out
}

// curveBreaks are those of a curve: where its cells meet.
func (s *Schedule) curveBreaks(share float64) []float64 {
	jumps := s.curve.jumps()
	least := share * slices.Max(jumps)
	var out []float64
	for i, j := range jumps {
		if j > least {
			out = append(out, s.curve.bends[i].t*s.slower)
		}
	}
	return out
}
