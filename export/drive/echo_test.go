package drive

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
)

// echo is a world that answers each line after a while, and each asking with a report.
type echo struct {
	now     time.Time
	after   time.Duration
	queue   []said
	line    []byte
	heard   []string // lines, and urgent bytes by themselves
	silent  bool
	reports string
	grain   float64               // s of which its dwells last whole multiples
	late    map[int]time.Duration // by how much more it is to answer its nth line
	chatty  bool                  // it says something before each answer
}

type said struct {
	at   time.Time
	text string
}

func (w *echo) Now() time.Time { return w.now }

func (w *echo) Write(p []byte) (int, error) {
	for _, b := range p {
		switch {
		case b == '?' || b == '!' || b == '~' || b == 0x18:
			w.heard = append(w.heard, string(b))
			if b == '?' && !w.silent {
				w.queue = append(w.queue, said{w.now.Add(w.after), w.reports + "\n"})
			}
		case b == '\n':
			line := string(w.line)
			w.heard, w.line = append(w.heard, line), nil
			lasts := dwell(line)
			if w.grain > 0 {
				lasts = math.Ceil(lasts/w.grain) * w.grain
			}
			if w.chatty {
				w.queue = append(w.queue, said{w.now.Add(w.after / 2), "[msg]\n"})
			}
			if !w.silent {
				w.queue = append(w.queue, said{w.now.Add(w.after + seconds(lasts) + w.late[len(w.heard)]), "ok\n"})
			}
		default:
			w.line = append(w.line, b)
		}
	}
	return len(p), nil
}

func (w *echo) Wait(until time.Time) Event {
	if len(w.queue) > 0 && !w.queue[0].at.After(until) {
		next := w.queue[0]
		w.queue = w.queue[1:]
		w.now = later(w.now, next.at)
		return Event{Kind: Heard, Bytes: []byte(next.text)}
	}
	w.now = later(w.now, until)
	return Event{}
}

// echoed is a line controller before such a world, at 10 000 bits/s, which is a millisecond a byte.
func echoed(t *testing.T) (*lineController, *echo) {
	talks, _ := talking(t, 1, nil)
	w := &echo{now: noon, after: 20 * ms, reports: "<Idle|MPos:0,0,0,0|Bf:15,128>"}
	talks.engine.w = w
	talks.controller.Status, talks.controller.Hold, talks.controller.Resume, talks.controller.Abort = '?', '!', '~', 0x18
	talks.controller.ReceiveBuffer, talks.controller.Baud = 128, 10_000
	talks.way = newLink(10_000)
	return talks, w
}

// TestAnAnswerOnASilentWire tells how long answers take; one with something else on the
// way does not, and one that does not come is missed.
func TestAnAnswerOnASilentWire(t *testing.T) {
	talks, w := echoed(t)
	require.NoError(t, talks.prompt("G21"))
	assert.Equal(t, 1, talks.way.answers.n)
	// Its four bytes are across after 4 ms; the answer began a byte before it was heard.
	assert.Equal(t, 20*ms-4*ms-ms, talks.way.answers.least)
	assert.Equal(t, []string{"G21"}, w.heard)
	assert.Empty(t, talks.flight)
	assert.Zero(t, talks.bytes)
	assert.Equal(t, int64(4), talks.said)
	require.NoError(t, talks.exchange("G4 P0.5", patience))
	assert.Equal(t, 1, talks.way.answers.n, "a dwell is no answer at once")
	talks.put("G90", patience, nil)
	require.NoError(t, talks.exchange("G94", patience))
	assert.Equal(t, 1, talks.way.answers.n)
	require.NoError(t, talks.fresh())
	assert.Equal(t, 1, talks.way.reports.n)
	assert.Equal(t, "Idle", talks.status.state)
	assert.Equal(t, 20*ms-ms-ms, talks.way.reports.least, "a byte there, and one back")

	w.silent = true
	err := talks.exchange("G92 X0", 300*ms)
	var fault *Failure
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, `no answer to line 5, "G92 X0", for 300ms`, fault.Detail)
	quiet, w := echoed(t)
	w.silent = true
	require.ErrorContains(t, quiet.fresh(), "silent: ")
}

