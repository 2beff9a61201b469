package drive_test

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// stills is a rail that goes 8 mm there and back in 12 frames, and a table that turns by a
// seventh, exposed for half a second each.
const stills = `
[clock]
playback = "24"
loop = "12 frames"
[frame-by-frame]
exposure = "1/2 s"
output = "release"
settle = "0.25 s"
card = "0.25 s"
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "48 mm"
[axis.table]
turns = "1/7"
law = "uniform"
`

// byFrame sets up a take frame by frame on a virtual rig of a kind, its release on an output.
func byFrame(t testing.TB, kind rig.ControllerKind, text string) *machine {
	t.Helper()
	tr := framed(t, kind, text)
	m := onVirtualWith(t, tr, int64(tr.Plan().Rounds), nil, nil)
	m.frameByFrame(tr)
	return m
}

// frameByFrame has a run take its frames one by one.
func (m *machine) frameByFrame(tr *trajectory.Trajectory) {
	m.options.Frames, m.options.Outputs = stepwise.New(tr.Plan(), 0), tr.Rig().Outputs
	m.options.Call = func(drive.Beat) {}
}

// framed plans a shot that is taken frame by frame.
func framed(t testing.TB, kind rig.ControllerKind, text string) *trajectory.Trajectory {
	t.Helper()
	r := bench(kind)
	r.Controller.Greeting = ""
	play := 0.05
	r.Axes[0].Backlash = &play
	o := rig.Output{Name: "release", On: "M8", Off: "M9", Serves: rig.ServesShutter, Unsure: 0.05, Pulse: 0.2}
	if kind.PlaysSteps() {
		o.On, o.Off, o.Number = "", "", 1
	}
	r.Outputs = []rig.Output{o}
	s, err := shot.Decode("stills.toml", []byte(text), nil)
	require.NoError(t, err)
	s, err = stepwise.Timed(s, r, func(shot.Shot, *plan.Plan) float64 { return 0 })
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	return trajectory.New(p)
}

// exposed are the instants at which the release was pressed, in s since the board was powered.
func (m *machine) exposed() (on []float64) {
	for _, x := range m.rig.Record().Switches() {
		if x.On {
			on = append(on, x.Seconds)
		}
	}
	return on
}

// where is where the motors have an axis at an instant, by the plan's count.
func (m *machine) where(axis int, sec float64) float64 {
	at := m.rig.Record().At(sec)[axis]
	if axis == 0 {
		at += m.shift()
	}
	return at
}

// inPlace checks that frames from one on, exposed at instants, find every axis where the plan
// has it, and that nothing moves until the exposure is over.
func (m *machine) inPlace(t *testing.T, from int64, on []float64) {
	t.Helper()
	s := m.options.Frames
	for k, sec := range on {
		for i := range 2 {
			want := s.Place(i, from+int64(k))
			for _, after := range []float64{-0.2, 0, 0.25, 0.5} {
				assert.InDelta(t, want, m.where(i, sec+after), 0.5/80, "axis %d in frame %d, %.2f s after it began", i, from+int64(k), after)
			}
		}
	}
}

// Each kind exposes every frame once, at its place and at rest, as far apart as planned; the
// log has them one by one, and the loop is closed.
func TestFramesOnTheVirtualRig(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		m := byFrame(t, k, stills)
		r := m.run()
		require.NoError(t, r.Err(), "%v", k)
		assert.Equal(t, drive.Finished, r.End)
		on := m.exposed()
		require.Len(t, on, 12, "%v", k)
		m.inPlace(t, 0, on)
		every := m.options.Frames.Every().Float()
		for i := range on[1:] {
			assert.InDelta(t, every, on[i+1]-on[i], 0.02, "%v: frame %d", k, i+1)
		}
		p := m.w.passes[0]
		assert.EqualValues(t, 12, p.Frames)
		assert.InDelta(t, p.Planned, p.Executed, 0.15, "%v: the release may act late, and is waited for", k)
		assert.InDelta(t, 11*every+0.5, p.Planned, 1e-9)
		assert.Equal(t, 12, strings.Count(m.log.String(), `"record":"frame"`))
		assert.Empty(t, m.rig.Lit())
		assert.InDelta(t, 40, m.where(0, m.rig.Now().Seconds()), 0.5/80, "it has gone back to its first frame")
	}
}

// The release is held for the exposure where it has to be, and pressed where the camera times it.
func TestBulbAndPulse(t *testing.T) {
	for shutter, held := range map[string]float64{"bulb": 0.5, "camera": 0.2} {
		m := byFrame(t, rig.Buffered, strings.Replace(stills, "card =", "shutter = \""+shutter+"\"\ncard =", 1))
		require.NoError(t, m.run().Err())
		all := m.rig.Record().Switches()
		require.Len(t, all, 24)
		for i := 0; i < len(all); i += 2 {
			assert.InDelta(t, held, all[i+1].Seconds-all[i].Seconds, 0.02, shutter)
		}
	}
}

