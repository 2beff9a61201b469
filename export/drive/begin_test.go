package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// exactly is an instant that is known.
func exactly(millis float64) span { return spanOf(millis, millis, millis) }

// streaming is the stream of a pass of three rounds whose dwell before the motion was over
// at noon, and its talker.
func streaming(t *testing.T) (*stream, *talker) {
	p := passing(t, 3)
	talks := p.m.(*talker)
	talks.controller.Blocks, talks.controller.Baud = 16, 10_000
	talks.way = newLink(10_000)
	talks.stream = stream{pass: p, dwelt: exactly(0)}
	return &talks.stream, talks
}

// TestWhetherAControllerGoesOnReading: it reads a line that is there when it has read the
// one before, or may be by as much as answers differ, unless it is full or the line waits
// for the end of motion.
func TestWhetherAControllerGoesOnReading(t *testing.T) {
	for _, x := range []struct {
		name          string
		set           func(*talker)
		next, perhaps bool
	}{
		{"there long before", func(*talker) {}, true, true},
		{"there just as it has read", func(t *talker) { t.flight[0].across = at(100.4) }, true, true},
		{"a little later", func(t *talker) { t.flight[0].across = at(100.6) }, false, true},
		{"later than answers differ", func(t *talker) { t.flight[0].across = at(101.1) }, false, false},
		{"as late as reports take, less", func(t *talker) { t.way.reports.add(20 * ms); t.flight[0].across = at(81.1) }, false, false},
		{"nothing on the way", func(t *talker) { t.flight = nil }, false, false},
		{"still on the wire", func(t *talker) { t.flight[0].across = time.Time{} }, false, false},
		{"full", func(t *talker) { t.stream.moves = 15 }, false, false},
		{"not quite full", func(t *talker) { t.stream.moves = 14 }, true, true},
		{"a dwell comes", func(t *talker) { t.flight[0].line = &program.Line{Text: "G4 P1"} }, false, false},
	} {
		_, talks := streaming(t)
		talks.flight = []sent{{line: &program.Line{Moves: true}, across: at(50)}}
		x.set(talks)
		next, perhaps := talks.goesOn(at(100))
		assert.Equal(t, [2]bool{x.next, x.perhaps}, [2]bool{next, perhaps}, x.name)
	}
	_, talks := streaming(t)
	assert.Equal(t, 15, talks.mostBlocks(), "one place of the ring stays free")
	talks.controller.Blocks = 0
	assert.Equal(t, 1, talks.mostBlocks())
}

// TestWhenTheMotionBegan: once all lines had been read that it had, or one more that waits
// where it was full; at the end of the first line where that is a dwell; not before the
// soonest nor after the last that it may have read.
func TestWhenTheMotionBegan(t *testing.T) {
	s, talks := streaming(t)
	s.read = []span{exactly(20), exactly(40), exactly(60)} // slower than the wire: each tells
	s.first, s.soonest, s.count = &program.Line{Moves: true}, at(5), 2
	assert.Equal(t, exactly(0), s.readTo(talks, 0))
	assert.Equal(t, span{at(40), at(40), at(41)}, s.readTo(talks, 2))
	assert.Equal(t, span{at(5), at(40), at(61)}, s.begins(talks), "two it had, and perhaps three")
	s.soonest = at(50)
	assert.Equal(t, span{at(40), at(40), at(61)}, s.begins(talks))
	talks.way.reports.add(ms)
	talks.way.answers.add(4 * ms)
	s.soonest, s.full = at(5), true
	assert.Equal(t, span{at(5), at(40), at(64)}, s.begins(talks), "one more of 3 ms, which waits")
	s.count = 3
	assert.Equal(t, span{at(5), at(63), at(64)}, s.begins(talks))
	s.full, s.first, s.before = false, &program.Line{Text: "G4 P0.01"}, 0
	talks.controller.DwellGrain = 0
	assert.Equal(t, span{at(5), at(10), at(10)}, s.begins(talks), "answered at 20, a hundredth of a second after it began")
	assert.Equal(t, at(60), s.readBy(talks, 3))
	s.read = []span{exactly(20), exactly(25), exactly(60)}
	assert.Equal(t, at(38), s.readBy(talks, 3), "two took 12.5 ms each, so that three did not take longer than that and the grain")
}

