package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
)

// playing is a player of two motors, the table of evenTurn being the second, with 1000
// rows that turn it by a step each, all sent, begun and told to go at noon.
func playing(t *testing.T) *player {
	e := &engine{job: newJob(Options{Trajectory: evenTurn(t, nil), Rounds: 1, Observer: &quiet{}}), now: noon}
	p := newPlayer(e)
	e.m, e.moving = p, true
	p.info = &stepplayer.Player{Axes: 2, Capacity: 2000}
	p.axesNow = 2
	p.rows = newRows(2, 0.001, 1000, func(sec float64, steps []int64) { steps[1] = nearestStep(sec, 1000) })
	p.rows.next = 1000
	p.going, p.ended = true, true
	p.begun, p.went, p.began, p.before = noon, noon, noon, noon
	return p
}

// TestWhichMotorsAreTheTakes: the table is the rig's second, so that a row is for two and
// a frame of 96 bytes holds 48.
func TestWhichMotorsAreTheTakes(t *testing.T) {
	p := playing(t)
	assert.Equal(t, []int{1}, p.motors)
	assert.Equal(t, 2, p.wide())
	assert.Equal(t, 48, p.perFrame())
	assert.Equal(t, uint32(1_000_000), p.nanos(), "a millisecond a row")
	p.info.Shortest = 2_500_000
	assert.InDelta(t, 0.0025, p.tickSeconds(), 1e-12, "or as short as it can")
}

// TestHowManyRowsMayBeSent: its room, less what is on the way.
func TestHowManyRowsMayBeSent(t *testing.T) {
	p := playing(t)
	p.room = 100
	assert.Equal(t, 100, p.free())
	p.flight = []frame{{rows: 48, bytes: make([]byte, 102)}, {rows: 20, bytes: make([]byte, 46)}}
	assert.Equal(t, 32, p.free())
	assert.Equal(t, 148, p.inFlight())
	p.rows.next = 0
	payload, n, err := p.batch()
	require.NoError(t, err)
	assert.Zero(t, n, "no frame that is not full")
	assert.Empty(t, payload)
	p.room = 116
	payload, n, err = p.batch()
	require.NoError(t, err)
	assert.Equal(t, [2]int{48, 96}, [2]int{n, len(payload)})
	p.rows.next, p.rows.now[1] = 990, 990
	_, n, err = p.batch()
	require.NoError(t, err)
	assert.Equal(t, 10, n, "what is left at the end")
}

// TestHowOftenItIsAsked: as often as it plays an eighth of its store, ten times a second
// at the least and a hundred at the most.
func TestHowOftenItIsAsked(t *testing.T) {
	p := playing(t)
	for capacity, want := range map[int]time.Duration{2000: 100 * ms, 400: 50 * ms, 40: 10 * ms} {
		p.info.Capacity = capacity
		assert.Equal(t, want, p.every())
	}
	p.info.Capacity, p.rows = 400, nil
	assert.Equal(t, 100*ms, p.every())
}

// TestAcknowledgementsGoRound: frames are numbered by a byte, which goes round at 256. An
// old one drops nothing.
func TestAcknowledgementsGoRound(t *testing.T) {
	for _, x := range []struct {
		seq, acks byte // of the next frame; of which one it says that it is next
		left      int
	}{{10, 8, 2}, {10, 10, 0}, {10, 6, 4}, {1, 255, 2}, {1, 1, 0}, {0, 254, 2}, {10, 5, 4}, {10, 11, 4}, {2, 250, 4}} {
		p := playing(t)
		p.seq = x.seq
		for i := byte(4); i > 0; i-- {
			p.flight = append(p.flight, frame{seq: x.seq - i})
		}
		p.now, p.room = at(50), 7
		p.acknowledged(x.acks, 33)
		assert.Len(t, p.flight, x.left, "%+v", x)
		for i, f := range p.flight {
			assert.Equal(t, x.seq-byte(x.left)+byte(i), f.seq, "the newest are left")
		}
		if x.left < 4 {
			assert.Equal(t, at(50), p.resent)
			assert.Equal(t, 33, p.room)
		}
	}
}

