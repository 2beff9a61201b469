package drive_test

import (
	"bytes"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/rate"
	"seamrail/export/drive/takelog"
	"seamrail/motion/spec/rig"
)

// printed are the settings of the bench as a buffered controller prints them.
var printed = []string{
	"$0=10", "$1=255 (idle delay, ms)", "$2=0", "$3=3", "$4=0", "$10=1", "$11=0.010", "$12=0.002", "$13=0", "$20=0", "$21=0", "$22=1", "$23=1", "$32=0",
	"$100=80.000", "$130=200.000", "$133=200.000", "$103=10.000 (steps/deg)", "$110=24000.000", "$113=10800.000", "$120=3000.000", "$123=720.000",
}

// takeOf runs one take of the loop on a controller of a kind.
func takeOf(t *testing.T, kind rig.ControllerKind, change func(s *scene)) (*scene, drive.Result) {
	t.Helper()
	s := stage(t, loop(t, kind))
	if change != nil {
		change(s)
	}
	return s, s.run()
}

// lockstepSlack is how long a controller that waits for each line stands still
// after a dwell within the take: a line there, and an answer back.
const lockstepSlack = 0.003

// puppetSlack is how much shorter the puppet's motion seems: it begins to move
// at the first line, and the engine takes it to begin once it has answered all
// that it holds, here seven or eight lines, 0.35 ms each.
const puppetSlack = 0.0035

func TestOneTake(t *testing.T) {
	for kind, slack := range map[rig.ControllerKind]float64{rig.Buffered: puppetSlack, rig.Lockstep: lockstepSlack} {
		t.Run(kind.String(), func(t *testing.T) {
			s, r := takeOf(t, kind, nil)
			require.NoError(t, r.Err(), "%v", s.w.said)
			require.InDeltaSlice(t, []float64{40, -45. / 7}, r.At, 1e-9)
			r.At = nil
			require.Equal(t, drive.Result{End: drive.Finished, Takes: 1, Known: true}, r)
			require.Len(t, s.w.passes, 1)
			pass := s.w.passes[0]
			require.Equal(t, int64(3), pass.Rounds)
			require.Equal(t, 3.5, pass.Planned)
			require.InDelta(t, pass.Planned, pass.Executed, slack)
			require.Zero(t, s.p.lost)
			require.Zero(t, s.p.starved)
			require.Equal(t, []drive.State{drive.Opening, drive.Reading, drive.Unsettled, drive.Approaching,
				drive.Running, drive.Returning, drive.Over}, s.w.states)
		})
	}
}

func TestTheLogOfATake(t *testing.T) {
	s, _ := takeOf(t, rig.Buffered, nil)
	l := s.read()
	require.True(t, l.Known)
	require.Len(t, l.Takes, 1)
	begin, end := l.Takes[0].Begin, l.Takes[0].End
	plan := s.tr.Plan()
	require.Equal(t, plan.Hash(), begin.Plan)
	require.Equal(t, plan.Rig.Name, begin.Rig)
	require.Equal(t, int64(3), begin.Rounds)
	require.Equal(t, 3.5, begin.Planned)
	require.Equal(t, "finished", end.Outcome)
	require.InDelta(t, 3.5, end.Executed, puppetSlack)
	require.Len(t, end.Worst, 2)
	// Straight blocks of 20 ms leave the path by at most a*dt²/8, here 0.03 mm
	// at 600 mm/s²; words have three decimals.
	require.InDelta(t, 0, end.Worst[0].Value, 0.035)
	require.True(t, end.Known)
}

func TestTheDisplay(t *testing.T) {
	s, _ := takeOf(t, rig.Buffered, nil)
	require.Greater(t, len(s.w.progress), 30, "ten times a second")
	before := drive.Progress{Round: -1, Elapsed: -time.Hour}
	full := 0.0
	for _, g := range s.w.progress {
		require.GreaterOrEqual(t, g.Elapsed, before.Elapsed)
		require.GreaterOrEqual(t, g.Share, before.Share)
		require.GreaterOrEqual(t, g.Round, before.Round)
		require.Less(t, g.Round, int64(3))
		require.Less(t, g.Frame, int64(24))
		require.Regexp(t, `^01:00:00:\d\d$`, g.Timecode)
		require.Len(t, g.Position, 2)
		full = max(full, g.Fill)
		before = g
	}
	require.Equal(t, int64(2), before.Round)
	require.InDelta(t, 1, before.Share, 0.05)
	require.Greater(t, full, 0.8, "it keeps the buffer full")
	require.LessOrEqual(t, full, 1.0)
}

