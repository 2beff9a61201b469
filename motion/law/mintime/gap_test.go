package mintime

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// TestGap: at its ends the leg can just be made, inside it cannot. The bound is
// taken from the peaks themselves.
func TestGap(t *testing.T) {
	gaps := 0
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		d, err := l.Possible()
		require.NoError(t, err)
		require.True(t, d.Allows(d.Least))
		if !d.Gap() {
			return
		}
		gaps++
		require.GreaterOrEqual(t, d.Until, d.Least)
		if l.Start < 0 {
			l = l.mirrored()
		}
		require.True(t, l.Start > 0 && l.End > 0, "only with both end speeds one way")
		// A peak within a rounding of an end speed takes the root of it.
		slack := l.Speed * (1e-9*d.Again + ramp(4*0x1p-53*l.Speed, l.Acc, l.Jerk))
		require.InDelta(t, l.Distance, l.leastDistance(d.Again), slack)
		if d.Until > d.Least*(1+1e-9) {
			require.InDelta(t, l.Distance, l.leastDistance(d.Until), slack)
		}
		inside := d.Until + (d.Again-d.Until)*rapid.Float64Range(0, 1).Draw(t, "inside")
		require.GreaterOrEqual(t, l.leastDistance(inside), l.Distance-slack)
		m, err := l.Detour()
		require.NoError(t, err)
		checkMove(t, &m)
		require.InEpsilon(t, d.Again, m.Duration(), sameTime)
	})
	require.NotZero(t, gaps)
}

// leastDistance returns the distance of the move with a peak below both ends
// that takes sec, found by halving.
func (l Leg) leastDistance(sec float64) float64 {
	at := func(peak float64) (distance, seconds float64) {
		a, b := ramp(peak-l.Start, l.Acc, l.Jerk), ramp(peak-l.End, l.Acc, l.Jerk)
		return (l.Start+peak)/2*a + (peak+l.End)/2*b, a + b
	}
	low, high := -l.Speed, min(l.Start, l.End)
	if d, t := at(low); t <= sec {
		return d + low*(sec-t)
	}
	for range 200 {
		mid := (low + high) / 2
		if _, t := at(mid); t > sec {
			low = mid
		} else {
			high = mid
		}
	}
	d, _ := at(high)
	return d
}

func TestTogether(t *testing.T) {
	slow := Leg{Distance: 100, Speed: 100, Acc: 500, Jerk: 5000}
	gapped := Leg{Distance: 10, Start: 100, End: 100, Speed: 100, Acc: 500, Jerk: 5000}
	d, err := gapped.Possible()
	require.NoError(t, err)
	require.True(t, d.Gap())
	first, err := slow.Possible()
	require.NoError(t, err)
	require.Less(t, d.Least, first.Least)

	sec, err := Together(0, slow)
	require.NoError(t, err)
	require.Equal(t, first.Least, sec)
	sec, err = Together(0, gapped)
	require.NoError(t, err)
	require.Equal(t, d.Least, sec)
	sec, err = Together(0, slow, gapped)
	require.NoError(t, err)
	require.Equal(t, max(first.Least, d.Again), sec)
	moves, err := Arrive(sec, MinJerk, slow, gapped)
	require.NoError(t, err)
	for i := range moves {
		require.Equal(t, sec, moves[i].Duration())
	}
	sec, err = Together(60, slow, gapped)
	require.NoError(t, err)
	require.Equal(t, 60., sec)

	inside := (d.Until + d.Again) / 2
	_, err = Arrive(inside, MinAcc, gapped, slow)
	var impossible *DurationError
	require.ErrorAs(t, err, &impossible)
	require.Equal(t, &DurationError{inside, d}, impossible)
	require.Contains(t, err.Error(), "not possible; these are: from 0.1 s to ")
	_, err = slow.Detour()
	require.ErrorIs(t, err, ErrNoDetour)
}

// TestFrames: the first whole number of frames that no leg bars.
func TestFrames(t *testing.T) {
	rate := exact.New(24000, 1001)
	rapid.Check(t, func(t *rapid.T) {
		legs := []Leg{drawFrameLeg(t), drawFrameLeg(t)}
		frames, sec, err := Frames(rate, legs...)
		require.NoError(t, err)
		require.Equal(t, exact.Int(frames), sec.Mul(rate))
		fits := func(n int64) bool {
			for _, l := range legs {
				if d, err := l.Possible(); err != nil || !d.Allows(exact.Int(n).Quo(rate).Float()) {
					return false
				}
			}
			return true
		}
		require.True(t, fits(frames))
		for n := range frames {
			require.False(t, fits(n), "%d of %d frames", n, frames)
		}
	})
	_, _, err := Frames(rate, Leg{})
	require.ErrorIs(t, err, ErrLimit)
}

func drawFrameLeg(t *rapid.T) Leg {
	return Leg{
		Distance: rapid.Float64Range(-20, 60).Draw(t, "distance"),
		Start:    rapid.Float64Range(-50, 50).Draw(t, "start"), End: rapid.Float64Range(-50, 50).Draw(t, "end"),
		Speed: 60, Acc: 300, Jerk: 3000,
	}
}

// TestZeroDistance: 0 s, or the excursion that comes back.
func TestZeroDistance(t *testing.T) {
	l := Leg{Start: 50, End: 50, Speed: 100, Acc: 500, Jerk: 5000}
	m, err := l.Fastest()
	require.NoError(t, err)
	require.Zero(t, m.Duration())
	d, err := l.Possible()
	require.NoError(t, err)
	require.Equal(t, 0., d.Until)
	// Down to -v and back: 2 T(v + peak), the peak being where both halves
	// cover nothing: v = -peak. T(100) = 100/500 + 500/5000.
	m, err = l.Detour()
	require.NoError(t, err)
	require.InEpsilon(t, 0.6, m.Duration(), sameTime)
	lo, hi := m.Extent()
	// It stands still halfway down: after 0.1 s of 50 t - 5000 t^3/6, and 0.05 s
	// of 25 t - 500 t^2/2.
	require.InEpsilon(t, 5-5/6.+1.25-0.625, hi, sameTime)
	require.InEpsilon(t, -(5 - 5/6. + 1.25 - 0.625), lo, sameTime)
}
