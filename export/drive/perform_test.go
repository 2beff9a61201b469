package drive

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/takelog"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// acted is a machine that does at once what it is told, and notes it.
type acted struct {
	*engine
	did   []string
	at    []float64
	ok    bool
	over  bool
	known bool
	lock  bool
	fails map[string]error
}

func (m *acted) do(what string) error { m.did = append(m.did, what); return m.fails[what] }

func (m *acted) greet() error                            { return m.do("greet") }
func (m *acted) check() error                            { return m.do("check") }
func (m *acted) locked() bool                            { return m.lock }
func (m *acted) unlock() error                           { m.lock = false; return m.do("unlock") }
func (m *acted) home() error                             { return m.do("home") }
func (m *acted) homes(int) bool                          { return false }
func (m *acted) place([]float64) error                   { return m.do("place") }
func (m *acted) glide(_ int, to float64, rel bool) error { return m.do("glide") }
func (m *acted) together([]float64) error                { return m.do("together") }
func (m *acted) departed() span                          { return span{m.now, m.now, m.now} }
func (m *acted) position() ([]float64, bool)             { return m.at, m.ok }
func (m *acted) fresh() error                            { return m.do("fresh") }
func (m *acted) wants(rig.Output) error                  { return m.do("wants") }
func (m *acted) switches(_ rig.Output, on bool) (span, error) {
	what := map[bool]string{true: "on", false: "off"}[on]
	return span{m.now, m.now, m.now}, m.do(what)
}
func (m *acted) lights(o rig.Output, _ float64, _ bool) (span, error) { return m.switches(o, true) }
func (m *acted) goesOut(o rig.Output) error {
	_, err := m.switches(o, false)
	return err
}
func (m *acted) load(*pass) error             { return m.do("load") }
func (m *acted) lead() time.Duration          { return 0 }
func (m *acted) feed(*pass) error             { return m.do("feed") }
func (m *acted) done(*pass) bool              { return m.over }
func (m *acted) finish(*pass)                 { m.do("finish") }
func (m *acted) last(*pass) ([]float64, bool) { m.do("last"); return m.at, m.ok }
func (m *acted) slow()                        { m.do("slow") }
func (m *acted) rest() error                  { return m.do("rest") }
func (m *acted) resume(p *pass)               { m.do("resume") }
func (m *acted) halt() bool                   { m.do("halt"); return m.known }
func (m *acted) slowing() time.Duration       { return 400 * time.Millisecond }
func (m *acted) crash()                       { m.crashed = true; m.do("crash") }
func (m *acted) heard([]byte)                 {}
func (m *acted) flushed()                     {}
func (m *acted) tick()                        {}
func (m *acted) due() time.Time               { return m.now.Add(never) }

// asks is a world in which an operator asks for something at some times.
type asks struct {
	now  time.Time
	list []ask
}

type ask struct {
	at   float64 // ms after noon
	kind RequestKind
}

func (w *asks) Now() time.Time              { return w.now }
func (w *asks) Write(b []byte) (int, error) { return len(b), nil }
func (w *asks) Wait(until time.Time) Event {
	if len(w.list) > 0 && !at(w.list[0].at).After(until) {
		next := w.list[0]
		w.list, w.now = w.list[1:], later(w.now, at(next.at))
		return Event{Kind: Asked, Request: Request{Kind: next.kind}}
	}
	w.now = later(w.now, until)
	return Event{}
}

// seen is an observer that keeps what it is told.
type seen struct {
	quiet
	states []State
	counts []time.Duration // when each beat was told
	left   []int
	passes []Pass
	e      *engine
	told   []Progress
}

func (s *seen) Enter(x State) { s.states = append(s.states, x) }
func (s *seen) Count(n int) {
	s.counts, s.left = append(s.counts, s.e.now.Sub(noon)), append(s.left, n)
}
func (s *seen) Passed(p Pass)       { s.passes = append(s.passes, p) }
func (s *seen) Progress(p Progress) { s.told = append(s.told, p) }

// acting is such a machine in such a world, at rest at 5 degrees, which is known.
func acting(t *testing.T, list ...ask) (*acted, *seen, *asks) {
	o, w := &seen{}, &asks{now: noon, list: list}
	e := &engine{job: newJob(Options{Trajectory: evenTurn(t, nil), Rounds: 3, Observer: o}), now: noon, w: w}
	o.e = e
	m := &acted{engine: e, at: []float64{5}, ok: true, known: true, fails: map[string]error{}}
	e.m, e.at, e.known, e.state = m, []float64{5}, true, Ready
	return m, o, w
}

