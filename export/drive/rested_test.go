package drive

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// booting is an echo that, when it is reset, says some lines, each a while after the other.
type booting struct {
	*echo
	says []string
	each time.Duration
	dies bool // it is silent from then on
	deaf bool // it is until then
}

func (b *booting) Write(p []byte) (int, error) {
	b.silent = b.silent || b.deaf
	n, err := b.echo.Write(p)
	for _, c := range p {
		if c == 0x18 {
			b.queue, b.silent, b.deaf = nil, b.dies || b.silent && !b.deaf, false
			for i, text := range b.says {
				b.queue = append(b.queue, said{b.now.Add(time.Duration(i+1) * b.each), text + "\n"})
			}
		}
	}
	return n, err
}

// TestAResetAtRest keeps what is known: the place is told again once it has said all; not
// of one that was in an alarm, or was reset in the middle of motion, or is elsewhere.
func TestAResetAtRest(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*talker, *booting)
		known bool
		heard []string
	}{
		{"held", func(*talker, *booting) {}, true, []string{"?", "\x18", "?", "G92 A30.000", "?"}},
		{"without an abort", func(t *talker, _ *booting) { t.controller.Abort = 0 }, false, []string{"?"}},
		{"without hold and abort", func(t *talker, _ *booting) { t.controller.Hold, t.controller.Abort = 0, 0 }, true, []string{"?", "?", "G92 A30.000", "?"}},
		{"without a hold", func(t *talker, _ *booting) { t.controller.Hold = 0 }, true, []string{"?", "?", "G92 A30.000", "?"}},
		{"place not known", func(t *talker, _ *booting) { t.known = false }, false, []string{"?", "\x18"}},
		{"reset already", func(t *talker, b *booting) {
			t.crashed, t.greeted = true, true
		}, false, []string{"?"}},
		{"alarm before", func(_ *talker, b *booting) { b.reports = "<Alarm|MPos:0,0,0,130>" }, false, []string{"?", "\x18"}},
		{"a fault", func(t *talker, _ *booting) { t.calming = true }, false, []string{"?", "\x18"}},
		{"does not come back", func(_ *talker, b *booting) { b.says, b.dies = nil, true }, false, []string{"?", "\x18", "?"}},
	} {
		talks, w := echoed(t)
		b := &booting{w, []string{"", "Hello 1.1", "[MSG:lock]"}, 150 * ms, false, false}
		talks.engine.w, w.reports = b, "<Idle|MPos:0,0,0,130>"
		talks.controller.Greeting, talks.controller.Decimals = "Hello", 3
		talks.at, talks.shift, talks.known, talks.greeted, talks.state = []float64{5}, []float64{100}, true, true, Slowing
		x.set(talks, b)
		assert.Equal(t, x.known, talks.halt(), x.name)
		assert.Equal(t, x.heard, w.heard, x.name)
		if x.known {
			assert.Equal(t, []float64{30}, talks.at, x.name)
			assert.False(t, talks.expected || talks.crashed, x.name)
		} else {
			assert.Equal(t, []float64{5}, talks.at, x.name)
		}
		assert.Zero(t, talks.every)
	}
	// What it says has a fifth of a second between: all is waited for.
	talks, w := echoed(t)
	b := &booting{w, []string{"Hello", "[a]", "[b]", "[c]"}, 190 * ms, false, false}
	talks.engine.w, talks.controller.Greeting, talks.known, talks.shift = b, "Hello", true, []float64{0}
	talks.at, talks.every = []float64{0}, 100*ms
	talks.put("G1 A1", patience, nil)
	require.True(t, talks.halt())
	assert.True(t, talks.adrift)
	assert.Empty(t, w.queue)
	assert.Empty(t, talks.flight)
	assert.Equal(t, 100*ms, talks.every)
}

