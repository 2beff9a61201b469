package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
)

// TestAControllerIsGreeted: it is waited for where it starts anew with the port, then
// asked with an empty line, and only then reset.
func TestAControllerIsGreeted(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*talker, *booting)
		heard []string
		takes float64 // s
		fails string
	}{
		{"is up and answers", func(*talker, *booting) {}, []string{"", "?"}, 0.02 + 0.2 + 0.02, ""},
		{"greets as the port opens", func(t *talker, b *booting) {
			t.controller.ResetsOnOpen = true
			b.queue = []said{{at(1500), "Hello 1\n"}}
		}, []string{"?"}, 1.5 + 0.2 + 0.02, ""},
		{"is reset", func(t *talker, b *booting) { b.deaf, b.says, b.each = true, []string{"Hello 1"}, 100*ms }, []string{"", "\x18", "?"}, 1 + 0.1 + 0.2 + 0.02, ""},
		{"has no abort", func(t *talker, b *booting) { t.controller.Abort, b.silent = 0, true }, []string{""}, 1, `no greeting "Hello" within 6s, and no answer to an empty line`},
		{"does not greet after a reset", func(t *talker, b *booting) { b.silent = true }, []string{"", "\x18"}, 1 + 2, "no greeting"},
		{"is another", func(t *talker, b *booting) { b.queue = []said{{at(5), "Bye\n"}} }, []string{""}, 0.02, `wrong controller: it said "Bye", and should greet with "Hello"`},
		{"has no greeting", func(t *talker, b *booting) { t.controller.Greeting = "" }, []string{"", "?"}, 0.24, ""},
		{"has no greeting, and is silent", func(t *talker, b *booting) { t.controller.Greeting, b.silent, t.controller.Abort = "", true, 0 }, []string{""}, 1, "silent: no answer to an empty line within 1s"},
		{"has no greeting, and boots", func(t *talker, b *booting) {
			t.controller.Greeting, b.silent, t.controller.ResetsOnOpen, t.controller.Abort = "", true, true, 0
		}, []string{"", "", "", "", "", ""}, 6, "silent: no answer to an empty line"},
		{"speaks at another speed", func(t *talker, b *booting) {
			t.controller.Greeting, b.silent, t.controller.Abort = "", true, 0
			b.queue = []said{{at(5), "\x01\n"}}
		}, []string{""}, 1, "garbled: what it says cannot be read"},
	} {
		talks, w := echoed(t)
		b := &booting{echo: w}
		talks.engine.w, talks.controller.Greeting, talks.controller.ResetsOnOpen, talks.state = b, "Hello", false, Opening
		talks.controller.Status = '?'
		x.set(talks, b)
		err := talks.greet()
		if x.fails == "" {
			require.NoError(t, err, x.name)
			assert.Equal(t, pollEvery, talks.every)
		} else {
			require.ErrorContains(t, err, x.fails, x.name)
		}
		assert.Equal(t, x.heard, w.heard, x.name)
		assert.InDelta(t, x.takes, talks.now.Sub(noon).Seconds(), 0.001, x.name)
		assert.False(t, talks.expected)
	}
}

