package mintime

import "seamrail/motion/base/exact"

// Together returns the least time, of at least sec seconds, that every leg can
// take: the axes start together and arrive together, each stretched to it. It is
// that of the slowest, unless another leg cannot take that long.
func Together(sec float64, legs ...Leg) (float64, error) {
	possible := make([]Durations, len(legs))
	for i, l := range legs {
		d, err := l.Possible()
		if err != nil {
			return 0, err
		}
		possible[i] = d
	}
	// Each round ends past one more gap, or is the last.
	for range len(legs) + 1 {
		for _, d := range possible {
			sec = max(sec, d.Next(sec))
		}
	}
	return sec, nil
}

// Arrive returns a move of each leg, all of exactly sec seconds.
func Arrive(sec float64, aim Aim, legs ...Leg) ([]Move, error) {
	moves := make([]Move, len(legs))
	for i, l := range legs {
		m, err := l.Stretch(sec, aim)
		if err != nil {
			return nil, err
		}
		moves[i] = m
	}
	return moves, nil
}

// Frames returns the least whole number of captured frames, at capture frames a
// second, that every leg can take, and the exact seconds of that.
func Frames(capture exact.Rat, legs ...Leg) (frames int64, sec exact.Rat, err error) {
	least, err := Together(0, legs...)
	for err == nil {
		frames = exact.FromFloat(least).Mul(capture).Ceil().Whole()
		sec = exact.Int(frames).Quo(capture)
		asked := sec.Float()
		if least, err = Together(asked, legs...); least == asked {
			break
		}
	}
	return frames, sec, err
}
