package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/program"
)

// TestAReportIsHeldAgainstThePlan: where the table may be 10 s into the take, at 60
// degrees a second, by a report that was asked for a tenth of a second before: a quarter
// of a second late and a tenth, which is 579 degrees, to a twentieth early and what clocks
// may be out by in 10 s, which is 607.26; two tenths of a degree besides.
func TestAReportIsHeldAgainstThePlan(t *testing.T) {
	brakes := slowest(passing(t, 3).axes).Seconds()
	for _, x := range []struct {
		name      string
		low, high float64 // degrees
		set       func(*stream, *talker)
	}{
		{"nothing known", 579, 607.26, func(*stream, *talker) {}},
		{"late as seen", 573, 607.26, func(s *stream, _ *talker) { s.lag = 0.1 }},
		{"early as seen", 579, 613.26, func(s *stream, _ *talker) { s.lag = -0.1 }},
		{"late by its lines", 567, 607.26, func(s *stream, _ *talker) { s.pass.late = 0.2 }},
		{"seen 5 s ago", 579 - 60*0.0071*5, 603 + 60*0.0071*5, func(s *stream, _ *talker) { s.seenAt = at(5000) }},
		{"held on the way", 579 - 60*brakes, 600 + 60*brakes, func(s *stream, _ *talker) { s.pass.held = true }},
		{"asked for long ago", 549, 607.26, func(_ *stream, t *talker) { t.before = at(9400) }},
	} {
		for deg, ok := range map[float64]bool{x.low - 0.19: true, x.low - 0.21: false, x.high + 0.19: true, x.high + 0.21: false, 595: true} {
			s, talks := streaming(t)
			talks.now, talks.before, talks.status.state = at(10_000), at(9900), "Run"
			x.set(s, talks)
			s.agrees(talks, []float64{deg}, true)
			assert.Equal(t, ok, s.pass.strays == 0, "%s: %g deg", x.name, deg)
		}
	}
	for _, x := range []struct {
		name string
		set  func(*stream, *talker)
	}{
		{"paused", func(s *stream, _ *talker) { s.paused = true }},
		{"over", func(s *stream, _ *talker) { s.ended = true }},
		{"not begun", func(s *stream, _ *talker) { s.pass.zero = time.Time{} }},
		{"asked for before it moved", func(s *stream, t *talker) { t.before = noon.Add(-seconds(s.pass.runUp) - 1) }},
		{"asked for before it went on", func(s *stream, t *talker) { s.resumed = at(9901) }},
	} {
		s, talks := streaming(t)
		talks.now, talks.before, talks.status.state = at(10_000), at(9900), "Hold"
		x.set(s, talks)
		s.agrees(talks, []float64{90}, true)
		assert.Nil(t, talks.failure, x.name)
		assert.Zero(t, s.pass.strays, x.name)
	}
	for state, ok := range map[string]bool{"Run": true, "Idle": true, "Alarm": true, "Hold": false, "Home": false} {
		s, talks := streaming(t)
		talks.now, talks.before, talks.status.state = at(10_000), at(9900), state
		s.agrees(talks, nil, false)
		if assert.Equal(t, ok, talks.failure == nil, state) && !ok {
			assert.Equal(t, NotPlan, talks.failure.End)
		}
	}
	// The run-up is a part of the take.
	s, talks := streaming(t)
	talks.now, talks.before, talks.status.state = noon, noon.Add(-seconds(s.pass.runUp)), "Run"
	s.agrees(talks, []float64{90}, true)
	assert.Equal(t, 16, s.pass.strays)
}

// TestAReportShowsWhereItIs and that reports come.
func TestAReportShowsWhereItIs(t *testing.T) {
	s, talks := streaming(t)
	talks.now, talks.before = at(1000), at(950)
	talks.status, talks.shift, s.unheeded = status{state: "Run", machine: []float64{0, 0, 0, 161}}, []float64{100}, 7
	s.reported(talks)
	assert.Zero(t, s.unheeded)
	require.Len(t, s.pass.off, 1)
	assert.InDelta(t, 1, s.pass.off[0], 1e-9, "61 degrees, and 60 at the most")
	talks.shift, s.pass.position = nil, nil
	s.reported(talks)
	assert.Nil(t, s.pass.position, "how far off it counts is not known")
}