// The receive buffer is used to its last byte but one, and never beyond.
func TestCountsCharacters(t *testing.T) {
	for _, buffer := range []int{64, 128, 254} {
		tr := loop(t, rig.Buffered)
		s := stage(t, tr)
		s.p.buffer = buffer
		p := tr.Plan()
		p.Rig.Controller.ReceiveBuffer = buffer
		r := s.run()
		require.NoError(t, r.Err())
		require.Zero(t, s.p.lost, "buffer of %d bytes", buffer)
		require.Less(t, s.p.peak, buffer)
		require.Greater(t, s.p.peak, buffer-30, "a line of 27 bytes would have had room")
	}
}

func TestCountIn(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		var beats []time.Time
		s, r := takeOf(t, kind, func(s *scene) {
			s.options.CountIn = 4
			s.w.beat = func() { beats = append(beats, s.p.now) }
		})
		require.NoError(t, r.Err())
		require.Equal(t, []int{4, 3, 2, 1, 0}, s.w.counts)
		for i := range 4 {
			require.InDelta(t, 1, beats[i+1].Sub(beats[i]).Seconds(), 0.03, "%v: beat %d", kind, 3-i)
		}
		for _, m := range s.p.moves {
			if m.After(beats[0]) {
				require.InDelta(t, 0, m.Sub(beats[4]).Seconds(), puppetSlack, "the motion begins at 0")
				break
			}
		}
	}
}

// The cautions are said, and nothing of the take is sent before the operator
// confirms.
func TestWaitsForConfirmation(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.options.Confirmed = false
		s.w.script = []cue{{drive.Cautioning, 40 * time.Second, drive.Request{Kind: drive.Confirm}}}
	})
	require.NoError(t, r.Err())
	require.Contains(t, s.w.said, s.tr.Rig().Cautions[0])
	require.Greater(t, s.w.passes[0].Began.Sub(opened), 40*time.Second)

	s, r = takeOf(t, rig.Buffered, func(s *scene) {
		s.options.Confirmed = false
		s.w.script = []cue{{drive.Cautioning, time.Second, drive.Request{Kind: drive.Decline}}}
	})
	require.Equal(t, drive.Quitted, r.End)
	require.Empty(t, s.w.passes)
	require.Empty(t, s.p.moves)
}

func TestSeveralTakes(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) { s.options.Takes, s.options.FirstTake = 3, 7 })
	require.NoError(t, r.Err())
	require.Equal(t, 3, r.Takes)
	l := s.read()
	require.Len(t, l.Takes, 3)
	for i, take := range l.Takes {
		require.Equal(t, 7+i, take.Number)
		require.Equal(t, "finished", take.End.Outcome)
	}
	require.Equal(t, 10, l.Next())
}

// The operator homes, jogs, marks, runs a take until asked to finish, and
// leaves.
func TestAnEvening(t *testing.T) {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	second := time.Second
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.options.Takes, s.options.Rounds, s.options.Settle = 0, 0, drive.AskOperator
		s.w.script = []cue{
			{drive.Unsettled, second, ask(drive.Home)},
			{drive.Ready, second, drive.Request{Kind: drive.Jog, Axis: 0, By: 12.5}},
			{drive.Ready, 9 * second, drive.Request{Kind: drive.Mark, Name: "start"}},
			{drive.Ready, 10 * second, drive.Request{Kind: drive.Jog, Axis: 0, By: -40}},
			{drive.Ready, 20 * second, ask(drive.Go)},
			{drive.Running, 2700 * time.Millisecond, ask(drive.Finish)},
			{drive.Ready, second, ask(drive.Quit)},
		}
	})
	require.NoError(t, r.Err())
	require.Equal(t, drive.Quitted, r.End)
	require.Equal(t, map[string][]float64{"start": {12.5, 0}}, s.w.marks)
	require.Contains(t, s.w.said, "axis rail: -27.500 mm is beyond its travel, 0.000 to 400.000 mm")
	require.Len(t, s.w.passes, 1)
	require.Equal(t, int64(3), s.w.passes[0].Rounds, "2.7 s with half a second of filling and a quarter of run-up is in the second; lines are ahead")
	require.InDelta(t, s.w.passes[0].Planned, s.w.passes[0].Executed, puppetSlack)
	require.Zero(t, s.p.starved, "no gap between rounds")
}

