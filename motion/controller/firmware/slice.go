package firmware

// Slice is a stretch of one block at a constant step rate.
type Slice struct {
	Beat   Beat
	Pulses int64 // interrupts it lasts
	From   int64 // eighths of a step event of the block done before it
	Steps  Counts
	Begins Counts
	Events int64
	Line   int64
	Lead   Instant // by which its first interval is shorter than the others
}

// Lasts returns how long the slice runs.
func (s *Slice) Lasts() Instant { return s.Beat.Every*Instant(s.Pulses) - s.Lead }

// StepsAfter returns how many steps of an axis are taken when u eighths of a
// step event of the block are done, as Bresenham's line shares them out
// (J. E. Bresenham, IBM Systems J. 4:25-30, 1965, DOI 10.1147/sj.41.0025): half
// an event is on the counter at first, and an axis steps when its counter goes
// beyond a whole one.
func (s *Slice) StepsAfter(axis int, u int64) int64 {
	n := s.Steps[axis]
	if n < 0 {
		return -shared(-n, s.Events, u)
	}
	return shared(n, s.Events, u)
}

func shared(n, events, u int64) int64 {
	if n == 0 {
		return 0
	}
	return (eighths/2*events + n*u - 1) / (eighths * events)
}

// Eighths returns how far the block is after k pulses of the slice.
func (s *Slice) Eighths(k int64) int64 { return s.From + k<<(finest-s.Beat.Level) }

// PulsesBy returns how many pulses have come when the slice has run for so long.
func (s *Slice) PulsesBy(since Instant) int64 {
	if s.Beat.Every == 0 {
		return s.Pulses
	}
	return max(0, min(s.Pulses, int64((since+s.Lead)/s.Beat.Every)))
}

// CountsAfter returns the step counts of so many axes after k pulses.
func (s *Slice) CountsAfter(axes int, k int64) Counts {
	out := s.Begins
	u := s.Eighths(k)
	for i := range axes {
		out[i] += s.StepsAfter(i, u)
	}
	return out
}
