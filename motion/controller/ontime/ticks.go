package ontime

import "math"

// nearNominal is the share of its nominal speed at which a block begins and ends
// that runs at one speed throughout.
const nearNominal = 1 - 1e-4

// ticks chooses the speed of each block that runs at one speed throughout such
// that its step interval, in whole ticks, is a little too short or too long by
// turns: what such blocks are late by must not add up.
func (f *fitting) ticks(s *script, c *chain, from int) {
	timer := f.m.board.Timer
	owed := 0.0 // s that the blocks so far are late
	for i := range c.links {
		l := &c.links[i]
		b := s.blocks[from+i]
		if l.length == 0 {
			continue
		}
		in, out := c.limits(i)
		if min(in, out) < nearNominal*l.speed {
			continue
		}
		events := float64(s.events(from + i))
		want := l.target / events // s a step event
		told, got := timer.Nearest(want - owed/events)
		if math.Abs(got/want-1) > maxStair { // as one that is exact is, for ever
			continue
		}
		f.even[b] = true
		owed += got*events - l.target
		l.speed = min(l.length/(told*events), l.cap)
	}
}

// maxStair is the share by which a block of one speed may be told to be faster
// or slower.
const maxStair = 0.01

// events returns how many steps the busiest axis takes in a line.
func (s *script) events(i int) int64 {
	var most int64
	for _, n := range s.moves[i] {
		most = max(most, n, -n)
	}
	return most
}