// A hold byte reaches the wire within 20 ms of the key, in front of all lines.
func TestHoldAtOnce(t *testing.T) {
	var key time.Time
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.p.in(2500*time.Millisecond, func() {
			key = s.p.now
			s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop})
		})
		s.w.script = []cue{{drive.Resting, time.Second, drive.Request{Kind: drive.Quit}}}
	})
	require.Equal(t, drive.Stopped, r.End)
	require.NotEmpty(t, s.p.hurried['!'])
	require.LessOrEqual(t, s.p.hurried['!'][0].Sub(key), 20*time.Millisecond)
	require.True(t, r.Known, "a rig that was held keeps its place")
	require.Equal(t, "stopped", s.read().Takes[0].End.Outcome)
	for _, m := range s.p.moves {
		require.False(t, m.After(s.p.hurried['!'][0]), "nothing moves after the hold")
	}
}

func TestResumeGoesOn(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		s, r := takeOf(t, kind, func(s *scene) {
			s.p.in(3*time.Second, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
			s.w.script = []cue{{drive.Resting, 3 * time.Second, drive.Request{Kind: drive.Resume}}}
		})
		require.NoError(t, r.Err())
		pass := s.w.passes[0]
		require.True(t, pass.Held)
		require.Equal(t, int64(3), pass.Rounds)
		require.Equal(t, drive.Finished, pass.End)
		require.Greater(t, pass.Executed, pass.Planned+2.9)
		if kind == rig.Lockstep {
			require.Nil(t, pass.Worst, "it reports nothing")
		} else {
			require.InDelta(t, 0, pass.Worst[0], puppetSlack*86, "at 86 mm/s at most; the time it was held does not count: %v", pass.Worst)
		}
		_, err := rate.Fit(0.25, []drive.Pass{pass})
		require.ErrorContains(t, err, "no take ran through", "and it tells nothing of the rate")
	}
}

func TestRestartBeginsAnew(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		s, r := takeOf(t, kind, func(s *scene) {
			s.p.in(3*time.Second, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
			s.w.script = []cue{{drive.Resting, time.Second, drive.Request{Kind: drive.Restart}}}
		})
		require.NoError(t, r.Err(), "%v %v", kind, s.w.said)
		l := s.read()
		require.Len(t, l.Takes, 2)
		require.Equal(t, "stopped", l.Takes[0].End.Outcome)
		require.Equal(t, "finished", l.Takes[1].End.Outcome)
		require.Equal(t, []int{1, 2, 2}, []int{l.Takes[0].Number, l.Takes[1].Number, r.Takes}, "it is another take: no number is there twice")
		require.InDelta(t, 3.5, l.Takes[1].End.Executed, lockstepSlack)
	}
}

// A second stop resets the controller; position is lost, and the log says so.
func TestSecondStopAborts(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		for _, at := range []int{2500, 2501} {
			s.p.in(time.Duration(at)*time.Millisecond, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
		}
	})
	require.Equal(t, drive.Aborted, r.End)
	require.NoError(t, r.Err(), "it is what was asked for")
	require.NotEmpty(t, s.p.hurried[0x18])
	require.False(t, r.Known)
	require.False(t, s.read().Known)
	require.Equal(t, "aborted", s.read().Takes[0].End.Outcome)
}

