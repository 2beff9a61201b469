package segment_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/controller/segment"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// lasting is the durations of blocks.
func lasting(blocks []segment.Block) []string {
	var out []string
	for _, b := range blocks {
		out = append(out, b.Seconds.String())
	}
	return out
}

// repeated is one duration so many times.
func repeated(n int, text string) []string {
	var out []string
	for range n {
		out = append(out, text)
	}
	return out
}

func row(parts ...[]string) []string {
	var out []string
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// TestHowLongEachBlockIs: of the round of 1 s the rail goes for 7/16, stands for 1/8 and
// goes for 7/16. At a tenth at most that is five of 7/80, a rest in one or, where the
// table turns on, in two of a sixteenth, and five more. At 7/80 at most it is the same:
// what fits exactly is not cut further.
func TestHowLongEachBlockIs(t *testing.T) {
	for _, longest := range []exact.Rat{exact.New(1, 10), exact.New(7, 80)} {
		still := cut(t, sample.Still(t), longest)
		require.Equal(t, row(repeated(5, "7/80"), []string{"1/8"}, repeated(5, "7/80")), lasting(still.Round))
		turning := cut(t, sample.Through(t), longest)
		require.Equal(t, row(repeated(5, "7/80"), repeated(2, "1/16"), repeated(5, "7/80")), lasting(turning.Round))
		for _, b := range append(still.Round, turning.RunUp...) {
			require.True(t, b.Nominal.Equal(b.Seconds), "it is told what it takes")
		}
	}
	require.Len(t, cut(t, sample.Through(t), exact.Rat{}).Round, 22+7+22, "at a fiftieth at most, unless told")
}

// endsAt tells whether a block ends at a time from the first's beginning.
func endsAt(blocks []segment.Block, at exact.Rat) bool {
	for _, end := range ends(blocks) {
		if d := end.Sub(at).Abs(); d.Less(exact.New(1, 1_000_000_000)) {
			return true
		}
	}
	return false
}

// swung is a rail that passes the seam at a share of its loop of 4 s, and the table.
func swung(t *testing.T, name string, phase exact.Rat) *trajectory.Trajectory {
	rail := sample.Rail(t, name, 60)
	rail = sample.Ways(rail, func(w *move.Ways) { w.Phase, w.DwellFar = phase, exact.Rat{} })
	return sample.Make(t, 96, sample.Bench(rig.InverseTime), rail, sample.Table(t))
}

// TestRampsBeginAndEndOnBoundaries: an axis whose run-up is shorter than another's rests
// before it, and one whose run-out is shorter after it. A block across that would carry
// it too soon, or too far.
func TestRampsBeginAndEndOnBoundaries(t *testing.T) {
	tr := swung(t, "3-4-5", exact.New(1, 8))
	p := tr.Plan()
	k := cut(t, tr, exact.New(1, 10))
	clock := p.Loop.Clock
	up, out := clock.FrameTime(p.RunUp), clock.FrameTime(p.RunOut)
	require.True(t, segment.Total(k.RunUp).Equal(up))
	require.True(t, segment.Total(k.RunOut).Equal(out))
	require.True(t, k.Duration(3).Equal(exact.Int(3*4).Add(up).Add(out)), "three rounds of 4 s")
	shorter := 0
	for i := range p.Axes {
		a := &p.Axes[i]
		if a.RunUp.Exact().Less(up) {
			shorter++
			begins := up.Sub(a.RunUp.Exact())
			require.True(t, endsAt(k.RunUp, begins), "%s begins to move %s s into the run-up", a.Rig.Name, begins)
			for n, at := range ends(k.RunUp) {
				if !begins.Less(at) {
					require.InDelta(t, k.Rest[i], k.RunUp[n].End[i], 1e-12, "it rests till then")
				}
			}
		}
		if a.RunOut.Exact().Less(out) {
			shorter++
			require.True(t, endsAt(k.RunOut, a.RunOut.Exact()), "%s rests from then on", a.Rig.Name)
		}
	}
	require.Positive(t, shorter)
}

// TestARampThatBacksIsCutWhereItTurns: a rail that passes the seam slowly, and ever
// faster, backs before it comes there; one that gets slower goes on beyond and comes
// back. A block across that would leave it out.
func TestARampThatBacksIsCutWhereItTurns(t *testing.T) {
	tr := swung(t, "harmonic", exact.New(1, 400))
	p := tr.Plan()
	up := p.Axes[0].RunUp
	turn, ok := up.Turn()
	require.True(t, ok, "it must back for this test")
	at := p.Loop.Clock.FrameTime(p.RunUp).Sub(up.Exact()).Add(exact.FromFloat(turn))
	require.True(t, endsAt(cut(t, tr, exact.Int(1)).RunUp, at))

	tr = swung(t, "harmonic", exact.New(399, 400))
	turn, ok = tr.Plan().Axes[0].RunOut.Turn()
	require.True(t, ok)
	require.True(t, endsAt(cut(t, tr, exact.Int(1)).RunOut, exact.FromFloat(turn)))
}

// TestEdgeOfOneBoundary: what two axes do a ten-thousandth of a second apart is one
// boundary, what they do further apart is two.
func TestEdgeOfOneBoundary(t *testing.T) {
	for _, x := range []struct {
		apart exact.Rat // s between the reversals of two rails
		two   bool
	}{
		{exact.New(9, 100_000), false}, {exact.New(11, 100_000), true}, {exact.New(1, 1000), true},
	} {
		first, second := sample.Rail(t, "3-4-5", 2), sample.Rail(t, "3-4-5", 3)
		// A rest that is longer by twice as much begins sooner and ends later by it.
		second = sample.Ways(second, func(w *move.Ways) { w.DwellFar = w.DwellFar.Add(x.apart).Add(x.apart) })
		r := sample.Bench(rig.InverseTime)
		second.Name, r.Axes[1] = "lift", r.Axes[0]
		r.Axes[1].Name = "lift"
		k := cut(t, sample.Make(t, 24, r, first, second), exact.Int(1))
		if x.two {
			require.Len(t, k.Round, 5, "%s", x.apart)
			require.InDelta(t, x.apart.Float(), k.Round[1].Seconds.Float(), 1e-9)
			require.InDelta(t, x.apart.Float(), k.Round[3].Seconds.Float(), 1e-9)
		} else {
			require.Len(t, k.Round, 3, "%s", x.apart)
		}
	}
}

// TestNoBoundaryAtTheVeryEnd: a reversal just before the seam is at the seam, and one
// just after it too.
func TestNoBoundaryAtTheVeryEnd(t *testing.T) {
	for _, x := range []struct {
		phase exact.Rat // of 4 s
		least float64   // s of the shortest block
	}{
		{exact.New(1, 50_000), 0.01}, {exact.New(49_999, 50_000), 0.01},
		{exact.New(1, 10_000), 0.0004}, {exact.New(9_999, 10_000), 0.0004},
	} {
		shortest := 1.0
		for _, b := range cut(t, swung(t, "3-4-5", x.phase), exact.Int(1)).Round {
			shortest = min(shortest, b.Seconds.Float())
		}
		require.GreaterOrEqual(t, shortest, x.least*(1-1e-6), "%s", x.phase)
		if x.least < 0.001 {
			require.InDelta(t, x.least, shortest, 1e-6, "%s", x.phase)
		}
	}
}

// TestARefusalSaysWhatWouldDo: to the millisecond above, which does.
func TestARefusalSaysWhatWouldDo(t *testing.T) {
	_, err := segment.Cut(sample.Still(t), exact.New(-1, 50))
	require.EqualError(t, err, "block duration -0.02 s must be above 0; 0.02 s is the default")
	long := sample.Make(t, 24*2500, sample.Bench(rig.InverseTime), sample.Rail(t, "3-4-5", 2))
	_, err = segment.Cut(long, exact.New(1, 1000))
	require.EqualError(t, err, "block duration 0.001 s cuts a round of 2500 s into more than 1000000 blocks; 0.003 s would do")
	_, err = segment.Cut(long, exact.New(10_000, 4_000_001))
	require.ErrorContains(t, err, "into more than 1000000 blocks", "a quarter of one more")
}

// TestAGainIsNoRounding: a table that rests at the seam, half a degree further on each
// round, ends each half a degree further on.
func TestAGainIsNoRounding(t *testing.T) {
	smooth, err := law.Named("3-4-5")
	require.NoError(t, err)
	table := shot.AxisMove{Name: "table", Does: move.Turn{Turns: exact.New(1, 720), Start: unit.Quantity{Dim: unit.Angle}, Law: smooth}}
	k := cut(t, sample.Make(t, 24, sample.Bench(rig.InverseTime), table), exact.New(1, 10))
	require.Empty(t, k.RunUp)
	require.Equal(t, 0.0, k.Rest[0])
	require.InDelta(t, 0.5, k.Round[len(k.Round)-1].End[0], 1e-12)
}

// even is a table alone that turns evenly, 60 degrees a second.
func even(t *testing.T) *trajectory.Trajectory {
	table := sample.Turning(sample.Table(t), exact.Int(1))
	return sample.Make(t, 6*24, sample.Bench(rig.InverseTime), table)
}

// TestRampsAtConstantAcceleration: from rest to v in T at v/T, by the closed form: s
// before the seam it lacks v*s - v*s²/2T of the way, and has come v*T/2 by then. Beyond
// the ramps it rests.
func TestRampsAtConstantAcceleration(t *testing.T) {
	const v = 60.0
	tr := even(t)
	a := tr.Plan().Axes[0]
	up, out := a.RunUp.Length(), a.RunOut.Length()
	c := segment.Cutter{T: tr, Even: true}
	for _, u := range []float64{0.01, 0.25, 0.5, 0.99, 1, 1.5} {
		s := u * up
		lacks := v*min(s, up) - v*min(s, up)*min(s, up)/(2*up)
		require.InDelta(t, -lacks, c.Ramped(0, -s), 1e-9, "%g s before the seam", s)
		s = u * out
		went := v*min(s, out) - v*min(s, out)*min(s, out)/(2*out)
		require.InDelta(t, 360+went, c.Ramped(0, 6+s), 1e-9, "%g s after the last round", s)
	}
	require.InDelta(t, 90, c.Ramped(0, 1.5), 1e-9, "in the round it is where the round is")
	plain := segment.Cutter{T: tr}
	for _, sec := range []float64{-0.6 * up, -0.3 * up, 3, 6 + 0.3*out} {
		require.Equal(t, tr.TakeState(0, 1, sec).Pos, plain.Ramped(0, sec), "as planned, unless it is to be even")
	}
	require.Greater(t, c.Ramped(0, -0.9*up), plain.Ramped(0, -0.9*up)+1e-3, "which leaves rest more slowly")
}

// TestAnEvenRampEndsAlikeOrIsNone: one that takes up an acceleration as well begins
// elsewhere than an even one would, and is as planned.
func TestAnEvenRampEndsAlikeOrIsNone(t *testing.T) {
	tr := swung(t, "3-4-5", exact.New(1, 24))
	c := segment.Cutter{T: tr, Even: true}
	for _, r := range []*plan.Ramp{tr.Plan().Axes[0].RunUp, tr.Plan().Axes[0].RunOut} {
		for _, u := range []float64{0.2, 0.5, 0.8} {
			require.Equal(t, tr.TakeState(0, 1, -u*r.Length()).Pos, c.Ramped(0, -u*r.Length()))
			require.Equal(t, tr.TakeState(0, 1, 4+u*r.Length()).Pos, c.Ramped(0, 4+u*r.Length()))
		}
	}
	rests := sample.Still(t) // and one without a ramp rests
	still := segment.Cutter{T: rests, Even: true}
	require.Equal(t, 40.0, still.Ramped(0, -1))
	require.InDelta(t, 40, still.Ramped(0, 1.5), 1e-12)
}

// TestATakeOfEvenRamps has its blocks on them.
func TestATakeOfEvenRamps(t *testing.T) {
	tr := even(t)
	c := segment.Cutter{T: tr, Longest: exact.New(1, 30), Even: true}
	k := c.Take()
	up := segment.Total(k.RunUp)
	for n, at := range ends(k.RunUp) {
		require.Equal(t, c.Ramped(0, at.Sub(up).Float()), k.RunUp[n].End[0])
	}
	for n, at := range ends(k.RunOut) {
		require.Equal(t, c.Ramped(0, at.Add(tr.Period()).Float()), k.RunOut[n].End[0])
	}
	require.Equal(t, c.Ramped(0, -1e3), k.Rest[0])
}