// runs is a pass of it in hand.
func (m *acted) runs() *pass {
	p := newPass(m.engine, 4)
	p.beats, p.next, p.zero = newBeats(m.engine, 3), at(1e9), noon
	m.engine.pass, m.state, m.moving = p, Running, true
	return p
}

// TestAPassThatIsHeld comes to rest, and waits to be told: to go on from where it rested,
// if it still stands there, to begin anew, or to end.
func TestAPassThatIsHeld(t *testing.T) {
	for _, x := range []struct {
		name string
		list []ask
		set  func(*acted)
		err  error
		did  []string
	}{
		{"goes on", []ask{{10, Home}, {20, Resume}}, func(*acted) {}, nil, []string{"rest", "fresh", "fresh", "resume"}},
		{"begins anew", []ask{{10, Restart}}, func(*acted) {}, errRestart, []string{"rest", "fresh", "halt"}},
		{"is ended", []ask{{10, Stop}}, func(*acted) {}, errStopped, []string{"rest", "fresh"}},
		{"is left", []ask{{10, Quit}}, func(*acted) {}, errStopped, []string{"rest", "fresh"}},
		{"was aborted", nil, func(m *acted) { m.crashed = true }, errStopped, []string{"rest"}},
		{"was left", nil, func(m *acted) { m.quit = true }, errStopped, []string{"rest"}},
		{"does not rest", nil, func(m *acted) { m.fails["rest"] = failed(Silent, "rest") }, failed(Silent, "rest"), []string{"rest"}},
		{"does not say where", nil, func(m *acted) { m.fails["fresh"] = failed(Silent, "fresh") }, failed(Silent, "fresh"), []string{"rest", "fresh"}},
	} {
		m, o, _ := acting(t, x.list...)
		p := m.runs()
		m.stops = 1
		x.set(m)
		err := m.engine.pause(p)
		if x.err == nil {
			require.NoError(t, err, x.name)
			assert.Zero(t, m.stops)
			assert.Equal(t, []State{Slowing, Resting, Running}, o.states, x.name)
			assert.Nil(t, p.rest)
		} else {
			require.EqualError(t, err, x.err.Error(), x.name)
		}
		assert.Equal(t, x.did, m.did, x.name)
		assert.True(t, m.moving, x.name)
		assert.True(t, m.engine.known, x.name)
	}
	// It has been moved meanwhile.
	m, _, _ := acting(t)
	p := m.runs()
	require.NoError(t, p.rests())
	assert.Equal(t, []float64{5}, p.rest)
	m.at[0] = 5.3
	require.EqualError(t, p.goesOn(), "astray: axis table came to rest at 5.000 deg, and is reported at 5.300 now: it was moved, or the controller has lost count")
	m.ok = false
	require.NoError(t, p.goesOn(), "it does not say")
	m.fails["fresh"] = errors.New("fresh")
	require.Error(t, p.goesOn())
	m, _, _ = acting(t)
	m.known = false
	require.ErrorIs(t, m.giveUp(), errRestart)
	assert.False(t, m.engine.known)
	m.failure = failed(Silent, "it")
	require.ErrorContains(t, m.giveUp(), "silent")
}

// TestAPassIsPerformed until all has been carried out; what is asked for meanwhile is
// heard: an end after the round once, a stop at once.
func TestAPassIsPerformed(t *testing.T) {
	m, _, w := acting(t, ask{10, Finish}, ask{20, Finish}, ask{30, Jog}, ask{40, Stop}, ask{50, Stop})
	p := m.runs()
	err := m.engine.perform(p)
	require.ErrorIs(t, err, errStopped)
	assert.Equal(t, []string{"feed", "finish", "feed", "feed", "feed", "slow", "rest", "fresh"}, m.did)
	assert.Empty(t, w.list)
	assert.True(t, p.finished)
	m, _, _ = acting(t)
	p = m.runs()
	m.fails["feed"] = failed(Unplanned, "x")
	require.ErrorContains(t, m.engine.perform(p), "no program")
	m.over = true
	p.rounds, p.executed, m.at = 3, p.planned(3), []float64{m.planAt(0, 3, p.planned(3))}
	require.NoError(t, m.engine.perform(p))
	assert.Equal(t, "last", m.did[len(m.did)-1])
}

