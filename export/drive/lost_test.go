package drive_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// listener notes when each ok was heard, and since when the run is a take.
type listener struct {
	*virtual.World
	rig    *virtual.Rig
	oks    []time.Duration
	before int // oks before the take
	line   []byte
}

func (l *listener) Wait(until time.Time) drive.Event {
	e := l.World.Wait(until)
	if e.Kind == drive.Heard {
		for _, c := range e.Bytes {
			switch {
			case c != '\n' && c != '\r':
				l.line = append(l.line, c)
			case string(l.line) == "ok":
				l.oks = append(l.oks, l.rig.Now())
				fallthrough
			default:
				l.line = l.line[:0]
			}
		}
	}
	return e
}

// noticeWithin is how soon after it was due a lost answer must be noticed.
const noticeWithin = 500 * time.Millisecond

// An answer that is lost, the first of a take, one in the middle or one of the
// last, is noticed within half a second of when it should have been heard, on
// fast and on slow wires, where others come after it and where none does.
func TestLostAnswersAreNoticed(t *testing.T) {
	many.Long(t)
	worst := time.Duration(0)
	for _, b := range []board{
		{kind: rig.Buffered, baud: 115200, work: 300e-6},
		{kind: rig.Buffered, baud: 115200, work: 1e-3, idle: 0.025, grain: 0.05, clocks: 0.003},
		{kind: rig.Buffered, baud: 9600, work: 300e-6},
		{kind: rig.Buffered, baud: 9600, work: 1e-3, idle: 0.025, grain: 0.05, clocks: -0.003},
		{kind: rig.Lockstep, baud: 115200, work: 300e-6},
		{kind: rig.Lockstep, baud: 115200, work: 300e-6, clocks: 0.003},
	} {
		run := b.plan(t, 48, 3)
		healthy := hear(run(), b, 0)
		require.NoError(t, healthy.result.Err(), "%v", b)
		first, last := healthy.before+1, healthy.ends
		for _, n := range losses(first, last) {
			lost := hear(run(), b, int64(n))
			name := fmt.Sprintf("%v: ok %d of %d to %d", b, n, first, last)
			require.Error(t, lost.result.Err(), name)
			require.Contains(t, []drive.End{drive.Unmatched, drive.Silent}, lost.result.End, "%s: %s", name, lost.result.Detail)
			took := lost.noticed - healthy.oks[n-1]
			assert.LessOrEqual(t, took, noticeWithin, "%s: %s", name, lost.result.Detail)
			worst = max(worst, took)
		}
	}
	t.Logf("noticed at worst after %v", worst)
}

// losses are the first ones, some in the middle, and the last.
func losses(first, last int) (out []int) {
	for n := first; n <= last; n++ {
		if n < first+12 || n > last-12 || n%17 == 0 {
			out = append(out, n)
		}
	}
	return out
}

// hearing is a run of which each answer was noted.
type hearing struct {
	*listener
	result  drive.Result
	ends    int           // oks up to the end of the take
	noticed time.Duration // when the engine began to stop
}

// hear runs a take of three rounds in which the nth ok is lost, or none.
func hear(m *machine, b board, nth int64) *hearing {
	h := &hearing{}
	o := virtual.Of(m.options.Trajectory.Rig())
	o.ClockError, o.LineSeconds = b.clocks, b.work
	if nth > 0 {
		o.Faults = []virtual.Fault{{Kind: virtual.LoseOK, Nth: nth}}
	}
	m.rig = virtual.New(o)
	m.world = virtual.NewWorld(m.rig)
	h.listener = &listener{World: m.world, rig: m.rig}
	m.w.entered = func(s drive.State) {
		switch s {
		case drive.Running:
			h.before = len(h.oks)
		case drive.Draining:
			h.noticed = m.rig.Now()
		}
	}
	m.w.passed = func() { h.ends = len(h.oks) }
	w := &holding{listener: h.listener, h: h}
	h.result = drive.Run(w, m.options)
	return h
}

// holding notes the hold byte.
type holding struct {
	*listener
	h *hearing
}

func (w *holding) Write(p []byte) (int, error) {
	if len(p) > 0 && p[0] == '!' && w.h.noticed == 0 {
		w.h.noticed = w.rig.Now()
	}
	return w.listener.Write(p)
}

// dwells tells whether a program rests within the take.
func dwells(s drive.Source, rounds int64) bool {
	s.FinishAfter(rounds)
	for l, ok := s.Next(); ok; l, ok = s.Next() {
		if l.Round > program.Setup && !l.Moves && l.Start < l.End {
			return true
		}
	}
	return false
}

