package fade_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/track"
)

// there goes from a level to another and back in a loop of a second.
func there(from, to float64, l law.Law, far, near exact.Rat) *fade.Fade {
	level := func(v float64) unit.Quantity { return unit.Quantity{Value: exact.FromFloat(v), Dim: unit.Number} }
	return &fade.Fade{Loop: exact.Int(1), There: move.ThereAndBack{Ways: move.Ways{
		From: level(from), To: level(to), Out: l, Back: l, Cycles: 1, OutShare: exact.New(1, 2), DwellFar: far, DwellNear: near,
	}}}
}

func keys(levels ...float64) []track.Key {
	out := make([]track.Key, len(levels))
	for i, v := range levels {
		out[i] = track.Key{Time: exact.New(int64(i), int64(len(levels))), Pos: v}
	}
	return out
}

// 3-4-5 is 10u^3 - 15u^4 + 6u^5, a half at a half (Flash and Hogan 1985), and its greatest
// slope there is 15/8.
func TestThereAndBack(t *testing.T) {
	c, err := there(0.2, 0.8, law.MinimumJerk(), exact.New(1, 5), exact.Rat{}).Over(exact.Int(1))
	require.NoError(t, err)
	level, change := c.At(0.2)
	assert.InDelta(t, 0.5, level, 1e-12)
	assert.InDelta(t, 15.0/8*0.6/0.4, change, 1e-9)
	level, change = c.At(0.5)
	assert.InDelta(t, 0.8, level, 1e-12)
	assert.Zero(t, change)
	assert.InDelta(t, 0.8, c.Most(), 1e-12)
	ways := c.Ways()
	require.Len(t, ways, 2)
	assert.InDeltaSlice(t, []float64{0, 0.4, 0.2, 0.8}, []float64{ways[0].From, ways[0].To, ways[0].Begins, ways[0].Ends}, 1e-9)
	assert.InDeltaSlice(t, []float64{0.6, 1, 0.8, 0.2}, []float64{ways[1].From, ways[1].To, ways[1].Begins, ways[1].Ends}, 1e-9)
}

// A way that goes on through the seam is one.
func TestAWayThroughTheSeam(t *testing.T) {
	f := there(0, 1, law.MinimumJerk(), exact.Rat{}, exact.Rat{})
	ways := f.There.Going()
	ways.Phase = exact.New(1, 4)
	f.There = f.There.WithWays(ways).(fade.Shuttle)
	c, err := f.Over(exact.Int(1))
	require.NoError(t, err)
	goes := c.Ways()
	require.Len(t, goes, 2)
	assert.InDelta(t, 0.25, goes[0].From, 1e-9, "down, from where the way up ends")
	assert.InDelta(t, 0.75, goes[1].From, 1e-9)
	assert.InDelta(t, 1.25, goes[1].To, 1e-9)
	assert.InDelta(t, 0.5, goes[1].Seconds(), 1e-9)
	assert.InDelta(t, 1, goes[1].Ends-goes[1].Begins, 1e-9)
}

// What the rig paces goes with the loop; what it does not keeps its times.
func TestPacedFades(t *testing.T) {
	f := there(0, 1, law.MinimumJerk(), exact.New(1, 2), exact.Rat{})
	long, err := f.Over(exact.Int(2))
	require.NoError(t, err)
	assert.InDelta(t, 0.75, long.Ways()[0].Seconds(), 1e-9, "the dwell keeps its half second")
	f.Paced = true
	long, err = f.Over(exact.Int(2))
	require.NoError(t, err)
	assert.InDelta(t, 0.5, long.Ways()[0].Seconds(), 1e-9, "all is twice as long")
	level, change := long.At(0.25)
	assert.InDelta(t, 0.5, level, 1e-12)
	assert.InDelta(t, 15.0/8/0.5, change, 1e-9)
	f.Paced = false
	_, err = f.Over(exact.New(1, 2))
	assert.Error(t, err, "no time is left")
}

