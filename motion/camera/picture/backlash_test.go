package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

// cut is a motion whose round is longer than the loop: it comes back unseen.
type cut struct {
	fake
	round int64 // frames
}

func (c cut) Period() exact.Rat { return c.clock.FrameTime(c.round) }

// pass goes 10 mm in the second that is shown, back by 11 in half a second, and on by
// the last 1 mm in another.
func pass(sec float64) track.State {
	t := math.Mod(sec+20, 2)
	switch {
	case t < 1:
		return track.State{Pos: 10 * t, Vel: 10}
	case t < 1.5:
		return track.State{Pos: 10 - 22*(t-1), Vel: -22}
	}
	return track.State{Pos: -1 + 2*(t-1.5), Vel: 2}
}

// A way back that nobody sees turns round where nobody sees it: what counts is the play
// that its last millimetre has not taken up by frame 0.
func TestBacklashOfAPass(t *testing.T) {
	s := bench()
	m := cut{at(t, 120, 120).with("across", pass), 240}
	for play, left := range map[float64]float64{0.08: 0, 0.99: 0, 1.01: 0.01, 1.2: 0.2} {
		s.Backlash = map[string]float64{"across": play}
		v := find(t, examine(t, m, s), "backlash of across")
		if left == 0 {
			assert.Equal(t, picture.Good, v.Level, v.Text)
			assert.Equal(t, "across never turns round while it is filmed, and its play is taken up before frame 0", v.Text)
			continue
		}
		assert.InEpsilon(t, left*scale, figure(t, v, "lag"), 1e-3)
		assert.InDelta(t, 1, figure(t, v, "reversals"), 0)
		assert.Equal(t, int64(0), v.When.Frame)
		assert.Contains(t, v.Text, "still being taken up in frame 0")
		assert.Equal(t, left*scale > 1, v.Level == picture.Poor)
	}
	// All of it shown, both turns count, with all of the play.
	s.Backlash = map[string]float64{"across": 0.08}
	v := find(t, examine(t, cut{at(t, 120, 240).with("across", pass), 240}, s), "backlash of across")
	assert.InDelta(t, 2, figure(t, v, "reversals"), 0)
	assert.InEpsilon(t, 0.08*scale, figure(t, v, "lag"), 0.02)
}

// A run-up takes up the play of the way to the start, if it is long enough; an axis that
// comes from home the way it is filmed going has none to take up.
func TestBacklashOfARunUp(t *testing.T) {
	s := bench()
	s.Backlash = map[string]float64{"across": 0.5}
	for _, c := range []struct {
		up   int64
		home float64
		lag  float64
	}{{12, 50, 0}, {4, 50, 0.5 - 10.0*4/120}, {4, -50, 0}, {0, 50, 0}} {
		m := at(t, 120, 24).with("across", steady(0, 10))
		m.up, m.axes[0].Home = c.up, c.home
		v := find(t, examine(t, m, s), "backlash of across")
		if c.lag == 0 {
			assert.Equal(t, picture.Good, v.Level)
			continue
		}
		assert.InEpsilon(t, c.lag*scale, figure(t, v, "lag"), 1e-3)
		assert.Contains(t, v.Advice, "a longer run-up of across")
	}
}

// The bound is met on both of its sides.
func TestBacklashBound(t *testing.T) {
	for px, level := range map[float64]picture.Level{0.99: picture.Good, 1.01: picture.Poor} {
		s := bench()
		s.Backlash = map[string]float64{"across": px / scale}
		v := find(t, examine(t, at(t, 120, 240).with("across", swing(-0.01, 0.01, 2)), s), "backlash of across")
		assert.Equal(t, level, v.Level, v.Text)
	}
}
