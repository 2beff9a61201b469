package ontime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
)

// fittingOf is a take of tr in blocks of a fiftieth of a second at most, on a board whose
// timer is as it is set.
func fittingOf(t *testing.T, tr *trajectory.Trajectory, timer firmware.Timer) *fitting {
	m := newMachine(tr)
	m.board.Timer = timer
	k, ok := m.cut(way{longest: exact.New(1, 50)})
	require.True(t, ok)
	return &fitting{m: m, turns: 1, take: k, scale: 1, extra: extraOf(k)}
}

// TestRoundsFollowOnRounds: a table that turns evenly does so through the seam: its first
// block follows on its last, and is told neither more nor less than it takes. Were the
// ring no ring it would leave from rest in every round.
func TestRoundsFollowOnRounds(t *testing.T) {
	f := fittingOf(t, evenly(t, 60, "24"), firmware.Timer{})
	f.solve()
	for i, b := range f.take.Round {
		assert.InEpsilon(t, b.Seconds.Float(), b.Nominal.Float(), 1e-5, "block %d of %d", i, len(f.take.Round))
	}
	f.scale = 1.01 // a round that is to take a hundredth longer, and its ramps not
	was := sum(f.take.RunUp)
	f.solve()
	for _, b := range f.take.Round {
		assert.InEpsilon(t, 1.01*b.Seconds.Float(), b.Nominal.Float(), 1e-5)
	}
	assert.InEpsilon(t, was, sum(f.take.RunUp), 0.01)
	f.scale = 1
	f.extra.round[7] = 0.001
	f.solve()
	assert.InEpsilon(t, f.take.Round[7].Seconds.Float()+0.001, f.take.Round[7].Nominal.Float(), 2e-3, "what one is to take longer")
	assert.InEpsilon(t, f.take.Round[20].Seconds.Float(), f.take.Round[20].Nominal.Float(), 1e-5, "the others are not")
}

func sum(blocks []segment.Block) float64 {
	all := 0.0
	for _, b := range blocks {
		all += b.Nominal.Float()
	}
	return all
}

// TestRampsReachTheRound: each block of a run-up takes its time between the slower one
// before and the faster one after, the last between itself and the first of the round;
// the first of a run-out follows on the last of the round.
func TestRampsReachTheRound(t *testing.T) {
	tr := evenly(t, 60, "24")
	f := fittingOf(t, tr, firmware.Timer{})
	f.solve()
	// A block of dt at a mean speed v is told v's own time, less what slowing down or
	// speeding up costs it: no more than its neighbours differ by.
	for name, blocks := range map[string][]segment.Block{"run-up": f.take.RunUp, "run-out": f.take.RunOut} {
		require.NotEmpty(t, blocks)
		for i, b := range blocks {
			if b.Rest {
				continue
			}
			assert.LessOrEqual(t, b.Nominal.Float(), b.Seconds.Float()*(1+1e-6), "%s, block %d", name, i)
			assert.Greater(t, b.Nominal.Float(), 0.4*b.Seconds.Float(), "%s, block %d", name, i)
		}
	}
	// Run through, they are as long as planned, and the round begins in time.
	w, err := f.m.run(f.take, 3, idealOf(tr))
	require.NoError(t, err)
	p := w.prediction(3)
	assert.InDelta(t, 0, p.begun, slice)
	assert.InDelta(t, p.Planned, p.Executed, 0.012)
	assert.InDelta(t, 0, p.RoundLate, 1e-4)
}

// TestWholeTicksDoNotAddUp: blocks of one speed last whole ticks each, a little too short
// or too long by turns, so that all of them together are never off by more than what one
// tick makes of a block.
func TestWholeTicksDoNotAddUp(t *testing.T) {
	for _, speed := range []float64{60, 47.3, 91.7, 12.9} {
		timer := firmware.SixteenBit(16e6)
		f := fittingOf(t, evenly(t, speed, "24"), timer)
		f.solve()
		owed := 0.0
		previous := 0.0
		for i, b := range f.take.Round {
			if !f.even[&f.take.Round[i]] {
				previous = b.End[0]
				continue
			}
			events := math.Round(math.Abs(b.End[0]-previous) * 10)
			previous = b.End[0]
			if i == 0 || events == 0 {
				continue
			}
			// The board counts the whole ticks above, shared out among as many interrupts
			// as make a step, each a tick longer.
			stair := timer.Stair(b.Seconds.Float()/events) * 16e6
			got := (math.Floor(math.Ceil(b.Nominal.Float()/events*16e6)/stair) + 1) * stair / 16e6
			owed += got*events - b.Seconds.Float()
			assert.LessOrEqual(t, math.Abs(owed), timer.Stair(b.Seconds.Float()/events)*events+1e-9, "%g deg/s, block %d", speed, i)
		}
		assert.Greater(t, len(f.even), len(f.take.Round)/2, "most blocks are at one speed")
	}
	f := fittingOf(t, evenly(t, 60, "24"), firmware.Timer{})
	f.solve()
	assert.Empty(t, f.even, "a timer that is exact needs none of that")
}