// A stop between two frames, in a move or while one is exposed rests there; going on takes
// the rest of them, each once, at its place, come to from its side.
func TestAPauseAtAnyFrame(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for after := 300 * time.Millisecond; after < 12*time.Second; after += 1100 * time.Millisecond {
			m := byFrame(t, k, stills)
			m.w.script = []cue{{drive.Running, after, drive.Request{Kind: drive.Stop}}, {drive.Resting, 5 * time.Second, drive.Request{Kind: drive.Resume}}}
			r := m.run()
			require.NoError(t, r.Err(), "%v after %v: %v", k, after, m.w.said)
			assert.Contains(t, m.w.states, drive.Resting, "%v after %v", k, after)
			on := m.exposed()
			require.Len(t, on, 12, "%v after %v", k, after)
			m.inPlace(t, 0, on)
			assert.EqualValues(t, 12, m.w.passes[0].Frames)
		}
	}
}

// A stop while a frame is exposed waits until it is.
func TestAStopWaitsForTheShutter(t *testing.T) {
	m := byFrame(t, rig.Buffered, strings.Replace(stills, "card =", "shutter = \"bulb\"\ncard =", 1))
	stopped := 0.0
	m.w.watch = func() {
		if len(m.rig.Lit()) == 0 && len(m.exposed()) == 0 {
			return
		}
		m.w.watch = nil
		stopped = m.rig.Now().Seconds()
		m.world.Ask(virtual.Asking{At: m.rig.Now() + 50*time.Millisecond, Request: drive.Request{Kind: drive.Stop}})
	}
	m.w.script = []cue{{drive.Resting, time.Second, drive.Request{Kind: drive.Quit}}}
	r := m.run()
	assert.Equal(t, drive.Stopped, r.End)
	assert.True(t, r.Known)
	all := m.rig.Record().Switches()
	require.NotZero(t, stopped)
	assert.InDelta(t, 0.5, all[1].Seconds-all[0].Seconds, 0.02, "the whole exposure")
	assert.EqualValues(t, len(all)/2, m.w.passes[0].Frames)
}

// Power lost between two frames: the log tells how many there are, and a take from the next
// one on makes the loop whole.
func TestPowerLostBetweenFrames(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		m := byFrame(t, k, stills)
		require.NoError(t, m.run().Err())
		whole := m.log.String()
		cut := whole[:strings.Index(whole, `"frames":6`)] // in the middle of the line of the sixth
		log, err := takelog.Scan(strings.NewReader(cut))
		require.NoError(t, err)
		last, any := log.LastTake(false)
		require.True(t, any)
		assert.True(t, last.Cut)
		assert.False(t, log.Known)
		assert.EqualValues(t, 5, last.Frames)

		m = byFrame(t, k, stills)
		m.options.FromFrame = last.Frames
		r := m.run()
		require.NoError(t, r.Err())
		on := m.exposed()
		require.Len(t, on, 7, "%v", k)
		m.inPlace(t, 5, on)
		assert.EqualValues(t, 12, m.w.passes[0].Frames)
		var takes []takelog.Take
		_, err = takelog.Walk(bytes.NewReader(m.log.Bytes()), func(t takelog.Take) error { takes = append(takes, t); return nil })
		require.NoError(t, err)
		require.Len(t, takes, 1)
		assert.EqualValues(t, 12, takes[0].Frames)
		assert.EqualValues(t, 5, takes[0].Begin.Frames)
		assert.False(t, takes[0].Cut)
	}
}

// Frames may follow each other sooner than progress is told: which one a hand is waited for
// is told each time.
func TestAHandIsToldEachFrame(t *testing.T) {
	text := strings.NewReplacer("output = \"release\"\n", "", `"0.25 s"`, `"0.01 s"`, `"48 mm"`, `"41 mm"`, `"1/7"`, `"1/700"`).Replace(stills)
	m := byFrame(t, rig.Buffered, text)
	waits := 0
	m.w.entered = func(s drive.State) {
		if s == drive.Awaiting {
			m.w.ask(10*time.Millisecond, drive.Request{Kind: drive.Taken})
		}
	}
	m.w.watch = func() {
		if last := m.w.progress[len(m.w.progress)-1]; m.w.states[len(m.w.states)-1] == drive.Awaiting {
			assert.EqualValues(t, waits, last.Taken)
			waits++
		}
	}
	require.NoError(t, m.run().Err())
	assert.Equal(t, 12, waits)
}

