package drive

import (
	"encoding/binary"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
)

// rower is a world of a step player that answers each frame after 5 ms and plays a row
// each millisecond once it is told to go.
type rower struct {
	now    time.Time
	reader stepplayer.Reader
	queue  []event
	types  []stepplayer.Type
	info   stepplayer.Player
	silent bool
	next   byte // sequence number that it expects

	state stepplayer.State
	steps []int32
	rows  [][]byte
	goes  time.Time // when it began to play
	ended bool
	stays bool // it goes on saying that it plays
}

type event struct {
	at    time.Time
	bytes func() []byte
}

func (w *rower) Now() time.Time { return w.now }

func (w *rower) tell(t stepplayer.Type, payload func() []byte) {
	if !w.silent {
		seq := w.next
		w.queue = append(w.queue, event{w.now.Add(5 * ms), func() []byte { return stepplayer.Frame{Seq: seq, Type: t, Payload: payload()}.Append(nil) }})
	}
}

func (w *rower) Write(b []byte) (int, error) {
	w.reader.Add(b)
	for f, ok := w.reader.Next(); ok; f, ok = w.reader.Next() {
		w.types = append(w.types, f.Type)
		switch f.Type {
		case stepplayer.Begin:
			w.rows, w.ended, w.state = nil, false, stepplayer.StandingBy
		case stepplayer.Rows:
			for b := f.Payload; len(b) > 0; b = b[2:] {
				w.rows = append(w.rows, b[:2])
			}
		case stepplayer.Place:
			for i := range w.steps {
				w.steps[i] = int32(binary.LittleEndian.Uint32(f.Payload[4*i:]))
			}
		case stepplayer.End:
			w.ended = true
		case stepplayer.Go:
			w.state, w.goes = stepplayer.Playing, w.now
		case stepplayer.Hold:
			w.state = stepplayer.Held
		case stepplayer.Hello:
			w.next = 0
			w.tell(stepplayer.HelloAnswer, w.info.Tell)
		}
		if strings.ContainsRune("BPRGE", rune(f.Type)) { // obeyed in sequence
			w.next++
			w.tell(stepplayer.Ack, func() []byte { return binary.LittleEndian.AppendUint16(nil, 2000) })
		} else if f.Type == stepplayer.Ask {
			w.tell(stepplayer.StatusNow, w.status)
		}
	}
	return len(b), nil
}

func (w *rower) status() []byte {
	s := stepplayer.Status{State: w.state, Room: 2000, Steps: append([]int32(nil), w.steps...)}
	if w.state == stepplayer.Playing {
		n := min(int(w.now.Sub(w.goes)/ms), len(w.rows))
		for _, row := range w.rows[:n] {
			s.Steps[0] += int32(int8(row[0]))
			s.Steps[1] += int32(int8(row[1]))
		}
		s.Played = uint32(n)
		if n == len(w.rows) && w.ended && !w.stays {
			s.State, w.state, w.steps = stepplayer.Ended, stepplayer.Ended, s.Steps
		}
	}
	return s.Tell()
}

func (w *rower) Wait(until time.Time) Event {
	if len(w.queue) > 0 && !w.queue[0].at.After(until) {
		next := w.queue[0]
		w.queue, w.now = w.queue[1:], later(w.now, next.at)
		return Event{Kind: Heard, Bytes: next.bytes()}
	}
	w.now = later(w.now, until)
	return Event{}
}

// rowing is a player before such a world, which has said hello, at rest at steps 7 and 50.
func rowing(t *testing.T) (*player, *rower) {
	p := playing(t)
	w := &rower{now: noon, steps: []int32{7, 50}, info: stepplayer.Player{Version: stepplayer.Version, Axes: 2, Capacity: 2000}}
	p.engine.w, p.rows, p.moving, p.state = w, nil, false, Approaching
	p.engine.at, p.known = []float64{5}, true
	require.NoError(t, p.greet())
	w.types = nil
	return p, w
}