// TestAPassLands where the take ends, a tenth of a second after it should have, within a
// step and what a report is worth.
func TestAPassLands(t *testing.T) {
	land := func(off float64, set func(*acted, *pass)) (*acted, error) {
		m, _, _ := acting(t)
		p := m.runs()
		p.rounds, p.executed = 3, p.planned(3)
		m.at = []float64{m.planAt(0, 3, p.planned(3)) + off}
		set(m, p)
		return m, m.land(p)
	}
	none := func(*acted, *pass) {}
	end := 0.0
	for off, ok := range map[float64]bool{0: true, 0.19: true, -0.19: true, 0.21: false, -0.21: false} {
		m, err := land(off, none)
		if ok {
			require.NoError(t, err)
			assert.InDelta(t, m.planAt(0, 3, m.planned(3)), m.engine.at[0], 1e-9, "it is where it should be")
			end = m.now.Sub(noon).Seconds()
		} else {
			require.ErrorContains(t, err, "astray: axis table came to rest at")
		}
	}
	m, _ := land(0, none)
	assert.InDelta(t, 18+m.runOut+0.1, end, 1e-3)
	_, err := land(0, func(m *acted, _ *pass) { m.ok = false })
	require.ErrorContains(t, err, "where it came to rest is not known")
	_, err = land(0, func(m *acted, _ *pass) { m.aborted = true })
	require.ErrorIs(t, err, errStopped)
	_, err = land(0, func(m *acted, p *pass) { p.executed += 1 })
	require.ErrorContains(t, err, "its motion took")
	m, err = land(0, func(m *acted, p *pass) { m.engine.now = at(60_000); m.w.(*asks).now = at(60_000) })
	require.NoError(t, err)
	assert.Equal(t, at(60_100), m.now, "late, it is still listened for")
}

// TestAPassIsWrittenDown as it ended; that it is begun before anything moves.
func TestAPassIsWrittenDown(t *testing.T) {
	for _, x := range []struct {
		name  string
		list  []ask
		known bool
		again bool
		err   error
		end   string
	}{
		{"ends", nil, true, false, nil, "finished"},
		{"is stopped", []ask{{10, Stop}, {20, Stop}}, true, false, errStopped, "stopped"},
		{"begins anew", []ask{{10, Stop}, {20, Restart}}, true, true, nil, "stopped"},
		{"is nowhere that is known", []ask{{10, Stop}, {20, Restart}}, false, false, errStopped, "stopped"},
	} {
		m, o, _ := acting(t, x.list...)
		log := &notes{}
		m.Log, m.known = log, x.known
		p := newPass(m.engine, 4)
		p.beats, p.next, p.zero = newBeats(m.engine, 3), at(1e9), noon
		p.rounds, p.executed = 3, p.planned(3)
		m.at, m.over = []float64{m.planAt(0, 3, p.planned(3))}, len(x.list) == 0
		m.requests = []Request{{Kind: Go}}
		again, err := m.onePass(p)
		assert.Equal(t, x.again, again, x.name)
		assert.Equal(t, x.err, err, x.name)
		require.Len(t, log.list, 2, x.name)
		assert.Equal(t, takelog.Begun, log.list[0].Kind)
		assert.Equal(t, int64(3), log.list[0].Rounds)
		assert.InDelta(t, p.planned(3), log.list[0].Planned, 1e-9)
		assert.Equal(t, x.end, log.list[1].Outcome, x.name)
		assert.Equal(t, x.known, log.list[1].Known)
		assert.Nil(t, m.engine.pass)
		assert.False(t, m.moving)
		require.Len(t, o.passes, 1)
		assert.InDelta(t, p.planned(3), o.passes[0].Foretold, 1e-9)
		assert.InDelta(t, 6, o.passes[0].RoundForetold, 1e-9)
	}
	m, _, _ := acting(t)
	m.requests = []Request{{Kind: Stop}}
	_, err := m.onePass(newPass(m.engine, 1))
	require.ErrorIs(t, err, errStopped, "a stop that came before")
	assert.Empty(t, m.did)
	log := &notes{err: errors.New("full")}
	m.Log = log
	_, err = m.onePass(newPass(m.engine, 1))
	require.ErrorContains(t, err, "log failed: full")
	assert.Empty(t, m.did, "what cannot be written down does not move")
	// One of which nothing was begun has no time that was planned; one without an end none yet.
	m, _, _ = acting(t)
	log = &notes{}
	m.Log = log
	p := newPass(m.engine, 4)
	p.total, p.worst = 0, []float64{0.5}
	require.NoError(t, p.begin())
	require.NoError(t, p.end(Stopped, "why"))
	assert.Zero(t, log.list[0].Planned)
	assert.Zero(t, log.list[1].Planned)
	assert.Equal(t, []takelog.Worst{{Axis: "table", Value: 0.5, Unit: "deg"}}, log.list[1].Worst)
}