// A level is closed at the seam, in value and in slope, and never leaves what its keys
// and a lamp allow, whatever the keys.
func TestLevelsAreClosedAndBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		levels := rapid.SliceOfN(rapid.Float64Range(0, 1), 2, 9).Draw(t, "levels")
		f := &fade.Fade{Loop: exact.Int(1), Keys: keys(levels...)}
		if rapid.Bool().Draw(t, "under a law") {
			all := law.All()
			f.Between = all[rapid.IntRange(0, len(all)-1).Draw(t, "law")]
		}
		c, err := f.Over(exact.Int(1))
		require.NoError(t, err)
		before, slopeIn := c.Before(1)
		after, slopeOut := c.At(0)
		assert.InDelta(t, after, before, 1e-9)
		if f.Between == nil {
			assert.InDelta(t, slopeOut, slopeIn, 1e-6)
		}
		for i := range levels {
			low, high := levels[i], levels[(i+1)%len(levels)]
			if low > high {
				low, high = high, low
			}
			for k := range 20 {
				v, _ := c.At((float64(i) + float64(k)/20) / float64(len(levels)))
				assert.True(t, v >= low-1e-9 && v <= high+1e-9, "%g is not between %g and %g", v, low, high)
				assert.True(t, v >= 0 && v <= 1)
			}
		}
	})
}

// A cut stays at its last key and jumps to its first.
func TestCut(t *testing.T) {
	f := &fade.Fade{Loop: exact.Int(1), Keys: []track.Key{{Time: exact.New(1, 4), Pos: 0.2}, {Time: exact.New(1, 2), Pos: 0.9}}, Between: law.MinimumJerk(), Cut: true}
	c, err := f.Over(exact.Int(1))
	require.NoError(t, err)
	for sec, want := range map[float64]float64{0: 0.2, 0.2: 0.2, 0.375: 0.55, 0.6: 0.9, 0.99: 0.9} {
		v, _ := c.At(sec)
		assert.InDelta(t, want, v, 1e-12, "at %g", sec)
	}
	before, _ := c.Before(1)
	assert.InDelta(t, 0.9, before, 1e-12)
	require.Len(t, c.Ways(), 1, "the jump is none")
}

// With the square law the dial is the root of the light: a quarter of it at a half.
func TestDial(t *testing.T) {
	assert.Equal(t, 0.5, fade.Square.Dial(0.25))
	assert.Equal(t, 0.25, fade.Linear.Dial(0.25))
	for _, c := range []struct {
		dial     float64
		one, two int
	}{{0, 0, 0}, {0.5, 128, 32768}, {0.85, 217, 55705}, {1, 255, 65535}} {
		one, two := fade.Slots(c.dial)
		assert.Equal(t, []int{c.one, c.two}, []int{one, two})
	}
	rapid.Check(t, func(t *rapid.T) {
		dial := rapid.Float64Range(0, 1).Draw(t, "dial")
		one, two := fade.Slots(dial)
		assert.LessOrEqual(t, math.Abs(float64(one)/255-dial), 0.5/255+1e-12)
		assert.LessOrEqual(t, math.Abs(float64(two)/65535-dial), 0.5/65535+1e-12)
	})
}

// Fades that are alike read alike, and others do not.
func TestFadesThatReadAlike(t *testing.T) {
	a := there(0, 0.85, law.MinimumJerk(), exact.New(1, 5), exact.Rat{})
	assert.Equal(t, a.String(), there(0, 0.85, law.MinimumJerk(), exact.New(1, 5), exact.Rat{}).String())
	for _, other := range []*fade.Fade{
		there(0, 0.8, law.MinimumJerk(), exact.New(1, 5), exact.Rat{}),
		there(0, 0.85, law.MinimumJerk(), exact.New(1, 4), exact.Rat{}),
		{Loop: exact.Int(1), Keys: keys(0, 0.85)}, {Loop: exact.Int(1), Keys: keys(0, 0.85), Between: law.MinimumJerk()},
	} {
		assert.NotEqual(t, a.String(), other.String())
	}
	assert.Equal(t, "from 0 % to 85 % and back, by the 3-4-5 law", a.Words())
	assert.Equal(t, "12.5 %", fade.Percent(0.125))
}
