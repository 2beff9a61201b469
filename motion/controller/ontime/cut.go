package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

// ramps tells whether any axis moves through the seam.
func (m *machine) ramps() bool {
	up, out := m.t.RampFrames()
	return up > 0 || out > 0
}

// cut returns blocks that are cut one way, on whole steps where that is free,
// or false where they cannot be cut so.
func (m *machine) cut(w way) (k segment.Take, ok bool) {
	c := segment.Cutter{T: m.t, Longest: w.longest, Even: w.even}
	k = c.Take()
	up := segment.Total(k.RunUp)
	dt := w.longest.Float()
	sag := sagShare * dt * dt / 8
	period := m.t.Period()
	ramped := func(i int, sec float64) (pos, vel float64) {
		const h = 1e-6 // s; small beside a block, great beside rounding
		pos = c.Ramped(i, sec)
		return pos, (c.Ramped(i, sec+h) - c.Ramped(i, sec-h)) / (2 * h)
	}
	rounded := func(i int, sec float64) (pos, vel float64) {
		s := m.t.State(i, sec)
		return s.Pos - s.Acc*sag, s.Vel
	}
	start := k.Rest
	if n := len(k.RunUp); n > 0 {
		start = k.RunUp[n-1].End
	}
	if !w.tread { // which stand wherever no step is
		k.Round = m.still(k.Round, start)
	}
	m.outward(k.Round, sag)
	k.RunUp = m.lead(k.RunUp)
	m.onSteps(k.RunUp, k.Rest, up.Neg(), ramped)
	m.onSteps(k.Round, start, exact.Rat{}, rounded)
	end := k.Round[len(k.Round)-1].End
	m.onSteps(k.RunOut, end, period, ramped)
	if w.quiet {
		k.Round = m.quieted(k.Round, start)
	}
	if w.tread {
		along := func(i int, sec float64) (pos, vel float64) {
			s := m.t.State(i, sec)
			return s.Pos, s.Vel
		}
		k.RunUp = m.trodden(k.RunUp, k.Rest, up.Neg(), ramped, true)
		k.Round = m.trodden(k.Round, start, exact.Rat{}, along, len(k.RunUp) == 0)
		k.RunOut = m.trodden(k.RunOut, end, period, ramped, false)
	}
	if m.link.Single {
		k.Round = m.crept(k.Round, start)
	}
	if k.Round, ok = m.rested(k.Round, w.long); !ok {
		return k, false
	}
	k.RunUp, k.Round, k.RunOut = m.joined(k.RunUp, k.Rest), m.joined(k.Round, start), m.joined(k.RunOut, end)
	return k, true
}

// sagShare is the share of what a straight block strays from the path, a*dt²/8,
// always on its inner side, that its ends are moved outward by: it then strays half
// as far, to both sides.
const sagShare = 0.5

// awayBlocks is how many blocks away from a rest an end must be to be moved: those
// next to it may become one with others, and stray more then.
const awayBlocks = 2.5

// outward moves the places at which blocks of a round meet off the path, outward,
// by so much of the acceleration there. Where an axis rests or turns back, and at
// the ends, they stay.
func (m *machine) outward(blocks []segment.Block, sag float64) {
	var sec exact.Rat
	for i := 0; i+1 < len(blocks); i++ {
		b, next := &blocks[i], &blocks[i+1]
		sec = sec.Add(b.Seconds)
		if b.Rest || next.Rest {
			continue
		}
		at := sec.Float()
		for a := range b.End {
			if s := m.t.State(a, at); math.Abs(s.Vel) > awayBlocks*math.Abs(s.Acc)*b.Seconds.Float() {
				b.End[a] -= s.Acc * sag
			}
		}
	}
}
