package passes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/passes"
	"seamrail/motion/edit/selects"
)

func at(x float64) *float64 { return &x }

func filmed(take int, pass string, change ...func(*passes.Filmed)) passes.Filmed {
	f := passes.Filmed{
		Take: take, Pass: pass, Plan: "a", Rounds: 3, Planned: 10, Took: 10, OutBy: 0.002,
		Start: passes.Start{Capture: exact.Int(50), Frames: 100, RunUp: 0.5, Axes: []passes.Place{{Axis: "rail", Unit: "mm", Planned: 40, Stood: at(40), From: "above", Low: 40, High: 100}}},
		Off:   []selects.Off{{Axis: "rail", Unit: "mm", Value: -0.01}},
	}
	for _, c := range change {
		c(&f)
	}
	return f
}

// By hand: the second pass stood 0.05 mm higher and took 5 ms longer; 20 px a mm and 100 px
// a second at the fastest. Places 0.05 x 20, time 5 ms x 100,
// known to 2 ms of each.
func TestByHand(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100}
	g := passes.Of([]passes.Filmed{filmed(1, "light"), filmed(2, "product", func(f *passes.Filmed) {
		f.Took, f.Start.Axes = 10.005, []passes.Place{{Axis: "rail", Unit: "mm", Planned: 40, Stood: at(40.05), From: "above", Low: 40, High: 100}}
	})}, s)
	require.True(t, g.Whole())
	require.Len(t, g.Matches, 1)
	m := g.Matches[0]
	assert.True(t, m.Known)
	assert.InDelta(t, 0.005, m.Late, 1e-12)
	assert.InDelta(t, 0.004, m.Doubt, 1e-12)
	assert.InDelta(t, 0.0005, m.Rate(), 1e-12)
	assert.InDelta(t, 0.05, m.Axes[0].Start, 1e-12)
	assert.InDelta(t, 0.02, m.Axes[0].Way, 1e-12)
	assert.InDelta(t, 0.05*20+0.005*100, m.PX, 1e-9)
	assert.InDelta(t, 0.004*100, m.OutBy, 1e-9)
	px, outBy, known := g.Within()
	assert.True(t, known)
	assert.InDelta(t, m.PX, px, 1e-12)
	assert.InDelta(t, m.OutBy, outBy, 1e-12)
	sec, camera := g.Camera()
	assert.InDelta(t, 0.01, sec, 1e-12)
	assert.InDelta(t, 1, camera, 1e-12)
}

// A longer take is held against the other for as much motion as both have.
func TestTakesOfOtherLengths(t *testing.T) {
	g := passes.Of([]passes.Filmed{filmed(1, "a"), filmed(2, "b", func(f *passes.Filmed) { f.Planned, f.Took, f.OutBy = 20, 20.02, 0.004 })}, passes.Scale{})
	assert.InDelta(t, 0.01, g.Matches[0].Late, 1e-12)
	assert.InDelta(t, 0.004, g.Matches[0].Doubt, 1e-12)
	assert.InDelta(t, 0.001, g.Matches[0].Rate(), 1e-12, "20.02 s for 20 s, and 10 s for 10 s")
	assert.InDelta(t, 0.0004, g.Matches[0].RateDoubt(), 1e-12)
	assert.False(t, g.Matches[0].Known, "nothing is known of the picture")
}

func TestThreePassesMayBeBothWaysFromTheFirst(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 1}, PerSecond: 1}
	late := func(by float64) func(*passes.Filmed) { return func(f *passes.Filmed) { f.Took += by } }
	g := passes.Of([]passes.Filmed{filmed(1, "a"), filmed(2, "b", late(1)), filmed(3, "c", late(-1)), filmed(4, "d")}, s)
	px, outBy, _ := g.Within()
	assert.InDelta(t, 2*(0.02+1), px, 1e-9)
	assert.InDelta(t, 2*0.004, outBy, 1e-9)
}