// TestAnswersOfAPass: those of the lines before the dwell tell nothing of the beginning,
// the dwell's when it was over, those behind it when each was read; the last of all, to
// the line that waits for the end, ends the pass.
func TestAnswersOfAPass(t *testing.T) {
	s, talks := streaming(t)
	s.dwelt = span{}
	p := s.pass
	p.zero = time.Time{}
	move := func(round int64, sec float64) *program.Line {
		return &program.Line{Text: "G1 A1 F1", Moves: true, Round: round, Start: sec, End: sec + 0.1, Aim: []float64{60 * (sec + 0.1)}}
	}
	answer := func(l *program.Line, millis float64) {
		talks.now = at(millis)
		talks.way.hears(3, at(millis))
		s.answered(talks, sent{line: l, across: at(5)})
	}
	answer(&program.Line{Text: "G21", Round: program.Setup, Aim: []float64{9}}, 50)
	assert.Empty(t, s.read)
	assert.Nil(t, s.aim)
	answer(&program.Line{Text: "G4 P0.25", Round: program.Setup}, 300)
	assert.Equal(t, at(299), s.dwelt.at, "a byte before it was heard")
	assert.True(t, s.rested)
	answer(&program.Line{Text: "G93", Round: program.Setup}, 320)
	assert.Len(t, s.read, 1)
	assert.False(t, s.rested)
	// The first of the motion, behind which the next is there: it may hold both.
	talks.flight = []sent{{line: move(0, 0), across: at(6)}}
	first := move(program.RunUp, -0.1)
	answer(first, 340)
	assert.Same(t, first, s.first)
	assert.Equal(t, 1, s.before)
	assert.Equal(t, 1, s.moves)
	assert.Equal(t, at(299), s.soonest)
	assert.False(t, s.opened)
	assert.True(t, p.zero.IsZero(), "it goes on reading")
	assert.Equal(t, []float64{0}, s.aim)
	// The next came only later: it moves once it has read this one.
	talks.flight[0].across = at(500)
	answer(move(0, 0), 360)
	assert.Same(t, first, s.first)
	assert.Equal(t, at(299), s.soonest)
	assert.Equal(t, [2]int{2, 3}, [2]int{s.moves, s.count})
	assert.True(t, s.opened)
	require.False(t, p.zero.IsZero())
	assert.WithinDuration(t, at(359).Add(seconds(p.runUp)), p.zero, time.Microsecond)
	// From then on each tells how late the pass is.
	p.zero = noon
	s.taken = 1000
	answer(move(0, 0.5), 600)
	assert.Len(t, s.read, 3)
	assert.InDelta(t, 0.1, p.late, 1e-9)
	assert.Equal(t, 1, talks.way.lines.n)
	assert.Equal(t, 240*ms, talks.way.lines.least, "since the one before, at 359")
	talks.way.blind = at(500) // this computer was not looking
	answer(move(0, 0.6), 700)
	assert.Equal(t, 1, talks.way.lines.n, "which tells nothing of how long lines take")
	talks.way.blind = time.Time{}
	answer(move(1, 6), 6000)
	assert.Len(t, p.laps, 1)
	answer(&program.Line{Text: "G4 P0.5", Round: 1, Start: 6.1, End: 6.6, Aim: []float64{366}}, 6650)
	assert.Equal(t, 2, talks.way.lines.n)
	assert.InDelta(t, 0.05, s.lag, 1e-9, "the end of a dwell tells")
	assert.True(t, s.rested)
	assert.Equal(t, []float64{366}, s.aim)
	answer(&program.Line{Text: "G90", Round: 1, Start: 6.6, End: 6.6}, 6700)
	assert.Equal(t, []float64{366}, s.aim)

	sync := &program.Line{Text: syncLine, Round: 3, Start: 18, End: 18}
	for _, x := range []struct {
		name string
		set  func()
		ends bool
	}{
		{"not sent", func() { s.synced = false }, false},
		{"another waits", func() { s.held = sync }, false},
		{"another is in flight", func() { talks.flight = []sent{{}} }, false},
		{"no pass of this one", func() { talks.engine.pass = nil }, false},
		{"it is", func() {}, true},
	} {
		s.synced, s.held, talks.flight, talks.engine.pass = true, nil, nil, p
		x.set()
		answer(sync, 18_200)
		assert.Equal(t, x.ends, s.ended, x.name)
		assert.Equal(t, x.ends, p.executed > 0, x.name)
	}
}

// TestHowLateBlocksAreTaken once there was room, or they were there.
func TestHowLateBlocksAreTaken(t *testing.T) {
	s, talks := streaming(t)
	talks.now = at(2000)
	s.takes(talks, sent{room: 1.5, across: at(100)})
	assert.Zero(t, s.lags, "it is not known since when there was")
	s.takes(talks, sent{room: 1.5, roomy: true, across: at(100)})
	assert.InDelta(t, 0.5, s.lags, 1e-9)
	s.takes(talks, sent{room: 1.5, roomy: true, across: at(1900)})
	assert.InDelta(t, 0.5, s.lags, 1e-9, "the most of all")
	s.lags = 0
	s.takes(talks, sent{room: 1.5, roomy: true, across: at(1900)})
	assert.InDelta(t, 0.1, s.lags, 1e-9)
}

// TestTheEndOfALineThatIsLate: the one that waits for the end is given two seconds while
// a report shows that it still runs.
func TestTheEndOfALineThatIsLate(t *testing.T) {
	for _, x := range []struct {
		name   string
		text   string
		state  string
		before float64
		want   float64
	}{
		{"it runs", syncLine, "Run", 18_001, 20_000}, {"it idles", syncLine, "Idle", 18_001, 18_400},
		{"it ran before that was due", syncLine, "Run", 18_000, 18_400}, {"another line", "G1 X1", "Run", 18_001, 18_400},
	} {
		s, talks := streaming(t)
		talks.now, s.seenAt, talks.before, talks.status.state = at(18_300), at(18_000), at(x.before), x.state
		was := sent{line: &program.Line{Text: x.text, Moves: true, Start: 18, End: 18}, across: at(50)}
		assert.Equal(t, at(x.want), s.answerBy(talks, was), x.name)
	}
}
