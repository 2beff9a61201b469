package mintime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawDuration draws a duration that the leg can take.
func drawDuration(t *rapid.T, l Leg) float64 {
	d, err := l.Possible()
	require.NoError(t, err)
	direct := ramp(l.End-l.Start, l.Acc, l.Jerk) + l.Speed/l.Acc
	if d.Gap() && d.Until > d.Least && rapid.Bool().Draw(t, "before the gap") {
		return d.Least + (d.Until-d.Least)*rapid.Float64Range(0, 1).Draw(t, "share")
	}
	return d.Next(d.Least + direct*math.Pow(10, rapid.Float64Range(-3, 2).Draw(t, "log longer")))
}

func ramp(dv, acc, jerk float64) float64 {
	dv = math.Abs(dv)
	if dv*jerk <= acc*acc {
		return 2 * math.Sqrt(dv/jerk)
	}
	return dv/acc + acc/jerk
}

// little is by how much a limit is lowered to make a move impossible. Where a
// limit is hardly reached, the time depends on the cube of it.
const little = 0.01

// TestStretch: the move takes exactly that long, and with a limit lower by a
// little it could not.
func TestStretch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		sec := drawDuration(t, l)
		aim := rapid.SampledFrom([]Aim{MinAcc, MinJerk}).Draw(t, "aim")
		m, err := l.Stretch(sec, aim)
		require.NoError(t, err, "%+v %v", l, sec)
		require.Equal(t, sec, m.Duration())
		checkMove(t, &m)
		lower := m.Leg()
		require.LessOrEqual(t, lower.Acc, l.Acc)
		require.LessOrEqual(t, lower.Jerk, l.Jerk)
		if aim == MinAcc {
			lower.Acc *= 1 - little
		} else {
			lower.Jerk *= 1 - little
		}
		// Beyond such a jerk a change of it takes no time that tells.
		sudden := lower.Jerk > 1e9*l.Acc*l.Acc/l.Speed
		// So close to the mean speed hardly anything is needed.
		steady := math.Abs(l.Distance-(l.Start+l.End)/2*sec) < 1e-6*l.Speed*sec
		if d, err := lower.Possible(); err == nil && !sudden && !steady {
			require.False(t, d.Allows(sec), "%+v %v %v", l, sec, d)
		}
	})
}

// TestStretchByHand has cases with closed forms.
func TestStretchByHand(t *testing.T) {
	free := Leg{Distance: 32, Speed: 1e3, Acc: 1e3, Jerk: 1e6}
	// Least jerk from rest to rest is 32 d/t^3, as d = 2 j (t/4)^3.
	m, err := free.Stretch(4, MinJerk)
	require.NoError(t, err)
	assert.InEpsilon(t, 32*32/64., m.Leg().Jerk, 1e-12)
	// Least acceleration without a limit of jerk is 4 d/t^2.
	free.Jerk = math.Inf(1)
	m, err = free.Stretch(4, MinAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 4*32/16., m.Leg().Acc, 1e-12)
	_, vel, acc, _ := m.At(1)
	assert.InDelta(t, 8, vel, 1e-12)
	assert.InDelta(t, 8, acc, 1e-12)
	// With a peak of 10 mm/s, d = v (t - v/a): a = v/(t - d/v).
	free.Speed = 10
	m, err = free.Stretch(4, MinAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 10/(4-3.2), m.Leg().Acc, 1e-12)
	// At one speed throughout nothing accelerates.
	steady := Leg{Distance: 40, Start: 10, End: 10, Speed: 10, Acc: 1, Jerk: 1}
	m, err = steady.Stretch(4, MinAcc)
	require.NoError(t, err)
	assert.Zero(t, m.Leg().Acc)
	pos, vel, acc, _ := m.At(1)
	assert.Equal(t, [3]float64{10, 10, 0}, [3]float64{pos, vel, acc})
	// An even change of speed: v1-v0 over t.
	ramp := Leg{Distance: 20, End: 10, Speed: 10, Acc: 100, Jerk: math.Inf(1)}
	m, err = ramp.Stretch(4, MinAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 10/4., m.Leg().Acc, 1e-12)
}