// Which take of a pass counts, and why others do not.
func TestWhichTakesCount(t *testing.T) {
	keep := func(f *passes.Filmed) { f.Keep = true }
	g := passes.Of([]passes.Filmed{
		filmed(1, "light"), filmed(2, "light", keep), filmed(3, "light"), filmed(4, "plate", func(f *passes.Filmed) { f.Held = true }),
		filmed(5, "plate", func(f *passes.Filmed) { f.Cut = true }), filmed(6, "plate", func(f *passes.Filmed) { f.Ended = "alarm" }),
		filmed(7, "plate", func(f *passes.Filmed) { f.Why = "glare" }), filmed(8, "plate"), filmed(9, "gone", func(f *passes.Filmed) { f.Held = true }),
	}, passes.Scale{})
	var counts []int
	for _, f := range g.Passes {
		counts = append(counts, f.Take)
	}
	assert.Equal(t, []int{2, 8}, counts)
	assert.Equal(t, []passes.LeftOut{
		{1, "take 2 of the same pass counts"}, {3, "take 2 of the same pass is kept"}, {4, "it was stopped and went on, out of step with the frames"},
		{5, "nothing is told of its end"}, {6, `it ended as "alarm"`}, {7, "it was rejected: glare"}, {9, "it was stopped and went on, out of step with the frames"},
	}, g.LeftOut)
	assert.Equal(t, "take 2, light", g.Passes[0].Name())
}

func TestWhatDiffers(t *testing.T) {
	other := func(change func(*passes.Filmed)) []string {
		return passes.Differs(filmed(1, "a"), filmed(2, "b", func(f *passes.Filmed) {
			f.Start.Axes = append([]passes.Place{}, f.Start.Axes...)
			f.Plan = "b"
			change(f)
		}))
	}
	assert.Empty(t, passes.Differs(filmed(1, "a"), filmed(2, "b")))
	assert.Equal(t, []string{"a law, a time on the way or a limit of the rig is another; ends, start and rates are the same"}, other(func(*passes.Filmed) {}))
	assert.Equal(t, []string{
		"the capture rate is 25 frames/s, and was 50 frames/s", "a round is 90 captured frames, and was 100 captured frames", "the run-up is 0.250 s, and was 0.500 s",
		"the start of rail is 41.000 mm, and was 40.000 mm", "the way of rail is 40.000 to 90.000 mm, and was 40.000 to 100.000 mm", "axis table was not there",
	}, other(func(f *passes.Filmed) {
		f.Start.Capture, f.Start.Frames, f.Start.RunUp = exact.Int(25), 90, 0.25
		f.Start.Axes[0].Planned, f.Start.Axes[0].High = 41, 90
		f.Start.Axes = append(f.Start.Axes, passes.Place{Axis: "table"})
	}))
	assert.Equal(t, []string{"axis rail is not there"}, other(func(f *passes.Filmed) { f.Start.Axes = nil }))
	g := passes.Of([]passes.Filmed{filmed(1, "a"), filmed(2, "b", func(f *passes.Filmed) {
		f.Start.Axes = []passes.Place{{Axis: "rail", Unit: "mm", Planned: 40, From: "below"}}
	})}, passes.Scale{})
	assert.Equal(t, []string{"axis rail came to its start from below, and of the first from above"}, g.Matches[0].Differs)
	assert.False(t, g.Whole())
	assert.False(t, g.Matches[0].Axes[0].StartKnown)
}

// Where a hand has set the rig nobody knows from which side it came.
func TestASideThatIsNotKnownDiffersFromNone(t *testing.T) {
	g := passes.Of([]passes.Filmed{filmed(1, "a"), filmed(2, "b", func(f *passes.Filmed) {
		f.Start.Axes = []passes.Place{{Axis: "rail", Unit: "mm", Planned: 40, Low: 40, High: 100}}
	})}, passes.Scale{})
	assert.Empty(t, g.Matches[0].Differs)
	assert.True(t, g.Whole())
	rests, unseen := g.Sides()
	assert.Empty(t, rests)
	assert.Equal(t, []string{"rail"}, unseen)
}

