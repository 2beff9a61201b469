package ontime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// swinging is a rail of the bench, 100 mm there and back by the harmonic law in so many
// frames at 24 a second.
func swinging(t *testing.T, frames int64, change func(*rig.Rig)) *trajectory.Trajectory {
	rail := sample.Rail(t, "harmonic", 100)
	rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar = exact.Rat{} })
	r := sample.Bench(rig.InverseTime)
	if change != nil {
		change(&r)
	}
	return sample.Make(t, frames, r, rail)
}

// millis are durations in ms.
func millis(list []exact.Rat) []int64 {
	var out []int64
	for _, d := range list {
		out = append(out, d.Mul(exact.Int(1000)).Whole())
	}
	return out
}

// TestHowLongBlocksAreTried: 100 mm there and back in T by the harmonic law have an
// acceleration of 50*(2 pi/T)². A chord of dt strays from it by a dt²/8, which is to be
// 0.016 mm. In 4 s that is 32.2 ms, and the shares of that are tried; what is quicker
// than a hundredth of a second is a hundredth, and nothing is below 4 ms nor below what
// a line takes on the wire, nor so short that a round has more than 20 000.
func TestHowLongBlocksAreTried(t *testing.T) {
	slow := swinging(t, 96, nil)
	acc := 50 * math.Pow(2*math.Pi/4, 2)
	require.InEpsilon(t, math.Sqrt(8*0.016/acc), usual(slow), 1e-9)
	assert.Equal(t, []int64{32, 28, 39, 23, 48, 16, 64, 11, 97, 8, 145, 225}, millis(newMachine(slow).ladder()))

	quick := swinging(t, 12, func(r *rig.Rig) { r.Axes[0].MaxSpeed, r.Axes[0].MaxAcc = 1e4, 1e5 })
	require.Less(t, usual(quick), slice)
	assert.Equal(t, []int64{10, 9, 12, 7, 15, 5, 20, 4, 30, 45, 70}, millis(newMachine(quick).ladder()), "and what is the same is tried once")

	long := swinging(t, 24*2000, nil)
	got := millis(newMachine(long).ladder())
	assert.Equal(t, int64(500), got[0], "2000 s strays at 16 s, and half a second is the longest")
	assert.Len(t, got, 1)
	longer := swinging(t, 24*6000, nil)
	assert.Equal(t, []int64{1500}, millis(newMachine(longer).ladder()), "but a round of hours has some 4000")
	rail := sample.Rail(t, "harmonic", 100)
	rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar, w.Cycles = exact.Rat{}, 100 })
	hundred := sample.Make(t, 24*400, sample.Bench(rig.InverseTime), rail) // of 4 s each
	assert.Equal(t, []int64{32, 28, 39, 23, 48, 20, 64, 97, 145, 225}, millis(newMachine(hundred).ladder()))
}

// TestHowLongALineTakes: 14 characters and 9 an axis, ten bits each, and a tenth more;
// what the board takes to read it counts where that is longer, and a host that waits for
// each answer takes 16 ms more.
func TestHowLongALineTakes(t *testing.T) {
	tr := swinging(t, 96, nil)
	for _, x := range []struct {
		set  func(m *machine)
		want float64
	}{
		{func(m *machine) { m.link = firmware.Link{Baud: 115200} }, 1.1 * 230 / 115200},
		{func(m *machine) { m.link = firmware.Link{} }, 0},
		{func(m *machine) { m.link, m.board.Line = firmware.Link{Baud: 115200}, firmware.Lasting(0.01) }, 1.1 * 0.01},
		{func(m *machine) {
			m.link, m.axes = firmware.Link{Baud: 9600}, append(m.axes, m.axes[0])
		}, 1.1 * 320 / 9600},
		{func(m *machine) {
			m.link = firmware.Link{Baud: 115200, Single: true, Reply: firmware.Lasting(0.016)}
		}, 1.1 * (230.0/115200 + 0.016)},
		{func(m *machine) { m.link = firmware.Link{Baud: 115200, Reply: firmware.Lasting(0.016)} }, 1.1 * 230 / 115200},
	} {
		m := newMachine(tr)
		x.set(m)
		assert.InDelta(t, x.want, m.lineTime(), 1e-9)
	}
	m := newMachine(tr)
	m.link = firmware.Link{Baud: 2400}
	assert.Equal(t, []int64{105, 145, 225}, millis(m.ladder()), "no block is shorter than its line")
}

