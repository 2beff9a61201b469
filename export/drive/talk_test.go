package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// TestASettingNearEnough is one within a ten-thousandth, which is what printing three
// decimals makes; speeds may be printed a second or a minute.
func TestASettingNearEnough(t *testing.T) {
	a := rig.Axis{Name: "rail", StepsPerUnit: exact.Int(80), Settings: rig.AxisSettings{
		StepsName: "$100", SpeedName: "$110", AccelerationName: "$120", Speed: 200, Acceleration: 500}}
	for _, x := range []struct {
		said  settings
		wrong []string
	}{
		{settings{"$100": 80, "$110": 12_000, "$120": 500}, nil},
		{settings{"$100": 80.0079, "$110": 200, "$120": 499.951}, nil},
		{settings{"$100": 80.0081, "$110": 200.021, "$120": 499.949}, []string{
			"axis rail: steps per mm: $100 is 80.0081 and the rig file says 80",
			"axis rail: speed, mm/min: $110 is 200.021 and the rig file says 12000",
			"axis rail: acceleration, mm/s2: $120 is 499.949 and the rig file says 500"}},
		{settings{"$100": 80, "$120": 500}, []string{"axis rail: speed, mm/min: it does not print $110"}},
	} {
		assert.Equal(t, x.wrong, x.said.differences(a))
	}
	a.Settings.SpeedName = ""
	assert.Empty(t, settings{"$100": 80, "$120": 500}.differences(a), "nobody has said what it prints that as")
	s := settings{}
	for _, line := range []string{"$100=80.000 (steps)", "$ 1 = 25", "echo: M92 X80.00 Y400.5", "M93", "", "hello", "$3=NaN", "$4=Inf", "$5="} {
		s.hear(line)
	}
	assert.Equal(t, settings{"$100": 80, "$ 1": 25, "M92 X": 80, "M92 Y": 400.5}, s)
}

// TestWhatBoardsAreSetTo: what would be out of step with the frames, or lose its place, is
// refused; what is as the plan knows is told.
func TestWhatBoardsAreSetTo(t *testing.T) {
	const tells, refuses = "tells", "refuses"
	for _, x := range []struct {
		name string
		plan float64 // s of idle delay that it was made for
		once bool    // as the rig file says, it does not wait
		got  float64
		is   string
		says string
	}{
		{"stays on, as planned", 0, false, 255, "", ""},
		{"stays on, and it was to wait", 0.025, false, 255, refuses, "it would be 25 ms early after each end of motion and each dwell"},
		{"waits as planned", 0.025, false, 25, tells, "it waits 25 ms at each end of motion and each dwell ($1), as the plan knows"},
		{"within what is printed", 0.025, false, 25.0004, tells, "as the plan knows"},
		{"waits longer", 0.025, false, 30, refuses, "at each end of motion and each dwell it would be 5 ms out of step with the frames"},
		{"waits less", 0.025, false, 20, refuses, "it would be 5 ms out of step"},
		{"waits, and it was not to", 0, false, 254, refuses, "it would be 254 ms out of step"},
		{"does not wait, as is said", 0, true, 0, tells, "it does not wait at an end of motion or a dwell ($1=0), as the rig file says"},
		{"does not wait", 0, false, 0, refuses, "Set $1=255, or say idle-delay = \"0 ms\""},
	} {
		talks, _ := talking(t, 1, nil)
		talks.controller.IdleDelay, talks.controller.IdleAtOnce = x.plan, x.once
		f := talks.judgeIdle("$1", x.got)
		assert.Equal(t, x.is == refuses, f.refuse != "", "%s: %s", x.name, f.refuse)
		assert.Equal(t, x.is == tells, f.tell != "", "%s: %s", x.name, f.tell)
		assert.Contains(t, f.refuse+f.tell, x.says, x.name)
	}
	talks, _ := talking(t, 1, nil)
	talks.controller.JunctionDeviation = 0.01
	for got, ok := range map[float64]bool{0.01: true, 0.01049: true, 0.00951: true, 0.01051: false, 0.00949: false, 0.02: false} {
		assert.Equal(t, ok, talks.judgeJunction("$11", got).refuse == "", "%g mm", got)
	}
	assert.Equal(t, finding{}, talks.judgeInches("$13", 0))
	assert.Contains(t, talks.judgeInches("$13", 1).refuse, "whether it divides the degrees of axis table too cannot be told")
	assert.False(t, talks.inches)
	talks.axes[0].Kind = rig.Linear
	assert.Equal(t, "it reports places in inches ($13=1): they are read as such", talks.judgeInches("$13", 1).tell)
	assert.True(t, talks.inches)
	assert.Equal(t, finding{}, talks.judgeLaser("$32", 0))
	assert.Contains(t, talks.judgeLaser("$32", 1).refuse, "laser mode: $32 is 1")
	assert.Equal(t, finding{}, talks.judgeHoming("$22", 0), "no line homes it")
	talks.controller.HomeLine, talks.axes[0].Endless = "$H", false
	assert.Equal(t, finding{}, talks.judgeHoming("$22", 1))
	assert.False(t, talks.homesNot)
	assert.Contains(t, talks.judgeHoming("$22", 0).tell, "it does not home ($22=0)")
	assert.True(t, talks.homesNot)
}