// TestBeatsBeforeTheMotion: a second each, the last as long before the motion as the
// controller needs; a stop or a no ends them.
func TestBeatsBeforeTheMotion(t *testing.T) {
	m, o, _ := acting(t, ask{1200, Jog})
	m.CountIn = 3
	p := newPass(m.engine, 1)
	p.beats = newBeats(m.engine, 3)
	require.NoError(t, m.countIn(p, 400*ms))
	assert.Equal(t, []int{3, 2, 1}, o.left)
	assert.Equal(t, []time.Duration{0, time.Second, 2 * time.Second}, o.counts)
	assert.Equal(t, at(2600), m.now)
	assert.Equal(t, at(3000).Add(seconds(m.runUp)), p.beats.zero)
	assert.Empty(t, m.requests)
	p.anchorAt(at(3000), 0)
	assert.Equal(t, 0, o.left[3], "the motion tells the last itself")
	m, o, _ = acting(t)
	p = newPass(m.engine, 1)
	p.beats = newBeats(m.engine, 3)
	require.NoError(t, m.countIn(p, 400*ms))
	assert.Equal(t, noon, m.now)
	assert.Equal(t, at(400).Add(seconds(m.runUp)), p.beats.zero)
	p.anchorAt(at(3000), 0)
	assert.Empty(t, o.left)
	assert.Empty(t, o.states)
	for kind, want := range map[RequestKind]error{Stop: errStopped, Quit: errStopped, Decline: errStopped, Go: nil} {
		m, _, _ := acting(t, ask{500, kind})
		m.CountIn = 2
		p := newPass(m.engine, 1)
		p.beats = newBeats(m.engine, 3)
		assert.Equal(t, want, m.countIn(p, 0), "%v", kind)
		assert.Empty(t, m.requests)
	}
	// Beats of hands are told meanwhile, at their time.
	m, _, _ = acting(t)
	var told []time.Duration
	m.Call = func(Beat) { told = append(told, m.now.Sub(noon)) }
	left := []Beat{{At: -1}, {At: 0.5}}
	m.Beats = func(int64) (func() (Beat, bool), func()) {
		return func() (Beat, bool) {
			if len(left) == 0 {
				return Beat{}, false
			}
			b := left[0]
			left = left[1:]
			return b, true
		}, func() {}
	}
	b := newBeats(m.engine, 3)
	b.zero = at(3000)
	require.NoError(t, m.sleep(at(4000), b))
	assert.Equal(t, []time.Duration{2 * time.Second, 3500 * ms}, told)
	m.Call = nil
	assert.False(t, newBeats(m.engine, 3).more, "nobody is counted to")
}

// TestCautionsAreConfirmed before anything moves, or declined.
func TestCautionsAreConfirmed(t *testing.T) {
	for kind, want := range map[RequestKind]error{Confirm: nil, Decline: errDeclined, Quit: errQuit, Stop: errQuit} {
		m, _, _ := acting(t, ask{10, Go}, ask{20, kind})
		assert.Equal(t, want, m.caution(), "%v", kind)
		assert.Equal(t, at(20), m.now)
	}
	m, o, _ := acting(t)
	m.Confirmed = true
	require.NoError(t, m.caution())
	assert.Empty(t, o.states)
}

// TestProgressIsTold ten times a second while the rig moves, or may.
func TestProgressIsTold(t *testing.T) {
	for state, want := range map[State]int{Running: 1, Slowing: 1, Draining: 1, Resting: 0} {
		m, o, _ := acting(t)
		p := m.runs()
		m.state, p.next = state, at(50)
		m.engine.now = at(49)
		p.tick()
		assert.Empty(t, o.told)
		m.engine.now = at(50)
		p.tick()
		assert.Len(t, o.told, want, "%v", state)
		assert.Equal(t, at(150), p.next)
		assert.Equal(t, at(150), p.due())
		assert.Equal(t, at(150), m.engine.due())
	}
}

