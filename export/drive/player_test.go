package drive_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/stepplayer"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// playerScene is a take of three rounds on a step player.
func playerScene(t testing.TB) (*scene, *toy) {
	s := stage(t, loop(t, rig.StepPlayer))
	y := newToy()
	s.p = y.p
	return s, y
}

// lastRows are the rows of the last stretch that was played without a pause.
func lastRows(rows []toyRow) []toyRow {
	for i := len(rows) - 1; i > 0; i-- {
		if !rows[i].at.Equal(rows[i-1].until) {
			return rows[i:]
		}
	}
	return rows
}

// Every row ends on the step that the exact step times give, in time without
// end: the last step of the take falls within a tick of its time.
func TestPlayerPlaysTheSteps(t *testing.T) {
	s, y := playerScene(t)
	var played []toyRow
	s.w.passed = func() { played = lastRows(y.each) }
	r := s.run()
	require.NoError(t, r.Err(), "%v", s.w.said)
	require.Len(t, played, 3500)
	now := make([]int32, 2)
	for i := range now {
		now[i] = int32(s.tr.StepIndex(i, 0))
	}
	up := s.tr.Plan().Axes[1].RunUp
	now[1] = int32(up.At(0).Pos*10 - 0.5) // below 0
	steps := s.tr.Steps(trajectory.StepOptions{Rounds: 3, Ramps: true})
	next, more := steps.Next()
	for k, row := range played {
		end := int64(k+1)*1_000_000 - 250_000_000 // ns from frame 0
		for more && next.Nanos <= end {
			now[next.Axis] = int32(next.Position)
			next, more = steps.Next()
		}
		for i := range now {
			if now[i] != row.steps[i] {
				// A step on the very end of a tick may fall on either side.
				require.True(t, more && next.Nanos-end < 2, "row %d axis %d: %v, steps say %v", k, i, row.steps, now)
			}
		}
	}
	require.False(t, more)
	require.InDelta(t, 3.5, s.w.passes[0].Executed, 0.001)
	// A status within a tick may tell its end or its beginning.
	require.InDelta(t, 0, s.w.passes[0].Worst[0], 0.1)
	require.InDelta(t, 0, s.w.passes[0].Worst[1], 0.1+0.1)
	require.True(t, s.read().Known)
}

// Until asked to finish, over many rounds, without a gap.
func TestPlayerFinishes(t *testing.T) {
	s, y := playerScene(t)
	s.options.Rounds = 0
	s.w.script = []cue{{drive.Running, 61 * time.Second, drive.Request{Kind: drive.Finish}}}
	var played []toyRow
	s.w.passed = func() { played = lastRows(y.each) }
	r := s.run()
	require.NoError(t, r.Err())
	pass := s.w.passes[0]
	require.InDelta(t, 61, float64(pass.Rounds), 2)
	require.InDelta(t, pass.Planned, pass.Executed, 0.001)
	require.Len(t, played, int(pass.Planned*1000+0.5))
}

// A frame that is lost on the way is sent again, whichever it is.
func TestPlayerLosesFrames(t *testing.T) {
	for n := 3; n < 60; n += 4 {
		s, y := playerScene(t)
		y.lose = n
		r := s.run()
		require.NoError(t, r.Err(), "frame %d", n)
		require.InDelta(t, 3.5, s.w.passes[0].Executed, 0.001)
	}
}