// TestStatusesThatCannotBeMeant: more room than it has, fewer motors than it was told.
func TestStatusesThatCannotBeMeant(t *testing.T) {
	for _, x := range []struct {
		room, steps int
		ok          bool
	}{{2000, 2, true}, {2001, 2, false}, {0, 1, false}, {0, 3, true}} {
		p := playing(t)
		assert.Equal(t, x.ok, p.credible(stepplayer.Status{Room: x.room, Steps: make([]int32, x.steps)}), "%+v", x)
		assert.Equal(t, x.ok, p.failure == nil)
	}
}

// TestStatesThatItWasNotToldToBeIn.
func TestStatesThatItWasNotToldToBeIn(t *testing.T) {
	for _, x := range []struct {
		name  string
		state stepplayer.State
		set   func(*player)
		why   string
	}{
		{"plays", stepplayer.Playing, func(*player) {}, ""},
		{"plays unasked", stepplayer.Playing, func(p *player) { p.going = false }, "and was not told to go"},
		{"has begun and stands by", stepplayer.StandingBy, func(*player) {}, "and was told to go"},
		{"stands by for two seconds", stepplayer.StandingBy, func(p *player) { p.began, p.now = time.Time{}, at(2000) }, ""},
		{"and for longer", stepplayer.StandingBy, func(p *player) { p.began, p.now = time.Time{}, at(2001) }, "and was told to go"},
		{"stands by before it goes", stepplayer.StandingBy, func(p *player) { p.going = false }, ""},
		{"holds", stepplayer.Held, func(p *player) { p.held = true }, ""},
		{"holds unasked", stepplayer.Held, func(*player) {}, "and was not told to hold"},
		{"slows down unasked", stepplayer.Slowing, func(*player) {}, "and was not told to hold"},
		{"holds just after it was to go on", stepplayer.Held, func(p *player) { p.resumed, p.now = noon, at(400) }, ""},
		{"and longer after", stepplayer.Held, func(p *player) { p.resumed, p.now = noon, at(401) }, "and was not told to hold"},
		{"ends", stepplayer.Ended, func(*player) {}, ""},
		{"ends before all is sent", stepplayer.Ended, func(p *player) { p.ended = false }, "and has not played all of its rows"},
		{"ends too soon", stepplayer.Ended, func(p *player) { p.rows.count = 1001 }, "and has not played all of its rows"},
	} {
		p := playing(t)
		x.set(p)
		assert.Equal(t, x.why, p.unmeant(stepplayer.Status{State: x.state, Played: 1000}), x.name)
	}
}

// TestStepsThatAreNotOfTheRows: each row is a step here. A status may be a row early or
// late, and a step besides; two in a row that are further off are too many.
func TestStepsThatAreNotOfTheRows(t *testing.T) {
	for _, x := range []struct {
		played uint32
		steps  int32
		ok     bool
	}{{500, 500, true}, {500, 502, true}, {500, 498, true}, {500, 503, false}, {500, 497, false}, {1000, 1001, true}, {1000, 1002, false}, {0, -1, true}, {0, -2, false}} {
		p := playing(t)
		s := stepplayer.Status{State: stepplayer.Playing, Played: x.played, Steps: []int32{0, x.steps}}
		p.inRows(s)
		require.Nil(t, p.failure, "one is noise")
		assert.Equal(t, x.ok, p.strays == 0, "%+v", x)
		p.inRows(s)
		assert.Equal(t, x.ok, p.failure == nil, "%+v", x)
	}
	p := playing(t)
	p.rows.next = 499
	p.inRows(stepplayer.Status{Played: 500, Steps: []int32{0, 500}})
	require.NotNil(t, p.failure)
	assert.Equal(t, "it says that it has played 500 rows, and was sent 499", p.failure.Detail)
	q := playing(t)
	q.strays = 17
	q.inRows(stepplayer.Status{Played: 500, Steps: []int32{0, 500}})
	assert.Equal(t, 16, q.strays)
}