// TestRoundsThatHaveBegun are those of which a line was sent: not what follows the last.
func TestRoundsThatHaveBegun(t *testing.T) {
	for _, x := range []struct {
		total, round int64
		over         bool
		want         int64
	}{{3, 1, false, 2}, {3, 2, false, 3}, {3, 3, false, 1}, {3, 0, false, 1}, {0, 7, false, 8}, {3, 2, true, 1}, {3, program.RunUp, false, 1}} {
		s, talks := streaming(t)
		s.pass.total, s.pass.rounds, s.over = x.total, 1, x.over
		talks.putLine(s.pass, program.Line{Text: "G1 A1", Moves: true, Round: x.round})
		assert.Equal(t, x.want, s.pass.rounds, "%+v", x)
	}
}

// TestWhatHappensToAWorld: a sleep in the middle of motion and a wire that is gone are
// faults; the first fault is kept.
func TestWhatHappensToAWorld(t *testing.T) {
	for moving, want := range map[bool]bool{true: true, false: false} {
		m, _, _ := acting(t)
		m.moving = moving
		m.handle(Event{Kind: Slept, Duration: 1234567 * time.Microsecond})
		require.Equal(t, want, m.failure != nil)
		assert.False(t, m.nothing)
		if want {
			assert.Equal(t, "asleep: this computer slept for 1.235s in the middle of motion; the rig has run on what it held", m.failure.Error())
			m.handle(Event{Kind: Gone, Err: errors.New("unplugged")})
			assert.Equal(t, Asleep, m.failure.End)
			assert.True(t, m.gone)
		}
	}
	m, _, _ := acting(t)
	m.handle(Event{})
	assert.True(t, m.nothing)
	m.handle(Event{Kind: Gone, Err: errors.New("unplugged")})
	assert.Equal(t, "port lost: unplugged", m.failure.Error())
	for _, x := range []struct{ calming, gone, fault bool }{{false, false, true}, {true, false, false}, {true, true, true}, {false, true, true}} {
		m.calming, m.gone = x.calming, x.gone
		assert.Equal(t, x.fault, m.fault() != nil, "%+v", x)
	}
	// Who leaves need not wait for one that is silent; later it is asked for itself.
	for state, want := range map[State]error{Opening: errStopped, Reading: errStopped, Unsettled: nil} {
		m, _, _ := acting(t, ask{10, Quit})
		m.state = state
		assert.Equal(t, want, m.wait(at(20)), "%v", state)
	}
	m, _, _ = acting(t)
	ok, err := m.until(time.Second, func() bool { return !m.now.Before(at(300)) })
	assert.NoError(t, err)
	assert.True(t, ok)
	ok, _ = m.until(0, func() bool { return true })
	assert.True(t, ok)
	ok, _ = m.until(time.Second, func() bool { return false })
	assert.False(t, ok)
}

// TestAFaultIsMadeToRest: by a hold, or an abort where that does not help; one that has
// stopped by itself, or is gone, is sent nothing.
func TestAFaultIsMadeToRest(t *testing.T) {
	for _, x := range []struct {
		end    End
		moving bool
		set    func(*acted)
		did    []string
	}{
		{Behind, true, func(*acted) {}, []string{"slow", "rest", "halt"}},
		{Behind, true, func(m *acted) { m.fails["rest"] = failed(Silent, "x") }, []string{"slow", "rest", "crash", "halt"}},
		{Behind, false, func(*acted) {}, nil}, {Alarmed, true, func(*acted) {}, nil}, {Restarted, true, func(*acted) {}, nil}, {PortLost, true, func(*acted) {}, nil},
		{Behind, true, func(m *acted) { m.gone = true }, nil},
	} {
		m, o, _ := acting(t)
		log := &notes{}
		m.Log, m.moving, m.homed = log, x.moving, []bool{true}
		x.set(m)
		m.out.send([]byte("G1 X1"))
		m.calm(failed(x.end, "why"))
		assert.Equal(t, x.did, m.did, "%v", x.end)
		assert.False(t, m.engine.known || m.moving)
		assert.Nil(t, m.homed)
		require.Len(t, log.list, 1)
		assert.Equal(t, [2]any{takelog.Lost, x.end.String()}, [2]any{log.list[0].Kind, log.list[0].Outcome})
		assert.Equal(t, x.moving && x.end != Behind, !m.out.waiting(), "nothing more goes to one that stopped by itself")
		assert.Empty(t, o.passes)
	}
	for end, lines := range map[End]int{Behind: 2, LogFailed: 1} {
		m, o, _ := acting(t)
		m.Log = &notes{err: errors.New("full")}
		m.runs()
		m.calm(failed(end, "why"))
		assert.Len(t, o.said, lines, "%v", end)
		require.Len(t, o.passes, 1)
		assert.Equal(t, end, o.passes[0].End)
		assert.Nil(t, m.engine.pass)
	}
}

