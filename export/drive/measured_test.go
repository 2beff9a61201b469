package drive_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// measureClose is how near the measured length of a pass must come, in s,
// besides being as near as it says itself.
const measureClose = 2e-3

// board is a board and the wire to it.
type board struct {
	kind                rig.ControllerKind
	baud                int
	grain, idle, clocks float64
	work                float64 // s for a line
	timer               virtual.Timer
}

func (b board) String() string {
	return fmt.Sprintf("%v %d baud, grain %g, idle %g, clock %g, line %g", b.kind, b.baud, b.grain, b.idle, b.clocks, b.work)
}

// on sets up a run on the board, by blocks that a slow wire can follow.
func (b board) on(t testing.TB, frames, rounds int64) *machine {
	return b.plan(t, frames, rounds)()
}

// plan makes a plan for the board, of which each run can be set up.
func (b board) plan(t testing.TB, frames, rounds int64) func() *machine {
	tr := smooth(t, b.kind, frames)
	c := &tr.Plan().Rig.Controller
	c.Baud, c.DwellGrain, c.IdleDelay, c.IdleStated = b.baud, b.grain, b.idle, true
	take := b.cut(t, tr, rounds)
	source := func() drive.Source { return program.New(tr, take) }
	return func() *machine {
		return onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) {
			o.ClockError, o.LineSeconds, o.Timer = b.clocks, b.work, b.timer
		})
	}
}

// cut takes blocks of a thirtieth of a round where the wire is slow: what is
// measured need not be on time.
func (b board) cut(t testing.TB, tr *trajectory.Trajectory, rounds int64) segment.Take {
	if b.baud >= 57600 {
		return chosen(t, tr, rounds)
	}
	take, err := segment.Cut(tr, tr.Period().Mul(exact.New(1, 30)))
	require.NoError(t, err)
	return take
}

// took returns how long the last pass truly lasted: from its first step interval
// to its last.
func (m *machine) took() float64 {
	begins, ends := m.span()
	return ends - begins
}

// A pass is measured to 2 ms, and to what the measure says itself, whatever the
// speed of the wire, the grain of dwells, the idle delay, the clock and the time
// that the board needs for a line.
func TestPassesAreMeasured(t *testing.T) {
	many.Long(t)
	worst, widest := 0.0, 0.0
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		for _, baud := range []int{9600, 19200, 57600, 115200, 250000, 1_000_000} {
			for _, grain := range []float64{0, 0.05} {
				for _, idle := range []float64{0, 0.025, 0.25} {
					for _, work := range []float64{0, 300e-6, 1e-3} {
						b := board{kind: kind, baud: baud, grain: grain, idle: idle, work: work, clocks: 0.002, timer: virtual.SixteenMHz}
						if kind == rig.Lockstep && baud < 57600 {
							continue // it cannot follow, and is told so
						}
						m := b.on(t, 96, 2)
						require.NoError(t, m.run().Err(), "%v: %v", b, m.w.said)
						p, truth := m.w.passes[0], m.took()
						off := math.Abs(p.Executed - truth)
						t.Logf("%v: %.6f s, measured %.6f, off %.3f ms of %.3f", b, truth, p.Executed, (p.Executed-truth)*1e3, p.Uncertainty*1e3)
						assert.LessOrEqual(t, off, p.Uncertainty, "%v", b)
						assert.LessOrEqual(t, off, measureClose, "%v", b)
						worst, widest = max(worst, off), max(widest, p.Uncertainty)
						end := m.read().Takes[0].End
						require.Equal(t, p.Executed, end.Executed)
						require.Equal(t, p.Uncertainty, end.Uncertainty)
					}
				}
			}
		}
	}
	t.Logf("at worst %.3f ms out, and %.3f ms in doubt", worst*1e3, widest*1e3)
}

// A take that ends in a rest is over when the rest is, and one that begins with a
// rest begins with it. A rest is as long as its dwell is told to be, and the idle
// delay, which the program takes off the dwell: together they are the rest of the
// plan.
func TestRestsAreMeasured(t *testing.T) {
	const rest, rounds = 0.2, 3
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		for _, idle := range []float64{0, 0.025} {
			m := sample.Rail(t, "cycloidal", 80)
			m = sample.Ways(m, func(w *move.Ways) { w.DwellFar, w.DwellNear = exact.Int(0), exact.New(1, 5) })
			tr := sample.Make(t, 96, bench(kind), m)
			c := &tr.Plan().Rig.Controller
			c.Greeting, c.DwellGrain, c.IdleDelay, c.IdleStated = "", 0, idle, true
			v := onVirtual(t, tr, rounds, nil)
			first, last := v.ends(rounds)
			require.NoError(t, v.run().Err(), "%v", v.w.said)
			stands := 0.0
			for _, l := range []program.Line{first, last} {
				if !l.Moves {
					stands += dwellOf(t, l) + idle
				}
			}
			if kind == rig.Buffered { // the other spreads its last steps over the rest
				require.InDelta(t, rest, stands, toldClose, "it rests at one end")
			}
			truth := v.took() + stands
			p := v.w.passes[0]
			off := math.Abs(p.Executed - truth)
			t.Logf("%v, idle %g: %.6f s, measured %.6f, off %.3f ms of %.3f", kind, idle, truth, p.Executed, (p.Executed-truth)*1e3, p.Uncertainty*1e3)
			require.LessOrEqual(t, off, p.Uncertainty)
			require.LessOrEqual(t, off, measureClose)
			require.InDelta(t, p.Planned, truth, toldClose, "as planned")
		}
	}
}

// toldClose is by how much less than its rest a dwell is told, in s, to make up for
// what the controller is late by.
const toldClose = 1e-3

// ends returns the first and the last line of the take that lets time pass.
func (m *machine) ends(rounds int64) (first, last program.Line) {
	lines := m.options.Source()
	lines.FinishAfter(rounds)
	for l, ok := lines.Next(); ok; l, ok = lines.Next() {
		if l.Round == program.Setup || l.Start >= l.End {
			continue
		}
		if first.Text == "" {
			first = l
		}
		last = l
	}
	return first, last
}

// dwellOf is how long a line is told to dwell.
func dwellOf(t testing.TB, l program.Line) float64 {
	sec, err := strconv.ParseFloat(strings.TrimPrefix(l.Text, "G4 P"), 64)
	require.NoError(t, err, l.Text)
	return sec
}

// A player of steps is measured as near.
func TestPlayersAreMeasured(t *testing.T) {
	for _, baud := range []int{57600, 115200, 1_000_000} {
		tr := smooth(t, rig.StepPlayer, 96)
		tr.Plan().Rig.Controller.Baud = baud
		m := onVirtual(t, tr, 2, func(o *virtual.Options) { o.ClockError = 0.002 })
		require.NoError(t, m.run().Err())
		p, truth := m.w.passes[0], m.took()
		t.Logf("%d baud: %.6f s, measured %.6f, off %.3f ms of %.3f", baud, truth, p.Executed, (p.Executed-truth)*1e3, p.Uncertainty*1e3)
		require.InDelta(t, truth, p.Executed, min(p.Uncertainty, measureClose)+tick)
	}
}

// tick is how far the first and the last step may be within the ticks of the rows
// they are in, in s.
const tick = 1e-3