// TestRowsThatAreNotInTime: a row is a millisecond; a quarter of a second is how late, or
// early, they may be, or a hundredth and a half of a long take, and a row; more once it
// has slowed down and sped up over 128 rows each.
func TestRowsThatAreNotInTime(t *testing.T) {
	for _, x := range []struct {
		name   string
		now    float64 // ms
		played uint32
		set    func(*player)
		says   string
	}{
		{"in time", 500, 500, func(*player) {}, ""},
		{"late", 500, 250, func(*player) {}, ""},
		{"too late", 500, 248, func(*player) {}, "motion is 252 ms behind the plan"},
		{"asked for before", 500, 200, func(p *player) { p.before = at(400) }, ""},
		{"early", 500, 750, func(*player) {}, ""},
		{"too early", 500, 752, func(*player) {}, "motion is 252 ms ahead of the plan"},
		{"late in a long take", 100_000, 99_300, func(*player) {}, ""},
		{"too late in a long take", 100_000, 99_280, func(*player) {}, "behind the plan"},
		{"after a hold", 500, 0, func(p *player) { p.resumed = noon }, ""},
		{"too late after a hold", 510, 0, func(p *player) { p.resumed = noon }, "behind the plan"},
	} {
		p := playing(t)
		p.now, p.before = at(x.now), at(x.now)
		x.set(p)
		p.inTime(stepplayer.Status{Played: x.played})
		if x.says == "" {
			assert.Nil(t, p.failure, x.name)
		} else if assert.NotNil(t, p.failure, x.name) {
			assert.Contains(t, p.failure.Detail, x.says)
		}
	}
	p := playing(t)
	q := newPass(p.engine, 1)
	p.engine.pass = q
	q.zero, q.shift = noon, 200*ms
	p.now, p.before = at(700), at(700)
	p.inTime(stepplayer.Status{Played: 450})
	assert.InDelta(t, 0.05, q.late, 1e-9, "what was held is left out")
	p.inTime(stepplayer.Status{Played: 550})
	assert.Zero(t, q.late, "early is not late")
	q.pausedAt = at(1)
	p.inTime(stepplayer.Status{Played: 1})
	assert.Nil(t, p.failure, "and nothing is said while it is held")
}

// TestHowLongRowsTakeToSend: as many as are sent before the motion begins, 102 bytes on
// the wire for 96 of rows.
func TestHowLongRowsTakeToSend(t *testing.T) {
	p := playing(t)
	p.controller.Baud = 10_000
	want := func(rows float64) time.Duration { return seconds(rows * 2 * 10 * 102 / 96 / 10_000) }
	assert.InDelta(t, want(512), p.lead(), 2)
	p.info.Capacity = 100
	assert.InDelta(t, want(100), p.lead(), 2)
	p.rows.count = 30
	assert.InDelta(t, want(30), p.lead(), 2)
	p.rows.count = -1
	assert.InDelta(t, want(100), p.lead(), 2)
	p.controller.Baud = 0
	assert.Zero(t, p.lead())
}

// TestHowFarAPassHasBeenSent: rows are counted from the beginning of the run-up; the last
// tick may reach beyond the end of the motion, which did not take that long.
func TestHowFarAPassHasBeenSent(t *testing.T) {
	p := playing(t)
	q := newPass(p.engine, 1)
	p.engine.pass = q
	up := int64(p.runUp*1000 + 0.5)
	p.room = 500
	for _, x := range []struct{ next, rounds int64 }{{up, 0}, {up + 1, 1}, {up + 6000, 1}, {up + 6001, 1}} {
		p.rows.next, p.rows.count = x.next, x.next
		p.flight, q.rounds = nil, 0
		require.NoError(t, p.feed(q))
		assert.InDelta(t, float64(x.next-up)/1000, q.until, 0.001)
		assert.Equal(t, x.rounds, q.rounds, "%+v", x)
		assert.InDelta(t, 0.75, q.fill, 1e-12, "500 of 2000 are free")
	}
	q.total, q.rounds = 0, 0
	p.rows.next, p.rows.count = up+6002, up+6002
	require.NoError(t, p.feed(q))
	assert.Equal(t, int64(2), q.rounds, "one without an end goes on")
	p.finish(q)
	assert.Equal(t, int64(2), q.total)
	assert.Equal(t, ticksOf(p.planned(2), 0.001), p.rows.count)
	p.began, p.over = at(0), at(5000)
	p.engine.way = newLink(10_000)
	require.True(t, p.done(q))
	beyond := float64(p.rows.count)/1000 - p.planned(2)
	assert.InDelta(t, 5-beyond, q.executed, 1e-9)
	assert.InDelta(t, 0.001+2*0.008, q.doubt, 1e-9, "the grain, and an acknowledgement of 8 bytes before both")
}