// TestWhatIsAskedForOutsideATake.
func TestWhatIsAskedForOutsideATake(t *testing.T) {
	m, o, _ := acting(t)
	m.lock = true
	require.NoError(t, m.obey(Request{Kind: Jog, By: 1}))
	assert.Empty(t, m.did)
	assert.Len(t, o.said, 1)
	m.Takes = 1
	require.ErrorContains(t, m.obey(Request{Kind: Here}), "alarm: ")
	m.homed = []bool{true}
	require.NoError(t, m.obey(Request{Kind: Unlock}))
	assert.Equal(t, []string{"unlock"}, m.did)
	assert.Nil(t, m.homed)
	m.did, m.engine.known = nil, true
	m.fails["place"] = failed(Silent, "x")
	require.Error(t, m.obey(Request{Kind: Here}))
	assert.False(t, m.engine.known, "it may have been told, or not")
	m.fails = map[string]error{}
	require.NoError(t, m.obey(Request{Kind: Here}))
	assert.True(t, m.engine.known)
	assert.Equal(t, m.start, m.engine.at)
	m.Takes, m.lock = 0, true
	require.NoError(t, m.obey(Request{Kind: Home}), "which clears an alarm")
	// An alarm is cleared as the run begins if it was asked for; homing clears it too.
	for how, want := range map[Settling][]string{AskOperator: {"unlock"}, ByHoming: nil} {
		m, _, _ := acting(t)
		m.lock, m.Unlock, m.Settle = true, true, how
		require.NoError(t, m.settle())
		assert.Equal(t, want, m.did, "%v", how)
		assert.Equal(t, how == ByHoming, m.Unlock)
	}
	m, _, _ = acting(t)
	m.Unlock = true
	require.NoError(t, m.settle())
	assert.Empty(t, m.did, "there is none")
	m.Settle, m.At = AsBefore, []float64{33}
	require.NoError(t, m.settle())
	assert.Equal(t, []float64{33}, m.engine.at)
	assert.Equal(t, AskOperator, m.Settle)
	m.engine.known, m.Settle = false, ByHand
	require.NoError(t, m.settle())
	assert.Equal(t, m.start, m.engine.at)
	for _, x := range []struct {
		err   error
		takes int
		quit  bool
		want  bool
	}{{errStopped, 0, false, true}, {errDeclined, 0, false, true}, {errQuit, 0, false, false}, {errStopped, 1, false, false}, {errStopped, 0, true, false}} {
		m.Takes, m.quit = x.takes, x.quit
		assert.Equal(t, x.want, m.engine.goesOn(x.err), "%+v", x)
	}
}

// TestATake goes to the start, counts in, passes and goes back; anew as often as is asked.
func TestATake(t *testing.T) {
	m, o, _ := acting(t)
	m.Confirmed, m.over = true, true
	m.at = []float64{m.planAt(0, 0, m.planned(0))}
	m.did = nil
	begun, err := m.take()
	require.Error(t, err, "none of its rounds was sent")
	assert.True(t, begun)
	assert.Equal(t, []string{"glide", "load", "last"}, m.did)
	assert.Equal(t, []State{Approaching, Running}, o.states)

	m, o, _ = acting(t, ask{10, Stop}, ask{20, Restart}, ask{30, Stop}, ask{40, Stop})
	m.Confirmed = true
	begun, err = m.take()
	require.ErrorIs(t, err, errStopped)
	assert.True(t, begun)
	assert.Equal(t, []string{"glide", "load", "feed", "feed", "slow", "rest", "fresh", "halt", // begun anew
		"glide", "load", "feed", "feed", "slow", "rest", "fresh", "rest", "halt"}, m.did)
	require.Len(t, o.passes, 2)
	assert.Equal(t, []int{1, 2, 2}, []int{o.passes[0].Take, o.passes[1].Take, m.begun}, "each with a number of its own")
	for what, want := range map[string]bool{"glide": false, "load": false} {
		m, _, _ := acting(t)
		m.Confirmed, m.fails[what] = true, failed(Silent, "x")
		begun, err := m.take()
		require.Error(t, err)
		assert.Equal(t, want, begun, what)
	}
	m, _, _ = acting(t, ask{10, Decline})
	begun, err = m.take()
	require.ErrorIs(t, err, errDeclined)
	assert.False(t, begun)
	m, _, _ = acting(t, ask{10, Stop})
	m.Confirmed, m.CountIn = true, 3
	begun, err = m.take()
	require.ErrorIs(t, err, errStopped)
	assert.False(t, begun, "nothing has moved of it")
}