// TestOneThatDoesNotGreet is made to say something once a second, for six.
func TestOneThatDoesNotGreet(t *testing.T) {
	for _, x := range []struct {
		name    string
		set     func(*talker, *echo)
		lines   int
		seconds float64
	}{
		{"answers", func(*talker, *echo) {}, 1, 0.2 + 0.02 + 0.2}, {"is silent", func(_ *talker, w *echo) { w.silent = true }, 6, 0.2 + 6 + 0.2},
		{"in a fault", func(t *talker, _ *echo) { t.calming = true }, 0, 0.4},
		{"should have greeted", func(t *talker, w *echo) { t.controller.Greeting, w.silent = "Hello", true }, 0, 6.4},
		{"should have greeted, in a fault", func(t *talker, w *echo) { t.controller.Greeting, w.silent, t.calming = "Hello", true, true }, 0, 2.4},
	} {
		talks, w := echoed(t)
		talks.expected, talks.every = true, 100*ms
		x.set(talks, w)
		require.NoError(t, talks.comesBack(), x.name)
		assert.Len(t, w.heard, x.lines, x.name)
		assert.InDelta(t, x.seconds, w.now.Sub(noon).Seconds(), 0.001, x.name)
		assert.Equal(t, 100*ms, talks.every, x.name)
	}
}

// TestItIsWaitedForUntilItRests: by a report that was asked for after the hold; one that
// goes on is given as long as slowing down takes and two seconds.
func TestItIsWaitedForUntilItRests(t *testing.T) {
	for text, want := range map[string]bool{"Hold:0": true, "Hold": true, "Hold:1": false, "Idle": true, "Alarm": true, "Sleep": true, "Run": false, "Jog": false} {
		s, ok := parseStatus("<" + text + ">")
		require.True(t, ok)
		assert.Equal(t, want, s.resting(), text)
	}
	talks, w := echoed(t)
	talks.state, talks.askedAt, talks.statusAt, talks.before, talks.status = Slowing, noon, at(-1), at(-20), status{state: "Idle"}
	w.reports = "<Hold:0|MPos:0,0,0,0>"
	require.NoError(t, talks.rest())
	assert.Equal(t, at(70), talks.now, "asked after 50 ms, for it to be there 20 later; what came before is of before")
	assert.Equal(t, pollEvery, talks.every)
	talks, w = echoed(t)
	talks.state, w.reports = Slowing, "<Run|MPos:0,0,0,0>"
	err := talks.rest()
	require.ErrorContains(t, err, "it has not come to rest within")
	assert.InDelta(t, (talks.slowest() + patience).Seconds(), talks.now.Sub(noon).Seconds(), 0.001)
	talks, w = echoed(t)
	talks.crashed = true
	require.NoError(t, talks.rest())
	assert.Empty(t, w.heard, "one that was reset has stopped")
	talks, w = echoed(t)
	talks.controller.Status = 0
	require.NoError(t, talks.rest())
	assert.Equal(t, noon.Add(talks.slowest()), talks.now, "without reports for as long as it may take")
	assert.Empty(t, w.heard)
	// In a pass it is said what it keeps.
	talks, w = echoed(t)
	p := newPass(talks.engine, 1)
	w.reports = "<Hold:0|MPos:0,0,0,0>"
	talks.engine.pass, talks.state, p.zero, p.until, p.pausedAt = p, Slowing, noon.Add(-time.Second), 1.5, noon
	p.next, p.beats = at(1e6), &beats{e: talks.engine}
	talks.put("G1 X1", patience, nil)
	require.NoError(t, talks.rest())
	assert.Equal(t, heldBack(1, 0.5, talks.slowest()), talks.Observer.(*quiet).said[0])
}

