package virtual_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/virtual"
)

// spoilt returns a host of the bench board with faults.
func spoilt(t *testing.T, faults ...virtual.Fault) *host {
	o := bench()
	o.Greeting, o.BootSeconds = "Hello bench", 0.5
	o.Faults = faults
	return newHost(t, o)
}

const threeLines = "G94\nG1 X1 F600\nG1 X2 F600\n"

func TestLostAndDoubledAnswers(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.LoseOK, Nth: 2})
	assert.Equal(t, []string{"ok", "ok"}, h.say(threeLines, time.Second))
	h = spoilt(t, virtual.Fault{Kind: virtual.DoubleOK, Nth: 2})
	assert.Equal(t, []string{"ok", "ok", "ok", "ok"}, h.say(threeLines, time.Second))
	assert.Equal(t, []float64{2}, h.rig.Place(), "the motion is as it was")
}

func TestRefusedLine(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.RefuseLine, Nth: 2, Value: 33})
	assert.Equal(t, []string{"ok", "error:33", "ok"}, h.say(threeLines, time.Second))
	assert.Equal(t, []float64{2}, h.rig.Place())
	assert.EqualValues(t, 1, h.rig.Stats().Errors)
}

func TestGarbage(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.Garble, At: time.Millisecond, Text: "\xfe#!\r\n"})
	h.say("G94\n", 0)
	assert.Equal(t, []string{"\xfe#!"}, h.say("", time.Second))
}

// Silent, it neither answers nor reads, and finishes what it was doing.
func TestSilence(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.FallSilent, At: 500 * time.Millisecond})
	assert.Len(t, h.say("G94\nG1 X10 F600\n", 600*time.Millisecond), 2)
	assert.Empty(t, h.say("?G1 X20 F600\n", 5*time.Second))
	assert.Equal(t, []float64{10}, h.rig.Place())
}

// Nor does a pause end that it was in, or its boot, or a line.
func TestSilenceInAPause(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.FallSilent, At: 500 * time.Millisecond})
	assert.Equal(t, []string{"ok"}, h.say("G94\nG4 P1\n", 5*time.Second))

	b := newPlayer(t, func(o *virtual.Options) {
		o.ResetsOnOpen, o.BootSeconds = true, 1
		o.Faults = []virtual.Fault{{Kind: virtual.FallSilent, At: 500 * time.Millisecond}}
	})
	b.rig.Advance(5 * time.Second)
	assert.Empty(t, b.hear())
}

func TestAlarmAtAMoment(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.TripAlarm, At: 500 * time.Millisecond, Value: 1})
	assert.Equal(t, []string{"ok", "ok", "ALARM:1"}, h.say("G94\nG1 X100 F6000\n", 500*time.Millisecond))
	place := h.rig.Place()
	assert.Equal(t, []string{"error:9"}, h.say("G1 X0 F600\n", 5*time.Second))
	assert.Equal(t, place, h.rig.Place())
}

// A drop in power: it greets again, counts from 0, and has forgotten all.
func TestRestartInMotion(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.Restart, At: 500 * time.Millisecond})
	h.say("G94\nG1 X100 F6000\nG1 X0 F6000\n", 600*time.Millisecond)
	place := h.rig.Place()[0]
	assert.Equal(t, []string{"Hello bench"}, h.say("", time.Second))
	assert.Equal(t, place, h.rig.Place()[0])
	assert.Greater(t, place, 20.0)
	assert.Equal(t, "<Idle|MPos:0.000,0.000,0.000|Bf:15,127>", h.say("?", 0)[0])
}