func TestPlayerHoldsAndResumes(t *testing.T) {
	s, y := playerScene(t)
	var key time.Time
	s.p.in(3*time.Second, func() { key = s.p.now; s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
	s.w.script = []cue{{drive.Resting, 2 * time.Second, drive.Request{Kind: drive.Resume}}}
	r := s.run()
	require.NoError(t, r.Err())
	require.True(t, s.w.passes[0].Held)
	require.Equal(t, int64(3), s.w.passes[0].Rounds)
	// The first longer tick begins within 20 ms of the key, and a tick.
	for _, row := range y.each {
		if row.until.Sub(row.at) > time.Millisecond {
			require.Less(t, row.at.Sub(key), 22*time.Millisecond)
			break
		}
	}
}

func TestPlayerStops(t *testing.T) {
	for _, kind := range []drive.RequestKind{drive.Restart, drive.Quit} {
		s, _ := playerScene(t)
		s.p.in(3*time.Second, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
		s.w.script = []cue{{drive.Resting, time.Second, drive.Request{Kind: kind}}}
		r := s.run()
		require.NoError(t, r.Err())
		require.True(t, r.Known)
		require.Equal(t, "stopped", s.read().Takes[0].End.Outcome)
		require.Len(t, s.w.passes, map[drive.RequestKind]int{drive.Restart: 2, drive.Quit: 1}[kind])
	}
}

// A second stop aborts, however soon after the first and whatever is on the wire
// by then: that the player says it stopped at once is no alarm.
func TestPlayerSecondStopAborts(t *testing.T) {
	for ms := range 60 {
		s, _ := playerScene(t)
		for _, at := range []int{3000 + ms, 3000 + ms + ms%7} {
			s.at(at, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
		}
		r := s.run()
		require.NoError(t, r.Err(), ms)
		require.False(t, r.Known, ms)
		require.Equal(t, "aborted", s.read().Takes[0].End.Outcome, ms)
	}
}

func TestPlayerJogsAndMarks(t *testing.T) {
	s, y := playerScene(t)
	s.options.Takes, s.options.Settle = 0, drive.AskOperator
	s.w.script = []cue{
		{drive.Unsettled, time.Second, drive.Request{Kind: drive.Jog, By: 3}},
		{drive.Unsettled, 4 * time.Second, drive.Request{Kind: drive.Home}},
		{drive.Unsettled, 5 * time.Second, drive.Request{Kind: drive.Mark, Name: "start"}},
		{drive.Unsettled, 6 * time.Second, drive.Request{Kind: drive.Go}},
		{drive.Unsettled, 7 * time.Second, drive.Request{Kind: drive.Here}},
		{drive.Ready, time.Second, drive.Request{Kind: drive.Jog, By: 2}},
		{drive.Ready, 4 * time.Second, drive.Request{Kind: drive.Mark, Name: "end"}},
		{drive.Ready, 5 * time.Second, drive.Request{Kind: drive.Quit}},
	}
	r := s.run()
	require.NoError(t, r.Err())
	require.Equal(t, map[string][]float64{"end": {42, s.w.marks["end"][1]}}, s.w.marks)
	require.Contains(t, s.w.said, "it cannot home: bring every axis to the start by hand, and say so")
	require.Equal(t, int32(42*80), y.steps[0])
	require.Contains(t, s.w.said, "position is not known: home it, or bring it to the start and say so")
	require.NotContains(t, s.w.states, drive.Running)
}

func TestPlayerFaults(t *testing.T) {
	for _, f := range []struct {
		name   string
		breaks func(s *scene, y *toy)
		want   drive.End
		still  bool
	}{
		{"mute", func(s *scene, _ *toy) { s.p.mute = true }, drive.Silent, true},
		{"falls silent", func(s *scene, _ *toy) { s.at(midPass, func() { s.p.mute = true }) }, drive.Silent, false},
		{"vanishes", func(s *scene, _ *toy) { s.at(midPass, s.p.vanish) }, drive.PortLost, false},
		{"another version", func(_ *scene, y *toy) { y.version = 3 }, drive.Foreign, true},
		{"another board", func(s *scene, y *toy) { y.name = "Kettle" }, drive.Foreign, true},
		{"too small a store", func(_ *scene, y *toy) { y.capacity = 100 }, drive.Mismatched, true},
		{"too long a tick", func(_ *scene, y *toy) { y.shortest = 20_000_000 }, drive.Mismatched, true},
		{"fewer motors", func(_ *scene, y *toy) { y.axes = 1 }, drive.Mismatched, true},
		{"tells of fewer motors", func(s *scene, y *toy) { s.at(midPass, func() { y.hides = 1 }) }, drive.Garbled, false},
		{"a state of no protocol", func(s *scene, y *toy) { s.at(midPass, func() { y.state = 8 }) }, drive.Garbled, false},
		{"a state of no protocol from the beginning", func(_ *scene, y *toy) { y.state = 255 }, drive.Garbled, true},
		{"more room than it stores", func(_ *scene, y *toy) { y.roomier = 1 }, drive.Garbled, true},
		{"has played more than it was sent", func(s *scene, y *toy) { s.at(midPass, func() { y.played += 5000 }) }, drive.NotPlan, false},
		{"stands by in mid-pass", func(s *scene, y *toy) { s.at(midPass, func() { y.become(stepplayer.StandingBy) }) }, drive.NotPlan, false},
		{"ends too soon", func(s *scene, y *toy) { s.at(midPass, func() { y.become(stepplayer.Ended) }) }, drive.NotPlan, false},
		{"holds unasked", func(s *scene, y *toy) { s.at(midPass, func() { y.become(stepplayer.Held) }) }, drive.NotPlan, false},
		{"plays for ever", func(s *scene, y *toy) { y.endless = true }, drive.NotPlan, false},
		{"speaks in lines", func(s *scene, y *toy) { s.p.takes = func(byte) { s.p.says("error:1") } }, drive.Foreign, true},
		{"slow wire", func(s *scene, _ *toy) { s.tr.Plan().Rig.Controller.Baud = 9600 }, drive.Behind, true},
		{"slower wire than said", func(s *scene, _ *toy) { s.p.baud = 9600 }, drive.Behind, false},
		{"limit switch", func(s *scene, y *toy) { s.at(midPass, y.trips) }, drive.Alarmed, false},
		{"in an alarm", func(s *scene, y *toy) {
			y.state = stepplayer.Alarm
			s.options.Settle = drive.AskOperator
			s.w.script = []cue{{drive.Unsettled, time.Second, drive.Request{Kind: drive.Here}}}
		}, drive.Alarmed, true},
		{"restarts", func(s *scene, y *toy) { s.at(midPass, y.hello) }, drive.Restarted, false},
		{"host suspended", func(s *scene, _ *toy) {
			s.at(midPass, func() { s.p.slept = time.Minute; s.p.stall = s.p.now.Add(time.Minute) })
		}, drive.Asleep, false},
		{"loses steps", func(s *scene, y *toy) { s.at(midPass, func() { y.steps[0] += 400 }) }, drive.NotPlan, false},
	} {
		t.Run(f.name, func(t *testing.T) {
			s, y := playerScene(t)
			f.breaks(s, y)
			r := s.run()
			require.Equal(t, f.want.String(), r.End.String(), "%s", r.Detail)
			require.False(t, r.Known)
			l := s.read()
			require.False(t, l.Known)
			if f.still {
				require.Empty(t, y.each)
				return
			}
			require.Len(t, l.Takes, 1)
			require.Equal(t, f.want.String(), l.Takes[0].End.Outcome)
		})
	}
}

// A player that still plays what a run before has sent is waited for.
func TestPlayerIsStillPlaying(t *testing.T) {
	s, y := playerScene(t)
	y.busy = opened.Add(2500 * time.Millisecond)
	r := s.run()
	require.NoError(t, r.Err())
	require.Greater(t, s.w.passes[0].Began.Sub(opened), 2500*time.Millisecond)
}