// TestWhatARunBeforeHasLeft: motion is waited for, six seconds at the most; a hold is ended
// by a reset.
func TestWhatARunBeforeHasLeft(t *testing.T) {
	for _, x := range []struct {
		name    string
		reports string
		set     func(*talker)
		heard   []string
		takes   float64
		fails   bool
	}{
		{"rests", "<Idle|MPos:0,0,0,0>", func(*talker) {}, nil, 0, false},
		{"runs", "<Run|MPos:0,0,0,0>", func(*talker) {}, nil, 6, true},
		{"is held", "<Hold:0|MPos:0,0,0,0>", func(*talker) {}, []string{"?", "\x18"}, 0.02 + 0.1 + 0.2 + 0.2, false},
		{"is held, without an abort", "<Hold:0|MPos:0,0,0,0>", func(t *talker) { t.controller.Abort = 0 }, nil, 0, false},
		{"does not report", "<Run|MPos:0,0,0,0>", func(t *talker) { t.controller.Status = 0 }, nil, 0, false},
	} {
		talks, w := echoed(t)
		talks.engine.w, w.reports = &booting{echo: w, says: []string{"Hello"}, each: 100 * ms}, x.reports
		talks.controller.Greeting, talks.state = "Hello", Opening
		talks.status, _ = parseStatus(x.reports)
		x.set(talks)
		err := talks.leftOver()
		assert.Equal(t, x.fails, err != nil, x.name)
		if !x.fails && x.heard != nil {
			assert.Contains(t, w.heard, "\x18", x.name)
		}
		if x.heard == nil {
			assert.Empty(t, w.heard, x.name)
			assert.InDelta(t, x.takes, talks.now.Sub(noon).Seconds(), 0.001, x.name)
		}
	}
}

// TestAnAlarmIsUnlocked by the line that the rig file has, or not at all.
func TestAnAlarmIsUnlocked(t *testing.T) {
	talks, w := echoed(t)
	talks.alarmed, talks.controller.UnlockLine = "ALARM:1", "$X"
	require.NoError(t, talks.unlock())
	assert.Equal(t, []string{"$X", "?"}, w.heard)
	assert.False(t, talks.locked())
	talks.alarmed, talks.controller.UnlockLine = "ALARM:1", ""
	require.ErrorContains(t, talks.unlock(), "ALARM:1, and the rig file has no line that unlocks it")
	assert.True(t, talks.locked())
}

// TestALineOnASilentWire: what was asked for is waited for, and nothing more asked
// meanwhile, so that nothing is in front of the answer.
func TestALineOnASilentWire(t *testing.T) {
	talks, w := echoed(t)
	talks.every = 100 * ms
	talks.askStatus()
	require.NoError(t, talks.prompt("G90"))
	assert.Equal(t, []string{"?", "G90"}, w.heard)
	assert.Equal(t, 100*ms, talks.every)
	assert.Equal(t, 1, talks.way.answers.n)
	assert.Equal(t, at(20), talks.askedAt, "when the report had come")
	for _, x := range []struct {
		name string
		set  func(*talker)
		want bool
	}{
		{"nothing", func(*talker) {}, true}, {"a line", func(t *talker) { t.flight = []sent{{}} }, false}, {"a report", func(t *talker) { t.asks = []asking{{}} }, false},
		{"bytes to go", func(t *talker) { t.out.hurry('~') }, false}, {"bytes on the wire", func(t *talker) { t.way.across = at(1) }, false},
		{"bytes that are across", func(t *talker) { t.way.across = noon }, true},
	} {
		talks, _ := echoed(t)
		x.set(talks)
		assert.Equal(t, x.want, talks.silentWay(), x.name)
	}
	// A stop ends a wait; a controller that is silent while a fault is dealt with does too.
	talks, _ = echoed(t)
	talks.state, talks.stops = Approaching, 1
	require.ErrorIs(t, talks.exchange("G90", patience), errStopped)
	talks, w = echoed(t)
	w.silent, talks.calming = true, true
	require.ErrorContains(t, talks.exchange("G90", 700*ms), `silent: no answer to "G90"`)
	assert.Equal(t, at(700), talks.now)
}