// TestAPlayerIsGreeted: it is asked once a second for six, and then where it stands.
func TestAPlayerIsGreeted(t *testing.T) {
	p, _ := rowing(t)
	require.NotNil(t, p.status)
	assert.Equal(t, []int32{7, 50}, p.status.Steps)
	assert.Equal(t, 2000, p.room)
	assert.Equal(t, 2, p.axesNow)
	assert.False(t, p.greets)
	p.flight = []frame{{at: p.now}}
	p.controller.ResetsOnOpen, p.seq = true, 9
	from := p.now
	require.NoError(t, p.greet())
	assert.Zero(t, p.seq)
	assert.Empty(t, p.flight)
	assert.Less(t, p.now.Sub(from), 50*ms, "it had said hello")
	p, w := rowing(t)
	w.silent, p.silent, p.state = true, time.Time{}, Opening
	from = p.now
	err := p.greet()
	require.ErrorContains(t, err, "silent: no answer to a hello within 6s")
	assert.Len(t, w.types, 6)
	assert.InDelta(t, 6, p.now.Sub(from).Seconds(), 0.01)
	// Who leaves while it begins anew waits for no hello, and says none.
	p, w = rowing(t)
	w.silent, p.silent, p.state, p.info, p.controller.ResetsOnOpen = true, time.Time{}, Opening, nil, true
	p.requests = []Request{{Kind: Quit}}
	from = p.now
	assert.ErrorIs(t, p.greet(), errStopped)
	assert.Empty(t, w.types)
	assert.Less(t, p.now.Sub(from), 50*ms)
	// One that says hello unasked has lost what it held.
	p, _ = rowing(t)
	p.heard(stepplayer.Frame{Type: stepplayer.HelloAnswer, Payload: w.info.Tell()}.Append(nil))
	require.NotNil(t, p.failure)
	assert.Equal(t, Restarted, p.failure.End)
}

// TestAPlayerMovesGently: from where it stands to a place, or by a distance where nothing
// is known, in rows of a millisecond, which are over when the quickest gentle move is; the
// other motor stays.
func TestAPlayerMovesGently(t *testing.T) {
	p, w := rowing(t)
	from := p.now
	takes := gentle(p.axes[0], 3).T
	require.NoError(t, p.inMotion(func() error { return p.glide(0, 8, false) }))
	assert.Equal(t, []float64{8}, p.at)
	assert.Equal(t, []int32{7, 80}, w.steps)
	assert.Len(t, w.rows, int(ticksOf(takes, 0.001)))
	assert.InDelta(t, takes, p.now.Sub(from).Seconds(), 0.2)
	assert.Nil(t, p.rows)
	assert.Equal(t, stepplayer.Begin, w.types[0])
	require.NoError(t, p.inMotion(func() error { return p.glide(0, -2, true) }))
	assert.Equal(t, []int32{7, 60}, w.steps)
	assert.Equal(t, []float64{8}, p.at, "by a distance it is nowhere that is known")
	p.status = nil
	require.ErrorContains(t, p.glide(0, 1, true), "it does not say where it stands")
	// No way at all is a row.
	p, w = rowing(t)
	require.NoError(t, p.inMotion(func() error { return p.glide(0, 5, false) }))
	assert.Len(t, w.rows, 1)
	// One that never says that it has ended.
	p, w = rowing(t)
	w.stays = true
	require.Error(t, p.inMotion(func() error { return p.glide(0, 5.1, false) }))
	assert.True(t, p.over.IsZero())
	// A stop ends it, at rest.
	p, _ = rowing(t)
	p.requests = nil
	err := p.inMotion(func() error { p.stops = 1; p.slow(); return p.glide(0, 8, false) })
	require.ErrorIs(t, err, errStopped)
}

// TestAPlayerIsToldWhereItStands: the nearest steps of its motors.
func TestAPlayerIsToldWhereItStands(t *testing.T) {
	p, w := rowing(t)
	require.NoError(t, p.place([]float64{12.34}))
	assert.Equal(t, []int32{0, 123}, w.steps)
	assert.Equal(t, []int32{0, 123}, p.status.Steps)
	require.NoError(t, p.unlock())
	assert.Equal(t, []int32{0, 123}, w.steps)
	p, w = rowing(t)
	w.silent, p.calming = true, true
	err := p.fresh()
	require.ErrorContains(t, err, "it does not answer when asked for its status")
	require.Error(t, p.place([]float64{0}))
	require.Error(t, p.unlock())
	p.status, w.types = nil, nil
	require.NoError(t, p.unlock())
	assert.Empty(t, w.types)
}