// TestAStopIsOnTheWireFirst: the hold, at once; a second stop aborts, and what was to come
// is forgotten. One that goes on has lost the time that it stood.
func TestAStopIsOnTheWireFirst(t *testing.T) {
	talks, w := echoed(t)
	p := newPass(talks.engine, 1)
	talks.engine.pass, p.zero, talks.engine.moving = p, noon, true
	talks.stream = stream{pass: p}
	talks.put("G1 X1", patience, nil)
	talks.engine.now = at(500)
	talks.engine.asked(Request{Kind: Stop})
	assert.True(t, p.held)
	assert.Equal(t, at(500), p.pausedAt)
	assert.True(t, talks.stream.paused)
	talks.flush()
	assert.Equal(t, []string{"!", "G1 X1"}, w.heard)
	talks.engine.now = at(800)
	talks.resume(p)
	assert.Equal(t, 300*ms, p.shift)
	assert.True(t, p.pausedAt.IsZero())
	assert.False(t, talks.stream.paused)
	assert.Equal(t, at(800), talks.stream.resumed)
	talks.put("G1 X2", patience, nil)
	talks.greeted = true
	talks.engine.asked(Request{Kind: Quit})
	assert.True(t, talks.aborted && talks.quit && talks.crashed)
	assert.True(t, talks.expected && !talks.greeted, "it will greet anew, which is no surprise")
	assert.Empty(t, talks.flight)
	assert.Zero(t, talks.bytes)
	talks.flush()
	assert.Equal(t, []string{"!", "G1 X1", "~", "\x18"}, w.heard, "what it had not been sent is forgotten")

	none, w := echoed(t) // one without a hold stops being fed, and goes on to its end
	none.controller.Hold, none.controller.Abort = 0, 0
	p = newPass(none.engine, 1)
	none.engine.pass, p.zero, none.engine.moving, p.until = p, noon, true, 0.3
	none.stream = stream{pass: p}
	none.engine.now = at(100)
	none.engine.asked(Request{Kind: Stop})
	none.put("G1 X3", patience, nil)
	none.engine.now = at(500)
	none.resume(p)
	assert.Equal(t, 200*ms, p.shift, "what was sent ended at 300")
	none.crash()
	assert.False(t, none.crashed)
	none.flush()
	assert.Empty(t, w.heard, "it is sent no more")
	none.engine.now, p.shift, p.pausedAt = at(200), 0, at(100)
	none.resume(p)
	assert.Zero(t, p.shift)
}

// TestFramesThatAreLost are sent again after a fifth of a second, all of them, and not
// twice within a quarter of that; two seconds without an answer are too many.
func TestFramesThatAreLost(t *testing.T) {
	p := playing(t)
	p.rows, p.asked = nil, at(0)
	assert.Equal(t, at(100), p.due(), "the status")
	p.asked = at(150)
	p.flight = []frame{{seq: 1, bytes: []byte("one"), at: at(10)}, {seq: 2, bytes: []byte("two"), at: at(20)}}
	assert.Equal(t, at(210), p.due())
	p.resent = at(40)
	assert.Equal(t, at(240), p.due())
	p.now = at(239)
	p.tick()
	assert.False(t, p.out.waiting())
	p.now = at(240)
	p.tick()
	assert.Equal(t, "onetwo", string(p.out.queue))
	assert.Equal(t, at(240), p.resent)
	p.out.forget()
	p.now = at(289)
	p.resend()
	assert.False(t, p.out.waiting())
	p.now = at(290)
	p.resend()
	assert.True(t, p.out.waiting())
	p.now = at(340)
	p.resend()
	assert.Equal(t, "onetwo", string(p.out.queue), "not while they are still to go")
	p.asked, p.resent, p.now = at(2009), at(2009), at(2010)
	p.tick()
	assert.Nil(t, p.failure)
	p.asked, p.resent, p.now = at(2010), at(2010), at(2011)
	p.tick()
	require.NotNil(t, p.failure)
	assert.Equal(t, "no acknowledgement for 2.001s", p.failure.Detail)
	q := playing(t)
	q.info = nil
	assert.Equal(t, noon.Add(never), q.due(), "nothing is asked before it has said hello")
	q = playing(t)
	q.asked, q.silent, q.now = at(2001), at(0), at(2001)
	q.over = noon
	q.tick()
	require.NotNil(t, q.failure)
	assert.Equal(t, "it has not answered for 2.001s", q.failure.Detail)
}