// TestOneWithoutAHoldIsWaitedFor until what was sent is over, and for its answers, two
// seconds at the most; a single move until the line after it is answered.
func TestOneWithoutAHoldIsWaitedFor(t *testing.T) {
	pass := func(set func(*talker, *echo)) (*talker, error) {
		talks, w := echoed(t)
		talks.controller.Hold, talks.controller.Status, talks.state = 0, 0, Slowing
		p := newPass(talks.engine, 1)
		p.next, p.beats = at(1e6), &beats{e: talks.engine}
		talks.engine.pass, p.zero, p.until, p.shift = p, noon, 0.8, 100*ms
		talks.stream.paused = true
		set(talks, w)
		return talks, talks.rest()
	}
	talks, err := pass(func(*talker, *echo) {})
	require.NoError(t, err)
	assert.Equal(t, at(1000), talks.now, "800 ms, 100 that it was held and a margin of 100")
	assert.Equal(t, Draining, talks.state)
	assert.Equal(t, []string{holds(0, time.Second)}, talks.Observer.(*quiet).said)
	talks, err = pass(func(t *talker, w *echo) { w.after = 1500 * ms; t.put("G1 A1", patience, &program.Line{Text: "G1 A1"}) })
	require.NoError(t, err)
	assert.Equal(t, at(1500), talks.now)
	talks, err = pass(func(t *talker, w *echo) { w.silent = true; t.put("G1 A1", patience, &program.Line{Text: "G1 A1"}) })
	require.ErrorContains(t, err, `it has not answered line 1, "G1 A1", which it was to end with`)
	assert.Equal(t, at(3000), talks.now)

	talks, w := echoed(t)
	talks.controller.Hold, talks.state, talks.stops = 0, Approaching, 1
	talks.put("G1 A1", 5*time.Second, nil)
	require.NoError(t, talks.rest())
	assert.Equal(t, []string{"G1 A1", syncLine}, w.heard)
	assert.Zero(t, talks.stops)
	w.silent = true
	talks.put("G1 A2", 5*time.Second, nil)
	from := talks.now
	require.Error(t, talks.rest())
	assert.Equal(t, from.Add(5*time.Second), talks.now, "as long as the move may take")
}

// notes keeps records.
type notes struct {
	list []takelog.Record
	err  error
}

func (n *notes) Add(r takelog.Record) error { n.list = append(n.list, r); return n.err }

// TestAStopOutsideATake: it is at rest when that is told; what was homed is forgotten, and
// that the place is lost is written down, once.
func TestAStopOutsideATake(t *testing.T) {
	run := func(set func(*talker, *notes), move func(*talker) error) (*talker, *notes, error) {
		talks, w := echoed(t)
		log := &notes{}
		w.reports = "<Idle|MPos:0,0,0,30>"
		talks.engine.w = &booting{w, []string{"Hello"}, 10 * ms, false, false}
		talks.controller.Greeting, talks.controller.Decimals = "Hello", 3
		talks.Log, talks.at, talks.known, talks.shift, talks.state = log, []float64{5}, true, []float64{0}, Approaching
		set(talks, log)
		err := talks.inMotion(func() error { return move(talks) })
		return talks, log, err
	}
	none := func(*talker, *notes) {}
	talks, log, err := run(none, func(t *talker) error {
		t.Observer.Say(map[bool]string{true: "moves", false: "rests"}[t.moving])
		return nil
	})
	require.NoError(t, err)
	assert.Equal(t, []string{"moves"}, talks.Observer.(*quiet).said)
	assert.False(t, talks.moving)
	assert.Empty(t, log.list)
	talks, log, err = run(none, func(t *talker) error { t.stops = 1; return nil })
	require.ErrorIs(t, err, errStopped)
	assert.True(t, talks.known)
	assert.Equal(t, []float64{30}, talks.at)
	assert.Empty(t, log.list)
	assert.False(t, talks.moving)
	talks, log, err = run(none, func(t *talker) error { t.shift = nil; return errStopped })
	require.ErrorIs(t, err, errStopped)
	assert.False(t, talks.known)
	require.Len(t, log.list, 1)
	assert.Equal(t, [2]any{takelog.Lost, "stopped"}, [2]any{log.list[0].Kind, log.list[0].Outcome})
	talks, log, err = run(func(t *talker, _ *notes) { t.known, t.homed = false, []bool{true} }, func(t *talker) error { return errStopped })
	require.ErrorIs(t, err, errStopped)
	assert.Nil(t, talks.homed)
	assert.False(t, talks.known)
	assert.Empty(t, log.list, "it was not known before")
	assert.Contains(t, talks.Observer.(*quiet).said, "where the axes stand that had been homed is not known any more")
	_, _, err = run(func(_ *talker, n *notes) { n.err = errors.New("full") }, func(t *talker) error { t.shift = nil; return errStopped })
	require.ErrorContains(t, err, "log failed: full")
	talks, _, err = run(none, func(t *talker) error { return failed(Silent, "it") })
	require.ErrorContains(t, err, "silent")
	assert.True(t, talks.moving, "until it has been made to rest")
	for kind, want := range map[RequestKind]bool{Stop: true, Quit: true, Go: false, Finish: false} {
		moved := false
		talks, _, err = run(func(t *talker, _ *notes) { t.requests = []Request{{Kind: Go}, {Kind: kind}} }, func(*talker) error { moved = true; return nil })
		assert.Equal(t, want, errors.Is(err, errStopped), "%v", kind)
		assert.Equal(t, want, !moved, "a stop that came before is not forgotten")
		assert.Equal(t, want, talks.requests == nil)
	}
	talks, _, err = run(func(t *talker, _ *notes) { t.stops, t.aborted = 3, true }, func(t *talker) error { return nil })
	require.NoError(t, err)
	assert.False(t, talks.aborted)
	assert.Zero(t, talks.stops)
}