// Without a hold byte it is not fed any more, and says what it still holds.
func TestNoHold(t *testing.T) {
	s, r := takeOf(t, rig.Lockstep, func(s *scene) {
		s.p.in(3*time.Second, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Quit}) })
	})
	require.Equal(t, drive.Stopped, r.End)
	require.Contains(t, s.w.states, drive.Draining)
	require.Regexp(t, `^it has no hold: it still has \d+ lines? and moves for up to 0\.\d s more$`, s.w.said[len(s.w.said)-1])
	require.True(t, r.Known)
}

// In a count-in a stop is a no: nothing has moved.
func TestStopInTheCountIn(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.options.CountIn = 5
		s.w.script = []cue{{drive.Counting, 1500 * time.Millisecond, drive.Request{Kind: drive.Stop}}}
	})
	require.Equal(t, drive.Stopped, r.End)
	require.Equal(t, []int{5, 4}, s.w.counts)
	require.Empty(t, s.p.moves)
	require.Empty(t, s.w.passes)
	require.True(t, r.Known)
}

// rateOf is the rate error that one pass shows.
func rateOf(t testing.TB, known float64, p drive.Pass) float64 {
	t.Helper()
	f, err := rate.Fit(known, []drive.Pass{p})
	require.NoError(t, err)
	return f.Rate
}

// A long pass tells the board's own rate error: here one that is 400 ppm slow.
func TestRateError(t *testing.T) {
	const slow = 400e-6
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.options.Rounds = 60
		s.p.rate = 1 + slow
	})
	require.NoError(t, r.Err())
	require.InDelta(t, slow, rateOf(t, 0, s.w.passes[0]), 50e-6)
	// Told with half of it known already, the same pass would say the rest.
	require.InDelta(t, slow+200e-6, rateOf(t, 200e-6, s.w.passes[0]), 50e-6)
}

func TestLogThatCannotBeWritten(t *testing.T) {
	for _, room := range []int{1, 80, 250, 400} {
		s, r := takeOf(t, rig.Buffered, func(s *scene) { s.log.room = room })
		require.Equal(t, drive.LogFailed, r.End)
		var f *drive.Failure
		require.True(t, errors.As(r.Err(), &f))
		require.Contains(t, f.Error(), "log failed: writing the take log: no space left")
		require.False(t, r.Known)
		l, err := logged(s.log.Bytes())
		require.NoError(t, err)
		require.False(t, l.Known && len(l.Takes) > 0)
	}
}

// A run that follows another on the same wire asks nobody where the rig stands.
func TestWhereItStandsFromARunBefore(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) {
		s.p.boots = false // the port is open already
		s.options.Settle, s.options.At = drive.AsBefore, []float64{41, 3}
	})
	require.NoError(t, r.Err(), "%v", s.w.said)
	require.NotContains(t, s.w.states, drive.Unsettled)
	require.True(t, r.Known)
	require.InDeltaSlice(t, []float64{40, -45. / 7}, r.At, 1e-9)
}

// A pass that is out of step with the frames is told to be.
func TestOutOfStep(t *testing.T) {
	s, r := takeOf(t, rig.Buffered, func(s *scene) { s.p.rate = 1.01 })
	require.NoError(t, r.Err())
	require.Regexp(t, `^the pass took 3\d\.\d ms longer than planned, give or take \d\.\d ms, 0\.[78] captured frames: `, s.w.said[len(s.w.said)-1])
	s, r = takeOf(t, rig.Buffered, nil)
	require.NoError(t, r.Err())
	require.Equal(t, []string{"it is set to $0=10 (step pulse, us), $2=0 (inverted steps, a bit an axis), $3=3 (inverted directions, a bit an axis), $4=0 (inverted enable), " +
		"$21=0 (limit switches stop it), $23=1 (axes that home at the other end, a bit an axis); the rig file does not say what these should be"}, s.w.said)
}

// logged is a log with all its takes.
func logged(text []byte) (takelog.Log, error) {
	var takes []takelog.Take
	l, err := takelog.Walk(bytes.NewReader(text), func(t takelog.Take) error { takes = append(takes, t); return nil })
	l.Takes = takes
	return l, err
}
