package drive_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// machine is a run on the rig of software, which plans its motion itself.
type machine struct {
	*scene
	rig   *virtual.Rig
	world *virtual.World
}

// onVirtual sets up a run of a trajectory. Requests are asked of the world, or
// by the witness' script when a state is entered.
func onVirtual(t testing.TB, tr *trajectory.Trajectory, rounds int64, change func(o *virtual.Options)) *machine {
	var source func() drive.Source
	if tr.Rig().Controller.Kind != rig.StepPlayer {
		take := chosen(t, tr, rounds)
		source = func() drive.Source { return program.New(tr, take) }
	}
	return onVirtualWith(t, tr, rounds, source, change)
}

func onVirtualWith(t testing.TB, tr *trajectory.Trajectory, rounds int64, source func() drive.Source, change func(o *virtual.Options)) *machine {
	o := virtual.Of(tr.Rig())
	if change != nil {
		change(&o)
	}
	m := &machine{rig: virtual.New(o), scene: &scene{t: t, log: &paper{}, w: &witness{}}}
	m.world = virtual.NewWorld(m.rig)
	m.w.ask = func(after time.Duration, r drive.Request) {
		m.world.Ask(virtual.Asking{At: m.rig.Now() + after, Request: r})
	}
	m.options = drive.Options{
		Trajectory: tr, Source: source, Observer: m.w, Log: takelog.NewWriter(m.log, nil), Shot: tr.Plan().ShotFile, Plan: tr.Plan().Hash(),
		Rounds: rounds, Takes: 1, Settle: drive.ByHand, Unlock: true, Confirmed: true,
	}
	return m
}

// chosen is the take that suits the controller.
func chosen(t testing.TB, tr *trajectory.Trajectory, rounds int64) segment.Take {
	if tr.Rig().Controller.Kind == rig.Buffered {
		return followed(t, tr, rounds).Take
	}
	c, err := ontime.Choose(tr, rounds)
	require.NoError(t, err)
	return c.Take
}

// followed is the take that suits the controller, and what it makes of it; it can
// follow.
func followed(t testing.TB, tr *trajectory.Trajectory, rounds int64) ontime.Chosen {
	c, err := ontime.Choose(tr, rounds)
	require.NoError(t, err)
	require.Empty(t, c.Expected.Faults, "the controller can follow: %+v", c.Expected)
	return c
}

func (m *machine) run() drive.Result { return drive.Run(m.world, m.options) }

// barely is a plan that a controller keeps to which stands still, as far as its
// reports tell.
func barely(t testing.TB) *trajectory.Trajectory {
	m := sample.Rail(t, "cycloidal", 1)
	m = sample.Ways(m, func(w *move.Ways) {
		w.DwellFar, w.To = exact.Int(0), unit.Quantity{Value: exact.New(401, 10), Dim: unit.Length}
	})
	tr := sample.Make(t, 96, bench(rig.Buffered), m)
	tr.Plan().Rig.Controller.Greeting = ""
	return tr
}

// smooth is a loop of so many frames without a dwell: the rail, 100 mm there
// and back.
func smooth(t testing.TB, kind rig.ControllerKind, frames int64) *trajectory.Trajectory {
	m := sample.Rail(t, "cycloidal", 100)
	m = sample.Ways(m, func(w *move.Ways) { w.DwellFar = exact.Int(0) })
	tr := sample.Make(t, frames, bench(kind), m)
	tr.Plan().Rig.Controller.Greeting = ""
	return tr
}

// span returns when the motion of the last pass began and ended, in s since
// the board was powered.
func (m *machine) span() (begins, ends float64) {
	rec := m.rig.Record()
	at := m.w.passes[0].Began.Sub(virtual.Epoch).Seconds()
	until := m.w.passes[0].Ended.Sub(virtual.Epoch).Seconds()
	begins = math.Inf(1)
	for i := range rec.Len() {
		if s := rec.Span(i); s.Start >= at && s.Start < until {
			begins, ends = min(begins, s.Start), s.End
		}
	}
	return begins, ends
}

// worst returns how far the rail is from its path at the worst captured frame
// of so many rounds.
func (m *machine) worst(rounds int64, begins float64) float64 {
	return m.worstFrom(rounds, begins, m.shift())
}