// TestRoomForALine: of 128 characters one stays free; a line that is too long goes alone;
// a controller that answers each line gets one at a time.
func TestRoomForALine(t *testing.T) {
	talks, _ := talking(t, 1, nil)
	talks.controller.ReceiveBuffer = 128
	talks.bytes, talks.flight = 100, []sent{{}}
	assert.True(t, talks.room(27))
	assert.False(t, talks.room(28))
	talks.flight, talks.bytes = nil, 0
	assert.True(t, talks.room(500))
	talks.controller.Kind = rig.Lockstep
	assert.True(t, talks.room(20))
	talks.flight = []sent{{}}
	assert.False(t, talks.room(20))

	for _, x := range []struct {
		kind            rig.ControllerKind
		longest, buffer int
		line            int
		ok              bool
	}{
		{rig.Buffered, 80, 128, 80, true}, {rig.Buffered, 80, 128, 81, false}, {rig.Buffered, 200, 128, 126, true}, {rig.Buffered, 200, 128, 127, false},
		{rig.Lockstep, 200, 128, 200, true}, {rig.Lockstep, 200, 128, 201, false}, {rig.Lockstep, 0, 0, 999, true}, {rig.Buffered, 0, 128, 1, true}, {rig.Buffered, 0, 128, 2, false},
	} {
		talks, _ := talking(t, 1, nil)
		talks.controller.Kind, talks.controller.LineLength, talks.controller.ReceiveBuffer = x.kind, x.longest, x.buffer
		err := talks.fits(program.Line{Text: string(make([]byte, x.line))})
		assert.Equal(t, x.ok, err == nil, "%+v", x)
	}
}

// TestNoiseAddsUp: four lines that cannot be read, with hardly one between them that can,
// are the wrong speed; one now and then is a click on a long cable.
func TestNoiseAddsUp(t *testing.T) {
	noise := func(talks *lineController) { talks.reply([]byte("\x01\x02")) }
	sense := func(talks *lineController) { talks.reply([]byte("[msg]")) }
	talks, _ := talking(t, 1, nil)
	for range 3 {
		noise(talks)
	}
	require.Nil(t, talks.failure)
	noise(talks)
	require.NotNil(t, talks.failure)
	assert.Equal(t, Garbled, talks.failure.End)
	talks, _ = talking(t, 1, nil)
	for range 100 { // eight that make sense make up for one
		noise(talks)
		for range 8 {
			sense(talks)
		}
	}
	assert.Nil(t, talks.failure)
	assert.Zero(t, talks.garbled)
	for range 20 {
		noise(talks)
		for range 4 {
			sense(talks)
		}
	}
	assert.NotNil(t, talks.failure)
	talks, _ = talking(t, 1, nil)
	talks.expected = true
	for range 9 {
		noise(talks)
	}
	assert.Nil(t, talks.failure, "boot loaders may speak at another speed")
	assert.Equal(t, "0123456789012345678901234567890123456789", shortened("0123456789012345678901234567890123456789x"))
	assert.Equal(t, "0123456789012345678901234567890123456789", shortened("0123456789012345678901234567890123456789"))
}