// TestACopyIsItsOwn: what is tried on a copy leaves what it was made of alone.
func TestACopyIsItsOwn(t *testing.T) {
	f := fittingOf(t, evenly(t, 60, "24"), firmware.Timer{})
	f.solve()
	was := f.take.Round[3].Nominal
	c := f.copy()
	c.extra.round[3], c.extra.up[0], c.extra.out[0], c.extra.level = 5, 5, 5, 5
	for _, list := range [][]segment.Block{c.take.Round, c.take.RunUp, c.take.RunOut} {
		list[0].Nominal, list[len(list)-1].Nominal = exact.Int(9), exact.Int(9)
	}
	c.take.Round[3].Nominal = exact.Int(9)
	assert.Zero(t, f.extra.round[3]+f.extra.up[0]+f.extra.out[0]+f.extra.level)
	assert.True(t, f.take.Round[3].Nominal.Equal(was))
	assert.NotEqual(t, "9", f.take.RunUp[0].Nominal.String())
	assert.NotEqual(t, "9", f.take.RunOut[0].Nominal.String())
}

// TestAWayThatCannotBeCut leaves the best so far, and says why: a table that turns evenly
// has no ends of moves to stand through.
func TestAWayThatCannotBeCut(t *testing.T) {
	tr := evenly(t, 60, "24")
	f := fittingOf(t, tr, firmware.Timer{})
	best := Prediction{Rounds: 3, Within: 0.001, Late: 0.5, Blocks: 7}
	s := &search{m: f.m, rounds: 3, ideal: idealOf(tr), most: maxWork, found: true, fitting: *f, best: best}
	assert.False(t, s.try(way{longest: exact.New(1, 50), quiet: true}))
	assert.ErrorIs(t, s.err, errNoRoom)
	assert.Equal(t, best, s.best)
	assert.Zero(t, s.work)
	// One that can is kept where it is better, and does not end the search where it is
	// beyond what is promised.
	assert.False(t, s.try(way{longest: exact.New(1, 50)}))
	assert.Less(t, s.best.score(), best.score())
	assert.Greater(t, s.best.score(), 1.0)
	assert.InDelta(t, 0.02, s.best.Longest, 1e-12)
	assert.Positive(t, s.work)
	// What is worse is not, but the search ends where it has run as much as it may.
	kept := s.best
	s.most = 0
	assert.True(t, s.try(way{longest: exact.New(1, 2)}))
	assert.LessOrEqual(t, s.best.score(), kept.score())
}

// TestWaysToCut: by blocks alone, and with even ramps where there are any; each dwell in a
// grain more where rests last in grains; ends that are stood through where the board has a
// slowest pace.
func TestWaysToCut(t *testing.T) {
	sec := exact.New(1, 50)
	still := &search{m: newMachine(swinging(t, 96, nil))}
	assert.Equal(t, []way{{longest: sec}}, still.ways(sec))
	turning := &search{m: newMachine(evenly(t, 60, "24"))}
	assert.Equal(t, []way{{longest: sec}, {longest: sec, even: true}}, turning.ways(sec))
	still.m.slowest = 1e-9
	assert.Equal(t, []way{{longest: sec}, {longest: sec, quiet: true}, {longest: sec, quiet: true, long: true}}, still.ways(sec))
	still.m.slowest = 1e9 // nothing is as quick as that: it steps and stands throughout
	assert.Equal(t, []way{{longest: sec, tread: true}}, still.ways(sec))
	turning.m.slowest = 1e9
	assert.Equal(t, []way{{longest: sec, tread: true}, {longest: sec, even: true, tread: true}}, turning.ways(sec))
	resting := &search{m: newMachine(sample.Still(t))}
	resting.m.c.DwellGrain = 0.05
	assert.Equal(t, []way{{longest: sec}, {longest: sec, long: true}}, resting.ways(sec))
	resting.m.c.DwellGrain = 0
	assert.Equal(t, []way{{longest: sec}}, resting.ways(sec))
}

// However late rounds are said to be, no block is aimed to last longer or shorter than learning
// would have it.
func TestNudgesAreBounded(t *testing.T) {
	f := fittingOf(t, evenly(t, 60, "24"), firmware.Timer{})
	for turn := range 200 {
		f.nudge(turn, []float64{1e3, -1e3, 1e-4}[turn%3])
		for b, more := range f.extra.round {
			assert.LessOrEqual(t, math.Abs(more), maxExtra*f.take.Round[b].Seconds.Float()*(1+1e-12))
		}
	}
}