// TestWhatAPlayerTurnsTo: it began so many rows before it was heard to play, not before it
// was told to go; starved, stopped and in an alarm are faults while something moves.
func TestWhatAPlayerTurnsTo(t *testing.T) {
	for _, x := range []struct {
		played uint32
		went   float64
		want   float64
	}{{0, 0, 500}, {100, 0, 400}, {100, 450, 450}} {
		p := playing(t)
		q := newPass(p.engine, 1)
		p.engine.pass = q
		p.began, p.went, p.now = time.Time{}, at(x.went), at(500)
		p.status = &stepplayer.Status{Steps: make([]int32, 2)}
		p.controller.Baud = 10_000
		p.turned(stepplayer.Status{State: stepplayer.Playing, Played: x.played})
		assert.Equal(t, at(x.want), p.began)
		// A status of two motors is 13 bytes and 8 on the wire: frame 0 was seen by that
		// late, and is a run-up after the beginning.
		assert.WithinDuration(t, at(x.want).Add(seconds(p.runUp)-21*ms), q.zero, time.Microsecond)
	}
	for _, x := range []struct {
		state stepplayer.State
		set   func(*player)
		end   End
	}{
		{stepplayer.Starved, func(*player) {}, Behind}, {stepplayer.Alarm, func(*player) {}, Alarmed}, {stepplayer.Aborted, func(*player) {}, Alarmed},
		{stepplayer.Starved, func(p *player) { p.moving = false }, 0}, {stepplayer.Starved, func(p *player) { p.calming = true }, 0},
		{stepplayer.Alarm, func(p *player) { p.moving = false }, 0}, {stepplayer.Aborted, func(p *player) { p.crashed = true }, 0}, {stepplayer.Aborted, func(p *player) { p.moving = false }, 0},
	} {
		p := playing(t)
		x.set(p)
		p.turned(stepplayer.Status{State: x.state})
		if x.end == 0 {
			assert.Nil(t, p.failure, "%v", x.state)
		} else if assert.NotNil(t, p.failure, "%v", x.state) {
			assert.Equal(t, x.end, p.failure.End)
		}
	}
	p := playing(t)
	p.now = at(700)
	p.turned(stepplayer.Status{State: stepplayer.Ended})
	assert.Equal(t, at(700), p.over)
}

// TestADwellIsTried before anything moves: one that lasts otherwise than the rig file has
// it is refused, with the grain that explains it, if one does.
func TestADwellIsTried(t *testing.T) {
	for _, x := range []struct {
		is, says float64 // s of the board's grain, and of the rig file's
		wrong    string
	}{
		{0, 0, ""}, {0.05, 0.05, ""},
		{0.05, 0, `a dwell of 120.0 ms lasts 150.0 ms here, where the rig file's dwell-grain makes it 120.0: each rest of the take would be as much out of step with the frames. Say dwell-grain = "50 ms" in the rig file and plan again`},
		{0, 0.05, `a dwell of 120.0 ms lasts 120.0 ms here, where the rig file's dwell-grain makes it 150.0: each rest of the take would be as much out of step with the frames. Say dwell-grain = "none" in the rig file and plan again`},
	} {
		talks, w := echoed(t)
		w.grain, talks.controller.DwellGrain = x.is, x.says
		err := talks.tryDwells([]float64{0.12, 0.12})
		if x.wrong == "" {
			require.NoError(t, err)
			assert.True(t, talks.tried)
			n := len(w.heard)
			require.NoError(t, talks.tryDwells([]float64{0.12}))
			assert.Len(t, w.heard, n, "once a run")
			assert.Equal(t, []string{"G4 P0.000000", "G4 P0.120000"}, w.heard)
			continue
		}
		require.EqualError(t, err, "settings differ: "+x.wrong)
		assert.Len(t, w.heard, 2*3+2, "three goes of two, and one of a dwell that is briefer than any grain")
	}
	talks, _ := echoed(t)
	err := talks.dwellsOtherwise(0.12, 0.137, 0.003)
	require.ErrorContains(t, err, "No grain explains that")
}

// full takes no byte, and tells until when it was waited for.
type full struct {
	World
	until time.Time
}

func (w *full) Now() time.Time              { return noon }
func (w *full) Write(p []byte) (int, error) { return 0, nil }
func (w *full) Wait(until time.Time) Event  { w.until = until; return Event{} }

// TestAWireThatTakesNothing is tried again after a millisecond; and after two seconds it
// is given up.
func TestAWireThatTakesNothing(t *testing.T) {
	talks, _ := talking(t, 1, nil)
	w := &full{}
	talks.engine.w, talks.engine.state = w, Running
	require.NoError(t, talks.wait(at(500)))
	assert.Equal(t, at(500), w.until, "nothing waits to be sent")
	talks.out.send([]byte("G90"))
	require.NoError(t, talks.wait(at(500)))
	assert.Equal(t, at(1), w.until)
	assert.Equal(t, noon, talks.stuck)
	require.NoError(t, talks.wait(noon))
	assert.Equal(t, at(0.1), w.until, "what is due and cannot be done must not stop time")
	talks.engine.stuck = at(-2000)
	talks.flush()
	assert.Nil(t, talks.failure)
	talks.engine.stuck = at(-2001)
	talks.flush()
	require.NotNil(t, talks.failure)
	assert.Equal(t, "the wire has taken no byte for 2s", talks.failure.Detail)
}
