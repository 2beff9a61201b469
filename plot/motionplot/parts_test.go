package motionplot

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"seamrail/plot/internal/style"
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

// The name of a dwell lies over no curve and no limit: a rail that comes down to its dwell at
// the seam, above the end of its travel, and one that goes up to it.
func TestTheNameOfADwellIsClear(t *testing.T) {
	const begins, wide = vg.Length(220), vg.Length(76)
	for name, c := range map[string]struct{ from, to float64 }{"down": {100, 40}, "up": {40, 100}} {
		var xs, ys []float64
		for x := 0.; x <= 1; x += 0.005 {
			xs, ys = append(xs, x), append(ys, c.from+(c.to-c.from)*min(max((x-0.6)/0.3, 0), 1))
		}
		pan := style.Panel{Right: 300, Top: 84, X1: 1, Y0: -8, Y1: 108}
		gap := func(y vg.Length) vg.Length { return pan.Clearance(begins, wide, y+style.Small*0.35, xs, ys) }
		a := Axis{Limits: Limits{Min: 0, Max: 600}}
		y := dwellHeight(pan, a, c.to, begins, wide, xs, ys)
		assert.Greater(t, gap(y), style.Small*0.8, name)
		if name == "down" {
			assert.Less(t, gap(0.62*pan.Top), style.Small*0.8, "where it usually stands, the curve goes through it")
		}
		assert.Greater(t, y-pan.Y(0), style.Small, "%s: the end of travel has a name as well", name)
	}
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