// TestAPlayerAtRest forgets its rows, and is where its steps say: not while a fault is
// dealt with, nor after an abort or in an alarm.
func TestAPlayerAtRest(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*player, *rower)
		known bool
	}{
		{"held", func(_ *player, w *rower) { w.state = stepplayer.Held }, true},
		{"not known before", func(p *player, _ *rower) { p.known = false }, false},
		{"aborted", func(p *player, w *rower) { p.crashed, w.state = true, stepplayer.Aborted }, false},
		{"aborted by itself", func(_ *player, w *rower) { w.state = stepplayer.Aborted }, false},
		{"in a fault", func(p *player, _ *rower) { p.calming = true }, false},
		{"gone", func(p *player, _ *rower) { p.gone = true }, false},
	} {
		p, w := rowing(t)
		p.rows = newRows(2, 0.001, 1, place0)
		x.set(p, w)
		assert.Equal(t, x.known, p.halt(), x.name)
		assert.Nil(t, p.rows)
		assert.Equal(t, !p.gone, len(w.types) > 0 && w.types[len(w.types)-1] == stepplayer.Begin, x.name)
		assert.Equal(t, x.name == "gone" && p.crashed, p.crashed)
		// 50 steps are 5 degrees, where it was; from now on it is where those say.
		w.steps[1] = 70
		if known := p.halt(); known {
			assert.Equal(t, []float64{7}, p.at, x.name)
		} else {
			assert.Equal(t, []float64{5}, p.at, x.name)
		}
	}
	// It is waited for until it says that it rests: 256 rows and two seconds.
	p, w := rowing(t)
	p.status.State = stepplayer.Slowing
	w.state = stepplayer.Slowing
	from := p.now
	p.calming = true
	require.ErrorContains(t, p.rest(), "it has not come to rest within 2.256s of the hold")
	assert.InDelta(t, 2.256, p.now.Sub(from).Seconds(), 0.001)
	w.state = stepplayer.Held
	require.NoError(t, p.rest())
	p.status.State, p.crashed = stepplayer.Playing, true
	require.NoError(t, p.rest())
	// A pass ends where it says, if it says that all is over.
	p, w = rowing(t)
	_, ok := p.last(nil)
	assert.False(t, ok, "it stands by")
	w.state = stepplayer.Ended
	at, ok := p.last(nil)
	assert.True(t, ok)
	assert.Equal(t, []float64{5}, at)
}

// TestAPlayerIsHeld: the pass stands from then on, and goes on later by as long as it
// stood. A fault's hold is none of the operator.
func TestAPlayerIsHeld(t *testing.T) {
	p, w := rowing(t)
	q := newPass(p.engine, 1)
	p.engine.pass, q.zero, q.shift = q, noon, 50*ms
	p.engine.now = at(700)
	p.slow()
	assert.True(t, p.held && q.held)
	assert.Equal(t, at(700), q.pausedAt)
	p.engine.now = at(900)
	p.slow()
	assert.Equal(t, at(700), q.pausedAt, "since the first")
	p.engine.now = at(1000)
	p.resume(q)
	assert.False(t, p.held)
	assert.Equal(t, at(1000), p.resumed)
	assert.Equal(t, 350*ms, q.shift)
	assert.True(t, q.pausedAt.IsZero())
	p.flush()
	assert.Equal(t, []stepplayer.Type{stepplayer.Hold, stepplayer.Hold, stepplayer.Resume}[:1], w.types[len(w.types)-1:])
	q.held, p.calming = false, true
	p.slow()
	assert.False(t, q.held)
	assert.Equal(t, at(1000), q.pausedAt)
	p.crash()
	assert.True(t, p.crashed)
}

// TestAnEndThatDoesNotCome: all rows should have been over by two seconds, and what a
// clock may be out by.
func TestAnEndThatDoesNotCome(t *testing.T) {
	const over = 1000 + 7.1 + 2000 // ms: a thousand rows
	for _, x := range []struct {
		name  string
		now   float64
		set   func(*player)
		fails bool
	}{
		{"just", over - 0.1, func(*player) {}, false}, {"too long", over + 0.1, func(*player) {}, true},
		{"over", over + 1, func(p *player) { p.over = noon }, false}, {"not begun", over + 1, func(p *player) { p.began = time.Time{} }, false},
		{"not all sent", over + 1, func(p *player) { p.ended = false }, false}, {"held", over + 1, func(p *player) { p.held = true }, false},
		{"at rest", over + 1, func(p *player) { p.moving = false }, false}, {"in a fault", over + 1, func(p *player) { p.calming = true }, false},
		{"no rows", over + 1, func(p *player) { p.rows = nil }, false},
		{"stood for a while", over + 99, func(p *player) { p.engine.pass = &pass{engine: p.engine, shift: 100 * ms} }, false},
		{"and is too long", over + 101, func(p *player) { p.engine.pass = &pass{engine: p.engine, shift: 100 * ms} }, true},
	} {
		p := playing(t)
		p.status, p.now = &stepplayer.Status{State: stepplayer.Playing}, at(x.now)
		x.set(p)
		p.overdue()
		assert.Equal(t, x.fails, p.failure != nil, x.name)
	}
}