// TestATakeThatCannotBeCounted to its end is not begun; one without an end ends itself.
func TestATakeThatCannotBeCounted(t *testing.T) {
	fine := func(r *rig.Rig) {
		r.Axes[1].StepsPerUnit, r.Controller.SinglePrecision = exact.Int(160), true
	}
	for _, x := range []struct {
		far    float64
		rounds int64
		ok     bool
	}{{32_000, 2, true}, {32_000, 3, false}, {32_000, 0, true}, {32_700, 0, false}} {
		talks, q := talking(t, x.rounds, fine)
		talks.start[0], talks.counter.far = 0, []float64{x.far}
		err := talks.counts()
		if assert.Equal(t, x.ok, err == nil, "%+v", x); x.ok {
			assert.Equal(t, int64(2), talks.counter.most)
		} else {
			var fault *Failure
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, Outcounted, fault.End)
		}
		assert.Empty(t, q.said)
	}
	talks, _ := talking(t, 3, fine)
	talks.start[0], talks.counter.far = 10, []float64{32_500}
	require.EqualError(t, talks.counts(), "counted out: axis table: the controller counts on from 32510 deg, and further up its numbers of 24 bits do not tell its steps well apart: 0 rounds more would do, and the take has 3. "+
		"Switch it off and on, which begins its count anew, and bring every axis to the start")
	for guessed, lines := range map[bool]int{true: 1, false: 0} {
		talks, q := talking(t, 1, fine)
		talks.start[0], talks.counter.far, talks.counter.guessed = 0, []float64{0}, guessed
		require.NoError(t, talks.counts())
		require.NoError(t, talks.counts())
		assert.Len(t, q.said, lines, "once")
	}
	talks, q := talking(t, 1, nil)
	talks.counter.far, talks.counter.guessed = []float64{0}, true
	require.NoError(t, talks.counts())
	assert.Empty(t, q.said, "one that never counts out need not be told")

	for _, x := range []struct {
		total, rounds int64
		ends          bool
	}{{0, 6, false}, {0, 7, true}, {9, 7, false}} {
		talks, q := talking(t, 0, nil)
		src := &lineSource{}
		talks.stream.source, talks.counter.most = src, 7
		p := newPass(talks.engine, 1)
		p.total, p.rounds = x.total, x.rounds
		talks.counter.ends(talks, p)
		assert.Equal(t, x.ends, p.finished, "%+v", x)
		if x.ends {
			assert.Equal(t, [2]int64{7, 7}, [2]int64{p.total, src.finish})
			assert.Equal(t, []string{"the take ends by itself after 7 rounds: the controller can count no further up"}, q.said)
		}
	}
}
