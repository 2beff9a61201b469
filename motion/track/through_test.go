package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law/mintime"
	"seamrail/motion/track"
)

func TestPassGoesOutOfTheCutAsItCameIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"uniform", "3-4-5", "4-5-6-7", "cycloidal", "modified-sine"}).Draw(t, "law")
		l, err := track.Even(named(t, name), rapid.Float64Range(0, 1.5).Draw(t, "even"))
		require.NoError(t, err)
		tr := must(t)(track.Through(period(t), track.ThroughSpec{From: 40, To: rapid.Float64Range(50, 900).Draw(t, "to"), Law: l}))
		e, in, out := tr.Extremes(), tr.Before(tr.Period().Float()), tr.At(0)
		assert.InDelta(t, in.Vel, out.Vel, rounding*math.Abs(e.Speed.Value))
		assert.InDelta(t, in.Acc, out.Acc, rounding*math.Abs(e.Acc.Value))
		assert.Equal(t, 40.0, out.Pos)
		assert.GreaterOrEqual(t, e.Min.Value, 40-1e-9)
	})
}

// Every peak of a blended law is reached and none is passed.
func TestEvenPeaksAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := track.Even(named(t, "4-5-6-7"), rapid.Float64Range(0, 1.8).Draw(t, "even"))
		require.NoError(t, err)
		p := l.Peaks()
		var v, a, j float64
		for i := range samples + 1 {
			q := l.At(float64(i) / samples)
			v, a, j = max(v, math.Abs(q.V)), max(a, math.Abs(q.A)), max(j, math.Abs(q.J))
		}
		for _, c := range [][2]float64{{v, p.V}, {a, p.A}, {j, p.J}} {
			assert.LessOrEqual(t, c[0], c[1]*(1+rounding)+1e-12)
			assert.GreaterOrEqual(t, c[0], c[1]*(1-1e-4)-1e-12)
		}
	})
}

func TestPassesThatCannotBe(t *testing.T) {
	for name, spec := range map[string]track.ThroughSpec{
		"nowhere":          {From: 1, To: 1, Law: named(t, "uniform")},
		"no law":           {From: 1, To: 2},
		"pushes at a cut":  {From: 1, To: 2, Law: named(t, "harmonic")},
		"not even a place": {From: math.NaN(), To: 2, Law: named(t, "uniform")},
	} {
		_, err := track.Through(exact.Int(1), spec)
		assert.Error(t, err, name)
	}
	_, err := track.Even(named(t, "3-4-5"), 15.0/7)
	assert.ErrorContains(t, err, "stand still", "15/8 of the mean speed in the middle: 15/7 - 8/7*15/8 is nothing")
	_, err = track.Even(named(t, "3-4-5"), -0.1)
	assert.Error(t, err)
}

// The whole round, way back included, is closed and smooth, and goes where the
// quick move goes.
func TestRoundOfAPassCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, to := exact.New(rapid.Int64Range(24, 240).Draw(t, "frames"), 24), rapid.Float64Range(60, 700).Draw(t, "to")
		tr := must(t)(track.Through(p, track.ThroughSpec{From: 40, To: to, Law: named(t, "uniform")}))
		v := tr.At(0).Vel
		leg := mintime.Leg{Distance: 40 - to, Start: v, End: v, Speed: max(200, 1.5*v), Acc: 800, Jerk: 8000}
		frames, sec, err := mintime.Frames(exact.Int(24), leg)
		require.NoError(t, err)
		require.Positive(t, frames)
		move, err := leg.Stretch(sec.Float(), mintime.MinAcc)
		require.NoError(t, err)
		round := tr.WithReturn(sec, exact.Int(0), &move)
		require.True(t, round.Period().Equal(p.Add(sec)))
		e, end := round.Extremes(), round.Period().Float()
		assert.False(t, math.IsInf(e.Acc.Value, 0), "speed is continuous")
		assert.False(t, math.IsInf(e.Jerk.Value, 0), "acceleration is continuous")
		assert.LessOrEqual(t, math.Abs(e.Acc.Value), 800*(1+1e-6))
		assert.LessOrEqual(t, math.Abs(e.Jerk.Value), 8000*(1+1e-6))
		lo, hi := move.Extent()
		assert.InDelta(t, to+hi, e.Max.Value, 1e-6)
		assert.InDelta(t, to+lo, e.Min.Value, 1e-6)
		assert.InDelta(t, 40, round.Before(end).Pos, 1e-9)
		for range 20 {
			at := rapid.Float64Range(0, sec.Float()).Draw(t, "at")
			pos, _, _, _ := move.At(at)
			assert.InDelta(t, to+pos, round.At(p.Float()+at).Pos, 1e-8)
		}
	})
}