// TestWhatAStatusIsHeldTo only while rows are played that were begun before it was asked
// for.
func TestWhatAStatusIsHeldTo(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*player)
		fails bool
	}{
		{"plays unasked", func(*player) {}, true}, {"no rows", func(p *player) { p.rows = nil }, false}, {"at rest", func(p *player) { p.moving = false }, false},
		{"in a fault", func(p *player) { p.calming = true }, false}, {"not begun", func(p *player) { p.begun = time.Time{} }, false},
		{"asked for before", func(p *player) { p.before = at(-1) }, false},
	} {
		p := playing(t)
		p.going = false
		x.set(p)
		p.agrees(stepplayer.Status{State: stepplayer.Playing, Steps: make([]int32, 2)})
		assert.Equal(t, x.fails, p.failure != nil, x.name)
	}
	for state, want := range map[stepplayer.State][2]bool{ // steps are looked at; and the time
		stepplayer.Playing: {true, true}, stepplayer.Slowing: {true, false}, stepplayer.Ended: {true, false}, stepplayer.Held: {false, false},
	} {
		p := playing(t)
		p.held, p.now = true, at(900)
		p.agrees(stepplayer.Status{State: state, Played: 1000, Steps: []int32{0, 5}})
		assert.Equal(t, want[0], p.strays > 0, "%v", state)
		q := playing(t)
		q.held, q.now = true, at(5000)
		q.before = q.now
		q.agrees(stepplayer.Status{State: state, Played: 1000, Steps: []int32{0, 1000}})
		assert.Equal(t, want[1], q.failure != nil, "%v", state)
	}
	// In a pass it shows where the axes are.
	p := playing(t)
	q := newPass(p.engine, 1)
	p.engine.pass, q.zero, p.now, p.asked = q, noon, at(500), at(500)
	p.reported(stepplayer.Status{State: stepplayer.Playing, Room: 33, Played: 500, Steps: []int32{0, 500}})
	assert.Equal(t, []float64{50}, q.position)
	assert.Equal(t, 33, p.room)
	assert.Equal(t, at(500), p.seen)
	assert.Equal(t, at(500), p.before)
	q.position, p.moving = nil, false
	p.reported(stepplayer.Status{State: stepplayer.Playing, Played: 500, Steps: []int32{0, 500}})
	assert.Nil(t, q.position)
}

// TestFramesThatAreRefused are sent again if one was lost or there was no room; else the
// run ends, unless it is only greeted.
func TestFramesThatAreRefused(t *testing.T) {
	for _, x := range []struct {
		reason stepplayer.Reason
		greets bool
		end    End
		again  bool
	}{
		{stepplayer.Lost, false, 0, true}, {stepplayer.NoRoom, false, 0, true}, {stepplayer.InAlarm, false, Alarmed, false},
		{stepplayer.NotNow, false, Refused, false}, {stepplayer.NotNow, true, 0, false},
	} {
		p := playing(t)
		p.now, p.seq, p.greets = at(5000), 6, x.greets
		p.flight = []frame{{seq: 4, bytes: []byte("four")}, {seq: 5, bytes: []byte("five")}}
		p.resent = noon
		p.refused(4, x.reason, 77)
		assert.Equal(t, 77, p.room)
		assert.Equal(t, x.again, string(p.out.queue) == "fourfive", "%v", x.reason)
		if assert.Equal(t, x.end != 0, p.failure != nil, "%v", x.reason) && x.end != 0 {
			assert.Equal(t, x.end, p.failure.End)
		}
	}
}

