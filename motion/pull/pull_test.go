package pull_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/pull"
	"seamrail/motion/track"
)

// From subject to image is f(2 + m + 1/m): four focal lengths at life size, of a lens of 50
// mm 200 mm, and 225 mm at half of it.
func TestMarkedDistances(t *testing.T) {
	assert.InDelta(t, 200, pull.Marked(50, 100), 1e-12)
	assert.InDelta(t, 225, pull.Marked(50, 150), 1e-12)
	assert.InDelta(t, 150, pull.FocusOf(50, 225), 1e-12)
	assert.InDelta(t, 100, pull.FocusOf(50, 200), 1e-9)
	assert.True(t, math.IsNaN(pull.FocusOf(50, 199)), "no lens of 50 mm does it")
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(10, 300).Draw(t, "f")
		m := rapid.Float64Range(0.001, 1).Draw(t, "m")
		u := f * (1 + 1/m)
		d := pull.Marked(f, u)
		assert.InEpsilon(t, f*(2+m+1/m), d, 1e-12)
		assert.InEpsilon(t, u, pull.FocusOf(f, d), 1e-6)
	})
}

// A helicoid draws a lens out as far for each degree: f m, so that the ring stands half way
// where the magnification is half way.
func TestRing(t *testing.T) {
	at := func(m float64) float64 { return 100 * (1 + 1/m) }
	r := pull.Ring{Degrees: true, Around: 360, Ticks: []pull.Tick{{Focus: at(0.1), At: 10}, {Focus: at(0.3), At: 50}, {Focus: at(0.4), At: 90}}}
	for m, want := range map[float64]float64{0.1: 10, 0.2: 30, 0.3: 50, 0.35: 70, 0.4: 90} {
		got, on := r.At(100, at(m))
		assert.True(t, on, m)
		assert.InDelta(t, want, got, 1e-9, m)
		along, known := r.MM(got)
		assert.True(t, known)
		assert.InDelta(t, want, along, 1e-9)
	}
	_, on := r.At(100, at(0.099))
	assert.False(t, on)
	_, on = r.At(100, at(0.401))
	assert.False(t, on)
	turned := pull.Ring{Ticks: []pull.Tick{{Focus: at(0.4), At: 0}, {Focus: at(0.2), At: 60}}} // mm, the other way round
	got, on := turned.At(100, at(0.3))
	assert.True(t, on)
	assert.InDelta(t, 30, got, 1e-9)
	_, known := pull.Ring{Degrees: true}.MM(30)
	assert.False(t, known, "nobody said how far it is around")
	_, on = pull.Ring{}.At(100, 400)
	assert.False(t, on)
}

// In the first of Fitts' experiments targets of 2, 1, 0.5 and 0.25 inches stood 2, 4, 8 and
// 16 inches apart: from 1 to 7 bits.
func TestDifficulty(t *testing.T) {
	for _, c := range []struct{ width, apart, bits float64 }{{2, 2, 1}, {1, 4, 3}, {0.5, 8, 5}, {0.25, 16, 7}} {
		// The same on a ring that goes with 1/(u-f), of a lens of 100 mm.
		focus := func(x float64) float64 { return 100 + 1000/x }
		got := pull.Difficulty(100, focus(20), focus(20-c.apart), focus(20-c.apart+c.width/2), focus(20-c.apart-c.width/2))
		assert.InDelta(t, c.bits, got, 1e-9)
	}
}

func TestCourse(t *testing.T) {
	p := pull.Pull{Loop: exact.Int(2), Marks: []track.Key{{Pos: 400}, {Time: exact.Int(1), Pos: 395, Hold: exact.New(1, 4)}}}
	c, err := p.Over(p.Loop)
	require.NoError(t, err)
	for sec, want := range map[float64]float64{0: 400, 1: 395, 1.2: 395, 2: 400, -1: 395, 5.1: 395} {
		assert.InDelta(t, want, c.At(sec), 1e-9, sec)
	}
	near, at := c.Nearest()
	assert.InDelta(t, 395, near, 1e-9)
	assert.InDelta(t, 1, at, 1e-9)
	p.Between = law.MinimumJerk()
	c, err = p.Over(p.Loop)
	require.NoError(t, err)
	assert.InDelta(t, 397.5, c.At(0.5), 1e-9, "half way in half the time")
	p.Paced = true
	c, err = p.Over(exact.Int(4))
	require.NoError(t, err)
	assert.InDelta(t, 397.5, c.At(1), 1e-9, "in a loop twice as long it takes twice as long")
	p.Marks[1].Time = exact.Int(3)
	_, err = p.Over(p.Loop)
	assert.Error(t, err)
}

func TestWays(t *testing.T) {
	assert.Empty(t, pull.Ways(2, []float64{400, 400, 400}))
	assert.Empty(t, pull.Ways(2, []float64{400, 400 + 1e-11, 400 - 1e-11}), "no more than rounding")
	// There, a rest, and back, the way back running on through the seam.
	ways := pull.Ways(8, []float64{398, 400, 399, 397, 395, 395, 395, 396})
	assert.Equal(t, []pull.Way{{1, 4, 400, 395}, {6, 9, 395, 400}}, ways)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(16, 400).Draw(t, "n")
		turns := rapid.IntRange(1, 4).Draw(t, "times there and back")
		shift := rapid.Float64Range(0, 1).Draw(t, "shift")
		all := make([]float64, n)
		for i := range all {
			all[i] = 400 + 20*math.Sin(2*math.Pi*(shift+float64(i*turns)/float64(n)))
		}
		ways := pull.Ways(3, all)
		sum := 0.0
		for i, w := range ways {
			sum += w.Seconds()
			assert.True(t, w.From >= 0 && w.From < 3 && w.To > w.From)
			next := ways[(i+1)%len(ways)]
			assert.InDelta(t, w.Ends, next.Begins, 1e-5, "one ends where the other begins")
			assert.NotEqual(t, w.Ends > w.Begins, next.Ends > next.Begins)
		}
		assert.GreaterOrEqual(t, len(ways), turns)
		assert.LessOrEqual(t, sum, 3+1e-9)
	})
}