// The wire goes in mid-line; the board goes on with what it holds.
func TestVanishing(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.VanishAfter, Nth: 20})
	n, err := h.rig.Write([]byte("G94\nG1 X10 F600\n"))
	require.NoError(t, err)
	assert.Equal(t, 16, n)
	n, err = h.rig.Write([]byte("G1 X20 F600\n"))
	require.NoError(t, err)
	assert.Equal(t, 4, n)
	_, err = h.rig.Write([]byte("G1"))
	require.ErrorIs(t, err, virtual.ErrGone)
	h.finish()
	assert.True(t, h.rig.Gone())
	assert.Empty(t, h.replies)
	assert.Equal(t, []float64{10}, h.rig.Place())

	h = spoilt(t, virtual.Fault{Kind: virtual.Vanish, At: time.Second})
	h.rig.Advance(2 * time.Second)
	_, err = h.rig.Write([]byte("G1"))
	assert.ErrorIs(t, err, virtual.ErrGone)
}

func TestPartialWrites(t *testing.T) {
	h := spoilt(t, virtual.Fault{Kind: virtual.ShortWrites, Value: 3})
	h.rig.Advance(0)
	n, err := h.rig.Write([]byte("G94\n"))
	require.NoError(t, err)
	assert.Equal(t, 3, n)

	o := bench()
	o.Baud, o.HostBuffer = 9600, 10
	r := virtual.New(o)
	n, err = r.Write([]byte(threeLines))
	require.NoError(t, err)
	assert.Equal(t, 10, n)
	n, err = r.Write([]byte(threeLines))
	require.NoError(t, err)
	assert.Zero(t, n)
	r.Advance(lasting(4 * 10 / 9600.))
	n, err = r.Write([]byte(threeLines))
	require.NoError(t, err)
	assert.Equal(t, 4, n)
}

func TestSlowLink(t *testing.T) {
	o := bench()
	o.Baud = 115200
	o.Faults = []virtual.Fault{{Kind: virtual.SlowLink, At: time.Second, Value: 300}}
	h := newHost(t, o)
	h.rig.Advance(time.Second)
	h.say("G94\n", lasting(4*10/300.-1e-6))
	assert.EqualValues(t, 3, h.rig.Stats().Received)
}

// Whatever else goes wrong, after an alarm nothing moves until the board is
// unlocked, and the wire going does not make it move either.
func TestNothingMovesAfterAnAlarm(t *testing.T) {
	m := measured{blocks: 16, accel: 500, feeds: "per-minute", segments: 200, amplitude: 100, period: 4, steps: 80, dropped: -1}
	lines := m.lines()
	rapid.Check(t, func(rt *rapid.T) {
		moment := func(name string) time.Duration {
			return time.Duration(rapid.IntRange(0, 4000).Draw(rt, name)) * time.Millisecond
		}
		o := bench()
		o.Baud, o.BootSeconds = 115200, 0.3
		o.Faults = []virtual.Fault{
			{Kind: virtual.TripAlarm, At: moment("alarm"), Value: 1},
			{Kind: virtual.LoseOK, Nth: rapid.Int64Range(1, 200).Draw(rt, "lost")},
			{Kind: virtual.RefuseLine, Nth: rapid.Int64Range(1, 200).Draw(rt, "refused"), Value: 20},
			{Kind: virtual.Garble, At: moment("garbage"), Text: "\xffok\r\n?"},
		}
		r := virtual.New(o)
		for _, line := range lines {
			r.Write([]byte(line + "\n"))
			r.Advance(20 * time.Millisecond)
			if rapid.IntRange(0, 50).Draw(rt, "key") == 0 {
				r.Write([]byte{"!~?"[rapid.IntRange(0, 2).Draw(rt, "which")]})
			}
		}
		r.AdvanceTo(5 * time.Second)
		if r.Stats().Alarms != 1 {
			rt.Fatal("no alarm")
		}
		place := r.Place()
		r.Write([]byte("~G1 X50 F6000\n~"))
		r.Advance(5 * time.Second)
		if !assert.ObjectsAreEqual(place, r.Place()) {
			rt.Fatalf("it went from %v to %v", place, r.Place())
		}
		r.Record().Steps(func(s virtual.Step) bool {
			if s.Seconds > o.Faults[0].At.Seconds() {
				rt.Fatalf("a step at %v", s.Seconds)
			}
			return true
		})
	})
}
