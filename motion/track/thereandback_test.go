package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// A loop of two equal moves of D units in T seconds has the law's peak factors
// times D/T, D/T^2 and D/T^3, by definition of the factors.
func TestThereAndBackPeaks(t *testing.T) {
	const d, half = 240.0, 3.0
	for _, l := range law.All() {
		t.Run(l.Name(), func(t *testing.T) {
			tr := must(t)(track.ThereAndBack(exact.Int(6), track.ThereAndBackSpec{From: 40, To: 280, Out: l, Cycles: 1}))
			e, p := tr.Extremes(), l.Peaks()
			assert.Equal(t, track.Peak{Value: 40}, e.Min)
			assert.Equal(t, track.Peak{Value: 280, Time: 3}, e.Max)
			within(t, p.V*d/half, e.Speed.Value, rounding*e.Speed.Value, "speed")
			if l.Name() == "uniform" {
				assert.Equal(t, track.Peak{Value: math.Inf(1)}, e.Acc)
				return
			}
			within(t, p.A*d/half/half, math.Abs(e.Acc.Value), rounding*p.A*d, "acceleration")
			if math.IsInf(p.J, 1) {
				assert.True(t, math.IsInf(e.Jerk.Value, 1))
				return
			}
			within(t, p.J*d/half/half/half, math.Abs(e.Jerk.Value), rounding*p.J*d, "jerk")
		})
	}
}

// There and back by simple harmonic motion without a dwell is one cosine,
// smooth for ever: no joint may be called a jump.
func TestHarmonicThereAndBackIsACosine(t *testing.T) {
	tr := must(t)(track.ThereAndBack(exact.New(6006, 1000), track.ThereAndBackSpec{From: -5, To: 5, Out: named(t, "harmonic"), Cycles: 1}))
	w := 2 * math.Pi / 6.006
	for i := range samples {
		sec := 6.006 * float64(i) / samples
		within(t, -5*math.Cos(w*sec), tr.At(sec).Pos, 1e-13, "position at %v s", sec)
	}
	within(t, 5*w*w*w, math.Abs(tr.Extremes().Jerk.Value), rounding*5, "jerk")
}

func TestDwells(t *testing.T) {
	spec := track.ThereAndBackSpec{
		From: 0, To: 100, Out: named(t, "3-4-5"), Cycles: 2, OutShare: exact.New(1, 4),
		DwellFar: exact.New(1, 2), DwellNear: exact.New(1, 4),
	}
	tr := must(t)(track.ThereAndBack(exact.Int(6), spec))
	// A cycle is 3 s, of which 2.25 s move: out 0.5625 s, back 1.6875 s.
	assert.Equal(t, []track.Span{
		{From: 0, To: 0.5625, Dir: 1}, {From: 0.5625, To: 1.0625}, {From: 1.0625, To: 2.75, Dir: -1}, {From: 2.75, To: 3},
		{From: 3, To: 3.5625, Dir: 1}, {From: 3.5625, To: 4.0625}, {From: 4.0625, To: 5.75, Dir: -1}, {From: 5.75, To: 6},
	}, tr.Spans())
	assert.Len(t, tr.Dwells(), 4)
	assert.Equal(t, 100.0, tr.At(0.75).Pos)

	spec.Cycles, spec.Phase = 1, exact.New(1, 16) // 0.375 s into the cycle
	tr = must(t)(track.ThereAndBack(exact.Int(6), spec))
	plain := spec
	plain.Phase = exact.Rat{}
	unshifted := must(t)(track.ThereAndBack(exact.Int(6), plain))
	for _, sec := range []float64{0, 1, 2.5, 5.25, 5.75, 5.9} {
		within(t, unshifted.At(sec+0.375).Pos, tr.At(sec).Pos, rounding*100, "shifted by phase, at %v s", sec)
	}
}

// A phase that puts the seam on a break of the law leaves the break visible
// there: the two sides differ by the acceleration of the ramp.
func TestSeamOnABreak(t *testing.T) {
	l, err := law.Trapezoidal(0.25)
	assert.NoError(t, err)
	tr := must(t)(track.ThereAndBack(exact.Int(8), track.ThereAndBackSpec{From: 0, To: 60, Out: l, Cycles: 1, Phase: exact.New(1, 8)}))
	within(t, l.Peaks().A*60/16, tr.Before(8).Acc, rounding*60, "ramp ends at the seam")
	assert.Equal(t, 0.0, tr.At(0).Acc)
	assert.True(t, math.IsInf(tr.Extremes().Jerk.Value, 1))
}

func TestThereAndBackVisitsBothEndsExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := rapid.Float64Range(-900, 900).Draw(t, "from"), rapid.Float64Range(-900, 900).Draw(t, "to")
		if from == to {
			to++
		}
		tr := must(t)(track.ThereAndBack(period(t), track.ThereAndBackSpec{From: from, To: to, Out: laws().Draw(t, "law"), Cycles: 1, Phase: share(t, "phase")}))
		e := tr.Extremes()
		assert.Equal(t, math.Min(from, to), e.Min.Value)
		assert.Equal(t, math.Max(from, to), e.Max.Value)
	})
}

func TestThereAndBackErrors(t *testing.T) {
	ok := track.ThereAndBackSpec{From: 0, To: 10, Out: named(t, "3-4-5"), Cycles: 1}
	_, err := track.ThereAndBack(exact.Int(1), ok)
	assert.NoError(t, err)
	for want, change := range map[string]func(*track.ThereAndBackSpec){
		"use a hold":                func(s *track.ThereAndBackSpec) { s.To = 0 },
		"must both be finite":       func(s *track.ThereAndBackSpec) { s.To = math.NaN() },
		"from 1 to":                 func(s *track.ThereAndBackSpec) { s.Cycles = 0 },
		"motion law":                func(s *track.ThereAndBackSpec) { s.Out = nil },
		"such as 1/2":               func(s *track.ThereAndBackSpec) { s.OutShare = exact.Int(1) },
		"at least 0 s":              func(s *track.ThereAndBackSpec) { s.DwellNear = exact.New(-1, 2) },
		"shorter than the cycle":    func(s *track.ThereAndBackSpec) { s.DwellFar = exact.Int(1) },
		"must be longer than 0 s":   nil,
		"1.5 s a cycle leave no ti": func(s *track.ThereAndBackSpec) { s.DwellFar, s.DwellNear = exact.New(3, 4), exact.New(3, 4) },
	} {
		spec, length := ok, exact.Int(1)
		if change == nil {
			length = exact.Int(-1)
		} else {
			change(&spec)
		}
		_, err := track.ThereAndBack(length, spec)
		assert.ErrorContains(t, err, want)
	}
}