// TestHowLongAMotionTook: from its beginning to when the last line was answered, less what
// the motors settle; a last dwell tells of its end itself.
func TestHowLongAMotionTook(t *testing.T) {
	for _, x := range []struct {
		name            string
		set             func(*stream, *talker)
		executed, doubt float64 // ms
	}{
		// From 20, which may be 5 to 21, to 975, which is sure; answers differ by 1 ms.
		{"an answer that waited", func(*stream, *talker) {}, 955, 15 + 1 + 0.25},
		{"a dwell at the end", func(s *stream, _ *talker) { s.rested = true }, 880, 15 + 1 + 0.25},
		{"one that came at once", func(_ *stream, t *talker) { t.way.answers.add(100 * ms); t.way.reports.add(ms) }, 955, 76 + 1 + 0.25},
	} {
		s, talks := streaming(t)
		talks.controller.IdleDelay = 0.025
		s.read, s.first, s.soonest, s.count = []span{exactly(20)}, &program.Line{Moves: true}, at(5), 1
		s.last = exactly(900)
		x.set(s, talks)
		s.ending(talks, sent{across: at(950)}, exactly(1000))
		assert.InDelta(t, x.executed, s.pass.executed*1000, 1e-6, x.name)
		assert.InDelta(t, x.doubt, s.pass.doubt*1000, 1e-6, x.name)
	}
	s, talks := streaming(t)
	s.ending(talks, sent{}, exactly(1000))
	assert.Zero(t, s.pass.executed, "nothing has moved")
}

// TestWhenAnAnswerIsDue: when there is room for the block, when its motion begins or its
// dwell ends, as late as the pass is, and by what clocks are out since that was seen; not
// before the line was there. Lost is what is 0.4 s later.
func TestWhenAnAnswerIsDue(t *testing.T) {
	late := func(ms, since float64) time.Time { return at(ms + 0.0071*(ms-since)) }
	move := &program.Line{Text: "G1 X1", Moves: true, Start: 5, End: 5.1}
	for _, x := range []struct {
		name string
		set  func(*stream, *sent)
		want time.Time
	}{
		{"its motion", func(*stream, *sent) {}, late(5000, 0)},
		{"when there is room", func(_ *stream, w *sent) { w.room, w.roomy = 3, true }, late(3000, 0)},
		{"later by what blocks lag", func(s *stream, w *sent) { w.room, w.roomy, s.lags = 3, true, 0.5 }, late(3500, 0)},
		{"never after its motion", func(s *stream, w *sent) { w.room, w.roomy, s.lags = 3, true, 9 }, late(5000, 0)},
		{"a pass that is late", func(s *stream, _ *sent) { s.slow, s.seenAt = 0.1, at(4000) }, late(5100, 4000)},
		{"seen just now", func(s *stream, _ *sent) { s.seenAt = at(6000) }, at(5000)},
		{"after the answer before", func(s *stream, _ *sent) { s.last, s.seenAt = exactly(7000), at(7000) }, at(7000)},
		{"once it is there", func(s *stream, w *sent) { w.across, s.seenAt = at(9000), at(9000) }, at(9000)},
	} {
		s, talks := streaming(t)
		talks.now = at(100)
		was := sent{line: move, across: at(50), at: at(40)}
		x.set(s, &was)
		assert.WithinDuration(t, x.want, s.due(talks, was), time.Microsecond, x.name)
		assert.WithinDuration(t, x.want.Add(overdue), s.answerBy(talks, was), time.Microsecond, x.name)
		s.pass.held = true
		assert.WithinDuration(t, x.want.Add(patience), s.answerBy(talks, was), time.Microsecond, x.name)
		s.paused = true
		assert.Equal(t, at(100).Add(never), s.answerBy(talks, was))
	}
	assert.Equal(t, 400*ms, overdue)
	s, talks := streaming(t)
	talks.now = at(100)
	assert.Equal(t, at(100), sent{}.arrives(talks), "or now, at the earliest")
	s.pass.zero = time.Time{} // before the motion: by what it was sent with
	was := sent{line: move, by: at(3000), at: at(40)}
	talks.before, talks.statusAt = at(41), at(90)
	assert.Equal(t, at(3000), s.answerBy(talks, was))
	talks.before, talks.statusAt = at(40), at(2900)
	assert.Equal(t, at(3300), s.answerBy(talks, was), "a report that it had to send first")
	talks.asks = []asking{{}}
	assert.Equal(t, at(5000), s.answerBy(talks, was), "one that has not come: the wire is slow")
	// Prompt lines: what is on the way, an ok for each, and 0.4 s.
	talks.bytes, talks.flight = 20, []sent{{}}
	assert.Equal(t, 400*ms+(20+11+8)*ms, talks.promptly(11))
}

