package motionplot

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestSampleDrawsAJumpUpright(t *testing.T) {
	d := hard()
	tr := d.sample(d.Axes[0])
	jumps := 0
	for i := 1; i < len(tr.x); i++ {
		assert.GreaterOrEqual(t, tr.x[i], tr.x[i-1])
		if tr.states[i].Vel != tr.states[i-1].Vel {
			jumps++
			assert.Equal(t, tr.x[i-1], tr.x[i], "the jump takes no time")
		}
	}
	assert.Equal(t, 1, jumps)
	assert.Equal(t, 0.0, tr.x[0])
	assert.InDelta(t, d.OnScreen, tr.x[len(tr.x)-1], 1e-12)
}

func TestSampledPeakIsNearTheClosedForm(t *testing.T) {
	d := lantern()
	tr := d.sample(d.Axes[0])
	got := d.peakOf(tr, tr.values(rates[0].pick))
	move := 66 * d.Period / 144
	// 15/8: peak factor of the 3-4-5 polynomial, from its derivative at 1/2.
	// 1e-4 relative: 330 samples a pass miss the top by (1/660)^2 * 10.
	assert.InEpsilon(t, 15.0/8*60/move, got.Value, 1e-4)
	assert.InDelta(t, move/2, got.Time, move/300)
}

func TestFrameStep(t *testing.T) {
	for n, want := range map[int64]int64{1: 1, 6: 1, 12: 2, 144: 24, 120: 20, 24: 4, 48: 8} {
		assert.Equal(t, want, frameStep(n), "%d frames", n)
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(1, 1_000_000_000).Draw(t, "frames")
		step := frameStep(n)
		if step < 1 || n/step > 6 || n/step < 2 && n > 6 {
			t.Fatalf("%d frames cut every %d", n, step)
		}
	})
}

func TestToldSpeaksOfTheLimit(t *testing.T) {
	assert.Equal(t, "none", told(0, 400, "mm", "/s"))
	assert.Equal(t, "at most 204.3 mm/s", told(-204.3, 0, "mm", "/s"))
	assert.Equal(t, "at most 204.3 mm/s", told(204.3, math.Inf(1), "mm", "/s"), "a rig with a ramp of its own states none")
	assert.Equal(t, "at most 204.3 mm/s of 400 mm/s", told(204.3, 400, "mm", "/s"))
	assert.Equal(t, "412 mm/s, over 400 mm/s", told(-412, 400, "mm", "/s"))
	assert.Equal(t, "at most 400 mm/s of 400 mm/s", told(400*(1+1e-12), 400, "mm", "/s"))
	assert.Equal(t, "jumps: unbounded", told(math.Inf(-1), 400, "mm", "/s"))
}

func TestBeyondTravel(t *testing.T) {
	l := Limits{Min: 0, Max: 400}
	assert.False(t, beyond(0, 400, l))
	assert.False(t, beyond(-1e-12, 400+1e-10, l), "rounding is not a breach")
	assert.True(t, beyond(-0.001, 400, l))
	assert.True(t, beyond(0, 400.001, l))
	assert.False(t, beyond(-1e6, 1e6, Free()))
}