func (m *machine) worstFrom(rounds int64, begins, shift float64) float64 {
	tr := m.options.Trajectory
	off := 0.0
	for k := range tr.Captured() * rounds {
		f := tr.Frame(k)
		got := m.rig.Record().At(begins + f.Seconds.Float())[0]
		off = max(off, math.Abs(got-f.States[0].Pos+shift))
	}
	return off
}

// shift is from where the board counts to where the rail is. One that reads
// words counts from where it was powered, which was the start; a step player
// has been told where that is.
func (m *machine) shift() float64 {
	tr := m.options.Trajectory
	if tr.Rig().Controller.Kind == rig.StepPlayer {
		return 0
	}
	return tr.TakeState(0, 1, 0).Pos
}

// Each kind runs a take on time, and every captured frame shows the rail where
// it should be.
func TestVirtualTakes(t *testing.T) {
	const rounds = 3
	for kind, allowed := range map[rig.ControllerKind]float64{
		rig.Buffered: 0.05,
		// It begins on a single line, and is 0.6 ms late with it.
		rig.Lockstep:   0.1,
		rig.StepPlayer: 0.05,
	} {
		t.Run(kind.String(), func(t *testing.T) {
			m := onVirtual(t, smooth(t, kind, 96), rounds, nil)
			r := m.run()
			require.NoError(t, r.Err(), "%v", m.w.said)
			require.True(t, r.Known)
			pass := m.w.passes[0]
			begins, ends := m.span()
			require.InDelta(t, pass.Planned, ends-begins, 0.001, "first step to last")
			require.InDelta(t, pass.Planned, pass.Executed, 0.001, "as measured")
			require.Less(t, m.worst(rounds, begins), allowed, "mm, at every captured frame")
			require.Zero(t, m.rig.Stats().Lost)
			if kind == rig.Buffered {
				require.Zero(t, m.rig.Stats().Underruns)
			}
		})
	}
}

// turning is smooth with a table of 160 steps a degree that turns a tenth of itself
// in a loop.
func turning(t testing.TB, frames int64) *trajectory.Trajectory {
	m, table := sample.Rail(t, "cycloidal", 100), sample.Table(t)
	m = sample.Ways(m, func(w *move.Ways) { w.DwellFar = exact.Int(0) })
	table = sample.Turning(table, exact.New(1, 10))
	b := bench(rig.Buffered)
	b.Axes[1].StepsPerUnit = exact.Int(160)
	b.Controller.Greeting = ""
	return sample.Make(t, frames, b, m, table)
}

// Loops go on for an hour without a gap: no underrun, no byte lost, and the last
// round ends within a millisecond of its time.
func TestVirtualHour(t *testing.T) {
	if testing.Short() {
		t.Skip("an hour on the virtual clock takes a second or two")
	}
	const rounds = 900
	tr := turning(t, 96)
	take := followed(t, tr, rounds)
	m := onVirtualWith(t, tr, rounds, func() drive.Source { return program.New(tr, take.Take) }, nil)
	r := m.run()
	require.NoError(t, r.Err())
	pass, p := m.w.passes[0], tr.Plan()
	up, out := p.Loop.Clock.FrameTime(p.RunUp).Float(), p.Loop.Clock.FrameTime(p.RunOut).Float()
	require.Equal(t, up+3600+out, pass.Planned)
	begins, ends := m.span()
	t.Logf("%.6f s, measured %.6f +/- %.6f", ends-begins, pass.Executed, pass.Uncertainty)
	require.InDelta(t, pass.Planned, ends-begins, 0.001, "first step to last, after 900 rounds")
	require.InDelta(t, ends-begins, pass.Executed, min(pass.Uncertainty, measureClose))
	require.Zero(t, m.rig.Stats().Underruns)
	require.Zero(t, m.rig.Stats().Lost)
	begun := ends - take.Expected.Executed
	require.InDelta(t, begins, begun, timerRound)
	// Where the last rounds are early or late, the rail is off by that at its speed.
	drift := math.Abs(ends-begun-pass.Planned) * math.Abs(p.Axes[0].Extremes.Speed.Value)
	require.Less(t, m.worst(rounds, begun+up), ontime.PromisedDistance+modelStep/tr.Axis(0).StepsPerUnit.Float()+drift)
}

// idle is a program of lines that a controller reads and that move nothing:
// what limits them is the wire.
type idle struct {
	left int
	sec  float64
}