// One pass alone, and none, match nothing.
func TestNoPasses(t *testing.T) {
	for _, takes := range [][]passes.Filmed{nil, {filmed(1, "a")}} {
		g := passes.Of(takes, passes.Scale{})
		assert.False(t, g.Whole())
		_, _, known := g.Within()
		assert.False(t, known)
	}
	sec, _ := passes.Of(nil, passes.Scale{}).Camera()
	assert.Zero(t, sec)
}

func stills(from, exposed, of int64) func(*passes.Filmed) {
	return func(f *passes.Filmed) { f.Stills, f.Rounds = &passes.Stills{From: from, Exposed: exposed, Of: of}, 1 }
}

// Of passes frame by frame it counts where they stood in their frames: no start, no time and
// no camera's clock.
func TestFrameByFrame(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100}
	slow := func(f *passes.Filmed) {
		f.Took = 11
		f.Start.Axes = []passes.Place{{Axis: "rail", Unit: "mm", Planned: 40, From: "above"}}
	}
	g := passes.Of([]passes.Filmed{filmed(1, "light", stills(0, 24, 24)), filmed(2, "plate", stills(0, 24, 24), slow)}, s)
	m := g.Matches[0]
	assert.True(t, m.Known)
	assert.False(t, m.LateKnown)
	assert.InDelta(t, 0.02*20, m.PX, 1e-9)
	assert.Zero(t, m.OutBy)
	sec, px := g.Camera()
	assert.Zero(t, sec)
	assert.Zero(t, px)
}

// One that goes on with another counts where nothing whole does, and one that is short never.
func TestWhichTakesFrameByFrameCount(t *testing.T) {
	keep := func(f *passes.Filmed) { f.Keep = true }
	for _, c := range []struct {
		takes []passes.Filmed
		want  int
		why   string
	}{
		{[]passes.Filmed{filmed(1, "a", stills(0, 24, 24)), filmed(2, "a", stills(7, 24, 24))}, 1, "take 1 of the same pass has all its frames"},
		{[]passes.Filmed{filmed(1, "a", stills(0, 24, 24)), filmed(2, "a", stills(7, 24, 24), keep)}, 2, "take 2 of the same pass counts"},
		{[]passes.Filmed{filmed(1, "a", stills(0, 7, 24)), filmed(2, "a", stills(7, 24, 24))}, 2, "it has 7 of its 24 frames"},
	} {
		g := passes.Of(c.takes, passes.Scale{})
		assert.Equal(t, c.want, g.Passes[0].Take)
		assert.Equal(t, c.why, g.LeftOut[0].Why)
	}
}

// By hand: frame 0 is 316.8 frames after the mark of the first, seen in its frame 121, and
// 316.2 after that of the second, seen in its frame 98: the second is to go 23.6 frames later.
// Where one was not seen, mark is laid on mark, and it is to go 0.6 later.
func TestAlignedByTheirMarks(t *testing.T) {
	zero := func(seen bool, mark int64, from float64) func(*passes.Filmed) {
		return func(f *passes.Filmed) { f.Zero = &passes.Zero{Seen: seen, Mark: mark, From: from, Out: 1.2} }
	}
	align := func(a, b func(*passes.Filmed)) *passes.Align {
		return passes.Of([]passes.Filmed{filmed(1, "a", a), filmed(2, "b", b)}, passes.Scale{}).Matches[0].Align
	}
	got := align(zero(true, 121, 316.8), zero(true, 98, 316.2))
	assert.True(t, got.Seen)
	assert.InDelta(t, -23.6, got.Frames, 1e-9)
	assert.InDelta(t, 2.4, got.Out, 1e-9)
	whole, rest := got.Whole()
	assert.EqualValues(t, -24, whole)
	assert.InDelta(t, 0.4, rest, 1e-9)
	for _, seen := range []bool{true, false} {
		got = align(zero(false, 0, 316.8), zero(seen, 98, 316.2))
		assert.False(t, got.Seen)
		assert.InDelta(t, -0.6, got.Frames, 1e-9)
	}
	assert.Nil(t, align(func(*passes.Filmed) {}, zero(true, 98, 316.2)))
}
