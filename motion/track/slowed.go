package track

import "seamrail/motion/base/exact"

// Slowed returns the track gone along so many times as slowly, more than 0: through the
// same places in the same order, each time so many times as late.
func (t *Track) Slowed(times exact.Rat) *Track {
	out := &Track{period: t.period.Mul(times), advance: t.advance, gain: t.gain}
	out.seconds = out.period.Float()
	k := times.Float()
	for _, p := range t.pieces {
		p.from, p.to, p.origin, p.length = p.from*k, p.to*k, p.origin*k, p.length*k
		out.pieces = append(out.pieces, p)
	}
	out.pieces[len(out.pieces)-1].to = out.seconds
	return out
}