// TestWhenReportsAreAskedFor: ten times a second, one at a time; a lost one after 0.4 s.
func TestWhenReportsAreAskedFor(t *testing.T) {
	talks, _ := talking(t, 1, nil)
	talks.controller.Status, talks.every, talks.askedAt = '?', 100*ms, noon
	assert.True(t, talks.polls())
	assert.Equal(t, at(100), talks.nextPoll())
	assert.Equal(t, at(100), talks.due())
	talks.asks = []asking{{}}
	assert.Equal(t, at(400), talks.nextPoll())
	talks.every = time.Second
	assert.Equal(t, at(1000), talks.nextPoll())
	talks.every = 0
	assert.False(t, talks.polls())
	assert.Equal(t, noon.Add(never), talks.due())
	talks.every, talks.ear = 100*ms, func(string) {}
	assert.False(t, talks.polls(), "settings are being printed")
	talks.ear, talks.controller.Status = nil, 0
	assert.False(t, talks.polls())
	talks.flight = []sent{{by: at(70)}}
	assert.Equal(t, at(70), talks.due())
	assert.True(t, (&lineController{engine: talks.engine, flight: []sent{{text: "G1 X1"}, {text: "G4 P2"}}}).dwelling())
	assert.False(t, (&lineController{engine: talks.engine, flight: []sent{{text: "G1 X1"}, {text: "G4 P0"}}}).dwelling())

	// While the answer is awaited that tells of the beginning, or of the end, nothing is.
	s, talks := streaming(t)
	s.pass.zero = time.Time{}
	assert.True(t, talks.timing())
	s.pass.zero, talks.now = noon, at(100)
	assert.False(t, talks.timing())
	s.synced, s.pass.until, s.seenAt = true, 10, at(9000)
	// At 10 s, which is unsure by 7.1 ms, with a report of 80 ms and 50 ms besides.
	for millis, want := range map[float64]bool{9862: false, 9864: true, 10_000: true, 10_056: true, 10_058: false} {
		talks.now = at(millis)
		assert.Equal(t, want, talks.timing(), "at %g ms", millis)
	}
	talks.now = at(10_000)
	s.paused = true
	assert.False(t, talks.timing())
	s.paused, s.ended = false, true
	assert.False(t, talks.timing())
	s.ended, s.pass.engine.pass = false, nil
	assert.False(t, talks.timing())

	// The one that compares buffers is asked for a quarter into the dwell before the motion.
	s, talks = streaming(t)
	s.fillsFrom, s.fill = noon, 1
	assert.Equal(t, at(250), s.compareAt())
	s.fill = 0.25 // half of which, 125 ms, is less than a report's 80 and 50
	assert.True(t, s.compareAt().IsZero())
	s.fill = 0.27
	assert.Equal(t, at(67.5), s.compareAt())
	s.opened = true
	assert.True(t, s.compareAt().IsZero())
	s.opened, s.fill = false, 1
	for _, x := range []struct {
		now, asked float64
		want       bool
	}{{249, -1, false}, {250, -1, true}, {499, -1, true}, {500, -1, false}, {300, 0, false}} {
		talks.now, talks.askedAt = at(x.now), at(x.asked)
		assert.Equal(t, x.want, talks.compares(), "%+v", x)
	}
}

// TestASmallPlayerIsNotGoodEnough: too few motors, a tick in which a row cannot hold the
// steps or two of which are longer than a frame, too little store to slow down in, a wire
// that carries fewer rows than are played.
func TestASmallPlayerIsNotGoodEnough(t *testing.T) {
	for _, x := range []struct {
		name string
		set  func(*player)
		says string
	}{
		{"two motors", func(p *player) { p.info.Axes = 1 }, "it has 1 motors, and the rig file needs 2"},
		{"version", func(p *player) { p.info.Version = 3 }, "it speaks version 3 of the protocol, and this is version 2"},
		{"name", func(p *player) { p.controller.Greeting = "steady" }, `it is "", and should be "steady"`},
		{"store", func(p *player) { p.info.Capacity = 255 }, "it stores 255 rows, and needs 256 to slow down within them"},
		{"tick", func(p *player) { p.info.Shortest = 21_000_000 }, "its shortest tick is 21.000 ms, and the take needs one of 20.833 ms at most"},
	} {
		p := playing(t)
		p.info.Version = stepplayer.Version
		x.set(p)
		require.ErrorContains(t, p.recognise(), x.says, x.name)
	}
	p := playing(t)
	// 60 degrees a second by 10 steps are 600 steps/s, of which a row holds 127; two ticks
	// to a frame are shorter.
	assert.InDelta(t, 1.0/48, p.mostTick(), 1e-12)
	p.axes[0].StepsPerUnit = exact.Int(1000)
	assert.InDelta(t, 127.0/60_000, p.mostTick(), 1e-12)
	// Two motors at a thousand rows a second are 2000 bytes, with a sixteenth for frames
	// 21 250 bits, of which a wire may have nine tenths.
	p.controller.Baud = 23_612
	assert.NoError(t, p.check())
	p.controller.Baud = 23_611
	assert.ErrorContains(t, p.check(), "rows of 2 motors every 1 ms need 23611 baud, and the wire has 23611")
	p.controller.Baud = 0
	assert.NoError(t, p.check())
	p.status = &stepplayer.Status{Steps: []int32{5, 700}}
	place, ok := p.position()
	require.True(t, ok)
	assert.Equal(t, []float64{0.7}, place)
	p.status.Steps = p.status.Steps[:1]
	_, ok = p.position()
	assert.False(t, ok)
	assert.False(t, p.locked())
	p.status.State = stepplayer.Alarm
	assert.True(t, p.locked())
}