// TestWhereATakeIs: the round and the frame, the share of it, and the label of the frame;
// where nothing is reported, as planned.
func TestWhereATakeIs(t *testing.T) {
	for _, x := range []struct {
		millis       float64
		total, round int64
		frame        int64
		share        float64
	}{
		{0, 0, 0, 0, 0}, {1500, 0, 0, 36, 0.25}, {5999, 0, 0, 143, 5.999 / 6}, {6001, 0, 1, 0, 0.001 / 6}, {13_500, 0, 2, 36, 0.25},
		{17_999, 3, 2, 143, -1}, {18_100, 3, 2, 143, -1}, {-100, 3, -1, 0, -1},
	} {
		p := passing(t, x.total)
		p.now = at(x.millis)
		g := p.progress()
		assert.Equal(t, [2]int64{x.round, x.frame}, [2]int64{g.Round, g.Frame}, "%+v", x)
		want := x.share
		if x.total > 0 {
			want = min((x.millis/1000+p.runUp)/(p.runUp+18+p.runOut), 1)
		}
		assert.InDelta(t, want, g.Share, 1e-9, "%+v", x)
		assert.False(t, g.Back)
		assert.False(t, g.Reported)
		if x.millis >= 0 && x.millis < 18_000 {
			assert.InDelta(t, 0.06*x.millis, g.Position[0], 1e-6)
		}
		assert.InDelta(t, x.millis, float64(g.Elapsed)/1e6, 1e-3)
	}
	p := passing(t, 3)
	p.now = at(1500)
	assert.Equal(t, "01:00:01:12", p.progress().Timecode)
	p.position, p.off = []float64{7}, []float64{1}
	g := p.progress()
	assert.True(t, g.Reported)
	assert.Equal(t, [][]float64{{7}, {1}}, [][]float64{g.Position, g.Deviation})
}

// TestTheLastWords of a controller that nobody is left to drive: its own hold and abort,
// and for as long as it may take to rest, six seconds at the most.
func TestTheLastWords(t *testing.T) {
	r := rig.Rig{Axes: []rig.Axis{{MaxSpeed: 400, MaxAcc: 800}}}
	r.Controller.Hold, r.Controller.Abort = '!', 0x18
	assert.Equal(t, LastWords{Hold: []byte("!"), Rest: 600 * ms, Forget: []byte{0x18}}, LastWordsFor(r))
	r.Axes[0].MaxAcc = 10
	r.Controller.Hold, r.Controller.Abort = 0, 0
	assert.Equal(t, LastWords{Rest: 6 * time.Second}, LastWordsFor(r))
	r.Controller.Kind = rig.StepPlayer
	w := LastWordsFor(r)
	hold := stepplayer.Frame{Type: stepplayer.Hold}.Append(nil)
	assert.Equal(t, hold, w.Hold[:len(hold)])
	assert.Len(t, w.Hold, len(hold)+102, "enough to fill the longest frame that was cut off")
	assert.Equal(t, stepplayer.Frame{Type: stepplayer.Abort}.Append(nil), w.Forget)
}

// TestEachEndHasItsWord: logs keep them.
func TestEachEndHasItsWord(t *testing.T) {
	for end, word := range map[End]string{Finished: "finished", Stopped: "stopped", Aborted: "aborted", Quitted: "quit", PortLost: "port lost",
		Silent: "silent", Unmatched: "answers do not match", Behind: "too slow", Astray: "astray", Outcounted: "counted out", NotPlan: "not the plan"} {
		assert.Equal(t, word, end.String())
		assert.Equal(t, end > Quitted, end.Fault(), word)
		assert.Equal(t, end > Quitted, Result{End: end}.Err() != nil, word)
	}
	assert.EqualError(t, failed(Astray, "by %d mm", 3), "astray: by 3 mm")
	for state, word := range map[State]string{Opening: "opening", Ready: "ready", Running: "running", Resting: "held", Over: "over"} {
		assert.Equal(t, word, state.String())
	}
}

