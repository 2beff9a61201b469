package drive

import (
	"bytes"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/program"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// TestAnswersToLines: each is for the oldest; more than were sent do not match, but while
// it is greeted, or after a reset while nothing is known.
func TestAnswersToLines(t *testing.T) {
	talks, _ := echoed(t)
	talks.put("G21", patience, nil)
	talks.put("G90 X1", patience, nil)
	assert.Equal(t, 4+7, talks.bytes)
	talks.answered()
	assert.Equal(t, []int{2, 7, 1}, []int{talks.flight[0].number, talks.bytes, talks.oks})
	assert.Equal(t, int64(4), talks.said)
	talks.answered()
	assert.Nil(t, talks.failure)
	talks.answered()
	require.NotNil(t, talks.failure)
	assert.Equal(t, Unmatched, talks.failure.End)
	assert.Equal(t, "an answer more than lines were sent (2)", talks.failure.Detail)
	for _, x := range []struct {
		expected, adrift, known, moving, relied bool
	}{
		{false, false, false, false, true}, {true, false, true, true, false}, {false, true, false, false, false},
		{false, true, true, false, true}, {false, true, false, true, true},
	} {
		talks, _ := echoed(t)
		talks.expected, talks.adrift, talks.known, talks.moving = x.expected, x.adrift, x.known, x.moving
		assert.Equal(t, x.relied, talks.relied(), "%+v", x)
		talks.reply([]byte("ok"))
		assert.Equal(t, x.relied, talks.failure != nil, "%+v", x)
		assert.Equal(t, 1, talks.oks)
		for text, end := range map[string]End{"Hello 1.1": Restarted, "ALARM:1": Alarmed, "error:9": Refused} {
			talks.failure, talks.controller.Greeting = nil, "Hello"
			talks.reply([]byte(text))
			if assert.Equal(t, x.relied, talks.failure != nil, "%s: %+v", text, x) && x.relied {
				assert.Equal(t, end, talks.failure.End)
			}
		}
		assert.True(t, talks.greeted)
		assert.Equal(t, "ALARM:1", talks.alarmed)
	}
	// A line that is refused is named.
	talks, _ = echoed(t)
	talks.put("G21", patience, nil)
	talks.put("G92 X", patience, nil)
	talks.reply([]byte("ok"))
	talks.reply([]byte("error:2"))
	require.NotNil(t, talks.failure)
	assert.Equal(t, `error:2 on line 2, "G92 X"`, talks.failure.Detail)
	assert.Empty(t, talks.flight)
	assert.Equal(t, 1, talks.oks, "which is no ok")
	// What it says of itself is heard, and the first of it kept; but no answers.
	talks, _ = echoed(t)
	var heard []string
	talks.ear, talks.unheard, talks.garbled = func(s string) { heard = append(heard, s) }, noon, 5
	talks.reply([]byte(" "))
	assert.Equal(t, noon, talks.unheard, "an empty line is nothing")
	assert.Equal(t, 5, talks.garbled)
	for _, line := range []string{"[VER:1]", "hello", "$1=5", "ok"} {
		talks.reply([]byte(line))
	}
	assert.Equal(t, []string{"[VER:1]", "hello", "$1=5"}, heard)
	assert.Equal(t, "hello", talks.stranger)
	assert.True(t, talks.unheard.IsZero())
	assert.Equal(t, 1, talks.garbled)
}

// TestAReportOfAnAlarm spoils what is known; not one that was asked for before it was
// homed, nor while it is reset, and where nothing is known it is only noted.
func TestAReportOfAnAlarm(t *testing.T) {
	alarm := func(set func(*talker)) *talker {
		talks, _ := echoed(t)
		talks.now, talks.asks = at(100), []asking{{at: at(60)}}
		set(talks)
		talks.reply([]byte("<Alarm|MPos:0,0,0,0>"))
		return talks
	}
	for _, x := range []struct {
		name   string
		set    func(*talker)
		fails  bool
		locked bool
	}{
		{"nothing is known", func(*talker) {}, false, true},
		{"it moves", func(t *talker) { t.moving = true }, true, true},
		{"it is known where it stands", func(t *talker) { t.known = true }, true, true},
		{"some axes are homed", func(t *talker) { t.homed = []bool{true} }, true, true},
		{"it is reset", func(t *talker) { t.known, t.expected = true, true }, false, true},
		{"before it was homed", func(t *talker) { t.known, t.cleared = true, at(60) }, false, false},
		{"after it was", func(t *talker) { t.known, t.cleared = true, at(59) }, true, true},
	} {
		talks := alarm(x.set)
		assert.Equal(t, x.fails, talks.failure != nil, x.name)
		assert.Equal(t, x.locked, talks.locked(), x.name)
	}
	talks := alarm(func(t *talker) { t.alarmed = "ALARM:1" })
	assert.Equal(t, "ALARM:1", talks.alarmed, "what it has said of it is kept")
	assert.Equal(t, at(60), talks.before)
	assert.Equal(t, at(100), talks.statusAt)
	assert.Empty(t, talks.asks)
	talks.reply([]byte("<Idle|MPos:0,0,0,0>"))
	assert.False(t, talks.locked(), "until a report has none")
	assert.Equal(t, at(100), talks.before, "nobody has asked for that")
}

// TestReportsOnASilentWire tell how long they take; one behind another line does not.
func TestReportsOnASilentWire(t *testing.T) {
	for _, x := range []struct {
		name string
		set  func(*talker)
		want int
	}{
		{"silent", func(*talker) {}, 1},
		{"a line in flight", func(t *talker) { t.put("G90", patience, nil) }, 1},
		{"a dwell in flight", func(t *talker) { t.put("G4 P1", patience, nil) }, 0},
		{"a report on the way", func(t *talker) { t.asks = []asking{{at: noon, quiet: false}} }, 0},
		{"urgent bytes before it", func(t *talker) { t.out.hurry('~') }, 0},
		{"bytes on the wire", func(t *talker) { t.way.across = at(1) }, 0},
		{"reports that nobody waits for", func(t *talker) { t.strays = at(1) }, 0},
	} {
		talks, _ := echoed(t)
		x.set(talks)
		talks.askStatus()
		a := talks.asks[len(talks.asks)-1]
		assert.Equal(t, x.want == 1, a.quiet, x.name)
		assert.Equal(t, noon, talks.askedAt)
		assert.Equal(t, noon, talks.unheard)
	}
	talks, _ := echoed(t)
	talks.asks, talks.now, talks.unheard = []asking{{at: noon}}, at(2000), at(5)
	talks.askStatus()
	assert.Len(t, talks.asks, 2)
	assert.Equal(t, at(5), talks.unheard, "since the first")
	talks.now = at(2001)
	talks.askStatus()
	assert.Len(t, talks.asks, 1, "two seconds are too long: it was lost")
	// A line that came before the report tells that it had to wait.
	for lines, want := range map[int]int{0: 1, 1: 0} {
		talks, _ := echoed(t)
		talks.askStatus()
		for range lines {
			talks.reply([]byte("[msg]"))
		}
		talks.now, talks.lines.since = at(30), at(30)
		talks.reply([]byte("<Idle|MPos:0,0,0,0>"))
		assert.Equal(t, want, talks.way.reports.n)
	}
}

// TestLateAnswers: of a controller that still reports an answer was lost; one that does
// not is silent. Not before what has come was looked at.
func TestLateAnswers(t *testing.T) {
	for _, x := range []struct {
		name   string
		status byte
		before float64 // when the last report was asked for, of a line sent at 1000
		end    End
	}{
		{"reports", '?', 1001, Unmatched}, {"reported before the line", '?', 1000, Silent}, {"has no reports", 0, 1001, Silent},
	} {
		talks, _ := echoed(t)
		talks.controller.Status, talks.now, talks.before = x.status, at(1400), at(x.before)
		talks.late(sent{number: 3, text: "G90", at: at(1000)})
		require.NotNil(t, talks.failure, x.name)
		assert.Equal(t, x.end, talks.failure.End, x.name)
	}
	talks, _ := echoed(t)
	talks.now, talks.before = at(1401), at(1001)
	talks.late(sent{at: at(1000)})
	assert.Equal(t, Silent, talks.failure.End, "0.4 s are too long")
	for _, x := range []struct {
		nothing bool
		now     float64
		fails   bool
	}{{true, 499, false}, {true, 500, true}, {false, 500, false}} {
		talks, _ := echoed(t)
		talks.every, talks.nothing, talks.now = 0, x.nothing, at(x.now)
		talks.flight = []sent{{by: at(500), at: noon}}
		talks.tick()
		assert.Equal(t, x.fails, talks.failure != nil, "%+v", x)
	}
	for now, fails := range map[float64]bool{2000: false, 2001: true} {
		talks, _ := echoed(t)
		talks.unheard, talks.now = noon, at(now)
		talks.tick()
		assert.Equal(t, fails, talks.failure != nil)
	}
	talks, w := echoed(t)
	talks.every, talks.askedAt, talks.now = 100*ms, noon, at(99)
	talks.tick()
	assert.Empty(t, talks.asks)
	talks.now = at(100)
	talks.tick()
	assert.Len(t, talks.asks, 1)
	talks.flush()
	assert.Equal(t, []string{"?"}, w.heard)
}

// TestAnAxisThatTurnsAround is looked at often enough: a rail that goes to and fro in a
// second is at the far end half a second in, whatever whole seconds show.
func TestAnAxisThatTurnsAround(t *testing.T) {
	tr := sample.Make(t, 24, sample.Bench(rig.InverseTime), sample.Rail(t, "cycloidal", 10))
	talks := newTalker(&engine{job: newJob(Options{Trajectory: tr, Observer: &quiet{}}), now: noon})
	p := newPass(talks.engine, 1)
	far, near := math.Inf(-1), math.Inf(1)
	for k := range 1000 {
		x := p.planAt(0, endless, float64(k)/1000)
		far, near = max(far, x), min(near, x)
	}
	require.InDelta(t, 10, far-near, 0.01)
	assert.InDelta(t, 0, p.beyond(0, far, 0, 8), 0.01)
	assert.InDelta(t, 0, p.beyond(0, near, 0.5, 8.5), 0.01)
	assert.InDelta(t, 5, p.beyond(0, far+5, 0, 8), 0.01)
}

// TestWhereAStoppedPassMayRest: between a quarter of a second and slowing down before and
// after where it is; one without a hold has gone on to the end of what was sent; and not
// elsewhere than where it came to rest.
func TestWhereAStoppedPassMayRest(t *testing.T) {
	on := func(deg float64, set func(*talker, *pass)) (bool, *talker) {
		s, talks := streaming(t)
		talks.controller.Hold = '!'
		talks.now, s.pass.pausedAt = at(20_000), at(10_000)
		set(talks, s.pass)
		return talks.onPath([]float64{deg}), talks
	}
	same := func(*talker, *pass) {}
	brakes := 60 * slowest(passing(t, 3).axes).Seconds()
	for deg, want := range map[float64]bool{
		600: true, 600 - 15 - brakes - 0.19: true, 600 - 15 - brakes - 0.21: false, 600 + 15 + brakes + 0.19: true, 600 + 15 + brakes + 0.21: false,
	} {
		got, talks := on(deg, same)
		assert.Equal(t, want, got, "%g deg", deg)
		assert.Equal(t, want, len(talks.Observer.(*quiet).said) == 0)
	}
	for _, x := range []struct {
		name string
		deg  float64
		set  func(*talker, *pass)
		want bool
	}{
		{"no pass", 9999, func(t *talker, _ *pass) { t.engine.pass = nil }, true},
		{"not begun", 9999, func(_ *talker, p *pass) { p.zero = time.Time{} }, true},
		{"without a hold, at its end", 700, func(t *talker, _ *pass) { t.controller.Hold, t.stream.aim = 0, []float64{700.1} }, true},
		{"without a hold, not there", 600, func(t *talker, _ *pass) { t.controller.Hold, t.stream.aim = 0, []float64{700.1} }, false},
		{"without a hold, nothing sent", 600, func(t *talker, _ *pass) { t.controller.Hold = 0 }, true},
		{"with a hold, ahead of it", 600, func(t *talker, _ *pass) { t.stream.aim = []float64{700} }, true},
		{"where it rested", 600, func(_ *talker, p *pass) { p.rest = []float64{600.1} }, true},
		{"and not there", 600, func(_ *talker, p *pass) { p.rest = []float64{600.3} }, false},
	} {
		got, _ := on(x.deg, x.set)
		assert.Equal(t, x.want, got, x.name)
	}
}

// TestWhereItStands at rest: by a report, not while it sleeps, since it has no current
// then; without reports where the lines that are answered have brought it.
func TestWhereItStands(t *testing.T) {
	for state, ok := range map[string]bool{"Idle": true, "Hold:0": true, "Sleep": false, "Alarm": false, "Run": false} {
		talks, w := echoed(t)
		talks.shift, w.reports = []float64{100}, "<"+state+"|MPos:0,0,0,130>"
		at, got := talks.stands()
		assert.Equal(t, ok, got, state)
		if ok {
			assert.Equal(t, []float64{30}, at)
		}
	}
	talks, w := echoed(t)
	_, ok := talks.stands()
	assert.False(t, ok, "how far off it counts is not known")
	talks.shift, talks.gone, w.heard = []float64{0}, true, nil
	_, ok = talks.stands()
	assert.False(t, ok)
	assert.Empty(t, w.heard)
	for _, x := range []struct {
		name string
		set  func(*talker, *pass)
		want []float64
	}{
		{"a gentle move", func(*talker, *pass) {}, []float64{7}},
		{"none", func(t *talker, _ *pass) { t.bound = nil }, nil},
		{"one that can be held anywhere", func(t *talker, _ *pass) { t.controller.Hold = '!' }, nil},
		{"not answered yet", func(t *talker, _ *pass) { t.flight = []sent{{}} }, nil},
		{"a pass", func(t *talker, p *pass) { t.engine.pass, t.stream.aim = p, []float64{8} }, []float64{8}},
		{"a pass of which nothing was answered", func(t *talker, p *pass) { t.engine.pass = p }, nil},
	} {
		talks, _ := echoed(t)
		talks.controller.Status, talks.controller.Hold, talks.bound = 0, 0, []float64{7}
		x.set(talks, newPass(talks.engine, 1))
		got, ok := talks.stands()
		assert.Equal(t, x.want != nil, ok, x.name)
		if ok {
			assert.Equal(t, x.want, got, x.name)
		}
		// After a pass that has ended it is where the last line has brought it.
		talks.stream.aim = []float64{9}
		got, ok = talks.last(nil)
		assert.Equal(t, len(talks.flight) == 0, ok, x.name)
		if ok {
			assert.Equal(t, []float64{9}, got)
		}
	}
}

// TestWhatEndsAProgram: modes at its end, which are held back; not those at its beginning
// nor anything that moves or takes time.
func TestWhatEndsAProgram(t *testing.T) {
	for _, x := range []struct {
		line program.Line
		want bool
	}{
		{program.Line{Round: 3, Start: 18, End: 18}, true}, {program.Line{Round: 0, Start: 0, End: 0}, true}, {program.Line{Round: program.Setup}, false},
		{program.Line{Round: 3, Start: 18, End: 18.1}, false}, {program.Line{Round: 3, Start: 18, End: 18, Moves: true}, false},
	} {
		assert.Equal(t, x.want, closes(x.line), "%+v", x.line)
	}
}

// TestWhenLinesAreAcross: each when its own last byte is, not when those behind it are.
func TestWhenLinesAreAcross(t *testing.T) {
	talks, _ := echoed(t)
	talks.put("G21", patience, nil)
	talks.put("G90 X1", patience, nil)
	talks.flush()
	assert.Equal(t, at(4), talks.flight[0].across, "a millisecond a byte")
	assert.Equal(t, at(11), talks.flight[1].across)
	talks.now = at(50)
	talks.put("G91", patience, nil)
	talks.flush()
	assert.Equal(t, at(4), talks.flight[0].across, "which is noted once")
	assert.Equal(t, at(54), talks.flight[2].across)
	w := &slowWire{room: 3}
	talks, _ = echoed(t)
	talks.engine.w = w
	talks.put("G21", patience, nil)
	talks.put("G90", patience, nil)
	talks.flush()
	assert.True(t, talks.flight[0].across.IsZero(), "a byte of it is missing")
	w.room = 4
	talks.flush()
	assert.Equal(t, at(4), talks.flight[0].across)
	assert.True(t, talks.flight[1].across.IsZero())
}

// TestWhatIsForgottenOfAController that was reset: lines, and reports that may still come.
func TestWhatIsForgottenOfAController(t *testing.T) {
	for asked, want := range map[bool]time.Time{true: at(200), false: {}} {
		talks, w := echoed(t)
		talks.put("G1 A1", patience, nil)
		if asked {
			talks.asks = []asking{{}}
		}
		talks.empty()
		assert.Equal(t, want, talks.strays)
		assert.Empty(t, talks.flight)
		assert.Empty(t, talks.asks)
		assert.Zero(t, talks.bytes)
		talks.flush()
		assert.Empty(t, w.heard)
	}
}

// TestWhatIsDueNext: an answer, unless there is a fault; the report that compares buffers.
func TestWhatIsDueNext(t *testing.T) {
	s, talks := streaming(t)
	talks.controller.Status, talks.every, talks.now = '?', 0, noon
	s.fillsFrom, s.fill = noon, 1
	assert.Equal(t, at(250), talks.due())
	talks.now = at(250)
	assert.Equal(t, at(250).Add(never), talks.due(), "once")
	s.paused, talks.flight = true, []sent{{by: at(300)}}
	assert.Equal(t, at(300), talks.due())
	talks.failure = failed(Silent, "x")
	assert.Equal(t, at(250).Add(never), talks.due())
}

// TestHomingIsNotAskedAbout: controllers may report nothing meanwhile; an alarm of before
// is over.
func TestHomingIsNotAskedAbout(t *testing.T) {
	talks, w := echoed(t)
	w.after, talks.every, talks.alarmed, talks.state = time.Second, 100*ms, "ALARM:1", Homing
	talks.controller.HomeLine, talks.axes[0].HomeLine = "$H", "$H"
	require.NoError(t, talks.home())
	assert.Equal(t, []string{"$H"}, w.heard)
	assert.Equal(t, pollEvery, talks.every)
	assert.False(t, talks.locked())
	assert.Equal(t, noon, talks.cleared)
	w.silent = true
	from := talks.now
	require.Error(t, talks.home())
	assert.Equal(t, talks.homeWait("$H"), talks.now.Sub(from))
}

// TestAPlaceIsNotKnownUntilItIsReported: what was known of the count before is forgotten.
func TestAPlaceIsNotKnownUntilItIsReported(t *testing.T) {
	talks, w := echoed(t)
	talks.controller.Decimals, talks.at, talks.shift, w.reports = 3, []float64{0}, []float64{9}, "<Idle>"
	require.NoError(t, talks.place([]float64{4}))
	_, ok := talks.position()
	assert.False(t, ok)
	talks.controller.Status, w.heard = 0, nil
	require.NoError(t, talks.fresh())
	assert.Empty(t, w.heard, "one without reports needs none")
	// Nor is a missing answer told while it is reset.
	talks = reckoning(t, 128, "G1 X1")
	talks.ledger.off, talks.expected = 2, true
	talks.missing()
	assert.Nil(t, talks.failure)
	talks.expected, talks.ledger.off = false, 1
	talks.missing()
	assert.Nil(t, talks.failure)
	talks.ledger.off = 2
	talks.missing()
	assert.NotNil(t, talks.failure)
}

// TestHowLongALineMayBe: of 256 bytes it is whole, and one that is longer cannot be read;
// the next is as good as ever. When it began is told, not when it ended.
func TestHowLongALineMayBe(t *testing.T) {
	for n, want := range map[int]replyKind{255: talk, 256: talk, 257: garbage} {
		var l lines
		var kinds []replyKind
		each := func(line []byte) { kinds = append(kinds, parse(line, "").kind) }
		l.now = at(10)
		l.add(bytes.Repeat([]byte("x"), n), each)
		l.now = at(20)
		l.add([]byte("\r"), each)
		assert.Equal(t, at(10), l.since)
		l.add([]byte("\nok\n"), each)
		assert.Equal(t, []replyKind{want, answer}, kinds, "%d bytes", n)
		assert.Equal(t, at(20), l.since)
	}
}

// TestOneThatStillHoldsTheRest of a move, since nothing makes it forget that: it is said,
// and no answer to it is waited for.
func TestOneThatStillHoldsTheRest(t *testing.T) {
	talks, w := echoed(t)
	talks.controller.Abort, talks.known, talks.shift, talks.state = 0, true, []float64{0}, Slowing
	talks.put("G4 P9", time.Minute, nil)
	assert.False(t, talks.halt())
	assert.Empty(t, talks.flight)
	assert.Zero(t, talks.bytes)
	assert.Equal(t, []string{"it has no abort byte, and still holds the rest of the move: switch it off and on before it is to move again"}, talks.Observer.(*quiet).said)
	assert.NotContains(t, w.heard, "G92 A0.000")
}
