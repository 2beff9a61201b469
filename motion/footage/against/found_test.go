package against

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/vibration/spring"
)

// Each round is as late as it was made: the second one goes slower by half a percent, the third
// one as planned.
func TestHowLateEachRoundIs(t *testing.T) {
	p, k := fern()
	k.time = func(j float64) float64 { return j - 0.72*min(max(j/144-1, 0), 1) }
	r := laidOut(t, p, k)
	require.Len(t, r.Rounds, 3)
	for i, want := range []struct{ late, longer float64 }{{0, 0}, {0.72, 0.72}, {0.72, 0}} {
		assert.InDelta(t, want.late, r.Rounds[i].Late.Value, 0.01, "round %d", i)
		assert.InDelta(t, want.longer, r.Rounds[i].Longer.Value, 0.01, "round %d", i)
		assert.InDelta(t, 1000./24*want.late, r.Rounds[i].MS.Value, 0.5)
		assert.True(t, r.Rounds[i].Known)
	}
	require.Equal(t, Differs, r.Verdict.Kind)
	assert.Equal(t, SlowRound, r.Verdict.Causes[0].Cause)
	assert.InDelta(t, k.zero+144, r.Verdict.From, 2)
}

// A clock that is off by some parts in a hundred thousand is found to a few in a million, and is
// no fault where it does not move the picture.
func TestRateOfTheRecording(t *testing.T) {
	p, k := fern()
	for _, ppm := range []float64{-5000, -10, 0, 10, 5000} {
		k.time = func(j float64) float64 { return j / (1 + ppm*1e-6) }
		r := laidOut(t, p, k)
		assert.InDelta(t, ppm, 1e6*r.Rate.Value, 6, show(r))
		assert.Less(t, 1e6*r.Rate.Sure, 3.0)
		if math.Abs(ppm) < 100 {
			assert.Equal(t, IsPlan, r.Verdict.Kind, r.Verdict.Text)
		} else {
			assert.Equal(t, LateClock, r.Verdict.Causes[0].Cause, r.Verdict.Text)
		}
	}
}

// play is an axis that is pulled along within its play: it stands while the play is taken up.
func play(by float64) func(axis int, planned, pos float64) float64 {
	at, began := 0.0, false
	return func(_ int, _, pos float64) float64 {
		if !began {
			at, began = pos, true
		}
		at = min(max(at, pos-by/2), pos+by/2)
		return at
	}
}

// A play of a twentieth of a millimetre, 0.4 px, is found, in mm and in px.
func TestBacklash(t *testing.T) {
	p, k := fern()
	k.axis = play(0.05)
	r := laidOut(t, p, k)
	assert.InDelta(t, 0.05, r.Axes[0].Backlash.Value, 0.004)
	assert.InDelta(t, 0.4, r.Axes[0].BacklashPx.Value, 0.03)
	assert.Less(t, r.Axes[0].Backlash.Sure, 0.002)
	require.NotEmpty(t, r.Verdict.Causes, show(r))
	assert.Equal(t, Backlash, r.Verdict.Causes[0].Cause)
	k.axis = nil
	r = laidOut(t, p, k)
	assert.InDelta(t, 0, r.Axes[0].Backlash.Value, 4*r.Axes[0].Backlash.Sure, "none is found where there is none")
}

// Steps lost at a turn are found at that one, and by how many mm.
func TestLostSteps(t *testing.T) {
	for round := range 3 {
		p, k := fern()
		at := float64(round*144 + 72)
		k.axis = func(_ int, j, x float64) float64 { return x - 0.125*step(j >= at) }
		r := laidOut(t, p, k)
		require.Len(t, r.Axes[0].Lost, 1, show(r))
		lost := r.Axes[0].Lost[0]
		assert.InDelta(t, k.zero+at, lost.Frame, 1.5)
		assert.InDelta(t, -0.125, lost.Units.Value, 0.01)
		assert.InDelta(t, -1, lost.Px.Value, 0.08)
		assert.Equal(t, LostSteps, r.Verdict.Causes[0].Cause)
		assert.InDelta(t, k.zero+at, r.Verdict.From, 1.5)
	}
}

// shaken is what a load swings by whose carriage goes by at, mm a frame: its free swing is that of
// the spring, pushed by each step of the carriage's acceleration.
func shaken(s spring.Spring, at func(frame float64) float64, from, to float64) func(frame float64) float64 {
	const parts = 64 // of a frame: far shorter than a swing
	var x spring.State
	var all []float64
	free, h := s.Free(1./24/parts), 1./parts
	for j := from; j < to; j += h {
		push := at(j+h) - 2*at(j) + at(j-h) // mm, as velocity times a part
		x.Vel -= push * 24 * parts
		all = append(all, x.Pos)
		x = free.Times(x)
	}
	return func(j float64) float64 {
		i := int(math.Round((j - from) * parts))
		if i < 0 || i >= len(all) {
			return 0
		}
		return all[i]
	}
}