// A hand is called for each frame and waited for; a stop meanwhile rests.
func TestFramesByHand(t *testing.T) {
	m := byFrame(t, rig.Buffered, strings.Replace(stills, "output = \"release\"\n", "", 1))
	var called []string
	m.options.Call = func(b drive.Beat) { called = append(called, b.Text) }
	m.w.entered = func(s drive.State) {
		switch {
		case s == drive.Resting:
			m.w.ask(time.Second, drive.Request{Kind: drive.Resume})
		case s == drive.Awaiting && len(called) == 5:
			m.w.ask(time.Second, drive.Request{Kind: drive.Stop})
		case s == drive.Awaiting:
			m.w.ask(time.Second, drive.Request{Kind: drive.Taken})
		}
	}
	require.NoError(t, m.run().Err())
	require.Len(t, called, 13, "the fifth twice")
	assert.Equal(t, "frame 0, the 1st of 12", called[0])
	assert.Equal(t, called[4], called[5])
	assert.Equal(t, 12, strings.Count(m.log.String(), `"record":"frame"`))
	assert.Empty(t, m.exposed())
}

// Finish ends a take after the round in hand.
func TestFinishAfterThisRound(t *testing.T) {
	m := byFrame(t, rig.Buffered, strings.Replace(stills, "[frame-by-frame]", "[take]\nrounds = 3\n[frame-by-frame]", 1))
	m.w.script = []cue{{drive.Running, 3 * time.Second, drive.Request{Kind: drive.Finish}}}
	require.NoError(t, m.run().Err())
	assert.Len(t, m.exposed(), 12)
	assert.EqualValues(t, 1, m.w.passes[0].Rounds)
}

// Whatever goes wrong in an exposure, the release is let go and the take has an end.
func TestAFaultInAnExposure(t *testing.T) {
	m := byFrame(t, rig.Buffered, strings.Replace(stills, "card =", "shutter = \"bulb\"\ncard =", 1))
	m.log.room = 400
	r := m.run()
	assert.Equal(t, drive.LogFailed, r.End)
	assert.Empty(t, m.rig.Lit())
	assert.Len(t, m.w.passes, 1)
	assert.Equal(t, drive.LogFailed, m.w.passes[0].End)
}

// A pass of a group says where it stood at its first frame, from which side it came there, how
// far it was reported from its frames and how many those are; one that begins later does not
// say where it stood at the first.
func TestAPassOfAGroupFrameByFrame(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for _, from := range []int64{0, 5} {
			m := byFrame(t, k, stills)
			m.options.Group, m.options.Pass, m.options.FromFrame = "plates", "light", from
			require.NoError(t, m.run().Err())
			var takes []takelog.Take
			_, err := takelog.Walk(bytes.NewReader(m.log.Bytes()), func(t takelog.Take) error { takes = append(takes, t); return nil })
			require.NoError(t, err)
			b := takes[0].Begin
			assert.EqualValues(t, 12, b.Of)
			for i, a := range b.Start.Axes {
				assert.Equal(t, takelog.FromBelow, a.From, "%v: %s goes up first", k, a.Axis)
				if k.PlaysSteps() || bench(k).Controller.Status != 0 {
					assert.Equal(t, from == 0, a.Stood != nil, "%v: %s", k, a.Axis)
					assert.InDelta(t, 0, takes[0].End.Worst[i].Value, 1.0/80)
				}
			}
		}
	}
}

// Axes go together on every kind, none faster than it goes alone, and the frames are as far
// apart as their legs let them be.
func TestAxesGoTogetherBetweenFrames(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		m := byFrame(t, k, stills)
		require.NoError(t, m.run().Err())
		s, on := m.options.Frames, m.exposed()
		both := 0
		for n := int64(1); n < 12; n++ {
			f := s.Frame(n)
			if len(f.Legs) != 1 || len(f.Legs[0].Moves) != 2 {
				continue
			}
			both++
			const look = 0.002 // s
			overlap, fastest := 0, [2]float64{}
			for sec := on[n-1] + 0.5; sec < on[n]; sec += look {
				moving := 0
				for i := range 2 {
					v := math.Abs(m.where(i, sec+look)-m.where(i, sec)) / look
					fastest[i] = max(fastest[i], v)
					if v > 0 {
						moving++
					}
				}
				if moving == 2 {
					overlap++
				}
			}
			assert.Positive(t, overlap, "%v: frame %d", k, n)
			for i, a := range bench(k).Axes[:2] {
				step := 1 / a.StepsPerUnit.Float()
				assert.LessOrEqual(t, fastest[i], stepwise.GentleSpeed(a)+2*step/look, "%v: %s to frame %d", k, a.Name, n)
			}
		}
		assert.Positive(t, both, "%v", k)
	}
}

// A release that has to be held for longer than the camera exposes is in the time of a frame:
// none comes late for it.
func TestAPressLongerThanTheExposure(t *testing.T) {
	m := byFrame(t, rig.Buffered, strings.NewReplacer(`exposure = "1/2 s"`, `exposure = "1/250 s"`, `card = "0.25 s"`, `card = "0 s"`).Replace(stills))
	require.NoError(t, m.run().Err())
	on, every := m.exposed(), m.options.Frames.Every().Float()
	require.Len(t, on, 12)
	for k := range on {
		assert.InDelta(t, float64(k)*every, on[k]-on[0], 0.02*float64(k+1))
	}
	for _, said := range m.w.said {
		assert.NotContains(t, said, "late")
	}
}