// TestARampIsPartOfThePath: where a run-up pushes harder than the round, blocks are as
// short as that wants. From rest to 60 deg/s in T the quickest change of speed pushes
// with more than 60/T, the round with nothing.
func TestARampIsPartOfThePath(t *testing.T) {
	tr := evenly(t, 60, "24")
	a := tr.Plan().Axes[0]
	most := 0.0
	for _, r := range []interface {
		Length() float64
		Peak() float64
	}{a.RunUp, a.RunOut} {
		require.Greater(t, r.Peak(), 60/r.Length())
		most = max(most, r.Peak())
	}
	assert.InEpsilon(t, math.Sqrt(8*0.016/most), usual(tr), 1e-9)
	a.RunUp, a.RunOut = nil, nil
	tr.Plan().Axes[0] = a
	assert.True(t, math.IsInf(usual(tr), 1), "nothing speeds up")
}

// TestWhatAStepPlayerIsForetold: the plan itself.
func TestWhatAStepPlayerIsForetold(t *testing.T) {
	tr := evenly(t, 60, "24")
	ramps := float64(tr.Plan().RunUp+tr.Plan().RunOut) / 24
	p := exactly(tr, 5)
	assert.True(t, p.Exact)
	assert.True(t, p.Follows())
	assert.InDelta(t, ramps+5*6, p.Planned, 1e-12)
	assert.Equal(t, p.Planned, p.Executed)
	assert.Equal(t, []float64{6, 6}, []float64{p.RoundPlanned, p.RoundExecuted})
	assert.Equal(t, []int64{5, 5}, []int64{p.Rounds, p.Ran})
	require.Len(t, p.Axes, 1)
	assert.Equal(t, Deviation{Axis: "table", Unit: "deg", Wanted: 0.2}, p.Axes[0], "two steps of a tenth of a degree")
	assert.Equal(t, 0.05, deviationOf(rig.Axis{StepsPerUnit: exact.Int(80)}).Wanted, "or what a close look shows")
}

// TestWhatMoreRoundsComeTo: each is as late as the last of those that were run.
func TestWhatMoreRoundsComeTo(t *testing.T) {
	p := Prediction{Rounds: 3, Planned: 14, Executed: 14.2, Late: 0.1, RoundPlanned: 4, RoundLate: 0.02, Within: 0.5, Unsure: 0.01}
	q := p.over(8)
	assert.Equal(t, int64(8), q.Rounds)
	assert.InDelta(t, 34, q.Planned, 1e-12)
	assert.InDelta(t, 34.3, q.Executed, 1e-12)
	assert.InDelta(t, 0.2, q.Late, 1e-12)
	assert.InDelta(t, 0.16/0.5, q.drift(), 1e-12, "eight rounds drift by 0.16 s")
	assert.InDelta(t, 0.08/0.5, q.doubt(), 1e-12, "and may be off by 0.08 s")
	assert.InDelta(t, 0.2/0.5+0.16, q.lateness(), 1e-12)
	q.begun = -0.1 // it began early, and so has come further
	assert.InDelta(t, 0.3/0.5+0.16, q.lateness(), 1e-12)
	q.begun = 0.15 // it began late itself, which does not make it better
	assert.InDelta(t, 0.2/0.5+0.16, q.lateness(), 1e-12)
	back := q.over(3)
	assert.InDelta(t, p.Planned, back.Planned, 1e-12)
	assert.InDelta(t, p.Late, back.Late, 1e-12)
	q.Axes = []Deviation{{Worst: 0.01, Wanted: 0.05}, {Worst: -0.04, Wanted: 0.05}, {Worst: 0.05, Wanted: 0.2}}
	assert.InDelta(t, 0.8, q.straying(), 1e-12)
	assert.InDelta(t, 0.8, q.score(), 1e-12)
	q.Axes = nil
	assert.InDelta(t, 0.2/0.5+0.16, q.score(), 1e-12)
	just := Prediction{Rounds: 1, Within: 0.5, Late: 0.5}
	assert.Equal(t, 1.0, just.score())
	assert.True(t, just.Follows(), "what is promised is just kept")
}