// TestHowLongADwellLasts against one of nothing: 120 ms that last 150, known to 3 ms and a
// hundredth. One with something else on the way tells nothing.
func TestHowLongADwellLasts(t *testing.T) {
	talks, w := echoed(t)
	w.grain, talks.every = 0.05, 30*ms
	lasts, doubt, err := talks.timed(0.12)
	require.NoError(t, err)
	assert.InDelta(t, 0.15, lasts, 1e-9)
	assert.InDelta(t, 0.002+0.001+0.01*0.12, doubt, 1e-9)
	assert.Equal(t, []string{"G4 P0.000000", "G4 P0.120000"}, w.heard, "nothing is asked for meanwhile")
	assert.Equal(t, 30*ms, talks.every)
	w.queue = []said{{talks.now.Add(5 * ms), "[msg]\n"}}
	lasts, _, err = talks.timed(0.12)
	require.NoError(t, err)
	assert.Zero(t, lasts)
	assert.Equal(t, 30*ms, talks.every)
	// One that could not be timed is told, and believed.
	talks, w = echoed(t)
	w.chatty = true
	require.NoError(t, talks.tryDwells([]float64{0.12}))
	assert.True(t, talks.tried)
	said := talks.Observer.(*quiet).said
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "a dwell of 120.0 ms could not be timed")
	// One that was late to be heard once is tried again.
	talks, w = echoed(t)
	w.late = map[int]time.Duration{2: 30 * ms}
	require.NoError(t, talks.tryDwells([]float64{0.12}))
	assert.Len(t, w.heard, 4)
	talks, w = echoed(t)
	w.silent = true
	require.Error(t, talks.tryDwells([]float64{0.12}))
	assert.False(t, talks.tried)
}

// TestWhetherATakeIsInRoom, once it is known where the controller counts.
func TestWhetherATakeIsInRoom(t *testing.T) {
	// The take goes from a little below 0 to a little above 360 degrees.
	for _, x := range []struct {
		name    string
		machine []float64
		travel  float64
		fails   bool
		told    int
	}{
		{"below 0", []float64{0, 0, 0, -390}, 400, false, 0},
		{"above 0", []float64{0, 0, 0, 20}, 400, false, 0},
		{"at an end", []float64{0, 0, 0, -20}, 400, true, 0},
		{"either side", []float64{0, 0, 0, 0}, 400, false, 1},
		{"not told", nil, 400, false, 1},
		{"its travel is not known", []float64{0, 0, 0, -20}, 0, false, 0},
	} {
		talks, q := talking(t, 1, func(r *rig.Rig) { r.Axes[1].Endless, r.Axes[1].Min, r.Axes[1].Max = false, -1000, 1000 })
		talks.status.machine = x.machine
		require.NoError(t, talks.inRoom(talks.start), "limits are off")
		talks.travels = []float64{x.travel}
		err := talks.inRoom(talks.start)
		assert.Equal(t, x.fails, err != nil, "%s: %v", x.name, err)
		_ = talks.inRoom(talks.start)
		assert.Len(t, q.said, x.told, "%s: once", x.name)
	}
}

// TestWhichAxesAreHomed: those with a switch where it is, those without where they were;
// an axis of which nothing is known is to be brought to its start.
func TestWhichAxesAreHomed(t *testing.T) {
	for _, x := range []struct {
		name    string
		homes   bool
		endless bool
		known   bool
		byHand  []string
		any     bool
	}{
		{"a switch", true, false, false, nil, true}, {"none", false, false, false, []string{"table"}, false},
		{"none, and known", false, false, true, nil, false}, {"none, and endless", false, true, false, nil, false},
	} {
		talks, _ := echoed(t)
		talks.axes[0].Endless, talks.known = x.endless, x.known
		if x.homes {
			talks.controller.HomeLine, talks.axes[0].HomeLine = "$H", "$H"
		}
		byHand, any := talks.withoutSwitch()
		assert.Equal(t, x.byHand, byHand, x.name)
		assert.Equal(t, x.any, any, x.name)
	}
	talks, _ := echoed(t)
	require.NoError(t, talks.engine.home())
	assert.Len(t, talks.Observer.(*quiet).said, 1)
	talks.Takes = 1
	require.ErrorContains(t, talks.engine.home(), "it cannot home by itself")
	talks.known, talks.homed = false, nil
	assert.False(t, talks.sure(0))
	talks.homed = []bool{false}
	assert.False(t, talks.sure(0))
	talks.homed, talks.at = []bool{true}, []float64{77}
	assert.True(t, talks.sure(0))
	assert.Equal(t, []float64{77}, talks.byHand())
}