// TestATakeIsWaitedFor: what is asked for meanwhile is done, until one is wanted, or the
// place is lost.
func TestATakeIsWaitedFor(t *testing.T) {
	m, o, w := acting(t, ask{10, Mark}, ask{20, Home}, ask{30, Go}, ask{40, Go})
	m.Observer = &marks{o}
	require.NoError(t, m.ready())
	assert.Len(t, w.list, 1)
	assert.Equal(t, []State{Ready}, o.states)
	m, _, _ = acting(t, ask{10, Quit})
	require.ErrorIs(t, m.ready(), errQuit)
	m, _, _ = acting(t, ask{10, Here})
	m.fails["place"] = failed(Silent, "x")
	require.ErrorContains(t, m.ready(), "silent")
	m.engine.known = false
	require.ErrorIs(t, m.ready(), errStopped)
	m.Takes = 1
	require.NoError(t, m.ready(), "nobody is asked")
}

// marks takes marks as well.
type marks struct{ *seen }

func (marks) Marked(string, []float64) {}

// TestWhatATakeIsOf: numbers, times and where it begins.
func TestWhatATakeIsOf(t *testing.T) {
	tr := evenTurn(t, nil)
	assert.Equal(t, 1, newJob(Options{Trajectory: tr}).FirstTake)
	assert.Equal(t, 7, newJob(Options{Trajectory: tr, FirstTake: 7}).FirstTake)
	tr.Plan().Rig.Controller.ResetsOnOpen = true
	assert.True(t, newJob(Options{Trajectory: tr}).controller.ResetsOnOpen)
	assert.False(t, newJob(Options{Trajectory: tr, Settle: AsBefore}).controller.ResetsOnOpen, "the port is open already")
	j := newJob(Options{Trajectory: tr, Rounds: 2})
	assert.InDelta(t, -30*j.runUp, j.start[0], 1e-9, "half of the way that it would go in the run-up")
	assert.InDelta(t, 6, j.period, 1e-12)
	assert.Positive(t, j.runUp)
	assert.Positive(t, j.runOut)
}

// TestAPassIsLoaded anew: nothing is left of the one before.
func TestAPassIsLoaded(t *testing.T) {
	for rounds, want := range map[int64]int64{4: 4, 0: 2} {
		talks, _ := echoed(t)
		talks.Rounds = rounds
		src := &lineSource{}
		talks.Source = func() Source { return src }
		talks.counter.far, talks.ledger.agrees, talks.ledger.off, talks.stream.over = []float64{0}, true, 1, true
		p := newPass(talks.engine, 1)
		require.NoError(t, talks.load(p))
		assert.Equal(t, want, src.finish, "as many as it has; one without an end has been rehearsed for two")
		assert.Same(t, p, talks.stream.pass)
		assert.False(t, talks.stream.over || talks.ledger.agrees)
		assert.Zero(t, talks.ledger.off)
	}
	// Of a player its rows begin with the run-up, where the axes stand.
	for rounds, want := range map[int64]float64{1: 1, 0: -1} {
		p, w := rowing(t)
		p.Rounds = rounds
		q := newPass(p.engine, 1)
		require.NoError(t, p.load(q))
		if want > 0 {
			assert.Equal(t, ticksOf(p.planned(1), 0.001), p.rows.count)
		} else {
			assert.Equal(t, int64(-1), p.rows.count)
		}
		assert.Equal(t, nearestStep(p.job.start[0], 10), p.rows.now[1])
		steps := make([]int64, 2)
		p.rows.at(p.runUp+1, steps)
		assert.Equal(t, []int64{0, 600}, steps, "60 degrees a second into the take, by ten steps")
		assert.Equal(t, stepplayer.Begin, w.types[0])
		assert.False(t, p.going || p.ended || p.begun.IsZero())
	}
}