// TestWhichFramesAreLookedAt: each of a loop, and of more than 6000 one in so many.
func TestWhichFramesAreLookedAt(t *testing.T) {
	for _, x := range []struct{ frames, looks, stride int64 }{{96, 96, 1}, {6000, 6000, 1}, {6001, 3001, 2}, {15_000, 5000, 3}} {
		tr := swinging(t, x.frames, nil)
		i := idealOf(tr)
		require.Len(t, i.sec, int(x.looks))
		require.Len(t, i.pos, int(x.looks))
		assert.InDelta(t, float64(x.stride)/24, i.sec[1], 1e-12)
		// The harmonic law by its formula: 50 mm from the middle, once round in the loop.
		want := 90 - 50*math.Cos(2*math.Pi*float64(x.stride)/float64(x.frames))
		assert.InDelta(t, want, i.pos[1][0], 1e-9)
	}
}

// TestHowManyRoundsAreRun: three, or of a round of more than 2000 blocks two.
func TestHowManyRoundsAreRun(t *testing.T) {
	few := func(blocks int) int {
		return (&fitting{take: segment.Take{Round: make([]segment.Block, blocks)}}).few()
	}
	assert.Equal(t, []int{3, 3, 2}, []int{few(1), few(2000), few(2001)})
}

// TestHowManyRoundsCanBeCounted: a table of 160 steps a degree that gains 60 a round is
// counted up to 32 768 degrees by 24 bits, two numbers to a step, of a rail that comes
// back any number; the axis that is first at its end counts, and one round always does.
func TestHowManyRoundsCanBeCounted(t *testing.T) {
	m := &machine{
		c:       rig.Controller{SinglePrecision: true},
		axes:    []rig.Axis{{StepsPerUnit: exact.Int(80)}, {StepsPerUnit: exact.Int(160)}, {StepsPerUnit: exact.Int(160)}},
		advance: []exact.Rat{{}, exact.Int(60), {}},
	}
	count := func() [2]int64 {
		n, i := m.countable()
		return [2]int64{n, int64(i)}
	}
	assert.Equal(t, [2]int64{546, 1}, count())
	m.advance[2] = exact.Int(-120)
	assert.Equal(t, [2]int64{273, 2}, count(), "backwards as well")
	m.advance[2] = exact.Int(60)
	assert.Equal(t, [2]int64{546, 1}, count(), "of two the first is named")
	m.advance[1] = exact.Int(100_000)
	assert.Equal(t, [2]int64{1, 1}, count())
	m.c.SinglePrecision = false
	n, _ := m.countable()
	assert.Zero(t, n, "53 bits never run out")
}

// TestTooManyToCountAreRefused: with how many rounds can be counted, or fewer where those
// that can are not on time either, and the axis that wraps; those that can be are not.
func TestTooManyToCountAreRefused(t *testing.T) {
	tr := evenly(t, 20, "24")
	f := fittingOf(t, tr, firmware.Timer{})
	f.turns = fitTurns
	_, err := f.fit(idealOf(tr), new(int))
	require.NoError(t, err)
	f.m.c.SinglePrecision = true // 10 steps a degree: up to 524 288, 360 a round
	sought := func(reaches bool, ran int64) *search {
		return &search{m: f.m, rounds: 24, ideal: idealOf(tr), fitting: *f, reaches: reaches,
			best: Prediction{Rounds: 10_000, Ran: ran, Countable: 1456}}
	}
	says := func(s *search) string {
		told, ok := s.worn()
		require.True(t, ok)
		require.Equal(t, "table", told.Axis)
		return told.String()
	}
	const anew = "the controller begins to count anew when it is started anew"
	assert.Contains(t, says(sought(true, 24)), "rounds 10000 count further up than numbers of 24 bits tell steps well apart; takes of 1456 rounds would do; "+anew)
	assert.Contains(t, says(sought(false, 24)), "takes of 12 rounds would do; "+anew)
	none := says(sought(false, 0))
	assert.Contains(t, none, anew)
	assert.NotContains(t, none, "would do")
	few := sought(true, 24)
	few.best.Rounds = 1456
	told, ok := few.worn()
	assert.False(t, ok)
	assert.Zero(t, told)
}
