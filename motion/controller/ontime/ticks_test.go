package ontime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/segment"
)

// row is a ring of lines of one speed, of so many step events each, that are to take
// 20 400.3 ticks of a timer an event; the lines are told of after one that is none of it.
func row(timer firmware.Timer, events ...int64) (*fitting, *script, *chain) {
	f := &fitting{m: &machine{board: firmware.Board{Timer: timer}}, even: map[*segment.Block]bool{}}
	s := &script{moves: []firmware.Counts{{99}}, blocks: []*segment.Block{nil}}
	c := &chain{ring: true}
	for i, n := range events {
		moves := firmware.Counts{2, n}
		if i%2 == 1 { // the busiest may go backwards
			moves = firmware.Counts{-n, 1}
		}
		s.moves, s.blocks = append(s.moves, moves), append(s.blocks, &segment.Block{})
		l := link{length: float64(n) / 10, target: float64(n) * 0.00204003, enter: math.Inf(1), cap: math.Inf(1)}
		l.speed = l.length / l.target
		c.links = append(c.links, l)
	}
	return f, s, c
}

var tenMHz = firmware.Timer{Hz: 1e7}

// TestWhatTicksOweIsPaidBack: each event of a line lasts whole ticks, and what the lines so
// far are late is taken off the next, by hand: 20 400 owe 3 ticks in 10 events, so that 5
// of the next are to be 0.6 shorter than 20 400.9, and so on. Were it not, each line would
// be early by as much, in every round.
func TestWhatTicksOweIsPaidBack(t *testing.T) {
	f, s, c := row(tenMHz, 10, 5, 10, 20, 10)
	f.ticks(s, c, 1)
	for i, ticks := range []float64{20400, 20401, 20400, 20400, 20401} {
		// A board is told the middle of all that give it, half a tick less.
		assert.InDelta(t, 1e7/(ticks-0.5)/10, c.links[i].speed, 1e-9, "line %d", i)
		assert.True(t, f.even[s.blocks[1+i]], "line %d", i)
	}
	assert.Len(t, f.even, 5)
	f, s, c = row(tenMHz, 10, 5)
	c.links[1].cap = 49.01
	f.ticks(s, c, 1)
	assert.Equal(t, 49.01, c.links[1].speed, "no faster than it can")
}

// TestWhichLinesAreOfWholeTicks: those that begin and end at their speed, to a
// ten-thousandth, and whose speed a tick hardly changes.
func TestWhichLinesAreOfWholeTicks(t *testing.T) {
	for _, x := range []struct {
		share float64 // of its speed that the line begins with
		even  bool
	}{{1 - 0.00005, true}, {1 - 0.00015, false}, {0.5, false}} {
		for _, at := range []string{"in", "out"} {
			f, s, c := row(tenMHz, 10, 20)
			speed := c.links[0].speed
			c.ring, c.before, c.after, c.leave = false, 2*speed, 2*speed, 2*speed
			which := 0
			if at == "in" {
				c.before = x.share * speed
			} else {
				which, c.after = 1, x.share*speed
			}
			f.ticks(s, c, 1)
			assert.Equal(t, x.even, f.even[s.blocks[1+which]], "%s %g", at, x.share)
			assert.Equal(t, x.even, c.links[which].speed != speed)
			assert.True(t, f.even[s.blocks[2-which]], "the other is")
		}
	}
	for _, x := range []struct {
		hz   float64
		even bool
	}{{0, false}, {1000, false}, {30_000, true}} { // 2.04 and 61.2 ticks an event
		f, s, c := row(firmware.Timer{Hz: x.hz}, 10)
		was := c.links[0].speed
		f.ticks(s, c, 1)
		assert.Equal(t, x.even, f.even[s.blocks[1]], "%g", x.hz)
		assert.Equal(t, x.even, c.links[0].speed != was, "%g", x.hz)
	}
	f, s, c := row(tenMHz, 10, 0, 10) // with a rest
	c.links[1] = link{target: 0.3}
	f.ticks(s, c, 1)
	assert.Empty(t, f.even)
	require.Zero(t, c.links[1].speed)
}
