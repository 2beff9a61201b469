package segment_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

func cut(t testing.TB, tr *trajectory.Trajectory, seconds exact.Rat) segment.Take {
	k, err := segment.Cut(tr, seconds)
	require.NoError(t, err)
	return k
}

// ends returns the exact time at which each block ends, from the first's
// beginning.
func ends(blocks []segment.Block) []exact.Rat {
	var out []exact.Rat
	var sum exact.Rat
	for _, b := range blocks {
		sum = sum.Add(b.Seconds)
		out = append(out, sum)
	}
	return out
}

func TestRoundLastsThePeriodExactly(t *testing.T) {
	tr := sample.Through(t)
	rapid.Check(t, func(t *rapid.T) {
		seconds := exact.New(rapid.Int64Range(1, 3000).Draw(t, "n"), 1000*rapid.Int64Range(1, 9).Draw(t, "d"))
		k, err := segment.Cut(tr, seconds)
		require.NoError(t, err)
		at := ends(k.Round)
		require.True(t, at[len(at)-1].Equal(tr.Period()))
		for _, b := range k.Round {
			require.False(t, seconds.Less(b.Seconds))
			require.Positive(t, b.Seconds.Sign())
		}
		clock := tr.Plan().Loop.Clock
		ramps := clock.FrameTime(tr.Plan().RunUp + tr.Plan().RunOut)
		require.True(t, k.Duration(7).Equal(tr.Period().Mul(exact.Int(7)).Add(ramps)))
	})
}

func TestBlocksEndOnThePath(t *testing.T) {
	tr := sample.Through(t)
	k := cut(t, tr, exact.New(1, 97))
	for n, at := range ends(k.Round) {
		for i, pos := range k.Round[n].End {
			require.InDelta(t, tr.TakeState(i, 2, at.Float()).Pos, pos, 1e-9)
		}
	}
	up := tr.Plan().Loop.Clock.FrameTime(tr.Plan().RunUp)
	for n, at := range ends(k.RunUp) {
		for i, pos := range k.RunUp[n].End {
			require.InDelta(t, tr.TakeState(i, 1, at.Sub(up).Float()).Pos, pos, 1e-9)
		}
	}
	require.NotEmpty(t, k.RunOut)
	last := k.RunOut[len(k.RunOut)-1].End
	require.InDelta(t, tr.TakeState(1, 1, 1e6).Pos, last[1], 1e-9, "the run-out ends where the table rests")
}

// The sample's rail reverses through a dwell from 0.4375 s to 0.5625 s.
func TestBoundariesOnReversals(t *testing.T) {
	for _, tr := range []*trajectory.Trajectory{sample.Still(t), sample.Through(t)} {
		found := map[float64]bool{}
		for _, at := range ends(cut(t, tr, exact.New(3, 100)).Round) {
			found[at.Float()] = true
		}
		require.True(t, found[0.4375] && found[0.5625], "%v", found)
	}
}

func TestDwellIsOneBlock(t *testing.T) {
	var rest []segment.Block
	for _, b := range cut(t, sample.Still(t), exact.New(1, 100)).Round {
		if b.Rest {
			rest = append(rest, b)
		}
	}
	require.Len(t, rest, 1)
	require.Equal(t, "1/8", rest[0].Seconds.String())
	for _, b := range cut(t, sample.Through(t), exact.New(1, 100)).Round {
		require.False(t, b.Rest, "the table never rests")
	}
}

// A straight block of dt seconds strays from a path of acceleration a by
// a*dt²/8 at most: the remainder of linear interpolation (Burden and Faires,
// Numerical Analysis, section 3.1).
func TestDeviationIsWithinTheBound(t *testing.T) {
	tr := sample.Still(t)
	dt := exact.New(1, 50)
	k := cut(t, tr, dt)
	bound := math.Abs(tr.Plan().Axes[0].Extremes.Acc.Value) * dt.Float() * dt.Float() / 8
	worst, from, begin := 0.0, k.Rest[0], 0.0
	for n, at := range ends(k.Round) {
		middle := tr.Position(0, (begin+at.Float())/2)
		worst = max(worst, math.Abs(middle-(from+k.Round[n].End[0])/2))
		from, begin = k.Round[n].End[0], at.Float()
	}
	require.LessOrEqual(t, worst, bound)
	require.Greater(t, worst, bound/4, "the bound is not idle")
}

func TestSeamIsOneNumber(t *testing.T) {
	k := cut(t, sample.Still(t), exact.Rat{})
	require.Empty(t, k.RunUp)
	require.Empty(t, k.RunOut)
	require.Equal(t, k.Rest, k.Round[len(k.Round)-1].End)
}

func TestRefuses(t *testing.T) {
	tr := sample.Still(t)
	for _, seconds := range []exact.Rat{exact.New(-1, 50), exact.New(1, 1_000_001)} {
		_, err := segment.Cut(tr, seconds)
		require.Error(t, err)
	}
	_, err := segment.Cut(tr, exact.New(1, 1_000_001))
	require.ErrorContains(t, err, "0.001 s would do")
	_, err = segment.Cut(tr, exact.New(1, 1000))
	require.NoError(t, err, "what the error names does fit")
}

// Reversals of two axes that all but coincide make one boundary.
func TestMergesNearReversals(t *testing.T) {
	rail := sample.Rail(t, "3-4-5", 2)
	second := sample.Rail(t, "3-4-5", 3)
	second = sample.Ways(second, func(w *move.Ways) { w.DwellFar = w.DwellFar.Add(exact.New(1, 50_000)) })
	r := sample.Bench(rig.InverseTime)
	second.Name, r.Axes[1] = "lift", r.Axes[0]
	r.Axes[1].Name = "lift"
	for _, b := range cut(t, sample.Make(t, 24, r, rail, second), exact.New(1, 10)).Round {
		require.Greater(t, b.Seconds.Float(), 1e-3)
	}
}

func BenchmarkCut(b *testing.B) {
	tr := sample.Through(b)
	b.ReportAllocs()
	for b.Loop() {
		cut(b, tr, exact.Rat{})
	}
}