// TestWhereAReportHasTheAxes: by their letters, as XYZABC are reported; a board that
// reports as many as it has, in that order; inches as inches.
func TestWhereAReportHasTheAxes(t *testing.T) {
	axes := func(letters string) []rig.Axis {
		var out []rig.Axis
		for _, l := range letters {
			out = append(out, rig.Axis{Letter: string(l)})
		}
		return out
	}
	for _, x := range []struct {
		letters string
		n       int
		want    []int
	}{
		{"XA", 6, []int{0, 3}}, {"XA", 4, []int{0, 3}}, {"XA", 2, []int{0, 1}}, {"AX", 2, []int{1, 0}}, {"XA", 3, nil}, {"XYZ", 3, []int{0, 1, 2}}, {"CAX", 3, []int{2, 1, 0}}, {"Y", 1, []int{0}}, {"Q", 2, nil},
	} {
		assert.Equal(t, x.want, columns(axes(x.letters), x.n), "%+v", x)
	}
	talks, _ := talking(t, 1, nil)
	talks.status.machine = []float64{1, 2, 3, 4}
	at, ok := talks.reading()
	require.True(t, ok)
	assert.Equal(t, []float64{4}, at)
	_, ok = talks.position()
	assert.False(t, ok, "how far it counts from there is not known")
	talks.shift = []float64{1}
	at, _ = talks.position()
	assert.Equal(t, []float64{3}, at)
	talks.status.work = []float64{5, 6, 7, 8}
	at, _ = talks.position()
	assert.Equal(t, []float64{7}, at, "places of the take go before those of the machine")
	talks.inches = true
	at, _ = talks.position()
	assert.InDelta(t, 8*25.4-1, at[0], 1e-12)
	talks.status.work, talks.status.machine = nil, []float64{1, 2, 3}
	_, ok = talks.position()
	assert.False(t, ok)
}

// TestReportsThatDoNotCome while lines are answered: eight in a row are too many, but for
// dwells, within which boards may not look for such bytes.
func TestReportsThatDoNotCome(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*stream, *talker)
		fails bool
	}{
		{"none come", func(*stream, *talker) {}, true},
		{"none is missing", func(_ *stream, t *talker) { t.asks = nil }, false},
		{"at a dwell", func(_ *stream, t *talker) { t.flight = []sent{{text: "G4 P1"}} }, false},
		{"held", func(s *stream, _ *talker) { s.paused = true }, false},
		{"no pass", func(_ *stream, t *talker) { t.engine.pass = nil }, false},
	} {
		s, talks := streaming(t)
		talks.now, talks.statusAt, talks.asks = at(3000), at(0), []asking{{}}
		x.set(s, talks)
		for range 8 {
			s.unheeds(talks)
		}
		require.Nil(t, talks.failure, x.name)
		s.unheeds(talks)
		if assert.Equal(t, x.fails, talks.failure != nil, x.name) && x.fails {
			assert.Equal(t, "it answers lines, and has not reported for 3s", talks.failure.Detail)
		}
	}
}

// TestWhenRoundsBegin is kept once the controller has taken as many lines ahead as it does
// in every round: 15 blocks, and 128 characters by 12. Not of what follows the last round,
// nor where an answer may have come earlier; in a take without an end all are. A round
// that begins a quarter of a second too soon is not the plan's.
func TestWhenRoundsBegin(t *testing.T) {
	for _, x := range []struct {
		name         string
		total, round int64
		taken        int64
		said         span
		kept         bool
	}{
		{"a round", 3, 1, 25, exactly(6000), true}, {"too early to tell", 3, 1, 24, exactly(6000), false}, {"the last", 3, 2, 25, exactly(6000), true},
		{"after the last", 3, 3, 25, exactly(6000), false}, {"without an end", 0, 7, 25, exactly(6000), true}, {"an answer that waited", 3, 1, 25, spanOf(5990, 6000, 6000), false},
		{"the same round", 3, 0, 25, exactly(6000), false},
	} {
		s, talks := streaming(t)
		talks.controller.ReceiveBuffer = 128
		s.pass.total, s.taken = x.total, x.taken
		s.lap(talks, &program.Line{Round: x.round}, x.said)
		assert.Equal(t, x.kept, len(s.pass.laps) == 1, x.name)
		assert.Equal(t, x.taken+1, s.taken)
		if x.kept {
			assert.Equal(t, Lap{x.round, 6}, s.pass.laps[0])
		}
	}
	s, talks := streaming(t)
	s.taken, s.pass.total = 999, 0
	s.lap(talks, &program.Line{Round: 1}, exactly(6000))
	s.lap(talks, &program.Line{Round: 2}, exactly(12_100))
	assert.InDelta(t, 0.1, s.lag, 1e-9)
	assert.InDelta(t, 0.1, s.slow, 1e-9)
	s.lap(talks, &program.Line{Round: 4}, exactly(23_751))
	assert.InDelta(t, -0.249, s.lag, 1e-9)
	assert.Zero(t, s.slow)
	assert.Nil(t, talks.failure)
	s.lap(talks, &program.Line{Round: 5}, exactly(29_749))
	require.NotNil(t, talks.failure)
	assert.Equal(t, "round 6 has begun 251 ms ahead of the plan", talks.failure.Detail)
}
