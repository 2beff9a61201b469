package fade

import (
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// Course is a level over one loop, which goes on for ever.
type Course struct {
	track   *track.Track
	quicker float64 // s of the track in a second
	loop    exact.Rat
}

// At returns the level at sec, and its change a second. At a seam that it jumps at, both
// are of what comes after.
func (c *Course) At(sec float64) (level, change float64) {
	return c.of(c.track.At(sec * c.quicker))
}

// Before returns the same just before sec.
func (c *Course) Before(sec float64) (level, change float64) {
	return c.of(c.track.Before(sec * c.quicker))
}

// of keeps a level within what there is: curves are evaluated to a part in 1e13.
func (c *Course) of(s track.State) (level, change float64) {
	return min(max(s.Pos, 0), 1), s.Vel * c.quicker
}

// Most returns the greatest level of the loop.
func (c *Course) Most() float64 { return min(max(c.track.Extremes().Max.Value, 0), 1) }

// Way is a stretch of the loop in which a level goes one way. One that begins before the
// seam and ends behind it ends later than the loop.
type Way struct {
	From, To float64 // s
	Begins   float64 // level
	Ends     float64
}

// Seconds is how long it takes.
func (w Way) Seconds() float64 { return w.To - w.From }

// Ways lists them, in order of time; none of a level that stays.
func (c *Course) Ways() []Way {
	var out []Way
	for _, s := range c.track.Spans() {
		if s.Dir == 0 {
			continue
		}
		w := Way{From: s.From / c.quicker, To: s.To / c.quicker}
		w.Begins, _ = c.At(w.From)
		w.Ends, _ = c.Before(w.To)
		out = append(out, w)
	}
	if n := len(out); n > 1 && c.through(out[n-1], out[0]) {
		out[n-1].To, out[n-1].Ends = c.loop.Float()+out[0].To, out[0].Ends
		out = slices.Delete(out, 0, 1)
	}
	return out
}

// through tells whether a way goes on in another behind the seam.
func (c *Course) through(last, first Way) bool {
	rises := func(w Way) bool { return w.Ends > w.Begins }
	const together = 1e-9 // of the whole light: the two are the same instant
	return first.From == 0 && last.To >= c.loop.Float()*(1-together) && rises(last) == rises(first) &&
		abs(last.Ends-first.Begins) < together
}

func abs(v float64) float64 { return max(v, -v) }