func (s *idle) Next() (program.Line, bool) {
	s.left--
	s.sec++ // far from being late
	l := program.Line{Text: "G1 X40.000 F3017.143", Start: s.sec, End: s.sec, Moves: true}
	if s.left <= 0 {
		l = program.Line{Text: "M2", Round: 1}
	}
	return l, s.left >= 0
}
func (s *idle) Err() error        { return nil }
func (s *idle) FinishAfter(int64) {}

// Where the wire is the bottleneck, it carries over 95 % of what it can.
func TestVirtualLineRate(t *testing.T) {
	tr := barely(t)
	const lines = 20_000
	m := onVirtualWith(t, tr, 1, func() drive.Source { return &idle{left: lines} }, nil)
	start, from, share := time.Duration(0), 0.0, 0.0
	m.w.entered = func(s drive.State) {
		if s == drive.Running {
			start, from = m.rig.Now(), m.rig.Stats().BusySeconds
		}
	}
	m.w.watch = func() {
		if took := (m.rig.Now() - start).Seconds(); share == 0 && took > 20 {
			share = (m.rig.Stats().BusySeconds - from) / took
		}
	}
	r := m.run()
	t.Logf("%.4f of the wire; %v", share, r)
	require.Greater(t, share, 0.95)
	require.Zero(t, m.rig.Stats().Lost)
}

// A stop key reaches the wire within 20 ms under full streaming, at any moment.
func TestVirtualStopKey(t *testing.T) {
	tr := smooth(t, rig.Buffered, 96)
	take := chosen(t, tr, 3)
	source := func() drive.Source { return program.New(tr, take) }
	worst := time.Duration(0)
	for n := range 60 {
		m := onVirtualWith(t, tr, 3, source, nil)
		key := 5*time.Second + time.Duration(n)*61_237*time.Microsecond
		if n%2 == 1 { // the wire is as full as it gets
			m = onVirtualWith(t, barely(t), 3, func() drive.Source { return &idle{left: 20_000} }, nil)
		}
		m.world.Ask(virtual.Asking{At: key, Request: drive.Request{Kind: drive.Quit}})
		spy := &spy{World: m.world, rig: m.rig}
		r := drive.Run(spy, m.options)
		require.Equal(t, drive.Stopped, r.End, r.Detail)
		require.True(t, r.Known)
		require.NotZero(t, spy.hold)
		worst = max(worst, spy.hold-key)
	}
	t.Logf("worst %v", worst)
	require.Less(t, worst, 20*time.Millisecond)
}

// spy notes when the hold byte was put on the wire.
type spy struct {
	drive.World
	rig  *virtual.Rig
	hold time.Duration
}

func (s *spy) Write(p []byte) (int, error) {
	n, err := s.World.Write(p)
	if s.hold == 0 && n > 0 && p[0] == '!' {
		// It follows what is on the wire already.
		waiting := s.rig.Stats().Written - s.rig.Stats().Received
		s.hold = s.rig.Now() + time.Duration(waiting)*10*time.Second/115200
	}
	return n, err
}

// A board that is locked until it has homed is homed, and taken to its start
// from there.
func TestVirtualHomes(t *testing.T) {
	m := onVirtual(t, smooth(t, rig.Buffered, 96), 1, func(o *virtual.Options) {
		require.True(t, o.StartsLocked)
		o.Axes[0].Place = 200
	})
	m.options.Settle = drive.ByHoming
	r := m.run()
	require.NoError(t, r.Err(), "%v", m.w.said)
	require.Contains(t, m.w.states, drive.Homing)
	begins, _ := m.span()
	require.Less(t, m.worstFrom(1, begins, 0), 0.05, "it counts from its home now")
}

// A report that was asked for before homing tells of the alarm that homing
// clears, whenever in the round of askings that begins.
func TestVirtualHomesAtAnyTime(t *testing.T) {
	tr := smooth(t, rig.Buffered, 96)
	for ms := range 120 {
		m := onVirtual(t, tr, 1, func(o *virtual.Options) { require.True(t, o.StartsLocked) })
		m.options.Takes, m.options.Settle = 0, drive.AskOperator
		m.w.script = []cue{
			{drive.Unsettled, time.Duration(ms) * time.Millisecond, drive.Request{Kind: drive.Home}},
			{drive.Ready, time.Second, drive.Request{Kind: drive.Quit}},
		}
		r := m.run()
		require.NoError(t, r.Err(), "%d ms: %v", ms, m.w.said)
		require.True(t, r.Known, "%d ms", ms)
	}
}