// minding is a world that wants to know whether something moves, and whose wire may go.
type minding struct {
	*asks
	told []bool
	err  error
}

func (w *minding) Moves(moving bool) { w.told = append(w.told, moving) }
func (w *minding) Write(b []byte) (int, error) {
	if w.err != nil {
		return 0, w.err
	}
	return len(b), nil
}

// TestAWorldIsToldWhatMoves, once each time, and a wire that is gone is sent nothing more.
func TestAWorldIsToldWhatMoves(t *testing.T) {
	m, _, w := acting(t)
	minds := &minding{asks: w}
	m.w = minds
	m.engine.flush()
	assert.Empty(t, minds.told)
	m.moving = true
	m.engine.flush()
	m.engine.flush()
	assert.Equal(t, []bool{true}, minds.told)
	m.moving = false
	m.engine.flush()
	assert.Equal(t, []bool{true, false}, minds.told)
	m.engine.way = newLink(10_000)
	m.out.send([]byte("G90\n"))
	m.engine.flush()
	assert.Equal(t, at(4), m.engine.way.across)
	m.engine.flush()
	assert.Equal(t, at(4), m.engine.way.across)
	minds.err = errors.New("unplugged")
	m.out.send([]byte("G91\n"))
	m.engine.flush()
	assert.True(t, m.gone)
	assert.False(t, m.out.waiting())
	require.NotNil(t, m.failure)
	assert.Equal(t, PortLost, m.failure.End)
}

// TestRequestsAreTaken in their order; a stop of something that moves acts at once.
func TestRequestsAreTaken(t *testing.T) {
	m, _, _ := acting(t)
	m.asked(Request{Kind: Go})
	m.asked(Request{Kind: Stop})
	m.moving = true
	m.asked(Request{Kind: Finish})
	assert.Empty(t, m.did)
	assert.Len(t, m.requests, 3)
	assert.False(t, m.quit)
	m.asked(Request{Kind: Stop})
	assert.Equal(t, []string{"slow"}, m.did)
	assert.False(t, m.aborted)
	m.asked(Request{Kind: Quit})
	assert.Equal(t, []string{"slow", "crash"}, m.did)
	assert.True(t, m.aborted && m.quit)
	assert.Equal(t, 2, m.stops)
	assert.Len(t, m.requests, 3)
	m.state = Ready
	r, err := m.next()
	require.NoError(t, err)
	assert.Equal(t, Go, r.Kind)
	_, err = m.next()
	require.ErrorIs(t, err, errQuit)
	r, err = m.next()
	require.NoError(t, err)
	assert.Equal(t, Finish, r.Kind)
}

// TestARunIsToldAsItEnded.
func TestARunIsToldAsItEnded(t *testing.T) {
	for _, x := range []struct {
		name  string
		goes  string
		list  []ask
		takes int
		end   End
		known bool
	}{
		{"left", "", []ask{{10, Here}, {20, Quit}}, 0, Quitted, true},
		{"fails to greet", "greet", nil, 0, Silent, false}, {"fails the check", "check", nil, 0, Silent, false},
		{"stopped", "", []ask{{10, Here}, {1200, Stop}}, 1, Stopped, true},
	} {
		m, o, _ := acting(t, x.list...)
		m.engine.known, m.Confirmed, m.CountIn, m.Takes, m.FirstTake = false, true, 3, x.takes, 1
		m.fails[x.goes] = failed(Silent, "x")
		if x.goes == "" {
			m.fails = map[string]error{}
		}
		err := m.engine.run()
		assert.Zero(t, m.begun, x.name)
		require.Error(t, err, x.name)
		assert.Equal(t, x.known, m.engine.known, x.name)
		assert.Equal(t, Opening, o.states[0])
		var fault *Failure
		assert.Equal(t, x.end == Silent, errors.As(err, &fault), "%s: %v", x.name, err)
		assert.Equal(t, x.end == Stopped, errors.Is(err, errStopped), x.name)
	}
}