// TestRowsAreSuppliedAsThereIsRoom: two frames are on the way at a time; it goes once half
// a second is there, or all is.
func TestRowsAreSuppliedAsThereIsRoom(t *testing.T) {
	p := playing(t)
	p.controller.Baud, p.room, p.seq = 0, 2000, 0
	p.rows.next, p.going, p.ended = 0, false, false
	sent := func() (types []stepplayer.Type) {
		r := stepplayer.Reader{}
		r.Add(p.out.queue)
		for f, ok := r.Next(); ok; f, ok = r.Next() {
			types = append(types, f.Type)
		}
		p.out.forget()
		return types
	}
	const rows = stepplayer.Rows
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{rows, rows}, sent())
	assert.Equal(t, int64(96), p.rows.next)
	require.NoError(t, p.supply())
	assert.Empty(t, sent(), "204 bytes are without acknowledgement")
	for n := int64(144); n < 512; n += 48 {
		p.flight = p.flight[1:]
		require.NoError(t, p.supply())
		assert.Equal(t, []stepplayer.Type{rows}, sent())
		assert.Equal(t, n, p.rows.next)
		assert.False(t, p.going)
	}
	p.flight, p.now = p.flight[1:], at(70)
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{rows, stepplayer.Go}, sent())
	assert.Equal(t, at(70), p.went)
	p.flight, p.rows.next, p.rows.now[1], p.now = nil, 990, 990, at(90)
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{rows, stepplayer.End}, sent())
	assert.True(t, p.ended)
	require.NoError(t, p.supply())
	assert.Empty(t, sent())
	assert.Equal(t, at(70), p.went, "it is told once")
	// A store that is full goes at once, and one of few rows.
	p.flight, p.rows.next, p.going, p.ended, p.room = nil, 48, false, false, 47
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{stepplayer.Go}, sent())
	p.flight, p.rows.next, p.rows.now[1], p.going, p.ended, p.room = nil, 48, 48, false, false, 48+47
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{rows, stepplayer.Go}, sent())
	p.flight, p.rows.next, p.rows.now[1], p.going, p.room = nil, 48, 48, false, 3*48
	require.NoError(t, p.supply())
	assert.Equal(t, []stepplayer.Type{rows, rows}, sent(), "there is room for one more frame yet")
	p.failure, p.flight, p.rows.next = failed(Silent, "x"), nil, 48
	require.NoError(t, p.supply())
	assert.Empty(t, sent(), "nothing after a fault")
}

// TestRowsBeginAnew: nothing is left of those before.
func TestRowsBeginAnew(t *testing.T) {
	p, w := rowing(t)
	p.began, p.over, p.resumed, p.went = noon, noon, noon, noon
	p.held, p.strays, p.ended, p.going = true, 9, true, true
	r := newRows(2, 0.001, 5, place0)
	require.NoError(t, p.start(r))
	assert.Same(t, r, p.rows)
	assert.True(t, p.began.IsZero() && p.over.IsZero() && p.resumed.IsZero())
	assert.False(t, p.held || p.ended || p.going)
	assert.Zero(t, p.strays)
	assert.Equal(t, p.now, p.begun, "once it has forgotten the others")
	assert.Equal(t, []stepplayer.Type{stepplayer.Begin}, w.types)
	p.controller.ResetsOnOpen = false
	w.silent, p.calming = true, true
	from := p.now
	require.ErrorContains(t, p.begin(), "no acknowledgement for 2s")
	assert.Equal(t, 2*time.Second, p.now.Sub(from))
}

// TestFramesThatAreHeard: any shows that it is there; one that makes no sense is a fault.
func TestFramesThatAreHeard(t *testing.T) {
	for _, x := range []struct {
		typ     stepplayer.Type
		payload []byte
		fails   bool
	}{
		{stepplayer.Ack, []byte{1, 0}, false}, {stepplayer.Ack, nil, true}, {stepplayer.StatusNow, nil, true}, {stepplayer.Refused, nil, true},
		{stepplayer.HelloAnswer, nil, true}, {stepplayer.StatusNow, stepplayer.Status{Steps: make([]int32, 2)}.Tell(), false},
	} {
		p := playing(t)
		p.silent, p.rows = noon, nil
		p.heard(stepplayer.Frame{Type: x.typ, Payload: x.payload}.Append(nil))
		assert.True(t, p.silent.IsZero())
		if assert.Equal(t, x.fails, p.failure != nil, "%+v", x) && x.fails {
			assert.Equal(t, Garbled, p.failure.End)
		}
	}
	p := playing(t)
	p.status, p.rows, p.moving = nil, nil, true
	for _, s := range []stepplayer.State{stepplayer.StandingBy, stepplayer.Ended, stepplayer.Ended} {
		p.now = p.now.Add(ms)
		p.reported(stepplayer.Status{State: s, Steps: make([]int32, 2)})
	}
	assert.Equal(t, at(2), p.over, "when it said so first")
	p.reported(stepplayer.Status{State: stepplayer.Ended, Room: 9999, Steps: make([]int32, 2)})
	assert.NotEqual(t, 9999, p.room, "what it cannot mean is not taken in")
	// It is asked ten times a second, and no later than a second after the first is missed.
	p = playing(t)
	p.rows, p.asked, p.now = nil, noon, at(99)
	p.tick()
	assert.False(t, p.out.waiting())
	p.now = at(100)
	p.tick()
	assert.Equal(t, at(100), p.asked)
	assert.Equal(t, at(100), p.silent)
	p.now = at(200)
	p.tick()
	assert.Equal(t, at(100), p.silent, "since the first")
}