// A load on a spring that hard ramps set swinging: frequency and damping come out of the rests to
// one in twenty.
func TestAfterShake(t *testing.T) {
	for _, want := range []spring.Spring{{Frequency: 4.3, Damping: 0.03}, {Frequency: 6, Damping: 0.05}, {Frequency: 8.7, Damping: 0.02}} {
		t.Run(fmt.Sprint(want), func(t *testing.T) {
			l := mustLaw("trapezoidal")
			at, loop := round(0, leg{60, 100, l}, leg{30, 100, nil}, leg{50, 0, l}, leg{28, 0, nil})
			p := Plan{CaptureRate: exact.Int(24), Loop: int64(loop), Rounds: 3, RunUp: 20, RunOut: 24}
			at = once(at, p)
			p.Axes = []Axis{{Name: "rail", At: seconds(at)}}
			swings := shaken(want, at, -20, 600)
			k := taking{frames: 570, zero: 25.4, noise: 0.01, seed: 3, gains: [][4]float64{{8, 0.4, 0, 0}}}
			k.axis = func(_ int, j, x float64) float64 { return x + swings(j) }
			r := laidOut(t, p, k)
			require.NotNil(t, r.Shake, show(r))
			s := r.Shake
			assert.InEpsilon(t, want.Frequency, s.Spring.Frequency, 0.05)
			assert.InEpsilon(t, want.Damping, s.Spring.Damping, 0.05)
			assert.InDelta(t, want.Frequency, s.Spring.Frequency, max(0.01, 5*s.FrequencySure))
			assert.Equal(t, 0, s.Axis)
			assert.InEpsilon(t, max(swung0(swings, want, 60), swung0(swings, want, 140)), s.Units.Value, 0.1)
			assert.InDelta(t, 12.0, s.Limit, 1e-12)
			assert.InDelta(t, 24-s.Spring.Frequency, s.Faster[0], 1e-9)
		})
	}
}

// swung0 is the amplitude of a free swing that begins at a frame, the greatest of a swing after.
func swung0(swings func(float64) float64, s spring.Spring, from float64) (most float64) {
	for j := from; j < from+24*s.Period(); j += 0.1 {
		most = max(most, math.Abs(swings(j))*math.Exp(s.Damping*s.Omega()*(j-from)/24))
	}
	return most
}

// A blow is found when it comes, with how much it moves the picture, until when, and what stays.
func TestBlow(t *testing.T) {
	p, k := fern()
	k.more = func(i int, _ float64) [2]float64 {
		return [2]float64{0, 3*fading((float64(i)-250)/24, 5, 0.06) + 0.8*step(i >= 250)}
	}
	r := laidOut(t, p, k)
	require.Len(t, r.Blows, 1, show(r))
	b := r.Blows[0]
	assert.InDelta(t, 250, b.Frame, 1)
	assert.InDelta(t, 3.8, b.Px, 0.2)
	assert.InDelta(t, 0.8, b.Moved.Value, 0.1)
	assert.InDelta(t, math.Log(3/quiet)/(0.06*2*math.Pi*5), b.Still, 0.2)
	assert.Equal(t, Blow, r.Verdict.Causes[0].Cause)
	assert.InDelta(t, 250, r.Verdict.From, 1)
	assert.InDelta(t, 3.8, r.Plain.Worst, 0.5)
	assert.InDelta(t, 250, r.Plain.Frame, 0)
}

// A view that creeps by two pixels in twenty seconds creeps by six a minute.
func TestDrift(t *testing.T) {
	p, k := fern()
	k.more = func(i int, _ float64) [2]float64 { return [2]float64{float64(i) / 480 * 2, -float64(i) / 480} }
	r := laidOut(t, p, k)
	assert.InDelta(t, 6, r.Drift.X.Value, 0.1)
	assert.InDelta(t, -3, r.Drift.Y.Value, 0.1)
	assert.Equal(t, Drift, r.Verdict.Causes[0].Cause)
}

// Two axes at once, of which one turns the picture and makes it larger: each shows as it does.
func TestGainsOfTwoAxes(t *testing.T) {
	p, k, _ := newShooting(5).draw(5)
	for len(p.Axes) < 2 {
		p, k, _ = newShooting(int(k.seed) + 1).draw(k.seed + 1)
	}
	k.gains[1] = [4]float64{3, -2, 0.7, 0.002}
	p.Axes[1].Gain = &Gain{X: 3, Y: -2, Turn: 0.7, Scale: 0.002, Share: 0.01}
	r := laidOut(t, p, k)
	require.Equal(t, IsPlan, r.Verdict.Kind, show(r))
	g := r.Axes[1].Gain
	assert.InDelta(t, 3, g.X, 0.02)
	assert.InDelta(t, -2, g.Y, 0.02)
	assert.InDelta(t, 0.7, g.Turn, 0.002)
	assert.InDelta(t, 0.002, g.Scale, 1e-5)
	assert.Empty(t, r.Verdict.Unproven)
}

// Where the product comes nearer it moves the picture more: the same take is another motion where
// that is not allowed for, and its plan where it is.
func TestAPictureThatBends(t *testing.T) {
	p, k := fern()
	p.Axes[0].Gain = nil
	k.axis = func(_ int, _, x float64) float64 { return x + 0.0004*x*x }
	assert.Equal(t, Differs, laidOut(t, p, k).Verdict.Kind)
	p.Bends = true
	r := laidOut(t, p, k)
	assert.Equal(t, IsPlan, r.Verdict.Kind, show(r))
	assert.InDelta(t, 8*1.04, r.Axes[0].Gain.X, 0.02, "px a mm in the middle of its travel")
	assert.NotEmpty(t, r.Verdict.Unproven, "nobody has said how it shows")
}