// No healthy take is ended: fast or slow, one line one answer, with rests of
// seconds, whatever the board needs for a line, for its motors to settle and for a
// second of its own.
func TestHealthyTakesRunThrough(t *testing.T) {
	ends := map[drive.End]int{}
	many.Check(t, 30, func(rt *rapid.T) {
		kind := rapid.SampledFrom([]rig.ControllerKind{rig.Buffered, rig.Buffered, rig.Lockstep}).Draw(rt, "kind")
		rail := sample.Rail(t, rapid.SampledFrom([]string{"cycloidal", "3-4-5", "harmonic"}).Draw(rt, "law"), int64(rapid.IntRange(1, 100).Draw(rt, "mm")))
		frames := int64(rapid.IntRange(24, 240).Draw(rt, "frames"))
		rests := rapid.IntRange(0, 60).Draw(rt, "rest, % of the loop")
		rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar = exact.New(int64(rests)*frames, 2400) })
		r := bench(kind)
		c := &r.Controller
		c.Greeting, c.DwellGrain = "", 0
		c.Baud = rapid.SampledFrom([]int{9600, 57600, 115200, 1_000_000}).Draw(rt, "baud")
		c.IdleDelay, c.IdleStated = rapid.SampledFrom([]float64{0, 0.025}).Draw(rt, "idle"), true
		if c.Baud < 57600 && kind == rig.Lockstep {
			return
		}
		tr := sample.Make(t, frames, r, rail)
		rounds := int64(rapid.IntRange(1, 6).Draw(rt, "rounds"))
		var take segment.Take
		var err error
		if c.Baud < 57600 {
			take, err = segment.EqualTime{Seconds: exact.New(2, 10)}.Cut(tr)
		} else {
			var chosen ontime.Chosen
			chosen, err = ontime.Choose(tr, rounds)
			take = chosen.Take
			if err == nil && !chosen.Expected.Follows() {
				return // it is told so before anything moves
			}
		}
		require.NoError(rt, err)
		source := func() drive.Source { return program.New(tr, take) }
		m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) {
			o.ClockError = rapid.Float64Range(-0.005, 0.005).Draw(rt, "clock")
			o.LineSeconds = rapid.Float64Range(0, 1.5e-3).Draw(rt, "line")
			if rapid.Bool().Draw(rt, "16 bits") {
				o.Timer = virtual.SixteenMHz
			}
		})
		res := m.run()
		ends[res.End]++
		if res.End == drive.Behind { // it could not follow: told by what it did, not by what it did not say
			return
		}
		p, truth := m.w.passes[0], m.took()
		if res.End == drive.NotPlan { // it could not keep to it, or its timer counts no slower than so
			require.Greater(rt, math.Abs(truth-p.Planned), min(0.25, 0.05+p.Planned/10)-took, "%s", res.Detail)
			return
		}
		require.NoError(rt, res.Err(), "%v", m.w.said)
		if !dwells(source(), rounds) { // else it is longer than from step to step
			require.InDelta(rt, truth, p.Executed, p.Uncertainty+took, "as long as it is measured to be")
		}
	})
	t.Logf("ends: %v", ends)
	require.Greater(t, ends[drive.Finished], many.Times(9, 30), "most can be followed")
}

// A line that has waited behind others is in work only since the answer before it. A
// board that needs 1.5 ms for a line and has room is met with one in work by one report
// after another, as here, where what went before was answered a moment ago.
func TestALineIsInWorkSinceTheAnswerBeforeIt(t *testing.T) {
	r := bench(rig.Buffered)
	r.Controller.Greeting, r.Controller.DwellGrain, r.Controller.Baud = "", 0, 57600
	r.Controller.IdleDelay, r.Controller.IdleStated = 0, true
	tr := sample.Make(t, 92, r, sample.Ways(sample.Rail(t, "cycloidal", 1), func(w *move.Ways) { w.DwellFar = exact.Rat{} }))
	chosen, err := ontime.Choose(tr, 2)
	require.NoError(t, err)
	m := onVirtualWith(t, tr, 2, func() drive.Source { return program.New(tr, chosen.Take) }, func(o *virtual.Options) {
		o.ClockError, o.LineSeconds = 3.0517578125e-05, 1.5e-3
	})
	res := m.run()
	require.NoError(t, res.Err())
}