// evening is what an operator asks for: jogs, a take until asked to finish, one
// that is stopped and resumed, then stopped and begun anew.
func evening(first drive.RequestKind) []cue {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	second := time.Second
	return []cue{
		{drive.Unsettled, second, ask(first)},
		{drive.Ready, second, drive.Request{Kind: drive.Jog, Axis: 0, By: 5}},
		{drive.Ready, 4 * second, drive.Request{Kind: drive.Mark, Name: "here"}},
		{drive.Ready, 5 * second, ask(drive.Go)},
		{drive.Running, 9 * second, ask(drive.Finish)},
		{drive.Ready, second, ask(drive.Go)},
		{drive.Running, 2 * second, ask(drive.Stop)},
		{drive.Resting, 3 * second, ask(drive.Resume)},
		{drive.Running, 4 * second, ask(drive.Stop)},
		{drive.Resting, 3 * second, ask(drive.Restart)},
		{drive.Running, 2 * second, ask(drive.Finish)},
		{drive.Ready, second, ask(drive.Quit)},
	}
}

func TestVirtualEvening(t *testing.T) {
	for kind, first := range map[rig.ControllerKind]drive.RequestKind{rig.Buffered: drive.Home, rig.Lockstep: drive.Home, rig.StepPlayer: drive.Here} {
		t.Run(kind.String(), func(t *testing.T) {
			tr := smooth(t, kind, 96)
			m := onVirtual(t, tr, 1, nil)
			m.options.Takes, m.options.Rounds, m.options.Settle, m.options.CountIn = 0, 0, drive.AskOperator, 3
			m.w.script = evening(first)
			m.world.Ask(virtual.Asking{At: 10 * time.Minute, Request: drive.Request{Kind: drive.Quit}})
			r := m.run()
			require.NoError(t, r.Err(), "%v %v", m.w.states, m.w.said)
			require.Empty(t, m.w.script, "all has been asked: %v %v", m.w.states, m.w.said)
			require.True(t, r.Known)
			var ends []string
			for _, p := range m.w.passes {
				ends = append(ends, p.End.String())
			}
			require.Equal(t, []string{"finished", "stopped", "finished"}, ends)
			slack := 0.001
			if kind == rig.Lockstep { // whose lines take longer than their moves
				slack = 0.01
			}
			require.InDelta(t, 0, m.w.passes[0].Late(), slack)
			require.InDelta(t, 0, m.w.passes[2].Late(), slack)
			require.Len(t, m.w.marks["here"], 1)
			require.Zero(t, m.rig.Stats().Alarms)
		})
	}
}

// BenchmarkHour reports how many hours of loops at 115200 baud go by in a
// second: the engine, the wire and the rig of software together.
func BenchmarkHour(b *testing.B) {
	tr := smooth(b, rig.Buffered, 96)
	take := chosen(b, tr, 900)
	source := func() drive.Source { return program.New(tr, take) }
	for b.Loop() {
		m := onVirtualWith(b, tr, 900, source, func(o *virtual.Options) { o.Forget = true })
		require.NoError(b, m.run().Err())
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "hours/s")
}

// A board whose clock is slow is measured over a minute; told what was
// measured, the next take is on time.
func TestVirtualRateError(t *testing.T) {
	const slow, rounds = 700e-6, 15
	board := func(o *virtual.Options) { o.ClockError = slow }
	tr := smooth(t, rig.Buffered, 96)
	m := onVirtual(t, tr, rounds, board)
	require.NoError(t, m.run().Err())
	require.InDelta(t, 60*slow, m.w.passes[0].Late(), 0.001)
	measured := rateOf(t, 0, m.w.passes[0])
	require.InDelta(t, slow, measured, 20e-6)

	tr.Plan().Rig.Controller.RateError = measured
	m = onVirtual(t, tr, rounds, board)
	require.NoError(t, m.run().Err())
	begins, ends := m.span()
	t.Logf("measured %.1f ppm of %.1f; then %.2f ms late in a minute", measured*1e6, slow*1e6, (ends-begins-60)*1e3)
	require.InDelta(t, 60, ends-begins, 0.001)
	require.Less(t, m.worst(rounds, begins), 0.05)
	require.InDelta(t, measured, rateOf(t, measured, m.w.passes[0]), 20e-6, "and measures the same again")
}
