package firmware

import "math"

// minSteps is how many step events a slice has at least, the last of a block
// aside: with one or less the rate of a slow start would jump about.
const minSteps = 1.25

// Slicer cuts the first block of a ring into slices of constant step rate.
type Slicer struct {
	board   *Board
	opened  bool // the first block has been begun
	profile profile
	speed   float32 // path units/min
	scale   float32 // step events a path unit
	least   float32 // path units that a slice has at the least
	left    float32 // step events of the block not yet given out
	owed    float32 // min, for the broken step event that the last slice ended in
	done    int64   // eighths of step events given out
	every   float32 // min a slice lasts
}

// Slicer returns a slicer for the board's ring.
func (b *Board) Slicer() Slicer { return Slicer{board: b, every: b.sliceMinutes()} }

// open begins the first block of the ring, or looks at it anew.
func (s *Slicer) open(p *Planner) {
	k := p.At(0)
	if s.opened && !p.fresh {
		return
	}
	if !s.opened {
		s.left = float32(k.Events)
		s.scale = s.left / k.length
		s.least = minSteps / s.scale
		s.opened, s.owed, s.done = true, 0, 0
		s.speed = root(k.entry2)
	}
	p.fresh = false
	s.profile = trapezoid(k, p.exit2())
}

// Next cuts the next slice of the first block of the ring, which must have one,
// into out; a block that is over leaves the ring. The slice may have no pulses.
func (s *Slicer) Next(p *Planner, out *Slice) {
	s.open(p)
	k := p.At(0)
	took, left := s.advance(k)
	s.cut(k, took, left, out)
	k.length, k.entry2 = left, s.speed*s.speed
	if left > 0 {
		return
	}
	p.drop()
	p.fresh = false
	s.opened = false
}

// advance follows the profile for one slice time, or several where one is too
// short for a step. It returns the minutes taken and the path left.
func (s *Slicer) advance(k *Block) (took, left float32) {
	most, part := s.every, s.every
	left = k.length
	least := max(left-s.least, 0)
	for {
		var spent float32
		left, spent = s.follow(k, left, part)
		took += spent
		switch {
		case took < most:
			part = most - took // a phase has ended within the slice
		case left > least:
			most += s.every
			part = most - took
		default:
			return took, left
		}
		if left <= 0 {
			return took, left
		}
	}
}

// follow goes on for so many minutes, or to the end of the phase in hand. It
// returns the path left and the minutes spent.
func (s *Slicer) follow(k *Block, left, part float32) (float32, float32) {
	p := &s.profile
	gain := k.accel * part
	switch p.ramp {
	case up:
		left -= part * (s.speed + 0.5*gain)
		if left >= p.upUntil {
			s.speed += gain
			return left, part
		}
		// The end of a way up that has gone on from an earlier slice time is
		// given the time of the whole slice so far, at the mean of the two
		// speeds: that is how the board does it, and it is late by it.
		left = p.upUntil
		part = 2 * (k.length - left) / (s.speed + p.top)
		p.ramp = level
		if left == p.downAfter {
			p.ramp = down
		}
		s.speed = p.top
	case level:
		if on := left - p.top*part; on >= p.downAfter {
			return on, part
		}
		part = (left - p.downAfter) / p.top
		left, p.ramp = p.downAfter, down
	default:
		if s.speed > gain {
			if on := left - part*(s.speed-0.5*gain); on > 0 {
				s.speed -= gain
				return on, part
			}
		}
		part = 2 * left / (s.speed + p.exit)
		left, s.speed = 0, p.exit
	}
	return left, part
}

// cut turns a stretch into whole step events at one rate. The time of a broken
// step event is owed to the next slice.
func (s *Slicer) cut(k *Block, took, left float32, out *Slice) {
	events := s.scale * left
	whole, before := ceil(events), ceil(s.left)
	*out = Slice{From: s.done, Steps: k.Steps, Begins: k.Begins, Events: k.Events, Line: k.Line}
	took += s.owed
	rate := took / (before - events) // minutes a step event
	if n := int64(before - whole); n > 0 {
		out.Beat = s.board.Timer.beat(rate)
		out.Beat.Every = s.board.drift(out.Beat.Every)
		out.Pulses = n << out.Beat.Level
		s.done += n << finest
	}
	s.owed = (whole - events) * rate
	s.left = whole
}

func ceil(x float32) float32 { return float32(math.Ceil(float64(x))) }
